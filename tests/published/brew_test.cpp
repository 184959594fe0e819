#include "science/soil/brew.h"

#include <doctest/doctest.h>

#include <optional>
#include <vector>

#include "science/gas/temperature_rate.h"
#include "science/soil/salinity.h"
#include "tests/published/figures.h"

using measure::Celsius;
using measure::Days;
using measure::DecisiemensPerMetre;
using measure::Fraction;
using measure::Kilograms;
using measure::Litres;
using measure::Number;
using science::brew_days_left;
using science::brew_share;
using science::brew_time;
using science::BrewParts;
using science::dilution_to_ec;
using science::dilution_to_nitrogen;
using science::fill_daily_temperatures;
using science::MilligramsPerLitre;
using science::NutrientMass;
using science::SaltRisk;

namespace {

using DailyMeans = std::vector<std::optional<Celsius>>;

}  // namespace

TEST_CASE("days without a reading are filled, and counted") {
  // Straight lines by hand; the convention is common practice, no source.
  const DailyMeans means{std::nullopt, Celsius{10}, std::nullopt, std::nullopt,
                         Celsius{16},  Celsius{20}, std::nullopt, std::nullopt};
  const auto filled = fill_daily_temperatures(means);
  REQUIRE(filled);
  const double expected[] = {10, 10, 12, 14, 16, 20, 20, 20};
  REQUIRE(filled->days.size() == 8);
  for (std::size_t day = 0; day < 8; ++day) {
    CHECK(filled->days[day].value == within(1e-9, expected[day]));
  }
  CHECK(filled->measured_days == 3);
  CHECK(filled->interpolated_days == 2);
  CHECK(filled->carried_days == 3);

  CHECK_FALSE(fill_daily_temperatures(DailyMeans{std::nullopt, std::nullopt}));
  const auto empty = fill_daily_temperatures({});
  REQUIRE(empty);
  CHECK(empty->days.empty());
}

TEST_CASE("brewing time counts warm days for more") {
  SUBCASE("a brew of 14 days at 20 degC takes 9.9 at 25 and 19.8 at 15") {
    // Computed from 14 x 2^((20 - T)/10); Q10 = 2 is a rule of thumb from memory.
    const auto warm = brew_days_left(Days{14}, Days{0}, Celsius{25});
    const auto same = brew_days_left(Days{14}, Days{0}, Celsius{20});
    const auto cool = brew_days_left(Days{14}, Days{0}, Celsius{15});
    REQUIRE((warm && same && cool));
    CHECK(warm->value == within(0.05, 9.9));
    CHECK(same->value == within(1e-9, 14));
    CHECK(cool->value == within(0.05, 19.8));
  }

  SUBCASE("the days add up") {
    // By hand with Q10 = 2: at 30 a day counts 2, at 20 one, at 10 a half; 15 between 10 and 20
    // counts 2^-0.5.
    const auto time = brew_time(
        DailyMeans{Celsius{30}, Celsius{20}, Celsius{10}, std::nullopt, Celsius{20}, std::nullopt});
    REQUIRE(time);
    CHECK(time->equivalent.value == within(1e-6, 2 + 1 + 0.5 + 0.7071068 + 1 + 1));
    CHECK(time->measured_days == 4);
    CHECK(time->interpolated_days == 1);
    CHECK(time->carried_days == 1);
  }

  SUBCASE("another rate, another reference") {
    const auto time = brew_time(DailyMeans{Celsius{25}, Celsius{15}},
                                {.q10 = Number{3}, .reference = Celsius{15}});
    REQUIRE(time);
    CHECK(time->equivalent.value == within(1e-9, 3 + 1));
  }

  SUBCASE("no gain above the ceiling, nothing when frozen") {
    const auto hot = brew_time(DailyMeans{Celsius{60}});
    const auto ceiling = brew_time(DailyMeans{Celsius{35}});
    const auto frozen = brew_time(DailyMeans{Celsius{0}});
    REQUIRE((hot && ceiling && frozen));
    CHECK(ceiling->equivalent.value == within(1e-6, 2.8284271));  // 2^1.5
    CHECK(hot->equivalent.value == ceiling->equivalent.value);
    CHECK(frozen->equivalent.value == 0);
    CHECK_FALSE(brew_days_left(Days{14}, Days{0}, Celsius{0}));
  }

  SUBCASE("edges") {
    const auto today = brew_time({});
    REQUIRE(today);
    CHECK(today->equivalent.value == 0);
    CHECK_FALSE(brew_time(DailyMeans{std::nullopt}));
    CHECK_FALSE(brew_time(DailyMeans{Celsius{20}}, {.q10 = Number{0}}));
    CHECK_FALSE(brew_days_left(Days{14}, Days{0}, Celsius{20}, {.q10 = Number{-1}}));
    const auto done = brew_days_left(Days{14}, Days{20}, Celsius{-5});
    REQUIRE(done);
    CHECK(done->value == 0);
    const auto rest = brew_days_left(Days{14}, Days{10}, Celsius{30});
    REQUIRE(rest);
    CHECK(rest->value == within(1e-9, 2));
  }
}

