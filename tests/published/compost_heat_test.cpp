#include "tests/support/compost_heat.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>
#include <random>
#include <vector>

#include "tests/published/figures.h"

using measure::Celsius;
using measure::Days;
using measure::Fraction;
using measure::Kilograms;
using measure::Litres;
using measure::Number;
using measure::SquareMetres;
using namespace science;

namespace {

doctest::Approx six_figures(double value) {
  return doctest::Approx(value).epsilon(2e-6);
}

// The tables give six decimals.
doctest::Approx printed(double value) {
  return doctest::Approx(value).epsilon(1e-6).scale(1);
}

PileModel heap(double litres) {
  PileModel pile;
  pile.mass = Kilograms{0.6 * litres};
  pile.moisture = Fraction{0.58};
  pile.surface = cooling_surface(Litres{litres}, PileShape::Heap);
  return pile;
}

std::vector<Celsius> air(std::size_t days, double celsius) {
  return std::vector<Celsius>(days, Celsius{celsius});
}

}  // namespace

// The equations of this group and their constants are from memory (R. T. Haug 1993, The Practical
// Handbook of Compost Engineering, except where named); the values are computed from the formula.
TEST_CASE("compost heat: Haug's factors") {
  const double by_temperature[][2] = {
      {5, 0.383363},   {10, 0.527677},  {20, 0.999512}, {30, 1.891554},    {40, 3.568315},
      {45, 4.885003},  {50, 6.654602},  {55, 8.979336}, {60, 11.891047},   {65, 15.151184},
      {70, 17.698943}, {75, 16.174356}, {80, 1.024893}, {71.55, 17.930129}};
  for (const auto& [t, factor] : by_temperature) {
    CAPTURE(t);
    CHECK(haug_temperature_factor(Celsius{t}).value == printed(factor));
  }
  // With the example constant of 0.00632 a day.
  CHECK(0.00632 * haug_temperature_factor(Celsius{55}).value ==
        doctest::Approx(0.056749).epsilon(2e-5));
  CHECK(haug_temperature_factor(Celsius{71.4}).value < 17.930129);
  CHECK(haug_temperature_factor(Celsius{71.7}).value < 17.930129);
  CHECK(haug_temperature_factor(Celsius{80.1767}).value > 0);
  CHECK(haug_temperature_factor(Celsius{80.1768}).value == 0);
  CHECK(haug_temperature_factor(Celsius{200}).value == 0);
  CHECK(haug_temperature_factor(Celsius{0}).value == 0);
  CHECK(haug_temperature_factor(Celsius{kNan}).value == 0);

  const double by_moisture[][2] = {
      {0.20, 0.028598}, {0.30, 0.147166}, {0.35, 0.294672}, {0.40, 0.502850}, {0.45, 0.710044},
      {0.50, 0.855672}, {0.55, 0.934869}, {0.60, 0.972029}, {0.65, 0.988254}, {0.70, 0.995115}};
  for (const auto& [m, factor] : by_moisture) {
    CAPTURE(m);
    CHECK(haug_moisture_factor(Fraction{m}).value == printed(factor));
  }
  const double by_space[][2] = {{0.05, 0.090237}, {0.10, 0.244715}, {0.15, 0.514184},
                                {0.20, 0.775651}, {0.25, 0.918658}, {0.30, 0.973609},
                                {0.35, 0.991770}, {0.40, 0.997466}};
  for (const auto& [space, factor] : by_space) {
    CAPTURE(space);
    CHECK(haug_free_air_space_factor(Fraction{space}).value == printed(factor));
  }
  const double by_oxygen[][2] = {{1, 0.333333},  {2, 0.5},         {5, 0.714286}, {10, 0.833333},
                                 {15, 0.882353}, {20.9, 0.912664}, {21, 0.913043}};
  for (const auto& [percent, factor] : by_oxygen) {
    CAPTURE(percent);
    CHECK(oxygen_factor(Fraction{percent / 100}).value == printed(factor));
  }
  CHECK(oxygen_factor(Fraction{0}).value == 0);
}

