#include "science/compost/blend.h"

#include <doctest/doctest.h>

#include <cstddef>
#include <limits>
#include <utility>
#include <vector>

using measure::Fraction;
using measure::Kilograms;
using measure::Litres;
using namespace science;

namespace {

// Percentages as the sources print them: moisture of the as-is mass, carbon and nitrogen of the
// dry.
Ingredient material(double kilograms, double moisture, double carbon, double nitrogen) {
  return {Kilograms{kilograms},
          Fraction{moisture / 100},
          Fraction{carbon / 100},
          Fraction{nitrogen / 100},
          {},
          {},
          {}};
}

Ingredient by_ratio(double kilograms, double moisture, double nitrogen, double c_to_n) {
  return material(kilograms, moisture, nitrogen * c_to_n, nitrogen);
}

Blend blend(std::vector<Ingredient> ingredients) {
  const auto b = blend_of(ingredients);
  REQUIRE(b);
  return *b;
}

Ingredient with_mass(Ingredient i, double kilograms) {
  i.mass = Kilograms{kilograms};
  return i;
}

doctest::Approx seven_figures(double value) {
  return doctest::Approx(value).epsilon(1e-6);
}

const Ingredient kGrass = material(10, 77, 45, 2.4);
const Ingredient kLeaves = material(0, 35, 50, 0.75);

}  // namespace

TEST_CASE("blend: second mass for a moisture") {
  // Source: Cornell Waste Management Institute (1996), Moisture Content: 10 kg of grass at 77 %,
  // leaves at 35 %, goal 60 %: "= 6.8 kg leaves".
  // Computed from the formula: the mix is at 60 %, and at 36.7:1 with the contents below.
  const Blend mix = blend({kGrass, with_mass(kLeaves, 6.8)});
  CHECK(mix.moisture.value == seven_figures(0.60));
  CHECK(mix.c_to_n->value == seven_figures(36.72892));
}

TEST_CASE("blend: second mass for a C:N") {
  // Source: Cornell Waste Management Institute (1996), Carbon/Nitrogen Ratios: grass 77 % / 45
  // / 2.4, leaves 35 % / 50 / 0.75, goal 30: 3.5 kg (inputs and printed answer from memory); more
  // digits computed from the formula.
  const Blend mix = blend({kGrass, with_mass(kLeaves, 3.474125874)});
  CHECK(mix.mass.value == seven_figures(13.474126));
  CHECK(mix.moisture.value == seven_figures(0.6617085));
  CHECK(mix.c_to_n->value == seven_figures(30));
  // Computed from the formula: equal masses.
  const Blend equal = blend({kGrass, with_mass(kLeaves, 10)});
  CHECK(equal.moisture.value == seven_figures(0.56));
  CHECK(equal.c_to_n->value == seven_figures(41.22174));
}

TEST_CASE("blend: manure, sawdust and then water") {
  // Source of inputs and formulas: BC Agricultural Composting Handbook, 2nd ed. (1998), Appendix A:
  // broiler-breeder manure 46 %, N 3.60 %, 10:1; sawdust 42 %, N 0.43 %, 475:1 (whose carbon of 204
  // % is impossible, being the product of two mid-points). Results computed from the formula.
  struct Row {
    double c_to_n, sawdust, moisture, to_50, to_55, to_60;
  };
  const Row rows[] = {{20, 0.17131, 0.454150, 0.10741, 0.24949, 0.42709},
                      {25, 0.25982, 0.451750, 0.12157, 0.27506, 0.46692},
                      {30, 0.35032, 0.449623, 0.13605, 0.30120, 0.50765},
                      {35, 0.44288, 0.447722, 0.15086, 0.32794, 0.54930},
                      {40, 0.53757, 0.446015, 0.16601, 0.35530, 0.59190}};
  const Ingredient manure = by_ratio(1, 46, 3.60, 10);
  const Ingredient sawdust = by_ratio(0, 42, 0.43, 475);
  CHECK(is_possible(sawdust));
  for (const Row& row : rows) {
    CAPTURE(row.c_to_n);
    std::vector<Ingredient> mix{manure};
    mix.push_back(with_mass(sawdust, row.sawdust));
    CHECK(blend_of(mix)->c_to_n->value == doctest::Approx(row.c_to_n).epsilon(5e-5));
    CHECK(blend_of(mix)->moisture.value == doctest::Approx(row.moisture).epsilon(5e-6));
    for (const auto& [water, moisture] :
         {std::pair{row.to_50, 0.50}, std::pair{row.to_55, 0.55}, std::pair{row.to_60, 0.60}}) {
      auto watered = mix;
      watered.push_back(water_ingredient(Kilograms{water}));
      CHECK(blend_of(watered)->moisture.value == doctest::Approx(moisture).epsilon(5e-5));
    }
    // Water has no carbon and no nitrogen: the C:N stays.
    mix.push_back(water_ingredient(Kilograms{row.to_60}));
    CHECK(blend_of(mix)->c_to_n->value == doctest::Approx(row.c_to_n).epsilon(5e-5));
    CHECK(blend_of(mix)->left_out.c_to_n.empty());
  }
}

