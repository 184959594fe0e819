#include "kinds/larvae/warmth.h"

#include <algorithm>

#include "kinds/finding.h"
#include "kinds/larvae/vocabulary.h"
#include "kinds/thresholds.h"

namespace kinds::larvae {
namespace {

namespace limits = thresholds::larvae;
using measure::Celsius;
using measure::DegreeDays;

// Sums of converted temperatures: what is meant to meet the constant must not miss it by a last
// digit.
constexpr DegreeDays kRounding{1e-6};

std::vector<model::DayRoll> daily_rolls(const model::History& history, const model::Rules& rules,
                                        bool& by_air) {
  std::vector<model::DayRoll> rolls = model::pooled_days(history.all(kTemperature));
  by_air = rolls.empty();
  if (!by_air) return rolls;
  rolls = model::pooled_days(history.all(kAir));
  const double offset = rules(limits::air_offset).value;
  for (model::DayRoll& roll : rolls) roll.total += offset * roll.count;
  return rolls;
}

// The sum over whole days, the last of `means` not counted: it only fills the gap before it.
std::optional<science::DegreeDaySum> sum_before_last(std::span<const std::optional<Celsius>> means,
                                                     const science::DegreeDayLimits& limits) {
  if (!means.back()) return science::accumulate_degree_days(means.first(means.size() - 1), limits);
  auto sum = science::accumulate_degree_days(means, limits);
  sum->total = sum->total - science::degree_days_from_mean(*means.back(), limits);
  --sum->measured_days;
  return sum;
}

// Which whole day took the sum to `wanted`; the sum over all of them does reach it.
std::size_t crossing(std::span<const std::optional<Celsius>> means, DegreeDays wanted,
                     const science::DegreeDayLimits& limits) {
  for (std::size_t days = 1; days < means.size(); ++days) {
    const auto sum = science::accumulate_degree_days(means.first(days), limits);
    if (sum && sum->total + kRounding >= wanted) return days - 1;
  }
  return means.size() - 1;
}

}  // namespace

Warmth warmth_of(const model::History& history, const model::Rules& rules, const Course& course,
                 const Diet& diet, model::Day until) {
  Warmth warmth;
  warmth.constant = rules(diet.constant);
  const science::DegreeDayLimits bounds = limits_of(diet, rules);
  const DegreeDays before = head_start(course, diet, rules);
  warmth.total = before;
  const auto rolls = daily_rolls(history, rules, warmth.by_air);
  const double recent_days = rules(limits::recent_days).value;
  const int whole_days = std::max(days_between(course.counts_from, until), 0);
  std::vector<std::optional<Celsius>> means(static_cast<std::size_t>(whole_days) + 1);
  for (const model::DayRoll& roll : rolls) {
    const int back = days_between(roll.day, until);
    if (back < 0) continue;
    if (back < recent_days) warmth.recent.push_back(Celsius{roll.mean()});
    if (back > whole_days) continue;
    const Celsius mean{roll.mean()};
    means[static_cast<std::size_t>(whole_days - back)] = mean;
    if (back > 0 && mean <= bounds.lower) ++warmth.too_cold;
    if (back > 0 && mean >= *bounds.deadly) ++warmth.too_hot;
  }
  warmth.days = sum_before_last(means, bounds);
  if (!warmth.days) return warmth;
  warmth.total += warmth.days->total;
  if (warmth.total + kRounding >= warmth.constant) {
    const std::size_t day =
        before >= warmth.constant ? 0 : crossing(means, warmth.constant - before, bounds);
    warmth.reached = course.counts_from + date::days{static_cast<int>(day)};
  }
  return warmth;
}

std::optional<Celsius> recent_mean(const Warmth& warmth) {
  if (warmth.recent.empty()) return std::nullopt;
  double sum = 0;
  for (const Celsius one : warmth.recent) sum += one.value;
  return Celsius{sum / static_cast<double>(warmth.recent.size())};
}

}  // namespace kinds::larvae
