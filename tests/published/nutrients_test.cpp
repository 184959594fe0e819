#include "science/soil/nutrients.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <vector>

#include "science/soil/crop_removal.h"
#include "tests/published/figures.h"

using measure::Fraction;
using measure::Kilograms;
using measure::SquareMetres;
using science::application_rates;
using science::first_year_nitrogen;
using science::KilogramsPerHectare;
using science::KilogramsPerTonne;
using science::NutrientContent;
using science::NutrientMass;
using science::NutrientRate;
using science::OxideContent;
using science::OxideMass;
using science::PoundsPerAcre;
using science::to_elements;
using science::to_kilograms_per_hectare;
using science::TonnesPerHectare;

namespace {

KilogramsPerTonne per_ton(double pounds) {
  return KilogramsPerTonne{pounds * 0.5};  // of 2000 lb and of 1000 kg, exactly
}
double pounds_per_ton(KilogramsPerTonne content) {
  return content.value / 0.5;
}
KilogramsPerHectare per_acre(double pounds) {
  return to_kilograms_per_hectare(PoundsPerAcre{pounds});
}
double pounds_per_acre(KilogramsPerHectare rate) {
  return rate.value / per_acre(1).value;
}
// 1 short ton = 907.18474 kg, 1 acre = 4046.8564224 m2, both exact.
double tons_per_acre(TonnesPerHectare rate) {
  return rate.value / 0.90718474 * 0.40468564224;
}

}  // namespace

TEST_CASE("elements and oxides") {
  // IFA/SGS conversion tables: P to P2O5 2.2914, back 0.4364; K to K2O 1.2046, back 0.8302.
  // (Virginia Tech SPES-201 prints 2.2910 and 1.2051, the second 0.04 % high.)
  CHECK(1 / science::kPhosphorusInPhosphate.value == within(0.0001, 2.2914));
  CHECK(1 / science::kPotassiumInPotash.value == within(0.0001, 1.2046));
  const NutrientMass elements = to_elements(OxideMass{Kilograms{1}, Kilograms{1}, Kilograms{1}});
  CHECK(elements.nitrogen.value == 1);
  CHECK(elements.phosphorus.value == within(0.0001, 0.4364));
  CHECK(elements.potassium.value == within(0.0001, 0.8302));

  SUBCASE("rows that print both") {
    struct Row {
      double phosphate, phosphorus;
    };
    // German Fertiliser Ordinance (DueV) 2017, annex 7: kg of P2O5 and of P in 100 kg.
    const Row rows[] = {{0.80, 0.35}, {0.30, 0.13}, {1.04, 0.45}, {1.13, 0.49}};
    for (const Row& row : rows) {
      CHECK(to_elements(OxideContent{.phosphate = KilogramsPerTonne{row.phosphate}})
                .phosphorus.value == within(0.006, row.phosphorus));
    }
  }
}

TEST_CASE("rates and areas") {
  // IFA/SGS conversion tables: 1 lb/acre = 1.1208 kg/ha. The same page prints 0.9822 for the way
  // back; GNU Units 2.22 has 0.89217912.
  CHECK(per_acre(1).value == within(0.00006, 1.1208));
  CHECK(pounds_per_acre(KilogramsPerHectare{1}) == within(1e-7, 0.89217912));
  CHECK(pounds_per_acre(KilogramsPerHectare{1}) != within(0.01, 0.9822));

  const NutrientMass mass{Kilograms{1.5}, Kilograms{0.3}, Kilograms{2}};
  const auto rate = science::spread_over(mass, SquareMetres{100});
  REQUIRE(rate);
  // 1 kg on 100 m2 is 100 kg/ha, by the definition of the hectare.
  CHECK(rate->nitrogen.value == within(1e-9, 150));
  CHECK(rate->phosphorus.value == within(1e-9, 30));
  CHECK(rate->potassium.value == within(1e-9, 200));
  const NutrientMass back = science::on_area(*rate, SquareMetres{100});
  CHECK(back.nitrogen.value == within(1e-12, 1.5));
  CHECK(back.phosphorus.value == within(1e-12, 0.3));
  CHECK(back.potassium.value == within(1e-12, 2));
  CHECK_FALSE(science::spread_over(mass, SquareMetres{0}));
}

