#include "science/gas/digestion.h"

#include <doctest/doctest.h>

#include <vector>

#include "tests/published/figures.h"

using measure::Days;
using measure::Fraction;
using measure::Kilograms;
using measure::Litres;
using science::gas_yield_is_possible;
using science::Ingredient;
using science::loading_rate;
using science::mix_slurry;
using science::NormalLitres;
using science::NormalLitresPerKilogram;
using science::retention_time;
using science::SlurryPart;
using science::specific_gas;

namespace {

SlurryPart part(double kilograms, double solids, double volatile_share, double nitrogen,
                double c_to_n) {
  SlurryPart feed;
  feed.material.mass = Kilograms{kilograms};
  feed.material.moisture = Fraction{1 - solids};
  feed.material.nitrogen = Fraction{nitrogen};
  feed.material.carbon = Fraction{nitrogen * c_to_n};
  feed.volatile_solids = Fraction{volatile_share};
  return feed;
}

}  // namespace

TEST_CASE("slurry thinned with water") {
  // Sasse 1988, Biogas Plants (GATE/GTZ), 2.1: fresh cattle manure of 16 % solids, mixed 1:1 with
  // water: "The prepared fermentation slurry then has a solids content of 8%".
  const auto thinned = science::diluted_solids(Fraction{0.16}, Kilograms{30}, Kilograms{30});
  REQUIRE(thinned);
  CHECK(thinned->value == within(1e-9, 0.08));
  const auto water = science::water_to_dilute(Kilograms{30}, Fraction{0.16}, Fraction{0.08});
  REQUIRE(water);
  CHECK(water->value == within(1e-9, 30));

  CHECK_FALSE(science::water_to_dilute(Kilograms{30}, Fraction{0.06}, Fraction{0.08}));
  CHECK_FALSE(science::water_to_dilute(Kilograms{30}, Fraction{0.06}, Fraction{0}));
  CHECK_FALSE(science::water_to_dilute(Kilograms{-1}, Fraction{0.16}, Fraction{0.08}));
  CHECK_FALSE(science::diluted_solids(Fraction{16}, Kilograms{30}, Kilograms{30}));
  CHECK_FALSE(science::diluted_solids(Fraction{0.16}, Kilograms{0}, Kilograms{0}));
  CHECK_FALSE(science::diluted_solids(Fraction{0.16}, Kilograms{30}, Kilograms{-1}));
}