TEST_CASE("blend: contents of the fresh mass") {
  // Source: extension handout "How to calculate the carbon-to-nitrogen ratio of your compost mix"
  // (https://docslib.org/doc/12269573/): hay 50 lb (40 / 1), scraps 10 lb (10 / 1), coffee grounds
  // 2 lb (25 / 1), contents of the FRESH mass: "21.5/0.62= 34.7 parts carbon".
  const auto fresh = [](double mass, double moisture, double carbon, double nitrogen) {
    return Ingredient{Kilograms{mass},
                      Fraction{moisture},
                      Fraction{carbon / (1 - moisture)},
                      Fraction{nitrogen / (1 - moisture)},
                      {},
                      {},
                      {}};
  };
  // Whatever the moisture is, the fresh contents are what the pile gets.
  const Blend mix =
      blend({fresh(50, 0.10, 0.40, 0.01), fresh(10, 0.75, 0.10, 0.01), fresh(2, 0.60, 0.25, 0.01)});
  CHECK(mix.c_to_n->value == seven_figures(34.677419));
  CHECK(mix.carbon->mass.value == seven_figures(21.5));
  CHECK(mix.nitrogen->mass.value == seven_figures(0.62));
  // The trap: the same percentages taken as if of dry mass.
  const Blend trap =
      blend({material(50, 10, 40, 1), material(10, 75, 10, 1), material(2, 60, 25, 1)});
  CHECK(trap.c_to_n->value != doctest::Approx(34.677419).epsilon(0.02));
}

TEST_CASE("blend: nitrogen to add to sawdust") {
  // Source: eXtension Ask an Expert #351921 (Oregon, 2016): 400 lb of sawdust with 60 % carbon at
  // 400:1, goal 30:1, "7.4 pounds of N or 16 pounds of urea" at 46 %. Moisture and the urea's own
  // carbon left aside, as there. More digits computed.
  const Ingredient sawdust = by_ratio(400, 0, 0.15, 400);
  CHECK(sawdust.carbon->value == seven_figures(0.60));
  CHECK(blend({sawdust, material(7.4 / 0.46, 0, 0, 46)}).c_to_n->value == seven_figures(30));
}

TEST_CASE("blend: layer manure and sawdust by moisture, then by C:N") {
  // Inputs in the manner of On-Farm Composting Handbook, NRAES-54 (1992), ch. 3, from memory: layer
  // manure 70 %, N 6 %, 10:1; sawdust 35 %, N 0.11 %, 500:1. Results computed from the formula.
  const Ingredient manure = by_ratio(1, 70, 6, 10);
  const Ingredient sawdust = by_ratio(0, 35, 0.11, 500);
  const Blend dry = blend({manure, with_mass(sawdust, 0.4)});
  CHECK(dry.moisture.value == seven_figures(0.60));
  CHECK(dry.c_to_n->value == seven_figures(17.66379));
  const double goals[][3] = {
      {20, 0.52448, 0.5795872}, {25, 0.79499, 0.5449867}, {30, 1.07127, 0.5189785}};
  for (const auto& [c_to_n, mass, moisture] : goals) {
    const Blend mix = blend({manure, with_mass(sawdust, mass)});
    CHECK(mix.c_to_n->value == doctest::Approx(c_to_n).epsilon(1e-5));
    CHECK(mix.moisture.value == doctest::Approx(moisture).epsilon(1e-5));
  }
}

TEST_CASE("blend: is not the mean of ratios") {
  // Source of the trap: University of Wisconsin-Madison CIAS, Compost Recipe Worksheet Key, which
  // weights C:N by mass: 2 lb of manure at 15:1 and 1 lb of corn stalks at 65:1 are (30 + 65) / 3 =
  // 31.667 there. The right answers, for manure at 79 %, N 2.7 % and stalks at 12 %, N 0.7 %, are
  // computed from the formula: (0.1701 + 0.4004) / (0.01134 + 0.00616), and with manure at 18:1.
  const Ingredient stalks = by_ratio(1, 12, 0.7, 65);
  const Blend mix = blend({by_ratio(2, 79, 2.7, 15), stalks});
  CHECK(mix.c_to_n->value == seven_figures(32.6));
  CHECK(mix.c_to_n->value != doctest::Approx(31.667).epsilon(0.01));
  CHECK(mix.moisture.value == seven_figures(0.5666667));
  const Blend richer = blend({by_ratio(2, 79, 2.7, 18), stalks});
  CHECK(richer.c_to_n->value == seven_figures(34.544));
  CHECK(richer.c_to_n->value != doctest::Approx((2 * 18 + 65) / 3.0).epsilon(0.01));
}