TEST_CASE("a manure application worked through") {
  // Montana State University Extension, nutrient management worksheet, step 5: 21 lb of N, 8 of
  // NH4-N, 0 of NO3-N, 18 of P2O5, 26 of K2O a short ton; the crop needs 160 N, 50 P2O5, 75 K2O lb
  // an acre.
  const auto nitrogen =
      first_year_nitrogen({per_ton(21), per_ton(8), per_ton(0)}, {Fraction{0.25}, Fraction{0.66}});
  REQUIRE(nitrogen);
  CHECK(pounds_per_ton(nitrogen->organic) == within(1e-9, 13));
  CHECK(pounds_per_ton(nitrogen->mineralised) == within(1e-9, 3.25));
  CHECK(pounds_per_ton(nitrogen->available) == within(1e-9, 8.53));

  const NutrientContent available =
      to_elements(OxideContent{nitrogen->available, per_ton(18), per_ton(26)});
  const NutrientRate need{per_acre(160), per_acre(50) * science::kPhosphorusInPhosphate.value,
                          per_acre(75) * science::kPotassiumInPotash.value};
  const auto rates = application_rates(need, available);
  REQUIRE((rates.by_nitrogen && rates.by_phosphorus && rates.by_potassium));
  CHECK(tons_per_acre(*rates.by_nitrogen) == within(0.0006, 18.757));
  CHECK(tons_per_acre(*rates.by_phosphorus) == within(0.0006, 2.778));
  CHECK(tons_per_acre(*rates.by_potassium) == within(0.0006, 2.885));

  SUBCASE("a material without a nutrient has no rate by it; no need asks for none") {
    const auto partial =
        application_rates({KilogramsPerHectare{100}, KilogramsPerHectare{-5}, {}},
                          {.nitrogen = KilogramsPerTonne{4}, .phosphorus = KilogramsPerTonne{1}});
    REQUIRE((partial.by_nitrogen && partial.by_phosphorus));
    CHECK(partial.by_nitrogen->value == within(1e-9, 25));
    CHECK(partial.by_phosphorus->value == 0);
    CHECK_FALSE(partial.by_potassium);
  }
}

TEST_CASE("first-year nitrogen of what cannot be") {
  const science::FirstYearShares shares{Fraction{0.25}, Fraction{0.66}};
  CHECK_FALSE(first_year_nitrogen({per_ton(8), per_ton(8), per_ton(1)}, shares));
  CHECK_FALSE(first_year_nitrogen({per_ton(8), per_ton(-1), per_ton(1)}, shares));
  CHECK_FALSE(first_year_nitrogen({per_ton(8), per_ton(1), per_ton(-1)}, shares));
  CHECK_FALSE(first_year_nitrogen({per_ton(8)}, {Fraction{25}, Fraction{0.66}}));
  CHECK_FALSE(first_year_nitrogen({per_ton(8)}, {Fraction{0.25}, Fraction{66}}));
  CHECK_FALSE(first_year_nitrogen({per_ton(8)}, {Fraction{0.25}, Fraction{0.66}, Fraction{2}}));
  // All of it mineral, although the decimal parts do not add up in binary.
  const auto mineral = first_year_nitrogen(
      {KilogramsPerTonne{0.3}, KilogramsPerTonne{0.1}, KilogramsPerTonne{0.2}}, shares);
  REQUIRE(mineral);
  CHECK(mineral->organic.value == 0);
  CHECK(mineral->available.value == within(1e-12, 0.1 * 0.66 + 0.2));
}

TEST_CASE("available is not excreted") {
  // A cow of 1400 lb drops 21.9 tons a year (Univ. of Wisconsin A3601) with 10 lb of N a ton, about
  // half of it ammonia (UMass). Its 219 lb come, with the shares of Montana State, to some 100 lb
  // that a crop can take. A3601's own 65 lb is the available N: taken for the total it would be cut
  // twice.
  const auto nitrogen =
      first_year_nitrogen({per_ton(10), per_ton(5)}, {Fraction{0.25}, Fraction{0.66}});
  REQUIRE(nitrogen);
  const double pounds = 21.9 * pounds_per_ton(nitrogen->available);
  CHECK(pounds == within(0.01, 99.65));
  CHECK(pounds > 65);
  CHECK(pounds < 219);
}

