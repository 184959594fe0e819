#include <doctest/doctest.h>

#include "science/gas/chemistry.h"
#include "tests/published/figures.h"

using measure::Celsius;
using measure::Ph;
using science::acids_to_alkalinity;
using science::fos_tac;
using science::free_ammonia;
using science::MilligramsPerLitre;
using science::Millilitres;

namespace {

double share(double ph, double celsius) {
  const auto ammonia = free_ammonia(MilligramsPerLitre{1000}, Ph{ph}, Celsius{celsius});
  REQUIRE(ammonia);
  return ammonia->share.value;
}

double free_nitrogen(double total, double ph, double celsius) {
  const auto ammonia = free_ammonia(MilligramsPerLitre{total}, Ph{ph}, Celsius{celsius});
  REQUIRE(ammonia);
  return ammonia->nitrogen.value;
}

}  // namespace

TEST_CASE("volatile acids and alkalinity by titration") {
  struct Row {
    double first, second, tac, fos, ratio;
  };
  // Nordmann 1977: TAC = 250 V1, FOS = 500 (1.66 V2 - 0.15) for 20 mL and 0.1 N acid; computed.
  const Row rows[] = {
      {35, 3, 8750, 2415, 0.276}, {30, 2, 7500, 1585, 0.2113}, {25, 1, 6250, 755, 0.1208}};
  for (const Row& row : rows) {
    CAPTURE(row.first);
    const auto acids = fos_tac({Millilitres{row.first}, Millilitres{row.second}});
    REQUIRE(acids);
    CHECK(acids->alkalinity.value == within(1e-9, row.tac));
    CHECK(acids->volatile_acids.value == within(1e-9, row.fos));
    CHECK(acids->ratio.value == within(0.00006, row.ratio));
    CHECK_FALSE(acids->below_range);

    // A sample of 5 mL takes a quarter of the acid (common practice, no source).
    const auto small =
        fos_tac({Millilitres{row.first / 4}, Millilitres{row.second / 4}, Millilitres{5}});
    REQUIRE(small);
    CHECK(small->alkalinity.value == within(1e-6, row.tac));
    CHECK(small->volatile_acids.value == within(1e-6, row.fos));
  }

  SUBCASE("below 0.0904 mL the formula falls below zero") {
    // Computed: 0.15/1.66.
    const auto below = fos_tac({Millilitres{30}, Millilitres{0.0903}});
    const auto above = fos_tac({Millilitres{30}, Millilitres{0.0904}});
    REQUIRE((below && above));
    CHECK(below->below_range);
    CHECK(below->volatile_acids.value == 0);
    CHECK(below->ratio.value == 0);
    CHECK_FALSE(above->below_range);
  }

  CHECK_FALSE(fos_tac({Millilitres{0}, Millilitres{1}}));
  CHECK_FALSE(fos_tac({Millilitres{30}, Millilitres{-1}}));
  CHECK_FALSE(fos_tac({Millilitres{30}, Millilitres{1}, Millilitres{0}}));
}

TEST_CASE("volatile acids over alkalinity from the laboratory") {
  // Yeongcheon biogas plant, Korea, public daily record, 2 January 2018: 3359 and 16068 mg/L,
  // printed ratio 0.209049.
  const auto ratio = acids_to_alkalinity(MilligramsPerLitre{3359}, MilligramsPerLitre{16068});
  REQUIRE(ratio);
  CHECK(ratio->value == within(1e-6, 0.209049));
  CHECK_FALSE(acids_to_alkalinity(MilligramsPerLitre{3359}, MilligramsPerLitre{0}));
  CHECK_FALSE(acids_to_alkalinity(MilligramsPerLitre{-1}, MilligramsPerLitre{16068}));
}

TEST_CASE("free ammonia") {
  SUBCASE("shares printed for 25 degC") {
    struct Row {
      double ph, percent;
    };
    // Emerson et al. 1975, J. Fish. Res. Board Can. 32:2379, as printed in secondary texts (to
    // 0.1).
    const Row rows[] = {{6.5, 0.18}, {7.0, 0.56}, {7.5, 1.77}, {8.0, 5.37}, {8.5, 15.3}};
    for (const Row& row : rows) {
      CAPTURE(row.ph);
      CHECK(share(row.ph, 25) * 100 == within(0.1, row.percent));
    }
  }

  SUBCASE("shares over a digester's range") {
    struct Row {
      double celsius, at_7, at_7_5, at_8, at_8_5;
    };
    // Computed from Emerson's pKa = 0.09018 + 2729.92/T.
    const Row rows[] = {
        {20, 0.00394, 0.01236, 0.03807, 0.11123}, {30, 0.00796, 0.02476, 0.07432, 0.20248},
        {35, 0.01111, 0.03432, 0.10104, 0.26223}, {37, 0.01266, 0.03896, 0.11363, 0.28846},
        {40, 0.01533, 0.04692, 0.13470, 0.32988}, {55, 0.03751, 0.10971, 0.28041, 0.55202}};
    for (const Row& row : rows) {
      CAPTURE(row.celsius);
      CHECK(share(7.0, row.celsius) == within(0.000006, row.at_7));
      CHECK(share(7.5, row.celsius) == within(0.000006, row.at_7_5));
      CHECK(share(8.0, row.celsius) == within(0.000006, row.at_8));
      CHECK(share(8.5, row.celsius) == within(0.000006, row.at_8_5));
    }
  }

  SUBCASE("amounts") {
    // Yeongcheon biogas plant, public daily record, January 2018: printed free ammonia nitrogen.
    CHECK(free_nitrogen(2814, 7.84, 37.9) == within(1e-5, 241.902635));
    CHECK(free_nitrogen(2821, 7.80, 38.0) == within(1e-5, 224.188948));
    // Computed from the formula.
    CHECK(free_nitrogen(3000, 7.5, 35) == within(0.01, 102.97));
    CHECK(free_nitrogen(3000, 8.0, 35) == within(0.01, 303.12));
    CHECK(free_nitrogen(3000, 8.0, 55) == within(0.01, 841.22));
  }

  SUBCASE("ammonia is more than its nitrogen") {
    // Virginia Tech SPES-201: N to NH3 1.2158. Mistaking one for the other is off by 22 %.
    const auto ammonia = free_ammonia(MilligramsPerLitre{3000}, Ph{8}, Celsius{35});
    REQUIRE(ammonia);
    CHECK(ammonia->ammonia / ammonia->nitrogen == within(0.001, 1.2158));
    // Anthonisen et al. 1976, J. WPCF 48:835 (from memory): 1000 mg/L at pH 8 and 20 degC
    // give 46.15 mg NH3/L, 38.0 as nitrogen.
    const auto other = free_ammonia(MilligramsPerLitre{1000}, Ph{8}, Celsius{20});
    REQUIRE(other);
    CHECK(other->ammonia.value == within(0.2, 46.153));
    CHECK(other->nitrogen.value == within(0.1, 38.008));
  }

  SUBCASE("outside its range there is none") {
    CHECK_FALSE(free_ammonia(MilligramsPerLitre{-1}, Ph{8}, Celsius{35}));
    CHECK_FALSE(free_ammonia(MilligramsPerLitre{1000}, Ph{14.1}, Celsius{35}));
    CHECK_FALSE(free_ammonia(MilligramsPerLitre{1000}, Ph{-0.1}, Celsius{35}));
    CHECK_FALSE(free_ammonia(MilligramsPerLitre{1000}, Ph{8}, Celsius{-1}));
    CHECK_FALSE(free_ammonia(MilligramsPerLitre{1000}, Ph{8}, Celsius{60.1}));
  }
}