TEST_CASE("a mix of feeds is balanced by mass") {
  // GTZ 1989 (Werner, Stoehr & Hees), p. 20, averages solids and C:N by fresh weight. That is exact
  // for the solids. For C:N it is not: computed for 100 kg of cattle dung (16 % solids, 1.7 % N,
  // C:N 20) and 10 kg of wheat straw (82 %, 0.5 %, 100), its rule gives 27.27, carbon over
  // nitrogen 30.48.
  const std::vector<SlurryPart> parts{part(100, 0.16, 0.80, 0.017, 20),
                                      part(10, 0.82, 0.94, 0.005, 100)};
  const auto mix = mix_slurry(parts);
  REQUIRE(mix);
  CHECK(mix->mass.value == within(1e-9, 110));
  CHECK(mix->total_solids_share.value == within(1e-9, 0.22));
  CHECK(mix->total_solids.value == within(1e-9, 24.2));
  CHECK(mix->volatile_solids.value == within(1e-9, 16 * 0.80 + 8.2 * 0.94));
  REQUIRE(mix->c_to_n);
  CHECK(mix->c_to_n->value == within(0.005, 9.54 / 0.313));
  CHECK(mix->c_to_n->value == within(0.005, 30.48));

  const double averaged = (20.0 * 100 + 100.0 * 10) / 110;
  CHECK(averaged == within(0.005, 27.27));
  CHECK(mix->c_to_n->value > averaged + 3);

  SUBCASE("water changes the solids, not C:N") {
    std::vector<SlurryPart> wet = parts;
    wet.push_back({.material = science::water_ingredient(Kilograms{110})});
    const auto slurry = mix_slurry(wet);
    REQUIRE(slurry);
    CHECK(slurry->total_solids_share.value == within(1e-9, 0.11));
    CHECK(slurry->volatile_solids.value == within(1e-9, mix->volatile_solids.value));
    REQUIRE(slurry->c_to_n);
    CHECK(slurry->c_to_n->value == within(1e-9, mix->c_to_n->value));
  }

  SUBCASE("an unknown feed leaves C:N unknown, not the solids") {
    std::vector<SlurryPart> unknown = parts;
    unknown.push_back(part(5, 0.12, 0.86, 0, 0));
    unknown.back().material.carbon.reset();
    const auto slurry = mix_slurry(unknown);
    REQUIRE(slurry);
    CHECK(slurry->total_solids.value == within(1e-9, 24.8));
    CHECK_FALSE(slurry->c_to_n);
  }

  SUBCASE("impossible parts give nothing") {
    CHECK_FALSE(mix_slurry(std::vector<SlurryPart>{}));
    CHECK_FALSE(mix_slurry(std::vector{part(0, 0.16, 0.8, 0.017, 20)}));
    CHECK_FALSE(mix_slurry(std::vector{part(-1, 0.16, 0.8, 0.017, 20)}));
    CHECK_FALSE(mix_slurry(std::vector{part(10, 16, 0.8, 0.017, 20)}));
    CHECK_FALSE(mix_slurry(std::vector{part(10, 0.16, 80, 0.017, 20)}));
  }
}

TEST_CASE("volume, daily slurry and retention") {
  // Sasse 1988, Biogas Plants (GATE/GTZ), 4.2: 60 L a day for 80 days need 4800 L.
  const auto volume = science::working_volume_for(Litres{60}, Days{1}, Days{80});
  const auto slurry = science::slurry_for(Litres{4800}, Days{80}, Days{1});
  const auto retention = retention_time(Litres{4800}, Litres{60}, Days{1});
  REQUIRE((volume && slurry && retention));
  CHECK(volume->value == within(1e-9, 4800));
  CHECK(slurry->value == within(1e-9, 60));
  CHECK(retention->value == within(1e-9, 80));

  SUBCASE("filling of 30 kg of manure and 30 L of water") {
    // Sasse 1988, 4.5.
    const double days[] = {30, 45, 60, 90};
    const double litres[] = {1800, 2700, 3600, 5400};
    for (int i = 0; i < 4; ++i) {
      const auto needed = science::working_volume_for(Litres{60}, Days{1}, Days{days[i]});
      REQUIRE(needed);
      CHECK(needed->value == within(1e-9, litres[i]));
    }
  }

  SUBCASE("a week's feed is asked like a day's") {
    const auto week = retention_time(Litres{4800}, Litres{7 * 60}, Days{7});
    REQUIRE(week);
    CHECK(week->value == within(1e-9, 80));
    const auto space = science::working_volume_for(Litres{7 * 60}, Days{7}, Days{80});
    REQUIRE(space);
    CHECK(space->value == within(1e-9, 4800));
  }

  CHECK_FALSE(retention_time(Litres{4800}, Litres{0}, Days{7}));
  CHECK_FALSE(retention_time(Litres{4800}, Litres{60}, Days{0}));
  CHECK_FALSE(science::working_volume_for(Litres{60}, Days{0}, Days{80}));
  CHECK_FALSE(science::slurry_for(Litres{4800}, Days{0}, Days{1}));
}