TEST_CASE("parts of brew and parts of water") {
  struct Row {
    double water, percent;
  };
  // Computed: 1 part in N + 1. Maricic et al. 2021, Sustainability 13:4042, pour nettle extract at
  // 1:3 (extract:water); plant juices at "1:500" are meant as 0.2 %.
  const Row rows[] = {{3, 25}, {10, 9.09}, {20, 4.76}, {500, 0.1996}};
  for (const Row& row : rows) {
    const auto share = brew_share({.water = Number{row.water}});
    REQUIRE(share);
    CHECK(share->value * 100 == within(0.005, row.percent));
  }

  const auto can = science::brew_portions({.water = Number{3}}, Litres{10});
  REQUIRE(can);
  CHECK(can->brew.value == within(1e-9, 2.5));
  CHECK(can->water.value == within(1e-9, 7.5));
  CHECK_FALSE(brew_share({.brew = Number{0}, .water = Number{3}}));
  CHECK_FALSE(brew_share({.water = Number{-1}}));
  CHECK_FALSE(science::brew_portions({.water = Number{3}}, Litres{-1}));
}

TEST_CASE("thinning to a conductivity or a nitrogen content") {
  SUBCASE("the mix has what was wanted") {
    // Balance of the parts, computed: (1 x 10 + n x 0.5)/(1 + n) = 2 gives n = 8/1.5.
    const auto parts =
        dilution_to_ec(DecisiemensPerMetre{10}, DecisiemensPerMetre{2}, DecisiemensPerMetre{0.5});
    REQUIRE(parts);
    CHECK(parts->brew.value == 1);
    CHECK(parts->water.value == within(1e-9, 8 / 1.5));
    const auto pure = dilution_to_ec(DecisiemensPerMetre{10}, DecisiemensPerMetre{2});
    REQUIRE(pure);
    CHECK(pure->water.value == within(1e-9, 4));
  }

  SUBCASE("nitrogen: urine of 7 g/L to 1.75 g/L is 3 water to 1 urine") {
    // Tilley et al. 2008, Compendium of Sanitation Systems, apply urine at 3:1; 7 g N/L is a common
    // figure. The quotient: computed.
    const auto parts = dilution_to_nitrogen(MilligramsPerLitre{7000}, MilligramsPerLitre{1750});
    REQUIRE(parts);
    CHECK(parts->water.value == within(1e-9, 3));
  }

  SUBCASE("edges") {
    const auto weak = dilution_to_ec(DecisiemensPerMetre{1}, DecisiemensPerMetre{2});
    REQUIRE(weak);
    CHECK(weak->water.value == 0);
    CHECK_FALSE(
        dilution_to_ec(DecisiemensPerMetre{10}, DecisiemensPerMetre{2}, DecisiemensPerMetre{2}));
    CHECK_FALSE(dilution_to_ec(DecisiemensPerMetre{-1}, DecisiemensPerMetre{2}));
    const auto thin = dilution_to_nitrogen(MilligramsPerLitre{100}, MilligramsPerLitre{200});
    REQUIRE(thin);
    CHECK(thin->water.value == 0);
    CHECK_FALSE(dilution_to_nitrogen(MilligramsPerLitre{100}, MilligramsPerLitre{0}));
    CHECK_FALSE(dilution_to_nitrogen(MilligramsPerLitre{-1}, MilligramsPerLitre{200}));
  }
}

