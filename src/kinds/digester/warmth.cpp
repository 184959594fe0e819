#include "kinds/digester/warmth.h"

#include <algorithm>
#include <cmath>

#include "kinds/digester/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"
#include "science/numbers/trend.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Celsius;
using measure::Days;
using measure::Kelvins;
using model::Day;
using model::DayRoll;

// A line that takes longer than a year to its limit is none to wait for.
constexpr double kFarthest = 365;

std::vector<DayRoll> rolls_in(const std::vector<DayRoll>& rolls, Day last, Days window) {
  std::vector<DayRoll> found;
  for (const DayRoll& roll : rolls) {
    if (roll.day <= last && roll.day > last - date::days{full_days(window)}) found.push_back(roll);
  }
  return found;
}

std::optional<science::LinearTrend> trend_of(const std::vector<DayRoll>& rolls, Day today) {
  std::vector<science::TrendPoint> points;
  for (const DayRoll& roll : rolls) {
    points.push_back(
        {Days{static_cast<double>(days_between(today, roll.day))}, measure::Number{roll.mean()}});
  }
  return science::linear_trend(points);
}

void find_trend(const std::vector<DayRoll>& window, Celsius limit, Days soon, Warmth& warmth) {
  const Day last = window.back().day;
  warmth.is_back = !is_below(Celsius{window.back().mean()}, limit);
  const auto trend = trend_of(window, last);
  if (!trend) return;
  warmth.a_day = trend->slope.value;
  if (warmth.is_back || trend->slope.value <= 0) return;
  const double days = std::max((limit.value - trend->at(Days{0}).value) / trend->slope.value, 0.0);
  if (days > kFarthest) return;
  constexpr double kRounding = 1e-6;
  warmth.back_on = last + date::days{static_cast<int>(std::ceil(days - kRounding))};
  warmth.is_soon = days <= soon.value;
}

// Walks back over the days as long as their means are below. A short stretch without readings is
// passed over, neither counted nor taken as the end.
void find_stretch(const std::vector<DayRoll>& rolls, Day today, const model::Rules& rules,
                  Warmth& warmth) {
  const Celsius limit = rules(limits::cold_below);
  Day last_judged = today;
  for (Day day = today; !rolls.empty() && day >= rolls.front().day; day -= date::days{1}) {
    const auto mean = mean_to(rolls, day, rules);
    if (!mean) {
      if (days_between(day, last_judged) > rules(limits::winter_gap).value) return;
      continue;
    }
    if (!is_below(*mean, limit)) return;
    last_judged = day;
    warmth.below_since = day;
    ++warmth.below_judged;
  }
}

// So many days of undamped trend are as much as the damped one makes in `days`.
Days eased(int days, const model::Rules& rules) {
  const double left = rules(limits::forecast_damping).value;
  double sum = 0, step = 1;
  for (int day = 0; day < days; ++day) sum += (step *= left);
  return Days{sum};
}

// The day on which a line from `now` with this slope, easing off, is at the limit; none: not in
// that time.
std::optional<Day> crossing(double now, double slope, Celsius limit, Day today, int farthest,
                            const model::Rules& rules) {
  const bool rises = now < limit.value;
  for (int day = 1; day <= farthest; ++day) {
    const double then = now + slope * eased(day, rules).value;
    if (rises ? then >= limit.value : then < limit.value) return today + date::days{day};
  }
  return std::nullopt;
}

}  // namespace

bool is_below(Celsius mean, Celsius limit) {
  constexpr Kelvins kRounding{1e-6};
  return mean < limit - kRounding;
}

std::optional<Celsius> mean_to(const std::vector<DayRoll>& rolls, Day day,
                               const model::Rules& rules) {
  const auto window = rolls_in(rolls, day, rules(limits::cold_window));
  if (window.empty() || static_cast<double>(window.size()) < rules(limits::cold_days).value) {
    return std::nullopt;
  }
  double total = 0;
  for (const DayRoll& roll : window) total += roll.mean();
  return Celsius{total / static_cast<double>(window.size())};
}

WholeDays whole_days(const model::History& history, const model::Rules& rules) {
  WholeDays days{model::pooled_days(history.all(kTemperature)), history.today};
  auto& rolls = days.rolls;
  if (rolls.size() < 2 || rolls.back().day != history.today) return days;
  const Day yesterday = history.today - date::days{1};
  const bool partial = rolls.back().count < rolls[rolls.size() - 2].count;
  if (partial && mean_to(rolls, yesterday, rules)) {
    rolls.pop_back();
    days.last = yesterday;
  }
  return days;
}

Warmth warmth_of(const model::History& history, const model::Rules& rules) {
  Warmth warmth;
  const auto [rolls, last] = whole_days(history, rules);
  auto window = rolls_in(rolls, last, rules(limits::cold_window));
  const Celsius limit = rules(limits::cold_below);
  if (mean_to(rolls, last, rules)) {
    warmth.mean = mean_to(rolls, window.back().day, rules);
    window = rolls_in(rolls, window.back().day, rules(limits::cold_window));
  }
  warmth.days_read = static_cast<int>(window.size());
  warmth.read_once = std::all_of(window.begin(), window.end(),
                                 [](const DayRoll& roll) { return roll.count == 1; });
  warmth.warm_days =
      static_cast<int>(std::count_if(window.begin(), window.end(), [&](const DayRoll& roll) {
        return !is_below(Celsius{roll.greatest}, limit);
      }));
  if (!warmth.mean) return warmth;
  warmth.cold = is_below(*warmth.mean, limit);
  find_trend(window, limit, rules(limits::cold_recovers), warmth);
  if (warmth.cold) find_stretch(rolls, last, rules, warmth);
  return warmth;
}

bool is_winter(const model::History& history, const model::Rules& rules, const Warmth& warmth) {
  // Only a day that is warm enough ends it: after weeks below, a milder spell is a trend, not the
  // end.
  if (!warmth.cold || !warmth.below_since || warmth.is_back) return false;
  return days_between(*warmth.below_since, history.today) + 1 >= rules(limits::winter_days).value;
}

std::optional<WarmthAhead> foresee_warmth(const model::History& history,
                                          const model::Rules& rules) {
  const auto days = whole_days(history, rules);
  const auto rolls = rolls_in(days.rolls, days.last, rules(limits::forecast_window));
  if (static_cast<double>(rolls.size()) < rules(limits::forecast_days).value) return std::nullopt;
  const auto trend = trend_of(rolls, history.today);
  if (!trend) return std::nullopt;
  const int ahead = full_days(rules(limits::forecast_ahead));
  const Days then = eased(ahead, rules);
  WarmthAhead made{history.today + date::days{ahead}, Celsius{trend->at(then).value},
                   std::max(Kelvins{trend->half_width(then).value}, rules(limits::forecast_least)),
                   static_cast<int>(rolls.size())};
  const Celsius limit = rules(limits::cold_below);
  const double now = trend->at(Days{0}).value;
  made.rises = now < limit.value;
  const double half = trend->slope_half_width().value * (made.rises ? 1 : -1);
  const auto at_slope = [&](double slope) {
    return crossing(now, slope, limit, history.today, 2 * ahead, rules);
  };
  made.crosses = at_slope(trend->slope.value);
  made.crosses_earliest = at_slope(trend->slope.value + half);
  made.crosses_latest = at_slope(trend->slope.value - half);
  return made;
}

}  // namespace kinds::digester
