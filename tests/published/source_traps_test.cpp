// Where sources misprint or mislead, and the test that would fail if the program fell for it. Cases
// named "trap: ..." are below; where a trap can only be seen in the whole program, the script of
// tests/published_logbook/ is named.
//
//  1 water vapour at 38 °C misprinted       trap: vapour pressure at 38 degC; digester_figures.py
//  2 FNR's clippings: more gas than fat     trap: FNR clippings; digester_gas_due.py
//  3 GTZ: 75 and 72 days for one plant      trap: GTZ's two retention times; digester_figures.py
//  4 eggplant's potash, a digit missing     trap: eggplant's potash; nutrient_rates.py
//  5 SGS: 0.9822 lb/acre for 1 kg/ha        trap: SGS's pounds an acre; nutrient_rates.py
//  6 C:N averaged by fresh weight           trap: C:N is not averaged; digester_figures.py
//  7 ACGIH's old H2S limit of 15 ppm        gas_safety.py: no caution gives a ppm to work by
//  8 ammonia taken for its nitrogen         trap: ammonia is not its nitrogen
//  9 "Nm3" at 20 °C                         trap: a normal cubic metre is at 0 degC;
//                                           digester_figures.py
// 10 P and K as element or as oxide         trap: an oxide is not its element; nutrient_rates.py
// 11 short ton and tonne                    trap: a short ton is not a tonne; nutrient_rates.py
// 12 A3601's available nitrogen             trap: available nitrogen is not what was excreted;
//                                           nutrient_rates.py
#include <doctest/doctest.h>

#include <vector>

#include "science/gas/chemistry.h"
#include "science/gas/digestion.h"
#include "science/gas/gas.h"
#include "science/soil/crop_removal.h"
#include "science/soil/nutrients.h"
#include "tests/published/figures.h"

TEST_CASE("trap: vapour pressure at 38 degC") {
  // A copy of the CRC Handbook 1992-93 table prints 6.6398 kPa; Hyland & Wexler (ASHRAE 2017, run
  // in PsychroLib 1.1.1) have 6.63147. The slip is seen in the table itself, which prints 6.2795 at
  // 37 and 6.9969 at 39 degC: there it would bend the other way than all its neighbours.
  const auto vapour = science::saturation_vapour_pressure(measure::Celsius{38});
  REQUIRE(vapour);
  CHECK(is_near(vapour->value, 6.63147, 0.003));
  CHECK_FALSE(is_near(vapour->value, 6.6398, 0.004));
  const auto before = science::saturation_vapour_pressure(measure::Celsius{37});
  const auto after = science::saturation_vapour_pressure(measure::Celsius{39});
  REQUIRE((before && after));
  CHECK(is_near(before->value - 2 * vapour->value + after->value, 0.0165, 0.003));
  CHECK_FALSE(is_near(6.2795 - 2 * 6.6398 + 6.9969, 0.0165, 0.003));
}

TEST_CASE("trap: FNR clippings") {
  // FNR Guide to Biogas 2012: prunings and clippings, 12 % solids, 88 % of them volatile, 175 m3 of
  // gas a tonne. Pure fat (triolein, Buswell & Boyle: 40 + 17 mol of 885.453 g) gives 1443 L a kg.
  const double clippings = 175e3 / (1000 * 0.12 * 0.88);
  CHECK(is_near(clippings, 1657, 0.5));
  CHECK_FALSE(science::gas_yield_is_possible(science::NormalLitresPerKilogram{clippings}));
  const double fat = 57 * 22.414 / 0.885453;
  CHECK(science::gas_yield_is_possible(science::NormalLitresPerKilogram{fat * 0.999}));
  CHECK_FALSE(science::gas_yield_is_possible(science::NormalLitresPerKilogram{fat * 1.01}));
}

TEST_CASE("trap: GTZ's two retention times") {
  // GTZ 1989 p. 38 speaks of 75 and of 72 days for one plant of 15 m3. Retention is the volume over
  // a day's slurry (Sasse 1988, 4.2) and nothing else: 200 L a day are 75 days, 72 take 208.3 L.
  using measure::Days;
  using measure::Litres;
  const auto stay = science::retention_time(Litres{15000}, Litres{200}, Days{1});
  REQUIRE(stay);
  CHECK(is_near(stay->value, 75, 1e-9));
  const auto slurry = science::slurry_for(Litres{15000}, Days{72}, Days{1});
  REQUIRE(slurry);
  CHECK(is_near(slurry->value, 208.333, 0.001));
}

