#pragma once

#include <optional>
#include <span>
#include <vector>

#include "measure/scalar.h"

// How much faster or slower a microbial process runs at another temperature, and the daily
// temperatures it runs on when some days were not measured. Digesters and brews share it.
namespace science {

struct TemperatureRate {
  measure::Number theta{};       // the rate's ratio from one degree to the next, above 0
  measure::Celsius reference{};  // where the relative rate is 1
  measure::Celsius ceiling{};    // no further gain above it: the microbes do not go on speeding up
};

// theta^(T - reference): 1 at the reference. Above the ceiling the ceiling's value; 0 at or below
// 0 degC, where the liquid freezes. Nothing where theta is not above 0 or the temperature is not a
// number. Source: the van 't Hoff-Arrhenius form of sanitary engineering; the ends are common
// practice, no source.
std::optional<measure::Number> relative_rate(measure::Celsius temperature,
                                             const TemperatureRate& response);

// The same as a ratio over ten degrees: Q10 = theta^10. Nothing where q10 is not above 0.
std::optional<measure::Number> theta_from_q10(measure::Number q10);

// One temperature for each day, and how many of the days rest on what.
struct DailyTemperatures {
  std::vector<measure::Celsius> days;
  int measured_days{};
  int interpolated_days{};  // on the straight line between the measured days either side
  int carried_days{};       // before the first measured day or after the last: that day's value
};

// Fills the days without a reading. One entry a day, in order. No days give no days; days of which
// none was measured give nothing.
std::optional<DailyTemperatures> fill_daily_temperatures(
    std::span<const std::optional<measure::Celsius>> daily_means);

}  // namespace science