TEST_CASE("blend: a third material") {
  // Computed from the formula (Cornell Waste Management Institute, 1996, for three materials).
  const std::vector<Ingredient> two{kGrass, material(5, 69, 36, 2.4)};
  const Blend before = blend(two);
  CHECK(before.moisture.value == seven_figures(0.7433333));
  CHECK(before.c_to_n->value == seven_figures(17.24026));
  const Blend drier = blend({two[0], two[1], with_mass(kLeaves, 8.6)});
  CHECK(drier.moisture.value == seven_figures(0.60));
  CHECK(drier.c_to_n->value == seven_figures(32.66704));
  const Blend richer = blend({two[0], two[1], with_mass(kLeaves, 6.595804196)});
  CHECK(richer.c_to_n->value == seven_figures(30));
  CHECK(richer.moisture.value == seven_figures(0.6232012));
}

TEST_CASE("blend: counts what is known and names what is not") {
  Ingredient straw = material(20, 10, 50, 0.5);
  straw.phosphorus = Fraction{0.001};
  straw.bulk_density = KilogramsPerCubicMetre{80};
  Ingredient manure = material(60, 70, 40, 2.0);
  manure.potassium = Fraction{0.02};
  manure.bulk_density = KilogramsPerCubicMetre{800};
  Ingredient scraps{Kilograms{10}, Fraction{0.8}, {}, Fraction{0.03}, {}, {}, {}};
  const Blend mix = blend({straw, manure, scraps, water_ingredient(Kilograms{10})});
  CHECK(mix.mass.value == seven_figures(100));
  CHECK(mix.dry_mass.value == seven_figures(18 + 18 + 2));
  CHECK(mix.moisture.value == seven_figures(0.62));
  // C:N without the scraps, whose carbon is not known: (9 + 7.2) / (0.09 + 0.36).
  CHECK(mix.c_to_n->value == seven_figures(36));
  CHECK(mix.left_out.c_to_n == std::vector<std::size_t>{2});
  CHECK(mix.left_out.carbon == std::vector<std::size_t>{2});
  CHECK(mix.carbon->mass.value == seven_figures(16.2));
  CHECK(mix.carbon->share.value == seven_figures(0.45));  // of the 36 kg that were counted
  CHECK(mix.nitrogen->mass.value == seven_figures(0.09 + 0.36 + 0.06));
  CHECK(mix.nitrogen->share.value == seven_figures(0.51 / 38));
  CHECK(mix.left_out.nitrogen.empty());
  CHECK(mix.phosphorus->mass.value == seven_figures(0.018));
  CHECK(mix.left_out.phosphorus == std::vector<std::size_t>{1, 2});
  CHECK(mix.potassium->share.value == seven_figures(0.02));
  CHECK(mix.left_out.potassium == std::vector<std::size_t>{0, 2});
  // 20 / 80 + 60 / 800 + 10 / 1000 m3; the scraps have no bulk density.
  CHECK(mix.volume->value == seven_figures(335));
  CHECK(mix.bulk_density->value == seven_figures(90 / 0.335));
  CHECK(mix.left_out.volume == std::vector<std::size_t>{2});
}

TEST_CASE("blend: nothing to blend, nothing known") {
  CHECK_FALSE(blend_of({}));
  CHECK_FALSE(blend_of(std::vector<Ingredient>{kLeaves}));  // 0 kg
  CHECK_FALSE(blend_of(std::vector<Ingredient>{kGrass, material(-1, 50, 40, 1)}));
  CHECK_FALSE(blend_of(std::vector<Ingredient>{material(1, 101, 40, 1)}));
  CHECK_FALSE(blend_of(
      std::vector<Ingredient>{material(std::numeric_limits<double>::quiet_NaN(), 50, 40, 1)}));
  Ingredient weightless = kGrass;
  weightless.bulk_density = KilogramsPerCubicMetre{0};
  CHECK_FALSE(blend_of(std::vector<Ingredient>{weightless}));
  const Blend only_water = blend({water_ingredient(Kilograms{5})});
  CHECK(only_water.moisture.value == 1);
  CHECK_FALSE(only_water.c_to_n);
  CHECK_FALSE(only_water.nitrogen);
  CHECK(only_water.volume->value == seven_figures(5));
  CHECK_FALSE(blend({material(1, 50, 45, 0)}).c_to_n);  // no nitrogen, no ratio
}