TEST_CASE("trap: eggplant's potash") {
  // New England Vegetable Management Guide, table 4: 16 tons of eggplant take 207 lb N and 34 lb
  // K2O an acre, 1.06 kg K2O a tonne; Hegde 1997 has 2.5 to 3 kg of K (3 to 3.6 of K2O). No row
  // may stand where the misprinted one would.
  const auto row = science::find_crop_removal("eggplant");
  if (row) CHECK(row->content.potash.value > 2);
}

TEST_CASE("trap: C:N is not averaged") {
  // GTZ 1989 p. 20 averages C:N by fresh weight: 100 kg of dung (16 % solids, 1.7 % N, C:N 20) and
  // 10 kg of straw (82 %, 0.5 %, 100) would have 27.27. Carbon over nitrogen, by mass balance:
  // (5.44 + 4.10) / (0.272 + 0.041) = 30.48.
  using measure::Fraction;
  using measure::Kilograms;
  std::vector<science::SlurryPart> parts(2);
  parts[0].material.mass = Kilograms{100};
  parts[0].material.moisture = Fraction{0.84};
  parts[0].material.nitrogen = Fraction{0.017};
  parts[0].material.carbon = Fraction{0.34};
  parts[0].volatile_solids = Fraction{0.8};
  parts[1].material.mass = Kilograms{10};
  parts[1].material.moisture = Fraction{0.18};
  parts[1].material.nitrogen = Fraction{0.005};
  parts[1].material.carbon = Fraction{0.5};
  parts[1].volatile_solids = Fraction{0.94};
  const auto mix = science::mix_slurry(parts);
  REQUIRE(mix);
  REQUIRE(mix->c_to_n);
  CHECK(is_near(mix->c_to_n->value, 30.48, 0.005));
  CHECK_FALSE(is_near(mix->c_to_n->value, 27.27, 1));
}

TEST_CASE("trap: ammonia is not its nitrogen") {
  // Hansen et al. 1998: digestion is unharmed below 1.1 g of free ammonia as N a litre; 6 g/L of
  // total ammonia nitrogen at pH 8 and 45 degC hold 1.055 g as N (computed), 1.283 g as NH3.
  const auto free = science::free_ammonia(science::MilligramsPerLitre{6000}, measure::Ph{8},
                                          measure::Celsius{45});
  REQUIRE(free);
  CHECK(is_near(free->nitrogen.value, 1055, 1));
  CHECK(free->nitrogen.value < 1100);
  CHECK(free->ammonia.value > 1100);
  CHECK(is_near(free->ammonia.value / free->nitrogen.value, 17.031 / 14.007, 0.001));
}

TEST_CASE("trap: a normal cubic metre is at 0 degC") {
  // DIN 1343: 273.15 K, 101.325 kPa, dry. Some pages call 20 degC "normal", which is 7.3 % more.
  const auto volume =
      science::normal_volume(measure::Litres{100}, {.temperature = measure::Celsius{20},
                                                    .barometric = measure::Kilopascals{101.325},
                                                    .relative_humidity = measure::Fraction{0}});
  REQUIRE(volume);
  CHECK(is_near(volume->value, 93.178, 0.001));
  CHECK_FALSE(is_near(volume->value, 100, 1));
}

TEST_CASE("trap: an oxide is not its element") {
  // IFA/SGS: P2O5 x 0.4364 = P, K2O x 0.8302 = K. German Fertiliser Ordinance 2017, annex 7: 0.80
  // P2O5 = 0.35 P.
  using science::KilogramsPerTonne;
  const auto elements = science::to_elements(
      science::OxideContent{.phosphate = KilogramsPerTonne{0.80}, .potash = KilogramsPerTonne{1}});
  CHECK(is_near(elements.phosphorus.value, 0.35, 0.001));
  CHECK(is_near(elements.potassium.value, 0.8302, 0.0001));
  CHECK_FALSE(is_near(elements.phosphorus.value, 0.80, 0.1));
}

TEST_CASE("trap: available nitrogen is not what was excreted") {
  // Univ. of Wisconsin A3601: a 1,400 lb cow, 21.9 tons a year, 65 lb of nitrogen for the first
  // crop; UMass: 10 lb of total N a ton, 219 lb. Taking the 65 for the total would leave
  // 3 lb a ton, and a first year of it 16 (Montana State: a quarter of the organic part).
  const double total = 10 * 21.9;
  const auto available = science::first_year_nitrogen(
      {science::KilogramsPerTonne{10 * 0.5}}, {measure::Fraction{0.25}, measure::Fraction{0.66}});
  REQUIRE(available);
  const double pounds = available->available.value / 0.5 * 21.9;
  CHECK(pounds < total);
  CHECK(is_near(pounds, 54.75, 0.01));
  CHECK_FALSE(is_near(pounds, 65 * 0.25, 10));
}
