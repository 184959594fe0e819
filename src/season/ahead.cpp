#include "season/ahead.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>

#include "kinds/kind.h"
#include "kinds/rhythm.h"

namespace season {
namespace {

using measure::Day;

// What was judged less often says nothing of how well it is foreseen. Our judgement.
constexpr int kJudgedEnough = 10;

// A latest day that much after the likely one says no more than that it may be late.
constexpr int kFarOff = 92;

// Whether the morning has it already: as urgent, or as work that waits for hands.
bool is_known(const model::Finding& finding, const std::vector<model::Told>& now) {
  return std::any_of(now.begin(), now.end(), [&](const model::Told& one) {
    return one.rule == finding.rule && (wants_hands(one) || one.urgency <= finding.urgency);
  });
}

bool was_told(const model::Finding& finding, const std::vector<FallsDue>& told, std::size_t from) {
  return std::any_of(
      told.begin() + static_cast<std::ptrdiff_t>(from), told.end(), [&](const FallsDue& one) {
        return one.finding.rule == finding.rule && one.finding.case_of == finding.case_of;
      });
}

// The batch as it stands on each of the days to come, if nothing more is logged of it.
void walk_days(const kinds::Study& study, const std::vector<model::Told>& now, Ahead& into) {
  const std::size_t first = into.due.size();
  model::History then = study.history();
  // What falls due before the days asked for stands open on the first of them.
  const date::days off = into.days.from - then.today;
  then.today += off;
  then.now += off;
  for (; then.today <= into.days.to; then.today += date::days{1}, then.now += date::days{1}) {
    const auto later = kinds::study(then, study.rules());
    for (const model::Finding& one : later->by_calendar()) {
      if (one.hold || is_known(one, now) || was_told(one, into.due, first)) continue;
      into.due.push_back({then.today, later->tell(one)});
    }
  }
}

// The days asked for on which it comes round; what is over by then is done on the first.
std::optional<Repeated> repeated(const kinds::Rhythm& rhythm, std::string batch, std::string what,
                                 const DaysAhead& days) {
  Repeated made{std::move(batch), std::move(what), rhythm.every, {}};
  const date::days step{rhythm.every};
  Day next = rhythm.next;
  if (next < days.from) {
    const int steps = ((days.from - next).count() + rhythm.every - 1) / rhythm.every;
    next += steps * step;
  }
  for (; next <= days.to; next += step) made.days.push_back(next);
  if (made.days.empty()) return std::nullopt;
  return made;
}

// The day by which a forecast is sorted, where any of its days is asked for.
std::optional<Day> stands_on(const model::Forecast& forecast, const DaysAhead& days) {
  const auto soonest = forecast.earliest ? forecast.earliest : forecast.likely;
  const auto latest = forecast.latest   ? forecast.latest
                      : forecast.likely ? forecast.likely
                                        : forecast.earliest;
  if (!soonest || *soonest > days.to || *latest < days.from) return std::nullopt;
  return std::clamp(forecast.likely.value_or(*soonest), days.from, days.to);
}

std::string span_of_days(int days) {
  constexpr int kWeek = 7;
  if (days == 1) return "a day";
  if (days < kWeek - 1) return fmt::format("{} days", days);
  const int weeks = (days + kWeek / 2) / kWeek;
  return weeks == 1 ? "a week" : fmt::format("{} weeks", weeks);
}

}  // namespace

void look_ahead(const kinds::Study& study, const std::vector<model::Told>& now, Ahead& into) {
  const model::History& history = study.history();
  const std::string& code = history.batch.code;
  if (history.batch.ended) return;
  walk_days(study, now, into);
  const std::string rhythm(kinds::find_kind(history.batch.kind)->vocabulary.rhythm);
  if (const auto every = kinds::reading(study)) {
    if (auto one = repeated(*every, code, rhythm, into.days))
      (rhythm.empty() ? into.looks : into.readings).push_back(std::move(*one));
  }
  if (const auto every = study.feed_rhythm()) {
    if (auto one = repeated(*every, code, "", into.days)) into.feedings.push_back(std::move(*one));
  }
  for (const model::Told& one : now) {
    if (one.hold && (!one.due || *one.due > into.days.from)) into.held.push_back(one);
  }
  for (model::Forecast& one : study.coming()) {
    if (const auto day = stands_on(one, into.days))
      into.foretold.push_back({code, history.batch.kind, std::move(one), *day, false});
  }
}

void keep_earned(const std::string& kind, const std::vector<kinds::ForesightScore>& scores,
                 Ahead& of) {
  std::erase_if(of.foretold, [&](Foretold& one) {
    if (one.kind != kind || one.forecast.scored.empty()) return false;
    kinds::ForesightScore sum;
    for (const kinds::ForesightScore& score : scores) {
      if (score.what != one.forecast.scored) continue;
      sum.count += score.count;
      sum.error_total += score.error_total;
      sum.naive_total += score.naive_total;
    }
    one.untried = sum.count < kJudgedEnough;
    return sum.loses_to_naive(kJudgedEnough);
  });
}

void sort_by_day(Ahead& of) {
  const auto earlier = [](const auto& a, const auto& b) { return a.day < b.day; };
  std::stable_sort(of.due.begin(), of.due.end(), earlier);
  std::stable_sort(of.foretold.begin(), of.foretold.end(), earlier);
}

std::string doubt_words(const model::Forecast& forecast, Day today) {
  const auto words = [&](Day day) { return measure::day_words(day, today); };
  const auto &earliest = forecast.earliest, &likely = forecast.likely, &latest = forecast.latest;
  if (!likely) {
    if (!earliest) return "";
    if (!latest) return words(*earliest) + " at the earliest";
    return fmt::format("between {} and {}", words(*earliest), words(*latest));
  }
  if (!earliest || !latest) {
    return earliest && *earliest == *likely ? words(*likely) : "about " + words(*likely);
  }
  if (*earliest == *latest) return words(*likely);
  const int before = (*likely - *earliest).count(), after = (*latest - *likely).count();
  const int most = std::max(before, after), least = std::min(before, after);
  if (after > kFarOff) {
    return fmt::format("about {}, from {} on, or much later", words(*likely), words(*earliest));
  }
  // A span that leans to one side is said by its ends.
  if (most - least > 1 && 3 * least < 2 * most) {
    return fmt::format("about {}, between {} and {}", words(*likely), words(*earliest),
                       words(*latest));
  }
  return fmt::format("about {}, {} either way", words(*likely), span_of_days(most));
}

}  // namespace season