TEST_CASE("compost heat: where microbes work") {
  // L. Rosso et al. (1993), J. theor. Biol. 162:447, with 5, 58.6 and 71.6 degC: from memory,
  // computed.
  const double cardinal[][2] = {{5, 0},         {10, 0.014097}, {20, 0.122920}, {30, 0.326395},
                                {40, 0.596782}, {50, 0.873560}, {55, 0.972485}, {58.6, 1},
                                {60, 0.994688}, {65, 0.852206}, {70, 0.330017}, {71.6, 0}};
  for (const auto& [t, factor] : cardinal) {
    CAPTURE(t);
    CHECK(cardinal_temperature_factor(Celsius{t}).value == printed(factor));
  }
  CHECK(cardinal_temperature_factor(Celsius{-10}).value == 0);
  CHECK(cardinal_temperature_factor(Celsius{90}).value == 0);
  const CardinalTemperatures milder{Celsius{0}, Celsius{40}, Celsius{50}};
  CHECK(cardinal_temperature_factor(Celsius{40}, milder).value == six_figures(1));
  CHECK(cardinal_temperature_factor(Celsius{50}, milder).value == 0);

  // D. E. Stombaugh & S. E. Nokes (1996), Trans. ASAE 39:239: from memory, computed.
  const double pieces[][2] = {{0, 0},         {15, 0.5}, {30, 1},        {55, 1}, {60, 0.833333},
                              {65, 0.666667}, {70, 0.5}, {80, 0.166667}, {85, 0}, {90, 0}};
  for (const auto& [t, factor] : pieces) {
    CAPTURE(t);
    CHECK(stombaugh_nokes_factor(Celsius{t}).value == printed(factor));
  }
}

TEST_CASE("compost heat: surfaces") {
  // Geometry: a half ball, a cube and a cylinder of length 1 m in radius, side and radius.
  constexpr double pi = std::numbers::pi;
  CHECK(cooling_surface(Litres{1000 * 2 * pi / 3}, PileShape::Heap).value == six_figures(2 * pi));
  CHECK(cooling_surface(Litres{1000}, PileShape::Box).value == six_figures(5));
  CHECK(cooling_surface(Litres{1000 * 2 * pi}, PileShape::Drum).value == six_figures(6 * pi));
  CHECK(cooling_surface(Litres{0}, PileShape::Heap).value == 0);
}

// Solutions of the balance in closed form, computed.
TEST_CASE("compost heat: a pile that burns nothing cools by Newton's law") {
  PileModel pile = heap(1000);
  pile.degradable = Fraction{0};
  // 600 kg: 0.58 x 4.186 + 0.42 x 1.2 kJ/(kg K).
  CHECK(heat_capacity(pile).value == six_figures(600 * (0.58 * 4.186 + 0.42 * 1.2)));
  const auto mean_after = [](double start, double ambient, double per_day, double day) {
    const double integral = (std::exp(-per_day * day) - std::exp(-per_day * (day + 1))) / per_day;
    return ambient + (start - ambient) * integral;
  };
  const double still = 1.5 * pile.surface.value * 86.4 / heat_capacity(pile).value;
  const double moist = still / (1 - 0.6);
  const auto cooling = simulate_pile(pile, Celsius{60}, air(5, 10));
  const auto warming = simulate_pile(pile, Celsius{10}, air(5, 30));
  REQUIRE(cooling.size() == 5);
  for (std::size_t day = 0; day < 5; ++day) {
    const auto d = static_cast<double>(day);
    CHECK(cooling[day].value == doctest::Approx(mean_after(60, 10, moist, d)).epsilon(1e-4));
    // Colder than the air: nothing evaporates.
    CHECK(warming[day].value == doctest::Approx(mean_after(10, 30, still, d)).epsilon(1e-4));
  }
}

TEST_CASE("compost heat: a pile without losses keeps all the heat it makes") {
  PileModel pile = heap(1000);
  pile.surface = SquareMetres{0};
  for (const TemperatureResponse response :
       {TemperatureResponse::Haug, TemperatureResponse::Cardinal,
        TemperatureResponse::StombaughNokes}) {
    pile.response = response;
    // 252 kg dry, of which 1 % burns at 20 MJ/kg.
    pile.degradable = Fraction{0.01};
    const double gain = 252 * 0.01 * 20000 / heat_capacity(pile).value;
    const auto days = simulate_pile(pile, Celsius{25}, air(3000, -20));
    CHECK(days.back().value == doctest::Approx(25 + gain).epsilon(1e-3));
  }
}

