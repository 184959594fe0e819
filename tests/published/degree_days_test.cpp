#include "science/animals/degree_days.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <random>
#include <vector>

using measure::Celsius;
using measure::Days;
using measure::DegreeDays;
using science::accumulate_degree_days;
using science::daily_gain;
using science::days_to_reach;
using science::days_to_reach_range;
using science::degree_days_from_mean;
using science::degree_days_single_sine;
using science::degree_days_single_triangle;
using science::DegreeDayLimits;
using science::ThermalConstant;

namespace {

Celsius fahrenheit(double degrees) {
  return Celsius{(degrees - 32) / 1.8};
}
double in_fahrenheit_days(DegreeDays sum) {
  return sum.value * 1.8;
}

// Chia et al. 2018, PLoS ONE 13(11): e0206097, larvae on spent grain with yeast (D1): lower
// threshold 12.3 degC, thermal constant 250 +- 25 degree-days.
const DegreeDayLimits kChiaD1{Celsius{12.3}, std::nullopt};
const ThermalConstant kChiaD1Constant{DegreeDays{250}, DegreeDays{25}};

}  // namespace

TEST_CASE("degree-days of a day: minimum and maximum worked in Fahrenheit") {
  struct Row {
    double maximum, minimum, average, sine, triangle;
  };
  // Base 50 F. Averages of 65/40 and 60/35: Nugent, Michigan State University, "52.5 - 50 = 2.5
  // degrees" and "-2.5 = 0 degrees"; 70/50: Iowa State Agronomy 541, "the answer is 10 GDD". The
  // sine, the triangle and the other rows: computed from the formula.
  const Row rows[] = {
      {65, 40, 2.5, 5.308720, 4.5},
      {60, 35, 0, 2.808720, 2.0},
      {70, 50, 10, 10, 10},
      {90, 48, 19, 19.186125, 19.047619},
      {80, 60, 20, 20, 20},
      {45, 30, 0, 0, 0},
      {50, 30, 0, 0, 0},
  };
  const DegreeDayLimits base{fahrenheit(50), std::nullopt};
  for (const Row& row : rows) {
    CAPTURE(row.maximum);
    CAPTURE(row.minimum);
    const Celsius low = fahrenheit(row.minimum);
    const Celsius high = fahrenheit(row.maximum);
    const Celsius mean = fahrenheit((row.maximum + row.minimum) / 2);
    CHECK(std::abs(in_fahrenheit_days(degree_days_from_mean(mean, base)) - row.average) < 1e-9);
    CHECK(std::abs(in_fahrenheit_days(*degree_days_single_sine(low, high, base)) - row.sine) <
          1e-6);
    CHECK(std::abs(in_fahrenheit_days(*degree_days_single_triangle(low, high, base)) -
                   row.triangle) < 1e-6);
  }
}

TEST_CASE("degree-days of a day: other printed values") {
  // UC IPM, degree-day concepts: mean 64 F, lower threshold 53 F, 11 degree-days.
  const DegreeDayLimits ipm{fahrenheit(53), std::nullopt};
  CHECK(in_fahrenheit_days(degree_days_from_mean(fahrenheit(64), ipm)) == doctest::Approx(11));

  // Wheat, base 0 degC, a day from -6 to 10 (method 1 of McMaster & Wilhelm 1997): computed from
  // the formula.
  const DegreeDayLimits wheat{Celsius{0}, std::nullopt};
  CHECK(degree_days_from_mean(Celsius{2}, wheat).value == doctest::Approx(2.0));
  CHECK(degree_days_single_sine(Celsius{-6}, Celsius{10}, wheat)->value ==
        doctest::Approx(3.626479).epsilon(1e-6));
  CHECK(degree_days_single_triangle(Celsius{-6}, Celsius{10}, wheat)->value ==
        doctest::Approx(3.125));
}

TEST_CASE("degree-days of a day: horizontal cutoff") {
  // 90/48 F, base 50 F, upper limit 86 F: computed from the formula (18.657068 with the sine; the
  // triangle loses (90 - 86)^2 / (2 (90 - 48)) = 4/21).
  const DegreeDayLimits corn{fahrenheit(50), fahrenheit(86)};
  const Celsius low = fahrenheit(48);
  const Celsius high = fahrenheit(90);
  CHECK(std::abs(in_fahrenheit_days(*degree_days_single_sine(low, high, corn)) - 18.657068) < 1e-6);
  CHECK(in_fahrenheit_days(*degree_days_single_triangle(low, high, corn)) ==
        doctest::Approx(19.047619 - 4.0 / 21).epsilon(1e-6));
  // Iowa State Agronomy 541: at most 36 a day (86 - 50).
  CHECK(in_fahrenheit_days(degree_days_from_mean(fahrenheit(95), corn)) == doctest::Approx(36));
  CHECK(in_fahrenheit_days(*degree_days_single_sine(fahrenheit(88), fahrenheit(100), corn)) ==
        doctest::Approx(36));
}

