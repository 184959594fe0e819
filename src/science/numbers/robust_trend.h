#pragma once

#include <optional>
#include <span>

#include "measure/scalar.h"
#include "science/numbers/trend.h"

// The straight line through a few scattered readings, which one wrong reading does not turn.
namespace science {

// Value = level + slope x (days - middle). The slope is the median of the slopes between all pairs
// of points.
struct RobustTrend {
  measure::Days middle{};                          // the median of the times
  measure::Number level{};                         // of the line there
  measure::Number slope{}, slope_low, slope_high;  // a day, with an interval that holds the true
                                                   // one nine times in ten or more
  int points{};
  measure::Days span{};  // from the first point to the last

  measure::Number at(measure::Days when) const;
  // The interval leaves no doubt which way it goes. This is Kendall's test of the same points.
  bool rises() const { return slope_low.value > 0; }
  bool falls() const { return slope_high.value < 0; }
};

// When a line is at a value: by the interval's steeper slope, by the slope, by the flatter one. The
// lines turn about the middle of the points. Nothing where the slope's interval holds zero or the
// line leads away from the value, seen from the middle.
struct Crossing {
  measure::Days earliest{}, likely{}, latest{};
};
std::optional<Crossing> crossing(const RobustTrend& trend, measure::Number value);

// Nothing for fewer than four points, or where two are at one time.
// Source: Theil 1950, Proc. K. Ned. Akad. Wet. A 53:386; Sen 1968, J. Am. Stat. Assoc. 63:1379, for
// the interval. The level is Conover's: the median of the values less slope times the median of the
// times, brought to the middle.
std::optional<RobustTrend> robust_trend(std::span<const TrendPoint> points);

// How many of the sorted pairwise slopes are left out at either end so that what is between them
// holds the true slope nine times in ten or more: the largest number of pairs in disorder that
// chance alone makes, or fewer, no more than once in twenty. Exact for values that all differ;
// where some are the same the interval is rather too wide. Nothing for fewer than four points.
// Source: Kendall 1938, Biometrika 30:81.
std::optional<int> slopes_left_out(int points);

}  // namespace science
