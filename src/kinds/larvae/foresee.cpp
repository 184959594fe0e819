#include "kinds/larvae/foresee.h"

#include <algorithm>
#include <cmath>

#include "kinds/finding.h"
#include "kinds/thresholds.h"

namespace kinds::larvae {
namespace {

namespace limits = thresholds::larvae;
using measure::Celsius;
using measure::Days;
using measure::DegreeDays;
using measure::Kilograms;

// Standard normal quantile of 0.9, as in science::days_to_reach_range.
constexpr double kZ90 = 1.2816;

// The day on which a time from the start of `from` on ends.
model::Day day_after(model::Day from, Days wait) {
  constexpr double kLongest = 3650;
  return from + date::days{static_cast<int>(std::floor(std::min(wait.value, kLongest)))};
}

struct Range {
  Days likely;
  std::optional<Days> earliest, latest;
  bool has_interval = false;
};

std::optional<Range> range_of(const Warmth& warmth, const Learned& learned,
                              const science::DegreeDayLimits& bounds, Celsius mean) {
  const science::ThermalConstant constant{DegreeDays{learned.value}, DegreeDays{learned.spread}};
  if (const auto gain = science::daily_gain(warmth.recent, bounds)) {
    const auto range = science::days_to_reach_range(warmth.total, constant, *gain);
    if (!range) return std::nullopt;
    return Range{range->likely, range->earliest, range->latest, true};
  }
  const auto likely = science::days_to_reach(constant.value - warmth.total, mean, bounds);
  if (!likely) return std::nullopt;
  return Range{*likely, std::nullopt, std::nullopt, false};
}

}  // namespace

std::optional<Foreseen> foresee_harvest(const model::History& history, const model::Rules& rules,
                                        const Course& course, const Diet& diet,
                                        const Warmth& warmth, const Learned& learned) {
  const auto mean = recent_mean(warmth);
  if (!warmth.days || !mean) return std::nullopt;
  Foreseen made;
  made.mean = *mean;
  made.deadly = *mean >= rules(limits::hot_lethal);
  const auto range = range_of(warmth, learned, limits_of(diet, rules), *mean);
  if (!range) return made;
  const model::Day from = std::max(history.today, course.counts_from);
  made.likely = day_after(from, range->likely);
  if (range->earliest) made.earliest = day_after(from, *range->earliest);
  if (range->latest) made.latest = day_after(from, *range->latest);
  made.has_interval = range->has_interval;
  return made;
}

std::optional<Expected> expected_of(std::optional<Kilograms> feed, const Learned& yield) {
  if (!feed) return std::nullopt;
  const auto larvae = [&](double share) { return *feed * std::max(share, 0.0); };
  const double margin = kZ90 * yield.spread;
  return Expected{*feed, larvae(yield.value), larvae(yield.value - margin),
                  larvae(yield.value + margin), yield.runs};
}

}  // namespace kinds::larvae