TEST_CASE("compost heat: without losses and between 30 and 55 degC the loss is first order") {
  PileModel pile = heap(1000);
  pile.surface = SquareMetres{0};
  pile.degradable = Fraction{0.01};
  pile.oxygen.reset();
  const double rate = 0.09 * haug_moisture_factor(pile.moisture).value;
  const double gain = 252 * 0.01 * 20000 / heat_capacity(pile).value;  // all of it, K
  const auto days = simulate_pile(pile, Celsius{31}, air(10, 0));
  // The mean over day n of 31 + gain (1 - exp(-rate t)).
  for (std::size_t day = 0; day < 10; ++day) {
    const auto d = static_cast<double>(day);
    const double left = (std::exp(-rate * d) - std::exp(-rate * (d + 1))) / rate;
    CHECK(days[day].value == doctest::Approx(31 + gain * (1 - left)).epsilon(1e-5));
  }
}

// Each hindrance is its published factor times the rate.
TEST_CASE("compost heat: hindrances slow the pile by their factors") {
  PileModel slow = heap(1000);
  slow.free_air_space = Fraction{0.15};
  slow.oxygen = Fraction{0.02};
  PileModel same = heap(1000);
  same.oxygen.reset();
  same.rate = PerDay{0.09 * 0.514184 * 0.5};  // the factors at 15 % of space and 2 % of oxygen
  const auto a = simulate_pile(slow, Celsius{15}, air(20, 10));
  const auto b = simulate_pile(same, Celsius{15}, air(20, 10));
  for (std::size_t day = 0; day < a.size(); ++day) {
    CHECK(a[day].value == doctest::Approx(b[day].value).epsilon(1e-4));
  }
}

// Second opinion: Euler's method with very small steps, written from the equations.
TEST_CASE("compost heat: agrees with a plain integration") {
  const PileModel pile = heap(800);
  double t = 12;
  double left = 480 * 0.42 * 0.40;
  const double capacity = heat_capacity(pile).value;
  const double rate = 0.09 / (1 + std::exp(-17.684 * 0.58 + 7.0622)) * 5 / 7;
  const std::vector<Celsius> ambient{Celsius{8},  Celsius{3},  Celsius{-4}, Celsius{6},
                                     Celsius{12}, Celsius{15}, Celsius{9}};
  const auto days = simulate_pile(pile, Celsius{12}, ambient);
  REQUIRE(days.size() == ambient.size());
  constexpr int steps = 20000;
  for (std::size_t day = 0; day < ambient.size(); ++day) {
    double sum = 0;
    for (int n = 0; n < steps; ++n) {
      sum += t;
      const double f = t <= 0 ? 0 : t <= 30 ? t / 30 : t <= 55 ? 1 : t < 85 ? (85 - t) / 30 : 0;
      const double burnt = rate * f * left;
      const double above = t - ambient[day].value;
      const double out = 1.5 * pile.surface.value * 86.4 * above / (above > 0 ? 0.4 : 1.0);
      t += (burnt * 20000 - out) / capacity / steps;
      left -= burnt / steps;
    }
    CHECK(days[day].value == doctest::Approx(sum / steps).epsilon(1e-3));
  }
}

// Plausibility, not accuracy: Cornell, Compost Physics
// (https://css.cornell.edu/cwmi/compost/physics.html): indoor bins over 10 gallons heat to 40-50
// degC in 2-3 days; Haug (1993): the highest temperatures are limited to about 75 to 85 degC.
TEST_CASE("compost heat: a pile by the defaults behaves as piles do") {
  const auto days = simulate_pile(heap(1500), Celsius{15}, air(150, 12));
  const auto hottest = std::ranges::max_element(days);
  CHECK(days[2].value > 40);
  CHECK(hottest->value > 55);
  CHECK(hottest->value < 85);
  CHECK(std::ranges::is_sorted(hottest, days.end(), std::ranges::greater{}));
  CHECK(days.back().value == doctest::Approx(12).epsilon(0.2));
  // Small, cold, dry or airless piles stay cooler.
  const auto peak = [](const PileModel& pile, double ambient) {
    return std::ranges::max(simulate_pile(pile, Celsius{15}, air(40, ambient))).value;
  };
  CHECK(peak(heap(300), 12) < hottest->value);
  CHECK(peak(heap(1500), 0) < hottest->value);
  PileModel dry = heap(1500);
  dry.moisture = Fraction{0.30};
  CHECK(peak(dry, 12) < hottest->value);
  PileModel airless = heap(1500);
  airless.oxygen = Fraction{0};
  CHECK(peak(airless, 12) == doctest::Approx(15).epsilon(0.2));
  // Heat set free, MJ/kg of dry mass, against what plants recover: 1.159 in the laboratory to 7.084
  // at commercial scale (M. M. Smith, J. D. Aber, R. Rynk 2015).
  const PileModel pile = heap(1500);
  const double all = pile.degradable.value * pile.megajoules_per_kilogram.value;
  CHECK(all > 1.159);
  CHECK(all < 2 * 7.084);
}

