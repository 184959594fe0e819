#include "science/numbers/trend.h"

#include <doctest/doctest.h>

#include <utility>
#include <vector>

using measure::Days;
using measure::Number;
using science::linear_trend;
using science::TrendPoint;

TEST_CASE("linear trend: NIST's certified values for Norris") {
  // NIST Statistical Reference Datasets, linear regression, Norris (lower difficulty), 36
  // observations as y, x; the data are from memory, and reproduce the certified values to every
  // digit checked.
  const std::vector<std::pair<double, double>> data{
      {0.1, 0.2},     {338.8, 337.4}, {118.1, 118.2}, {888.0, 884.6}, {9.2, 10.1},
      {228.1, 226.5}, {668.5, 666.3}, {998.5, 996.3}, {449.1, 448.6}, {778.9, 777.0},
      {559.2, 558.2}, {0.3, 0.4},     {0.1, 0.6},     {778.1, 775.5}, {668.8, 666.9},
      {339.3, 338.0}, {448.9, 447.5}, {10.8, 11.6},   {557.7, 556.0}, {228.3, 228.1},
      {998.0, 995.8}, {888.8, 887.6}, {119.6, 120.2}, {0.3, 0.3},     {0.6, 0.3},
      {557.6, 556.8}, {339.3, 339.1}, {888.0, 887.2}, {998.5, 999.0}, {778.9, 779.0},
      {10.2, 11.1},   {117.6, 118.3}, {228.9, 229.2}, {668.4, 669.1}, {449.2, 448.9},
      {0.2, 0.5}};
  std::vector<TrendPoint> points;
  for (const auto& [y, x] : data) points.push_back({Days{x}, Number{y}});
  const auto trend = linear_trend(points);
  REQUIRE(trend);
  CHECK(trend->intercept.value == doctest::Approx(-0.262323073774029).epsilon(1e-9));
  CHECK(trend->slope.value == doctest::Approx(1.00211681802045).epsilon(1e-12));
  CHECK(trend->intercept_error.value == doctest::Approx(0.232818234301152).epsilon(1e-9));
  CHECK(trend->slope_error.value == doctest::Approx(0.429796848199937e-3).epsilon(1e-9));
  CHECK(trend->residual.value == doctest::Approx(0.884796396144373).epsilon(1e-9));
}

TEST_CASE("linear trend: where there is none, and the interval about it") {
  CHECK_FALSE(linear_trend(std::vector<TrendPoint>{{Days{0}, Number{1}}, {Days{1}, Number{2}}}));
  CHECK_FALSE(linear_trend(std::vector<TrendPoint>(4, {Days{3}, Number{2}})));

  // By hand: 0 1 0 1 at days 0 to 3. Mean 0.5 at 1.5, sxx 5, slope 0.2, residual sqrt(0.8 / 2). A
  // new value at day 5: t(2) = 2.920, times 0.6325, times sqrt(1 + 1/4 + 3.5^2 / 5).
  const std::vector<TrendPoint> points{
      {Days{0}, Number{0}}, {Days{1}, Number{1}}, {Days{2}, Number{0}}, {Days{3}, Number{1}}};
  const auto trend = linear_trend(points);
  REQUIRE(trend);
  CHECK(trend->slope.value == doctest::Approx(0.2));
  CHECK(trend->at(Days{5}).value == doctest::Approx(1.2));
  CHECK(trend->half_width(Days{5}).value == doctest::Approx(3.5525).epsilon(1e-4));
  CHECK(trend->slope_half_width().value == doctest::Approx(2.920 * 0.282843).epsilon(1e-5));

  // A straight line leaves no doubt.
  std::vector<TrendPoint> straight;
  for (int day = 0; day < 40; ++day) straight.push_back({Days{1.0 * day}, Number{3 - 0.5 * day}});
  CHECK(linear_trend(straight)->half_width(Days{60}).value == doctest::Approx(0).epsilon(1e-9));
  CHECK(linear_trend(straight)->at(Days{60}).value == doctest::Approx(-27));
}
