#include "science/numbers/robust_trend.h"

#include <doctest/doctest.h>

#include <utility>
#include <vector>

using measure::Days;
using measure::Number;
using science::crossing;
using science::robust_trend;
using science::TrendPoint;

namespace {

// One value a day from day 0 on.
std::vector<TrendPoint> daily(const std::vector<double>& values) {
  std::vector<TrendPoint> points;
  for (std::size_t day = 0; day < values.size(); ++day) {
    points.push_back({Days{static_cast<double>(day)}, Number{values[day]}});
  }
  return points;
}

}  // namespace

TEST_CASE("robust trend: the cloud seeding of Hollander and Wolfe") {
  // Hollander & Wolfe 1973, Nonparametric Statistical Methods, 9.1 and 9.2, after Smith 1967:
  // double ratios of the rain of five years; the slope is -0.056 (the data from memory; R 4.2 makes
  // the same ten slopes of them and -0.05625 of these).
  const auto trend = robust_trend(daily({1.26, 1.27, 1.12, 1.16, 1.03}));
  REQUIRE(trend);
  CHECK(trend->slope.value == doctest::Approx(-0.05625));
  // With five points one slope at either end is left out: from -0.13 to 0.01, so that it is not
  // beyond chance that it falls.
  CHECK(trend->slope_low.value == doctest::Approx(-0.13));
  CHECK(trend->slope_high.value == doctest::Approx(0.01));
  CHECK_FALSE(trend->falls());
  CHECK_FALSE(crossing(*trend, Number{1}));
  CHECK(trend->at(Days{4}).value == doctest::Approx(1.16 - 2 * 0.05625));
  CHECK(trend->points == 5);
  CHECK(trend->span == Days{4});
}

TEST_CASE("robust trend: Kendall's table, one value in twenty") {
  // Upper tail of Kendall's S, as in Hollander & Wolfe 1973, table A.21 (from memory; Kendall 1938
  // for the distribution): the least S whose chance is 0.05 or less, and that chance. (pairs - S) /
  // 2 pairs are then in disorder.
  const std::vector<std::pair<int, int>> table{{4, 6},  {5, 8},  {6, 11}, {7, 13},
                                               {8, 16}, {9, 18}, {10, 21}};
  for (const auto& [points, score] : table) {
    CAPTURE(points);
    CHECK(science::slopes_left_out(points) == (points * (points - 1) / 2 - score) / 2);
  }
  CHECK_FALSE(science::slopes_left_out(3));
}

TEST_CASE("robust trend: one wrong reading does not turn it") {
  const auto clean = robust_trend(daily({7.0, 7.1, 7.2, 7.3, 7.4, 7.5, 7.6}));
  const auto wrong = robust_trend(daily({7.0, 7.1, 7.2, 3.7, 7.4, 7.5, 7.6}));
  REQUIRE(clean);
  REQUIRE(wrong);
  CHECK(clean->slope.value == doctest::Approx(0.1));
  CHECK(wrong->slope.value == doctest::Approx(0.1));
  CHECK(clean->rises());
}

TEST_CASE("robust trend: which way it goes, at the edge of chance") {
  // Of five values one pair in disorder has a chance of 5 in 120, two pairs 14 in 120.
  CHECK(robust_trend(daily({1, 2, 3, 5, 4}))->rises());
  CHECK_FALSE(robust_trend(daily({1, 2, 4, 5, 3}))->rises());
  CHECK(robust_trend(daily({5, 4, 3, 1, 2}))->falls());
  CHECK_FALSE(robust_trend(daily({5, 4, 2, 1, 3}))->falls());
  // Four must all be in order, three tell nothing.
  CHECK(robust_trend(daily({1, 2, 3, 4}))->rises());
  CHECK_FALSE(robust_trend(daily({1, 2, 4, 3}))->rises());
  CHECK_FALSE(robust_trend(daily({1, 2, 3})));
  // The same all the time is no trend, and two values at one time are no series.
  CHECK_FALSE(robust_trend(daily({2, 2, 2, 2, 2}))->rises());
  CHECK_FALSE(robust_trend(std::vector<TrendPoint>(5, {Days{1}, Number{2}})));
}

TEST_CASE("robust trend: when it is at a value") {
  // By hand. A straight line, 10 less 2 a day, is at 1 on day 4.5, whichever slope is taken.
  const auto straight = robust_trend(daily({10, 8, 6, 4}));
  const auto there = crossing(*straight, Number{1});
  REQUIRE(there);
  CHECK(there->earliest.value == doctest::Approx(4.5));
  CHECK(there->likely.value == doctest::Approx(4.5));
  CHECK(there->latest.value == doctest::Approx(4.5));
  // Seen from the middle (day 1.5, 7) it leads away from 8.
  CHECK_FALSE(crossing(*straight, Number{8}));

  // 0 2 3 4 4.5: slopes sorted 0.5 0.75 0.833 1 1 1 1.125 1.333 1.5 2. Median 1; without one at
  // either end 0.75 to 1.5. From day 2 at 3 to a value of 9: 6 / 1.5, 6 / 1, 6 / 0.75 days.
  const auto bent = robust_trend(daily({0, 2, 3, 4, 4.5}));
  REQUIRE(bent);
  CHECK(bent->slope.value == doctest::Approx(1));
  const auto later = crossing(*bent, Number{9});
  REQUIRE(later);
  CHECK(later->earliest.value == doctest::Approx(2 + 4));
  CHECK(later->likely.value == doctest::Approx(2 + 6));
  CHECK(later->latest.value == doctest::Approx(2 + 8));
}