TEST_CASE("compost heat: a frozen pile stays frozen until the air thaws it") {
  std::vector<Celsius> winter = air(20, -5);
  const auto frozen = simulate_pile(heap(1000), Celsius{-2}, winter);
  CHECK(frozen.back().value < -4);
  const auto thaw = air(20, 8);
  winter.insert(winter.end(), thaw.begin(), thaw.end());
  CHECK(simulate_pile(heap(1000), Celsius{-2}, winter).back().value > 40);
}

// Within the greatest and least of start, air and the temperature at which the heat ends.
TEST_CASE("compost heat: stays within bounds for any figures in range") {
  std::mt19937 random(1993);
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(random() >> 1) / 2147483648.0;
  };
  for (int round = 0; round < 200; ++round) {
    CAPTURE(round);
    PileModel pile;
    pile.mass = Kilograms{std::pow(10, between(0, 5))};
    pile.moisture = Fraction{between(0, 1)};
    pile.surface = SquareMetres{std::pow(10, between(-1, 2))};
    pile.degradable = Fraction{between(0, 1)};
    pile.response = static_cast<TemperatureResponse>(random() % 3);
    pile.rate = PerDay{between(0, pile.response == TemperatureResponse::Haug ? 0.02 : 1)};
    pile.evaporative_share = Fraction{between(0, 0.95)};
    pile.watts_per_square_metre_kelvin = Number{between(0, 20)};
    const Celsius start{between(-30, 110)};
    const std::vector<Celsius> ambient{Celsius{between(-40, 45)}, Celsius{between(-40, 45)},
                                       Celsius{between(-40, 45)}, Celsius{between(-40, 45)}};
    const Days step{between(0.001, 1)};
    const auto days = simulate_pile(pile, start, ambient, step);
    if (days.empty()) continue;  // too quick a pile to be one
    const auto [least, most] = std::ranges::minmax(ambient);
    const double top = std::max({start.value, most.value, 85.0});
    const double bottom = std::min(start.value, least.value);
    for (const Celsius day : days) {
      CHECK(day.value <= top + 0.01);
      CHECK(day.value >= bottom - 0.01);
    }
    // The step that was asked for hardly matters.
    const auto fine = simulate_pile(pile, start, ambient, Days{step.value / 8});
    for (std::size_t n = 0; n < days.size(); ++n) {
      CHECK(days[n].value == doctest::Approx(fine[n].value).epsilon(0.01).scale(10));
    }
  }
}

TEST_CASE("compost heat: no forecast from impossible figures") {
  const auto empty = [](auto change) {
    PileModel pile = heap(1000);
    change(pile);
    return simulate_pile(pile, Celsius{20}, air(3, 10)).empty();
  };
  CHECK_FALSE(empty([](PileModel&) {}));
  CHECK(empty([](PileModel& p) { p.mass = Kilograms{0}; }));
  CHECK(empty([](PileModel& p) { p.mass = Kilograms{kNan}; }));
  CHECK(empty([](PileModel& p) { p.moisture = Fraction{1.2}; }));
  CHECK(empty([](PileModel& p) { p.degradable = Fraction{-0.1}; }));
  CHECK(empty([](PileModel& p) { p.evaporative_share = Fraction{1}; }));
  CHECK(empty([](PileModel& p) { p.oxygen = Fraction{21}; }));  // percent, not a fraction
  CHECK(empty([](PileModel& p) { p.surface = SquareMetres{1e6}; }));
  CHECK(simulate_pile(heap(1000), Celsius{kNan}, air(3, 10)).empty());
  CHECK(simulate_pile(heap(1000), Celsius{20}, air(3, 500)).empty());
  CHECK(simulate_pile(heap(1000), Celsius{20}, air(3, 10), Days{0}).empty());
  CHECK(simulate_pile(heap(1000), Celsius{20}, {}).empty());
}
