#include "science/compost/hygiene.h"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <vector>

#include "science/compost/selfheating.h"
#include "tests/published/figures.h"

using measure::Celsius;
using measure::Days;
using measure::Kelvins;
using science::HeatRegime;
using science::HeldAt;
using science::Hours;
using science::self_heating_class;
using science::SelfHeatingClass;
using science::time_to_treat;
using science::treatment_fraction;

namespace {

double days(double celsius, HeatRegime regime) {
  const auto time = time_to_treat(Celsius{celsius}, regime);
  REQUIRE(time);
  return time->value;
}

double minutes(double celsius, HeatRegime regime) {
  return days(celsius, regime) * 24 * 60;
}

doctest::Approx five_figures(double value) {
  return doctest::Approx(value).epsilon(5e-6);
}

}  // namespace

// Equations, least times and the 50 degC limit: 40 CFR 503.32(a)(3)(ii), in the words of
// 15A NCAC 02T .1106(a)(3)(A). The table's values are computed from the formula.
TEST_CASE("hygiene: time to treat at a temperature") {
  using enum HeatRegime;
  CHECK(days(50, SolidsFrom7Percent) == five_figures(13.17));
  CHECK(days(55, SolidsFrom7Percent) == five_figures(2.62776));
  CHECK(days(60, SolidsFrom7Percent) == five_figures(0.524307));
  CHECK(days(65, SolidsFrom7Percent) == five_figures(0.104613));
  CHECK(days(70, SolidsFrom7Percent) == five_figures(0.0208730));
  CHECK(days(50, Under7Percent) == five_figures(5.007));
  CHECK(days(55, Under7Percent) == five_figures(0.999028));
  CHECK(days(60, Under7Percent) == five_figures(0.199332));
  CHECK(days(65, Under7Percent) == five_figures(0.0397720));

  SUBCASE("below 50 degC it does not hold") {
    for (const HeatRegime regime :
         {SolidsFrom7Percent, SmallParticlesFrom7Percent, Under7PercentShort, Under7Percent}) {
      CHECK_FALSE(time_to_treat(Celsius{49.99}, regime));
      CHECK_FALSE(time_to_treat(Celsius{kNan}, regime));
    }
  }
  SUBCASE("least times take over") {
    // Computed: 131.7e6 / 10^(0.14 t) is 20 minutes at 71.26370 degC and 15 s at 84.85720 degC;
    // 50.07e6 / 10^(0.14 t) is 30 minutes at 67.00585 degC.
    CHECK(minutes(71.26360, SolidsFrom7Percent) > 20.00001);
    CHECK(minutes(71.26370, SolidsFrom7Percent) == five_figures(20));
    CHECK(minutes(71.27, SolidsFrom7Percent) == doctest::Approx(20).epsilon(1e-12));
    CHECK(minutes(75, SolidsFrom7Percent) == doctest::Approx(20).epsilon(1e-12));
    CHECK(days(75, SmallParticlesFrom7Percent) == five_figures(0.00416472));
    CHECK(minutes(84.85710, SmallParticlesFrom7Percent) > 0.250005);
    CHECK(minutes(84.86, SmallParticlesFrom7Percent) == doctest::Approx(0.25).epsilon(1e-12));
    CHECK(minutes(67.00575, Under7Percent) > 30.0005);
    CHECK(minutes(67.01, Under7Percent) == doctest::Approx(30).epsilon(1e-12));
    CHECK(minutes(70, Under7Percent) == doctest::Approx(30).epsilon(1e-12));
  }
  SUBCASE("thin liquids for less than half an hour: only where that is enough") {
    CHECK_FALSE(time_to_treat(Celsius{70}, Under7PercentShort));  // 30.057 minutes, computed
    CHECK(minutes(75, Under7PercentShort) == five_figures(5.99720));
    CHECK(minutes(90, Under7PercentShort) == doctest::Approx(0.25).epsilon(1e-12));
  }
  SUBCASE("crossings") {
    // Computed: 3 days at 54.58903 degC, 1 day at 57.9970 degC.
    CHECK(days(54.58903, SolidsFrom7Percent) == five_figures(3));
    CHECK(days(57.9970, SolidsFrom7Percent) == doctest::Approx(1).epsilon(2e-5));
  }
}

// Common practice, no source: shares of the time at each temperature add up.
TEST_CASE("hygiene: a treatment in parts") {
  const auto fraction = [](std::vector<HeldAt> held) {
    return treatment_fraction(held, HeatRegime::SolidsFrom7Percent);
  };
  CHECK(fraction({})->value == 0);
  CHECK(fraction({{Celsius{49.9}, Hours{500}}})->value == 0);
  CHECK(fraction({{Celsius{55}, Hours{63.066}}})->value == doctest::Approx(1).epsilon(1e-4));
  CHECK(fraction({{Celsius{60}, Hours{12.583 / 2}},
                  {Celsius{45}, Hours{10}},
                  {Celsius{55}, Hours{63.066 / 4}}})
            ->value == doctest::Approx(0.75).epsilon(1e-4));
  CHECK(fraction({{Celsius{90}, Hours{0.5}}})->value ==
        five_figures(1.5));  // over the least 20 minutes
  CHECK_FALSE(fraction({{Celsius{55}, Hours{-1}}}));
  CHECK_FALSE(fraction({{Celsius{kNan}, Hours{1}}}));
}

// Source for I, II and V: the composting works of Paderborn,
// https://paderkompost.de/kreislauf/kompostierung, "70-60 C", "60-50 C" in a room at 20 degC; III,
// IV and the rises from memory. The ends of the classes are not verified, so none is tested.
TEST_CASE("self-heating: classes by the rise above the room") {
  CHECK(self_heating_class(Kelvins{45}) == SelfHeatingClass::I);
  CHECK(self_heating_class(Kelvins{35}) == SelfHeatingClass::II);
  CHECK(self_heating_class(Kelvins{25}) == SelfHeatingClass::III);
  CHECK(self_heating_class(Kelvins{15}) == SelfHeatingClass::IV);
  CHECK(self_heating_class(Kelvins{5}) == SelfHeatingClass::V);
  CHECK(self_heating_class(Celsius{65} - Celsius{20}) == SelfHeatingClass::I);
  CHECK(self_heating_class(Celsius{55} - Celsius{20}) == SelfHeatingClass::II);
  CHECK(self_heating_class(Celsius{25} - Celsius{20}) == SelfHeatingClass::V);
  CHECK(self_heating_class(Kelvins{-1}) == SelfHeatingClass::V);  // ours: no heat at all
  CHECK_FALSE(self_heating_class(Kelvins{kNan}));
}
