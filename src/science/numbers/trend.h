#pragma once

#include <optional>
#include <span>

#include "measure/scalar.h"

// The straight line through a series of days, and how far it can be trusted.
namespace science {

// A value at a time, in any one unit.
struct TrendPoint {
  measure::Days at{};
  measure::Number value{};
};

// Least squares, value = intercept + slope x days.
struct LinearTrend {
  measure::Number intercept{};
  measure::Number slope{};            // a day
  measure::Number intercept_error{};  // standard errors
  measure::Number slope_error{};
  measure::Number residual{};  // standard deviation about the line
  int points{};
  measure::Days mean_at{};
  measure::Number spread{};  // sum of squares of the times about their mean, d2

  measure::Number at(measure::Days when) const;
  // Half the width of the interval that holds a single new value at `when` nine times in ten, if
  // the line goes on and the deviations are independent. Daily temperatures are not quite, so it is
  // rather too narrow than too wide.
  measure::Number half_width(measure::Days when) const;
  // The same for the slope.
  measure::Number slope_half_width() const;
};

// Nothing for fewer than three points, or where all are at one time.
// Source: any textbook of statistics; checked against NIST's certified values (StRD, Norris).
std::optional<LinearTrend> linear_trend(std::span<const TrendPoint> points);

}  // namespace science