TEST_CASE("what a harvest takes off") {
  SUBCASE("worked need of a tomato field") {
    // horticulture.org.za: 100 t/ha at 2.5, 0.75 and 3 kg of N, P and K a tonne are 250, 75, 300
    // kg/ha.
    const auto taken = science::nutrients_in(
        Kilograms{100e3}, {KilogramsPerTonne{2.5}, KilogramsPerTonne{0.75}, KilogramsPerTonne{3}});
    CHECK(taken.nitrogen.value == within(1e-9, 250));
    CHECK(taken.phosphorus.value == within(1e-9, 75));
    CHECK(taken.potassium.value == within(1e-9, 300));
  }

  SUBCASE("the table in kilograms a tonne") {
    struct Row {
      const char* crop;
      double nitrogen, phosphate, potash;
    };
    // New England Vegetable Management Guide, table 4, converted by hand (1 lb a short ton is 0.5
    // kg/t); dry bean: Field Crop News (Ontario) 2025, printed in kg/t. Carrots' phosphate is 0.35
    // kg P a tonne (USDA FoodData Central, from memory) x 2.2914: that table prints half of it.
    const Row rows[] = {{"cabbage", 3.12, 0.75, 3.25},     {"carrot", 1.60, 0.80, 4.00},
                        {"cauliflower", 3.75, 1.50, 3.58}, {"celery", 1.95, 0.80, 4.35},
                        {"kale", 6.25, 1.50, 5.50},        {"lettuce", 2.50, 1.17, 5.00},
                        {"muskmelon", 4.32, 0.77, 5.45},   {"onion", 2.75, 0.50, 2.75},
                        {"dry-bean", 41.6, 13.8, 13.8}};
    for (const Row& row : rows) {
      CAPTURE(row.crop);
      const auto removal = science::find_crop_removal(row.crop);
      REQUIRE(removal);
      CHECK(removal->content.nitrogen.value == within(0.006, row.nitrogen));
      CHECK(removal->content.phosphate.value == within(0.006, row.phosphate));
      CHECK(removal->content.potash.value == within(0.006, row.potash));
      CHECK_FALSE(removal->source.empty());
    }
    CHECK_FALSE(science::find_crop_removal("eggplant"));
    CHECK_FALSE(science::find_crop_removal(""));
  }

  SUBCASE("carrots are as food tables find them") {
    // USDA FoodData Central, raw carrots in 100 g, from memory: protein 0.93 g (N by 6.25), P 35
    // mg, K 320 mg.
    const auto taken =
        science::removed_by_harvest(Kilograms{1000}, science::find_crop_removal("carrot")->content);
    CHECK(taken.nitrogen.value == within(0.15, 9.3 / 6.25));
    CHECK(taken.phosphorus.value == within(0.001, 0.35));
    CHECK(taken.potassium.value == within(0.15, 3.2));
  }

  SUBCASE("another source is of the same size") {
    struct Row {
      const char* crop;
      double nitrogen, phosphorus, potassium;
    };
    // Texas, IPNI TX-55 (2012), elements in kg/t: within a factor of two and a half.
    const Row rows[] = {{"muskmelon", 2.32, 0.455, 3.06}, {"onion", 2.21, 0.69, 2.72}};
    for (const Row& row : rows) {
      CAPTURE(row.crop);
      const auto removal = science::find_crop_removal(row.crop);
      REQUIRE(removal);
      const auto taken = science::removed_by_harvest(Kilograms{1000}, removal->content);
      for (const double ratio :
           {taken.nitrogen.value / row.nitrogen, taken.phosphorus.value / row.phosphorus,
            taken.potassium.value / row.potassium}) {
        CHECK(ratio > 0.3);
        CHECK(ratio < 2.5);
      }
    }
  }

  SUBCASE("a bed's harvest in the elements") {
    // 20 kg of cabbage: 62.5 g N, 15 g P2O5, 65 g K2O, computed; 6.55 g P and 53.96 g K.
    const auto cabbage = science::find_crop_removal("cabbage");
    REQUIRE(cabbage);
    const auto taken = science::removed_by_harvest(Kilograms{20}, cabbage->content);
    CHECK(taken.nitrogen.value * 1000 == within(0.01, 62.5));
    CHECK(taken.phosphorus.value * 1000 == within(0.01, 6.55));
    CHECK(taken.potassium.value * 1000 == within(0.01, 53.96));
  }
}
