#include <doctest/doctest.h>

#include "build_history.h"
#include "kinds/available.h"
#include "kinds/bed/facts.h"
#include "kinds/bed/given.h"
#include "kinds/bed/load.h"
#include "kinds/bed/needs.h"
#include "kinds/bed/says.h"
#include "kinds/kind.h"

namespace kinds_bed_nutrients_test {

using build::figure;
using measure::Dimension;
using measure::Fraction;
using measure::Kilograms;

namespace {

constexpr double kSquareFoot = 0.3048 * 0.3048;
constexpr double kGallon = 3.785411784;

model::History bed(const char* crop, double expected_kg) {
  model::History history =
      build::batch("bed", "bed-1", build::day("2026-03-01"), build::day("2026-06-01"));
  build::setting(history, "crop", crop);
  build::setting(history, "area", "100 ft2", measure::Value{Dimension::kArea, 100 * kSquareFoot});
  build::setting(history, "expected", "", measure::Value{Dimension::kMass, expected_kg});
  build::deed(history, "planted", build::at(build::day("2026-04-01")));
  return history;
}

std::string rate_words(const model::Movement& load, const model::History& history) {
  const model::Rules rules;
  return kinds::bed::rate_words(load, kinds::bed::Study(history, rules));
}

// A load that says itself what it holds.
void give(model::History& history, const char* material, Kilograms nitrogen, Kilograms phosphorus,
          Kilograms potassium) {
  auto load = build::movement(build::material(material), {Dimension::kMass, 100},
                              build::at(build::day("2026-03-15")));
  load.holds = model::Load{Kilograms{100}, std::nullopt, nitrogen, phosphorus, potassium, ""};
  history.in.push_back(load);
}

}  // namespace

// DüV 2017 (German Fertiliser Ordinance) annex 3: of total nitrogen, in the year it is spread.
TEST_CASE("first-year shares of the Fertiliser Ordinance") {
  const auto share = [](const char* name) {
    return kinds::first_year_share(build::material(name), {})->value;
  };
  CHECK(share("dairy manure") == doctest::Approx(0.25));
  CHECK(share("horse manure") == doctest::Approx(0.25));
  CHECK(share("pig manure") == doctest::Approx(0.30));
  CHECK(share("rabbit manure") == doctest::Approx(0.30));
  CHECK(share("hen manure") == doctest::Approx(0.30));
  CHECK(share("cattle slurry") == doctest::Approx(0.60));
  CHECK(share("effluent") == doctest::Approx(0.60));
  CHECK(share("digester solids") == doctest::Approx(0.30));
  CHECK(share("compost") == doctest::Approx(0.05));
  CHECK(share("plant brew") == doctest::Approx(0.60));
  CHECK(share("mushroom compost") == doctest::Approx(0.10));
  CHECK_FALSE(kinds::first_year_share(build::material("char"), {}));
}

// Gebremikael et al. 2022, Front. Sustain. Food Syst. 6:795950: 4 to 20 % of the nitrogen of seven
// frasses was there by day 103. Of a brew 50 to 90 %: judgement of the trade.
TEST_CASE("a share that is known no better than a range has one") {
  const auto range = [](const char* name) {
    return kinds::first_year_range(build::material(name), {});
  };
  CHECK(kinds::first_year_share(build::material("frass"), {})->value == doctest::Approx(0.12));
  CHECK(range("frass")->least.value == doctest::Approx(0.04));
  CHECK(range("frass")->most.value == doctest::Approx(0.20));
  CHECK(range("plant brew")->least.value == doctest::Approx(0.50));
  CHECK(range("plant brew")->most.value == doctest::Approx(0.90));
  CHECK_FALSE(range("dairy manure"));
}

// New England Vegetable Management Guide, table 4: 20 short tons of cabbage an acre take 125 lb N,
// 30 lb P2O5, 130 lb K2O. So 160 lb take exactly 0.5 lb N.
TEST_CASE("bed.short and bed.over at their edges, against what cabbage takes") {
  constexpr double kPound = 0.45359237;
  const double takes = 0.5 * kPound;
  const auto found = [&](double of_need) {
    auto history = bed("cabbage", 160 * kPound);
    // Of a brew's nitrogen 60 % is there for the first crop.
    give(history, "plant brew", Kilograms{takes * of_need / 0.6}, Kilograms{0}, Kilograms{0});
    return kinds::assess(history, {});
  };
  CHECK(kinds::bed::need_of(bed("cabbages", 160 * kPound))->nutrients.nitrogen.value ==
        doctest::Approx(takes));
  CHECK(build::find(found(0.79), "bed.short"));
  CHECK_FALSE(build::find(found(0.81), "bed.short"));
  CHECK_FALSE(build::find(found(1.49), "bed.over"));
  CHECK(build::find(found(1.51), "bed.over"));
}

// Montana State University Extension, nutrient management step 5: manure that meets a need of 160
// lb of nitrogen an acre brings 337.6 lb of P2O5 where 50 are needed: nitrogen fits, phosphorus is
// far over. Here the same proportions on a crop of the table: manure with 18 lb P2O5 to 8.53 lb of
// available nitrogen.
TEST_CASE("manure by nitrogen oversupplies phosphorus") {
  auto history = bed("cabbage", 100);
  const auto need = kinds::bed::need_of(history)->nutrients;
  const double nitrogen = need.nitrogen.value;
  const double phosphorus = nitrogen * 18 / 8.53 * 0.43643;  // P in P2O5
  give(history, "dairy manure", Kilograms{nitrogen / 0.25}, Kilograms{phosphorus}, Kilograms{0});
  const auto found = kinds::assess(history, {});
  const model::Told* over = build::find(found, "bed.over");
  REQUIRE(over);
  CHECK(over->facts(kinds::bed::kNutrient) == kinds::bed::kPhosphorus);
  CHECK(over->job == kinds::bed::kJobFeed);
  // 18 lb P2O5 for 8.53 lb N: its share of the need is as far above 1 as the crop takes less.
  CHECK(over->facts(kinds::bed::kGiven).value == doctest::Approx(0.7 * phosphorus));
  CHECK_FALSE(build::find(found, "bed.short"));
}

// Montana State University Extension, step 5: of 21 lb of nitrogen a ton 8 are ammonium: 13 x 0.25
// + 8 x 0.66 = 8.53.
TEST_CASE("a laboratory's ammonium says what the first crop can have") {
  auto manure = build::material("dairy manure");
  const auto share = [&](double nitrogen, double ammonium) {
    model::overlay(manure, {{model::Property::kNitrogen, nitrogen, "test"},
                            {model::Property::kAmmonium, ammonium, "test"}});
    return kinds::first_year_share(manure, {})->value;
  };
  CHECK(share(0.021, 0.008) == doctest::Approx(8.53 / 21));
  CHECK(share(0.021, 0) == doctest::Approx(0.25));
  CHECK(share(0.021, 0.021) == doctest::Approx(0.66));
  // More ammonium than nitrogen cannot be: the manure's own share stands.
  CHECK(share(0.021, 0.022) == doctest::Approx(0.25));
}

TEST_CASE("what a soil test asks for") {
  const auto needs = [](const char* text) { return kinds::bed::read_needs(text); };
  // 1 lb an acre is 1.1208 kg/ha, P2O5 x 0.4364, K2O x 0.8302 (IFA/SGS conversion tables).
  const auto acre = needs("N 160, P2O5 50, K2O 75 lb/acre");
  REQUIRE(acre);
  CHECK(acre->nitrogen.value == doctest::Approx(160 * 1.1208).epsilon(1e-4));
  CHECK(acre->phosphorus.value == doctest::Approx(50 * 0.4364 * 1.1208).epsilon(1e-3));
  CHECK(acre->potassium.value == doctest::Approx(75 * 0.8302 * 1.1208).epsilon(1e-3));
  // Each its own unit, or the next one's; P and K as they are.
  const auto mixed = needs("k 3 g/m2, n 10kg/ha");
  REQUIRE(mixed);
  CHECK(mixed->potassium.value == doctest::Approx(30));
  CHECK(mixed->nitrogen.value == doctest::Approx(10));
  CHECK(mixed->phosphorus.value == 0);
  // An acre is 43.56 times 1,000 ft2.
  CHECK(needs("N 1 lb/1000ft2")->nitrogen.value == doctest::Approx(43.56 * 1.12085).epsilon(1e-4));
  for (const char* wrong : {"", "N", "N 10", "N ten kg/ha", "N -1 kg/ha", "X 10 kg/ha", "N 10 lb",
                            "N 10 kg/ha, N 5 kg/ha"}) {
    CAPTURE(wrong);
    CHECK_FALSE(needs(wrong));
  }
  // Told, it stands before what the harvest takes; without an area it is none.
  auto told = bed("cabbage", 100);
  build::setting(told, "needs", "N 10 g/m2");
  CHECK(kinds::bed::need_of(told)->by_soil_test);
  CHECK(kinds::bed::need_of(told)->nutrients.nitrogen.value ==
        doctest::Approx(100 * kSquareFoot * 0.01));
  CHECK_FALSE(kinds::bed::need_of(bed("cabbage", 100))->by_soil_test);
}

TEST_CASE("what was wanted before a load, what the load covers, what is left") {
  // 100 ft2 that want 93 g of nitrogen (10 g a m2); a load of 100 kg holds 372 g, a quarter of it
  // for this crop: 93 g. So 100 kg, 220 lb, meet it. P and K are not asked for: none of it.
  auto history = bed("cabbage", 100);
  build::setting(history, "needs", "N 10 g/m2");
  const double wants = 100 * kSquareFoot * 0.01;
  auto load = build::movement(build::material("dairy manure"), {Dimension::kMass, 100},
                              build::at(build::day("2026-05-15")));
  load.holds = model::Load{Kilograms{100}, std::nullopt, Kilograms{4 * wants},
                           Kilograms{0.1}, Kilograms{0}, ""};
  CHECK(rate_words(load, history) ==
        "before it the crop wanted N 3.28 oz (220 lb of it); it covers all of the N; nothing is "
        "left to give");
  // What is there already is counted: half of it was given, so half is wanted, and is met.
  history.in.push_back(load);
  history.in.back().holds->nitrogen = Kilograms{2 * wants};
  CHECK(rate_words(load, history)
            .starts_with(
                "before it the crop wanted N 1.64 oz (110 lb of it); it covers all of the N;"));
  // All was given: another load is beyond the need.
  history.in.back().holds->nitrogen = Kilograms{4 * wants};
  CHECK(rate_words(load, history) ==
        "the crop wanted no more N before it came: all of it is extra");
  // A quarter load covers a quarter: three more loads of that size are left to give. By the bucket
  // it is said in buckets' measure.
  history.in.clear();
  load.amount = {Dimension::kVolume, 10 * kGallon};
  load.holds->nitrogen = Kilograms{wants};
  CHECK(rate_words(load, history) ==
        "before it the crop wanted N 3.28 oz (40 gal of it); it covers 25 % of the N; left to "
        "give: N 2.46 oz (30 gal of it)");
  // Phosphorus asked for too, 0.1 kg of which 70 % counts: 70 g where 46.5 are wanted.
  history.batch.settings.pop_back();
  build::setting(history, "needs", "N 10 g/m2, P 5 g/m2");
  CHECK(rate_words(load, history) ==
        "before it the crop wanted N 3.28 oz (40 gal of it), P 1.64 oz (6.64 gal of it); it covers "
        "25 % of the N, all of the P; left to give: N 2.46 oz (30 gal of it); more of it brings P "
        "that the crop no longer wants");
  // Without a need, or a load of unknown content, nothing is said.
  auto none = build::batch("bed", "b", build::day("2026-03-01"), build::day("2026-06-01"));
  CHECK(rate_words(load, none).empty());
  load.material = build::material("char");
  CHECK(rate_words(load, bed("cabbage", 100)).empty());
}

// "One gallon of biochar for four square feet", mixed into six inches: 231 in3 in 4 x 144 x 6 =
// 3456 in3 are 6.684 % of the soil's volume and 6.265 % of the blend's (geometry of the printed
// rule); the layer is 231/576 in.
TEST_CASE("char as a share of the top six inches, on both bases") {
  auto history = bed("kale", 10);
  history.earlier_in.push_back(build::movement(build::material("char"),
                                               {Dimension::kVolume, 10 * kGallon},
                                               build::at(build::day("2025-03-15"))));
  history.in.push_back(build::movement(build::material("charged char"),
                                       {Dimension::kVolume, 15 * kGallon},
                                       build::at(build::day("2026-03-15"))));
  const auto found = kinds::assess(history, {});
  CHECK(figure(found, "bed.char_of_soil") == doctest::Approx(0.06684028).epsilon(1e-6));
  CHECK(figure(found, "bed.char_of_blend") == doctest::Approx(0.06265256).epsilon(1e-6));
  CHECK(figure(found, "bed.char_layer") == doctest::Approx(231.0 / 576 * 0.0254).epsilon(1e-6));
}

TEST_CASE("what was put on, by area and as a depth, and the harvest by area") {
  auto history = bed("kale", 10);
  // A cubic yard on 100 square feet lies 3.24 inches deep: 27 ft3 / 100 ft2.
  history.in.push_back(build::movement(build::material("compost"),
                                       {Dimension::kVolume, 764.554857984},
                                       build::at(build::day("2026-03-15"))));
  history.in.push_back(build::movement(build::material("water"), {Dimension::kVolume, 100},
                                       build::at(build::day("2026-05-15"))));
  history.out.push_back(build::movement(build::material("kale"), {Dimension::kMass, 9.290304},
                                        build::at(build::day("2026-05-20"))));
  const auto found = kinds::assess(history, {});
  CHECK(figure(found, "bed.depth.compost") == doctest::Approx(0.27 * 0.3048));
  CHECK(figure(found, "bed.yield") == doctest::Approx(1));
  CHECK(figure(found, "bed.water") == doctest::Approx(100));
  CHECK(figure(found, "bed.in_area.compost") == doctest::Approx(0.764554857984 * 593.3 / 9.290304));
  CHECK(found.stage == "in harvest");
}

}  // namespace kinds_bed_nutrients_test