TEST_CASE("degree-days of a day: the sine agrees with adding up its hours") {
  // Independent of the closed form: the mean excess over 100 000 moments of the sine itself.
  const DegreeDayLimits limits{Celsius{12.3}, Celsius{30}};
  const int moments = 100'000;
  double sum = 0;
  for (int i = 0; i < moments; ++i) {
    const double now = 22 + 13 * std::sin(2 * std::numbers::pi * (i + 0.5) / moments);
    sum += std::min(std::max(now, 12.3), 30.0) - 12.3;
  }
  CHECK(degree_days_single_sine(Celsius{9}, Celsius{35}, limits)->value ==
        doctest::Approx(sum / moments).epsilon(1e-7));
}

TEST_CASE("degree-days of a day: awkward days") {
  const DegreeDayLimits limits{Celsius{10}, Celsius{30}};
  CHECK_FALSE(degree_days_single_sine(Celsius{20}, Celsius{15}, limits));
  CHECK_FALSE(degree_days_single_triangle(Celsius{20}, Celsius{15}, limits));
  // No swing at all: above, at and below the threshold.
  CHECK(degree_days_single_sine(Celsius{15}, Celsius{15}, limits)->value == doctest::Approx(5));
  CHECK(degree_days_single_sine(Celsius{10}, Celsius{10}, limits)->value == 0);
  CHECK(degree_days_single_triangle(Celsius{4}, Celsius{4}, limits)->value == 0);
  CHECK(degree_days_from_mean(Celsius{10}, limits).value == 0);
  CHECK(degree_days_from_mean(Celsius{-20}, limits).value == 0);
}

TEST_CASE("degree-days added up: gaps are filled in and said") {
  const DegreeDayLimits limits{Celsius{10}, Celsius{30}};
  // 20, (23), (26), 29, 14 and two days unread after: 10 + 13 + 16 + 19 + 4 + 4 + 4. By hand.
  const std::vector<std::optional<Celsius>> means = {Celsius{20}, std::nullopt, std::nullopt,
                                                     Celsius{29}, Celsius{14},  std::nullopt,
                                                     std::nullopt};
  const auto sum = accumulate_degree_days(means, limits);
  REQUIRE(sum);
  CHECK(sum->total.value == doctest::Approx(70));
  CHECK(sum->measured_days == 3);
  CHECK(sum->interpolated_days == 2);
  CHECK(sum->carried_days == 2);
}

TEST_CASE("degree-days added up: it is the temperature that is interpolated") {
  // Between 4 and 16 lies 10, at the threshold; filling in degree-days (0 and 6) would give 3.
  const DegreeDayLimits limits{Celsius{10}, std::nullopt};
  const std::vector<std::optional<Celsius>> means = {Celsius{4}, std::nullopt, Celsius{16}};
  CHECK(accumulate_degree_days(means, limits)->total.value == doctest::Approx(6));
}

TEST_CASE("degree-days added up: a first reading that comes late, and none") {
  const DegreeDayLimits limits{Celsius{10}, std::nullopt};
  const std::vector<std::optional<Celsius>> late = {std::nullopt, std::nullopt, Celsius{15}};
  const auto sum = accumulate_degree_days(late, limits);
  REQUIRE(sum);
  CHECK(sum->total.value == doctest::Approx(15));
  CHECK(sum->measured_days == 1);
  CHECK(sum->interpolated_days == 0);
  CHECK(sum->carried_days == 2);

  const std::vector<std::optional<Celsius>> unread(5);
  CHECK_FALSE(accumulate_degree_days(unread, limits));
  const auto seeded_today = accumulate_degree_days({}, limits);
  REQUIRE(seeded_today);
  CHECK(seeded_today->total.value == 0);
  CHECK(seeded_today->measured_days == 0);
}

TEST_CASE("days to reach: what is left over what a day adds") {
  // (250 - 100) / (25 - 12.3), constants of Chia et al. 2018; computed from the formula.
  CHECK(days_to_reach(DegreeDays{150}, Celsius{25}, kChiaD1)->value ==
        doctest::Approx(11.811).epsilon(1e-4));
  CHECK(days_to_reach(DegreeDays{0}, Celsius{5}, kChiaD1)->value == 0);
  CHECK(days_to_reach(DegreeDays{-3}, Celsius{25}, kChiaD1)->value == 0);
  CHECK_FALSE(days_to_reach(DegreeDays{150}, Celsius{12}, kChiaD1));
}

