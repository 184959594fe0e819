#pragma once

#include <optional>
#include <span>

#include "measure/scalar.h"

// Warmth added up over days, as insects and crops count it, and the day on which a sum will be
// reached.
namespace science {

// Development stands still at or below `lower` and gains nothing more above `upper` (horizontal
// cutoff). `upper` above `lower`; none: the line goes on. That cutoff is no limit of life: a warmer
// day than `upper` still counts as one at `upper`. From `deadly` on, above `upper`, a day counts
// nothing (vertical cutoff); none: there is no such limit.
struct DegreeDayLimits {
  measure::Celsius lower{};
  std::optional<measure::Celsius> upper{};
  std::optional<measure::Celsius> deadly{};
};

// One day by its mean: min(mean, upper) - lower, never below zero; zero from `deadly` on.
// McMaster & Wilhelm 1997, Agric. For. Meteorol. 87:291-300, method 1.
measure::DegreeDays degree_days_from_mean(measure::Celsius mean, const DegreeDayLimits& limits);

// One day by its minimum and maximum, the temperature taken as a sine between them (Baskerville &
// Emin 1969, Ecology 50:514-517, from memory). Counts a day whose mean is too cold but whose
// afternoon is not; `deadly` has no say. Nothing when the minimum is above the maximum.
std::optional<measure::DegreeDays> degree_days_single_sine(measure::Celsius minimum,
                                                           measure::Celsius maximum,
                                                           const DegreeDayLimits& limits);

// The same with straight lines between minimum and maximum (single triangle).
std::optional<measure::DegreeDays> degree_days_single_triangle(measure::Celsius minimum,
                                                               measure::Celsius maximum,
                                                               const DegreeDayLimits& limits);

struct DegreeDaySum {
  measure::DegreeDays total{};
  int measured_days{};
  int interpolated_days{};  // between two days that were read: on the straight line between them
  int carried_days{};       // before the first or after the last day read: taken as that day
};

// Adds up consecutive days, one element a day, by their means; a day without a reading is empty.
// Temperatures are filled in, not degree-days, so that the limits act on a filled day as on a read
// one. No days at all sum to zero; days of which none was read give nothing.
std::optional<DegreeDaySum> accumulate_degree_days(
    std::span<const std::optional<measure::Celsius>> daily_means, const DegreeDayLimits& limits);

// Days until `remaining` degree-days have come together, every day at `expected_mean`. Zero when
// nothing remains; nothing when such days add nothing.
std::optional<measure::Days> days_to_reach(measure::DegreeDays remaining,
                                           measure::Celsius expected_mean,
                                           const DegreeDayLimits& limits);

// Degree-days that one day adds: mean and standard deviation over some days.
struct DailyGain {
  measure::DegreeDays mean{};
  measure::DegreeDays deviation{};
};

// Over recent daily means (sample standard deviation). Fewer than two days show no spread: nothing.
std::optional<DailyGain> daily_gain(std::span<const measure::Celsius> recent_means,
                                    const DegreeDayLimits& limits);

// A published sum with its standard error (zero if none is given).
struct ThermalConstant {
  measure::DegreeDays value{};
  measure::DegreeDays standard_error{};
};

// From now on. One chance in ten that it is sooner than `earliest`, one in ten that it is later
// than `latest`; no `latest`: more than one chance in ten that it stays too cold to get there.
struct DaysToReach {
  measure::Days earliest{};
  measure::Days likely{};
  std::optional<measure::Days> latest{};
};

// When the constant is reached, `so_far` being in already: 10-90 % limits of the ratio of what
// remains to the daily gain, both taken as normal (Fieller 1954, J. R. Stat. Soc. B 16:175-185,
// with known variances; from memory). The mean gain of the days to come is given the spread of a
// single recent day, not that of an average: the recent mean is itself uncertain and warm or cold
// spells last. This is an assumption of ours, on the cautious side. Nothing when the mean gain is
// not above zero.
std::optional<DaysToReach> days_to_reach_range(measure::DegreeDays so_far,
                                               const ThermalConstant& constant,
                                               const DailyGain& gain);

}  // namespace science
