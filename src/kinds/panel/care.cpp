#include "kinds/panel/care.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "kinds/finding.h"
#include "kinds/panel/facts.h"
#include "kinds/panel/vocabulary.h"
#include "kinds/thresholds.h"
#include "science/weather/sun.h"

namespace kinds::panel {
namespace {

namespace limits = thresholds::panel;
using measure::Fraction;
using measure::KilowattHours;
using model::Ending;
using model::Finding;
using model::Urgency;

// Where the sky was never logged, the best days stand for the clear ones: the best tenth before,
// and as many of the last ones as clear days are wanted, out of enough of both.
constexpr std::size_t kEnoughBefore = 30, kEnoughRecent = 10, kBestShare = 10;

struct Yield {
  double energy{};     // kWh
  double by_height{};  // a unit of sun above the air
  double height{};     // of the sun above the air
};

double mean(const std::vector<Yield>& days, double Yield::*of) {
  double sum = 0;
  for (const Yield& one : days) sum += one.*of;
  return sum / static_cast<double>(days.size());
}

std::vector<Yield> best(std::vector<Yield> days, std::size_t count) {
  std::sort(days.begin(), days.end(),
            [](const Yield& a, const Yield& b) { return a.by_height > b.by_height; });
  days.resize(std::min(days.size(), count));
  return days;
}

// Clear days of late and before that can be set side by side.
struct Sides {
  std::vector<Yield> recent, before;
  bool best = false;  // the sky was never logged
};

std::optional<Sides> sides(const Study& study) {
  const model::History& history = study.history();
  const model::Rules& rules = study.rules();
  std::set<model::Day> clear;
  bool sky_logged = false;
  for (const model::Sensed& one : history.sensed) {
    if (one.sense != kSky) continue;
    sky_logged = true;
    if (one.word == kClear.word) clear.insert(one.day);
  }
  const int recent_days = static_cast<int>(rules(limits::weak_days).value);
  const double season = rules(limits::weak_season).value;
  const double now = height_of_sun(history.today, history);
  Sides made{{}, {}, !sky_logged};
  for (const auto& [day, of_day] : study.made()) {
    const int ago = days_between(day, history.today);
    if (of_day.shared || ago < 0 || (sky_logged && !clear.contains(day))) continue;
    const double height = height_of_sun(day, history);
    if (height <= 0) continue;
    if (std::fabs(height / now - 1) > season) continue;
    if (!history.latitude && ago > rules(limits::weak_window).value) continue;
    (ago < recent_days ? made.recent : made.before)
        .push_back({of_day.energy.value, of_day.energy.value / height, height});
  }
  const auto least_recent = static_cast<std::size_t>(rules(limits::weak_clear).value);
  const auto least_before = static_cast<std::size_t>(rules(limits::weak_before).value);
  if (!sky_logged) {
    if (made.recent.size() < kEnoughRecent || made.before.size() < kEnoughBefore) {
      return std::nullopt;
    }
    const std::size_t tenth = made.before.size() / kBestShare;
    made.recent = best(made.recent, least_recent);
    made.before = best(made.before, std::max(tenth, least_before));
  }
  if (made.recent.size() < least_recent || made.before.size() < least_before) return std::nullopt;
  return made;
}

Ending ended_by(Ending::By by, std::string_view name) {
  return {.by = by, .name = std::string(name)};
}

}  // namespace

std::optional<Finding> judge_output(const Study& study) {
  const auto both = sides(study);
  if (!both) return std::nullopt;
  const double before = mean(both->before, &Yield::by_height);
  if (before <= 0) return std::nullopt;
  const Fraction fall{1 - mean(both->recent, &Yield::by_height) / before};
  const model::Rules& rules = study.rules();
  if (fall < rules(limits::weak_fall)) return std::nullopt;
  Finding made = finding(kRuleWeak, Urgency::kSoon, limits::weak_fall, rules);
  made.job = kJobClean;
  made.value = model::Measured{"fall", measure::value_of(fall), "", {}};
  made.facts.set(kFall, fall);
  made.facts.set(kRecent, KilowattHours{mean(both->recent, &Yield::energy)});
  made.facts.set(kExpected, KilowattHours{before * mean(both->recent, &Yield::height)});
  made.facts.set(kRecentDays, static_cast<int>(both->recent.size()));
  made.facts.set(kBeforeDays, static_cast<int>(both->before.size()));
  made.facts.set(kWindow, static_cast<int>(rules(limits::weak_days).value));
  made.facts.set(kBestDays, both->best);
  made.facts.set(kBySun, study.history().latitude.has_value());
  made.ends = {ended_by(Ending::By::kReading, kEnergy), ended_by(Ending::By::kReading, kMeter)};
  return made;
}

std::optional<Finding> judge_battery(const Study& study) {
  const model::Series* charge = study.history().find(kCharge);
  if (!study.battery() || charge == nullptr) return std::nullopt;
  const Fraction floor{1 - study.usable().value};
  const Fraction now{charge->last->value};
  if (now - floor > study.rules()(limits::low_margin)) return std::nullopt;
  Finding made = finding(kRuleLow, Urgency::kToday, limits::low_margin, study.rules());
  made.job = kJobSpare;
  made.case_of = study.chemistry() == Chemistry::kLithium ? kWhenLithium : kWhenLeadAcid;
  made.since = charge->days.back().day;
  made.value = model::Measured{"charge", measure::value_of(now), "", {}};
  made.facts.set(kNow, now);
  made.facts.set(kFloor, floor);
  made.ends = {ended_by(Ending::By::kReading, kCharge)};
  return made;
}

std::optional<Finding> judge_latest(const Study& study) {
  const auto watts = study.rated();
  if (!watts || study.made().empty()) return std::nullopt;
  const auto& [day, of_day] = *study.made().rbegin();
  const KilowattHours most = science::panel_energy(
      *watts, science::Hours{most_sun_hours(day, study.history())}, Fraction{0});
  if (of_day.energy <= most * (1 + study.rules()(limits::over_slack))) return std::nullopt;
  Finding made = finding(kRuleOver, Urgency::kToday, limits::over_slack, study.rules());
  made.job = kJobCorrect;
  made.since = day;
  made.value = model::Measured{"energy", measure::value_of(of_day.energy), "", {}};
  made.limit = model::Measured{"most", measure::value_of(most), "", {}};
  made.facts.set(kDay, day);
  made.facts.set(kMade, of_day.energy);
  made.facts.set(kMost, most);
  made.facts.set(kRated, *watts);
  made.ends = {ended_by(Ending::By::kReading, kEnergy), ended_by(Ending::By::kSetting, kWatts)};
  return made;
}

std::optional<Finding> judge_sun(const Study& study) {
  if (!study.history().latitude || study.sun_hours().empty()) return std::nullopt;
  const date::year year = date::year_month_day{study.history().today}.year();
  for (unsigned month = 1; month <= 12; ++month) {
    const double told = study.sun_hours()[month - 1];
    // The middle of a month has no more than its best day: most months need no look at the rest.
    double most = most_sun_hours(model::Day{year / date::month{month} / 15}, study.history());
    if (told <= most) continue;
    const model::Day end{year / date::month{month} / date::last};
    for (model::Day day{year / date::month{month} / 1}; day <= end; day += date::days{1}) {
      most = std::max(most, most_sun_hours(day, study.history()));
    }
    if (told <= most) continue;
    Finding made = finding(kRuleSun, Urgency::kSoon,
                           "Allen et al. 1998, FAO Irrigation and Drainage Paper 56");
    made.job = kJobCorrect;
    made.since = study.history().batch.started_day;
    made.facts.set(kMonth, static_cast<int>(month));
    made.facts.set(kHoursTold, measure::Number{told});
    made.facts.set(kHoursMost, measure::Number{most});
    made.ends = {ended_by(Ending::By::kSetting, kSun)};
    return made;
  }
  return std::nullopt;
}

}  // namespace kinds::panel