TEST_CASE("daily gain: mean and spread, after the limits") {
  const DegreeDayLimits limits{Celsius{10}, Celsius{30}};
  // 12, 14, 16 and 20 (34 is held at 30): mean 15.5, squares 12.25 + 2.25 + 0.25 + 20.25 = 35. By
  // hand.
  const std::vector<Celsius> recent = {Celsius{22}, Celsius{24}, Celsius{26}, Celsius{34}};
  const auto gain = daily_gain(recent, limits);
  REQUIRE(gain);
  CHECK(gain->mean.value == doctest::Approx(15.5));
  CHECK(gain->deviation.value == doctest::Approx(std::sqrt(35.0 / 3)));
  CHECK_FALSE(daily_gain(std::vector{Celsius{22}}, limits));
  CHECK_FALSE(daily_gain({}, limits));
}

TEST_CASE("days to reach, interval: one source of spread at a time") {
  // Standard normal quantile of 0.9 from any table: 1.2816. With a constant sure to be 250, the
  // limits are those of the daily gain; with a sure gain, those of the constant. Computed by hand.
  const auto by_gain = days_to_reach_range(DegreeDays{50}, {DegreeDays{250}, DegreeDays{0}},
                                           {DegreeDays{12}, DegreeDays{3}});
  REQUIRE(by_gain);
  CHECK(by_gain->earliest.value == doctest::Approx(200 / (12 + 1.2816 * 3)).epsilon(1e-4));
  CHECK(by_gain->likely.value == doctest::Approx(200.0 / 12));
  REQUIRE(by_gain->latest);
  CHECK(by_gain->latest->value == doctest::Approx(200 / (12 - 1.2816 * 3)).epsilon(1e-4));

  const auto by_constant =
      days_to_reach_range(DegreeDays{50}, kChiaD1Constant, {DegreeDays{12}, DegreeDays{0}});
  REQUIRE(by_constant);
  CHECK(by_constant->earliest.value == doctest::Approx((200 - 1.2816 * 25) / 12).epsilon(1e-4));
  CHECK(by_constant->latest->value == doctest::Approx((200 + 1.2816 * 25) / 12).epsilon(1e-4));
}

TEST_CASE("days to reach, interval: one draw in ten falls outside on either side") {
  // Independent of the closed form: 100 000 draws of constant and gain (fixed seed, Box-Muller).
  const double gain_mean = 11;
  const double gain_deviation = 2.5;
  const auto range = days_to_reach_range(DegreeDays{120}, kChiaD1Constant,
                                         {DegreeDays{gain_mean}, DegreeDays{gain_deviation}});
  REQUIRE(range);
  REQUIRE(range->latest);
  std::mt19937 engine{20240601};
  const int draws = 100'000;
  int early = 0;
  int late = 0;
  for (int i = 0; i < draws; ++i) {
    const double u = (static_cast<double>(engine()) + 1) / 4294967297.0;
    const double v = (static_cast<double>(engine()) + 1) / 4294967297.0;
    const double radius = std::sqrt(-2 * std::log(u));
    const double left = 130 + 25 * radius * std::cos(2 * std::numbers::pi * v);
    const double gain = gain_mean + gain_deviation * radius * std::sin(2 * std::numbers::pi * v);
    if (left <= range->earliest.value * gain) ++early;
    if (left > range->latest->value * gain) ++late;
  }
  // Four standard errors of a share of 0.1 in 100 000 draws are 0.0038.
  CHECK(std::abs(early / double{draws} - 0.1) < 0.0038);
  CHECK(std::abs(late / double{draws} - 0.1) < 0.0038);
}

TEST_CASE("days to reach, interval: too cold, nearly there, and past") {
  // A gain as uncertain as it is large: no latest day can be promised.
  const auto cold =
      days_to_reach_range(DegreeDays{50}, kChiaD1Constant, {DegreeDays{2}, DegreeDays{2}});
  REQUIRE(cold);
  CHECK(cold->earliest.value > 0);
  CHECK(cold->earliest < cold->likely);
  CHECK_FALSE(cold->latest);
  CHECK_FALSE(days_to_reach_range(DegreeDays{50}, kChiaD1Constant, {DegreeDays{0}, DegreeDays{1}}));

  // 240 of 250 +- 25: it may have been reached already, and may take some days more.
  const auto nearly =
      days_to_reach_range(DegreeDays{240}, kChiaD1Constant, {DegreeDays{12}, DegreeDays{2}});
  REQUIRE(nearly);
  CHECK(nearly->earliest.value == 0);
  CHECK(nearly->likely.value == doctest::Approx(10.0 / 12));
  CHECK(nearly->latest->value > nearly->likely.value);

  const auto past =
      days_to_reach_range(DegreeDays{300}, kChiaD1Constant, {DegreeDays{12}, DegreeDays{2}});
  REQUIRE(past);
  CHECK(past->earliest.value == 0);
  CHECK(past->likely.value == 0);
  CHECK(past->latest->value == 0);
}
