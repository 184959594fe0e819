#include "science/animals/hens.h"

#include <doctest/doctest.h>

#include <cmath>

#include "science/animals/larvae.h"
#include "tests/published/figures.h"

using measure::Fraction;
using measure::Kilograms;
using measure::Number;

namespace {

constexpr double kKgPerPound = 0.45359237;  // exact by definition

// Elements in oxides, from atomic masses (IUPAC, abridged): P 30.974, K 39.098, O 15.999.
constexpr double kPhosphorusInP2o5 = 2 * 30.974 / (2 * 30.974 + 5 * 15.999);
constexpr double kPotassiumInK2o = 2 * 39.098 / (2 * 39.098 + 15.999);

// "A daily intake of 15 grams of protein is suggested" (text on NRC 1994 for laying hens).
constexpr Kilograms kProteinNeed = grams(15);

// Larvae on brewer's by-product, Animals 2020, 10, 682, Table 1.
const science::LarvaComposition kBrewersLarvae{Fraction{0.341}, Fraction{0.491}, Fraction{0.366},
                                               Fraction{0.0185}, Fraction{0.0044}};

}  // namespace

TEST_CASE("hens: laying rate of a published trial") {
  // Mwaniki, Neijat & Kiarie 2018: hen-day production 89.4 / 84.8 / 87.8 %.
  const double rate[] = {89.4, 84.8, 87.8};
  for (int diet = 0; diet < 3; ++diet) {
    // 1000 hen-days give ten times as many eggs as the percentage.
    const auto laid = science::laying_rate(Number{10 * rate[diet]}, Number{1000});
    REQUIRE(laid);
    CHECK(100 * laid->value == doctest::Approx(rate[diet]));
  }
}

TEST_CASE("hens: more eggs than hen-days come back as they are") {
  CHECK(science::laying_rate(Number{7}, Number{6})->value == doctest::Approx(7.0 / 6));
  CHECK(science::laying_rate(Number{0}, Number{6})->value == 0);
}

TEST_CASE("hens: feed per dozen eggs and per egg mass") {
  // UGA Extension 2016: "2-3 pounds of feed to produce a dozen eggs". A hen that eats 100 g a day
  // (the intake of the NRC tables) and lays at 89.4 % (Mwaniki et al. 2018) needs 1.342 kg:
  // computed from the formula, and inside what the extension service says.
  const auto dozen = science::feed_per_dozen_eggs(Kilograms{100}, Number{894});
  REQUIRE(dozen);
  CHECK(dozen->value == doctest::Approx(1.3423).epsilon(1e-4));
  CHECK(dozen->value > 2 * kKgPerPound);
  CHECK(dozen->value < 3 * kKgPerPound);
  // 100 g of feed for 48.01 g of eggs: computed from the formula.
  CHECK(science::feed_per_egg_mass(grams(100), grams(48.01))->value ==
        doctest::Approx(2.0829).epsilon(1e-4));
}

TEST_CASE("hens: content needed and shortfall") {
  // "Feeding the Laying Hen": calcium 4.10 g and lysine 750 mg a day are 4.32 % and 0.79 % of 95 g
  // of feed, "4.82% and 0.88%, respectively" of 85 g.
  CHECK(100 * science::content_needed(grams(4.10), grams(95))->value ==
        doctest::Approx(4.3158).epsilon(1e-5));
  CHECK(100 * science::content_needed(grams(0.750), grams(95))->value ==
        doctest::Approx(0.78947).epsilon(1e-5));
  CHECK(std::abs(100 * science::content_needed(grams(4.10), grams(85))->value - 4.82) < 0.005);
  CHECK(std::abs(100 * science::content_needed(grams(0.750), grams(85))->value - 0.88) < 0.005);

  // Same text: "(85 g x 4.32% =) 3.67 g calcium" against 4.10 g. Here from ten hens over a week.
  const auto calcium = science::nutrient_intake(grams(70 * 85 * 0.0432), Number{70}, grams(4.10));
  REQUIRE(calcium);
  CHECK(std::abs(calcium->per_hen_day.value * 1000 - 3.67) < 0.005);
  CHECK(calcium->of_need.value == doctest::Approx(3.672 / 4.10));
}

TEST_CASE("hens: what live larvae bring to a hen's day") {
  // Composition of Animals 2020, 10, 682; computed from the formula: 20 g live are 3.349 g of
  // protein, 22.3 % of 15 g; 163 g live are 27.29 g.
  const auto twenty = science::nutrients_in_larvae(grams(20), kBrewersLarvae);
  const auto protein = science::nutrient_intake(*twenty.protein, Number{1}, kProteinNeed);
  REQUIRE(protein);
  CHECK(std::abs(protein->per_hen_day.value * 1000 - 3.349) < 0.0005);
  CHECK(std::abs(100 * protein->of_need.value - 22.3) < 0.05);

  const auto plenty = science::nutrients_in_larvae(grams(163), kBrewersLarvae);
  CHECK(std::abs(science::hen_days_of_protein(*plenty.protein, kProteinNeed)->value - 27.29 / 15) <
        0.001);
  // A kilogram of live larvae, 167.43 g of protein: 11.16 hen-days.
  const auto kilogram = science::nutrients_in_larvae(Kilograms{1}, kBrewersLarvae);
  CHECK(science::hen_days_of_protein(*kilogram.protein, kProteinNeed)->value ==
        doctest::Approx(11.162).epsilon(1e-4));
}