TEST_CASE("loading with volatile solids") {
  // GTZ 1989, p. 42: 12 kg of volatile solids a day into 15 m3, 0.80 computed.
  const auto loading = loading_rate(Kilograms{12}, Days{1}, Litres{15000});
  REQUIRE(loading);
  CHECK(loading->value == within(1e-9, 0.80));
  const auto week = loading_rate(Kilograms{84}, Days{7}, Litres{15000});
  REQUIRE(week);
  CHECK(week->value == within(1e-9, 0.80));
  CHECK_FALSE(loading_rate(Kilograms{12}, Days{0}, Litres{15000}));
  CHECK_FALSE(loading_rate(Kilograms{12}, Days{1}, Litres{0}));
  CHECK_FALSE(loading_rate(Kilograms{-12}, Days{1}, Litres{15000}));
}

TEST_CASE("daily figures of a municipal plant") {
  // Yeongcheon biogas plant, Korea, public daily record, 2 January 2018: 187 t of feed at 6.54 % VS
  // into 8000 m3, 13,277 m3 of gas. Derived figures as printed in the record.
  const Kilograms volatile_solids{187000 * 0.0654};
  const auto retention = retention_time(Litres{8e6}, Litres{187000}, Days{1});
  const auto loading = loading_rate(volatile_solids, Days{1}, Litres{8e6});
  const auto specific = specific_gas(NormalLitres{13277e3}, volatile_solids);
  REQUIRE((retention && loading && specific));
  CHECK(retention->value == within(1e-6, 42.780749));
  CHECK(loading->value == within(1e-9, 1.528725));
  CHECK(specific->value == within(1e-6, 1085.626911));

  struct Row {
    double tonnes, days;
  };
  // The same record: feed of a day and its printed retention.
  const Row rows[] = {{135, 59.259259}, {199, 40.201005}, {216, 37.037037}, {204, 39.215686},
                      {150, 53.333333}, {138, 57.971014}, {111, 72.072072}, {8, 1000}};
  for (const Row& row : rows) {
    const auto days = retention_time(Litres{8e6}, Litres{row.tonnes * 1000}, Days{1});
    REQUIRE(days);
    CHECK(days->value == within(1e-6, row.days));
  }
}

TEST_CASE("gas per kilogram of feed") {
  // Sasse 1988, 4.5: daily gas is divided by the fresh dung (30 kg), not by the slurry (60 L). At
  // 40 L/kg (Gutterer & Sasse 1993, 2.3) 25 kg of cattle dung give 1 m3.
  const auto gas = specific_gas(NormalLitres{1000}, Kilograms{25});
  REQUIRE(gas);
  CHECK(gas->value == within(1e-9, 40));
  CHECK_FALSE(specific_gas(NormalLitres{1000}, Kilograms{0}));
  CHECK_FALSE(specific_gas(NormalLitres{-1}, Kilograms{25}));
}

TEST_CASE("a yield above that of pure fat is a mistake somewhere") {
  const auto possible = [](double gas, double volatile_solids) {
    const auto yield = specific_gas(NormalLitres{gas}, Kilograms{volatile_solids});
    return yield && gas_yield_is_possible(*yield);
  };
  // FNR Guide to Biogas 2012, substrate table, a tonne of fresh matter: cattle slurry 10 % solids
  // of which 80 % volatile, 25 m3; rapeseed cake 92 %, 87 %, 660 m3.
  CHECK(possible(25e3, 1000 * 0.10 * 0.80));
  CHECK(possible(660e3, 1000 * 0.92 * 0.87));
  // Chen, Romano & Zhang (UC Davis): grease-trap waste 1.42 L/g VS, just under the limit.
  CHECK(gas_yield_is_possible(NormalLitresPerKilogram{1420}));
  // The FNR row for clippings, 12 %, 88 %, 175 m3, would be 1657 L/kg: its solids are wrong.
  CHECK_FALSE(possible(175e3, 1000 * 0.12 * 0.88));
  // Yeongcheon record, 28 February 2018: one feed typed as 9 t (likely 95) gives 1536 m3/t.
  CHECK_FALSE(gas_yield_is_possible(NormalLitresPerKilogram{1536}));
}
