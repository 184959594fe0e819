#include "kinds/nestbox/broods.h"

#include <algorithm>
#include <map>

#include "kinds/finding.h"
#include "kinds/nestbox/vocabulary.h"
#include "kinds/thresholds.h"

namespace kinds::nestbox {
namespace {

namespace limits = thresholds::nestbox;

// What was seen or done on one day.
struct Seen {
  std::optional<double> eggs, young, fledged;
  bool cleared = false;  // cleaned out, or found empty, left or raided
};

std::map<model::Day, Seen> seen_by_day(const model::History& history) {
  std::map<model::Day, Seen> days;
  const auto take = [&](std::string_view quantity, std::optional<double> Seen::*into) {
    const model::Series* series = history.find(quantity);
    if (series == nullptr) return;
    for (const model::DayRoll& roll : series->days) days[roll.day].*into = roll.last;
  };
  take(kEggs, &Seen::eggs);
  take(kYoung, &Seen::young);
  take(kFledged, &Seen::fledged);
  for (const model::Deed& deed : history.deeds) {
    if (deed.word == kCleaned.word) days[deed.day].cleared = true;
  }
  for (const model::Sensed& one : history.sensed) {
    if (one.sense == kNest && one.word != kBuilding.word) days[one.day].cleared = true;
  }
  return days;
}

void note(std::optional<double> count, double& most, std::optional<model::Day>& since,
          model::Day day) {
  if (!count || *count <= 0) return;
  most = std::max(most, *count);
  if (!since) since = day;
}

}  // namespace

std::vector<Brood> broods(const model::History& history) {
  std::vector<Brood> all;
  const auto is_open = [&] { return !all.empty() && !all.back().ended; };
  for (const auto& [day, seen] : seen_by_day(history)) {
    const bool any = seen.eggs.value_or(0) > 0 || seen.young.value_or(0) > 0;
    if (!is_open() && (any || seen.fledged.value_or(0) > 0)) {
      all.push_back({day, {}, {}, 0, 0, {}, {}});
    }
    if (!is_open()) continue;
    Brood& brood = all.back();
    note(seen.eggs, brood.eggs, brood.eggs_since, day);
    note(seen.young, brood.young, brood.young_since, day);
    if (seen.fledged) brood.fledged = seen.fledged;
    // A count of 0 of what was there last is an empty box; of the other it says nothing.
    const std::optional<double>& looked = brood.young_since ? seen.young : seen.eggs;
    if (seen.fledged || seen.cleared || (looked && !any)) brood.ended = day;
  }
  return all;
}

const Brood* present(const std::vector<Brood>& broods) {
  return broods.empty() || broods.back().ended ? nullptr : &broods.back();
}

bool in_season(model::Day day, const model::History& history, const model::Rules& rules) {
  constexpr int kHalfYear = 183;
  const date::year_month_day ymd{day};
  int of_year = (day - model::Day{ymd.year() / 1 / 1}).count() + 1;
  if (history.latitude.value_or(1) < 0) of_year = (of_year + kHalfYear - 1) % 365 + 1;
  return of_year >= rules(limits::season_first).value &&
         of_year <= rules(limits::season_last).value;
}

std::optional<model::Day> last_look(const model::History& history) {
  std::optional<model::Day> last;
  const auto take = [&](model::Day day) { last = std::max(last.value_or(day), day); };
  for (const model::Series& series : history.series) take(series.days.back().day);
  for (const model::Deed& deed : history.deeds) take(deed.day);
  for (const model::Sensed& one : history.sensed) take(one.day);
  return last;
}

}  // namespace kinds::nestbox