TEST_CASE("hens: larvae's share of the ration on dry matter") {
  // 20 g live (6.82 g dry) beside 90 g of a feed of 90 % dry matter: 6.82 / 87.82 = 7.766 %. At a
  // limit of 10 % (common in layer trials with dried meal, e.g. Mwaniki et al. 2020) 81 g of dry
  // feed allow 9 g of dry larvae. Computed from the formula.
  const auto twenty = science::nutrients_in_larvae(grams(20), kBrewersLarvae);
  const auto share = science::larvae_share_of_ration(twenty.dry_matter, grams(81), Fraction{0.10});
  REQUIRE(share);
  CHECK(100 * share->share.value == doctest::Approx(7.7659).epsilon(1e-4));
  CHECK_FALSE(share->above_limit);
  CHECK(share->most_larvae_dry.value * 1000 == doctest::Approx(9));

  // At the limit exactly, where 0.016 / 0.160 comes out a last binary digit above 0.1; and above
  // it.
  CHECK_FALSE(science::larvae_share_of_ration(grams(16), grams(144), Fraction{0.1})->above_limit);
  CHECK(science::larvae_share_of_ration(grams(10.1), grams(90), Fraction{0.1})->above_limit);
  // Nothing but larvae, and no larvae.
  CHECK(science::larvae_share_of_ration(grams(5), grams(0), Fraction{0.1})->share.value == 1);
  CHECK(science::larvae_share_of_ration(grams(0), grams(90), Fraction{0.1})->share.value == 0);
}

TEST_CASE("hens: fresh manure against the USDA-NRCS table") {
  // Hens and pullets, 250 birds a unit: 11.45 short tons a year; 26.93 / 9.98 / 10.44 lb a ton.
  const double pounds = 11.45 * 2000 / 250 / 365;
  const double kilograms = pounds * kKgPerPound;
  const double per_pound_in_a_ton = kilograms / 2000;
  CHECK(close_to(pounds, 0.25096, 1e-5));
  const auto day = science::manure_from_hens(Number{1}, science::kHenManureFresh);
  REQUIRE(day);
  CHECK(close_to(day->mass.value, kilograms, 1e-4));
  CHECK(close_to(day->nitrogen.value, 26.93 * per_pound_in_a_ton, 1e-3));
  CHECK(close_to(day->phosphorus.value, 9.98 * per_pound_in_a_ton, 1e-3));
  CHECK(close_to(day->potassium.value, 10.44 * per_pound_in_a_ton, 1e-3));
}

TEST_CASE("hens: manure after a year against Lorimor & Xin 1999") {
  // 9.52 Mg a year from 1000 birds; N 18.5, P2O5 41.0, K2O 26.0 kg a Mg, as removed.
  const double tonnes = 9.52 / 1000;
  const auto year = science::manure_from_hens(Number{365}, science::kHenManureAfterAYear);
  REQUIRE(year);
  CHECK(close_to(year->mass.value, 1000 * tonnes, 1e-3));
  CHECK(close_to(year->nitrogen.value, 18.5 * tonnes, 1e-3));
  CHECK(close_to(year->phosphorus.value, 41.0 * kPhosphorusInP2o5 * tonnes, 1e-3));
  CHECK(close_to(year->potassium.value, 26.0 * kPotassiumInK2o * tonnes, 1e-3));

  // The two stages must not be mixed: about 69 % of the nitrogen is gone (computed from both
  // tables).
  const auto fresh = science::manure_from_hens(Number{365}, science::kHenManureFresh);
  CHECK(1 - year->nitrogen / fresh->nitrogen == doctest::Approx(0.685).epsilon(0.01));
}

TEST_CASE("hens: manure of a flock is within what an extension bulletin counts on") {
  // Purdue ID-206: "30,000 layers produce 40 tons of manure a month", as handled: 39.8 g a hen-day,
  // so between fresh and a year old.
  const double handled = 40 * 2000 * kKgPerPound * 12 / 365;
  CHECK(science::manure_from_hens(Number{30000}, science::kHenManureFresh)->mass.value > handled);
  CHECK(science::manure_from_hens(Number{30000}, science::kHenManureAfterAYear)->mass.value <
        handled);
}

TEST_CASE("hens: nothing to divide by gives nothing") {
  CHECK_FALSE(science::laying_rate(Number{5}, Number{0}));
  CHECK_FALSE(science::laying_rate(Number{5}, Number{-1}));
  CHECK_FALSE(science::feed_per_dozen_eggs(Kilograms{3}, Number{0}));
  CHECK_FALSE(science::feed_per_egg_mass(Kilograms{3}, Kilograms{0}));
  CHECK_FALSE(science::nutrient_intake(Kilograms{1}, Number{0}, kProteinNeed));
  CHECK_FALSE(science::nutrient_intake(Kilograms{1}, Number{10}, Kilograms{0}));
  CHECK_FALSE(science::content_needed(grams(4.1), Kilograms{0}));
  CHECK_FALSE(science::hen_days_of_protein(Kilograms{1}, Kilograms{0}));
  CHECK_FALSE(science::larvae_share_of_ration(Kilograms{0}, Kilograms{0}, Fraction{0.1}));
  CHECK_FALSE(science::larvae_share_of_ration(Kilograms{-1}, Kilograms{2}, Fraction{0.1}));
  CHECK_FALSE(science::larvae_share_of_ration(Kilograms{1}, Kilograms{2}, Fraction{1}));
  CHECK_FALSE(science::manure_from_hens(Number{-1}, science::kHenManureFresh));
}