TEST_CASE("nutrient in a volume") {
  // Joensson et al. 2004 (from memory): 4 kg of nitrogen in the 500 L of urine of a person and
  // year, 8 g/L.
  const auto content = science::nutrient_concentration(Kilograms{4}, Litres{500});
  REQUIRE(content);
  CHECK(content->value == within(1e-9, 8000));
  CHECK_FALSE(science::nutrient_concentration(Kilograms{4}, Litres{0}));
  CHECK_FALSE(science::nutrient_concentration(Kilograms{-4}, Litres{500}));
}

TEST_CASE("what is steeped goes into the liquid, the solids or the air") {
  // By hand: of 100 g N 60 come out, a quarter of them lost; conservation of mass is the check.
  const NutrientMass in{Kilograms{0.100}, Kilograms{0.020}, Kilograms{0.150}};
  const auto out = science::split_brew_nutrients(in, {.nitrogen_extracted = Fraction{0.6},
                                                      .phosphorus_extracted = Fraction{0.5},
                                                      .potassium_extracted = Fraction{0.9},
                                                      .nitrogen_lost = Fraction{0.25}});
  REQUIRE(out);
  CHECK(out->liquid.nitrogen.value == within(1e-12, 0.045));
  CHECK(out->liquid.phosphorus.value == within(1e-12, 0.010));
  CHECK(out->liquid.potassium.value == within(1e-12, 0.135));
  CHECK(out->nitrogen_lost.value == within(1e-12, 0.015));
  const NutrientMass back = out->liquid + out->solids;
  CHECK((back.nitrogen + out->nitrogen_lost).value == within(1e-12, in.nitrogen.value));
  CHECK(back.phosphorus.value == within(1e-12, in.phosphorus.value));
  CHECK(back.potassium.value == within(1e-12, in.potassium.value));
  CHECK_FALSE(science::split_brew_nutrients(in, {.nitrogen_extracted = Fraction{60}}));
  CHECK_FALSE(science::split_brew_nutrients(in, {.nitrogen_lost = Fraction{-0.1}}));
  CHECK_FALSE(science::split_brew_nutrients(in, {.phosphorus_extracted = Fraction{1.1}}));
  CHECK_FALSE(science::split_brew_nutrients(in, {.potassium_extracted = Fraction{1.1}}));
}

TEST_CASE("salt") {
  SUBCASE("bands of irrigation water") {
    // Ayers & Westcot 1985, FAO Irrigation and Drainage Paper 29, table 1 (from memory): none below
    // 0.7 dS/m, slight to moderate 0.7 to 3.0, severe above.
    const science::SaltBands fao{DecisiemensPerMetre{0.7}, DecisiemensPerMetre{3.0}};
    CHECK(science::salt_risk(DecisiemensPerMetre{0.69}, fao) == SaltRisk::none);
    CHECK(science::salt_risk(DecisiemensPerMetre{0.7}, fao) == SaltRisk::slight_to_moderate);
    CHECK(science::salt_risk(DecisiemensPerMetre{3.0}, fao) == SaltRisk::slight_to_moderate);
    CHECK(science::salt_risk(DecisiemensPerMetre{3.01}, fao) == SaltRisk::severe);
  }
}
