#include <doctest/doctest.h>

#include "season/recipe.h"
#include "tests/unit/build_history.h"

namespace kinds_pile_recipe_test {

// Recipes: what goes in keeps the ranges, wastes go in as far as they can, and what cannot be is
// said.

using measure::Fraction;
using measure::Kilograms;
using measure::Number;
using model::Property;
using science::MixOutcome;

namespace {

// Moisture, carbon and nitrogen as shares; density in kg/m3.
model::Material made(std::string name, double moisture, double carbon, double nitrogen,
                     double density) {
  model::Material material;
  material.name = std::move(name);
  material.group = "other";
  material.figures = {{Property::kMoisture, moisture, "test"},
                      {Property::kCarbon, carbon, "test"},
                      {Property::kNitrogen, nitrogen, "test"}};
  if (density > 0) material.figures.push_back({Property::kBulkDensity, density, "test"});
  return material;
}

// Grass and leaves of Cornell's worked example (Waste Management Institute, 1996; inputs from
// memory).
const model::Material kGrass = made("grass", 0.77, 0.45, 0.024, 300);
const model::Material kLeaves = made("leaves", 0.35, 0.50, 0.0075, 120);

season::RecipeOffer waste(model::Material material, double kilograms) {
  return {std::move(material), Kilograms{kilograms}, true, false};
}
season::RecipeOffer free_of(model::Material material, std::optional<Kilograms> at_most = {}) {
  return {std::move(material), at_most, false, false};
}

const season::RecipeLine* line(const season::Recipe& recipe, std::string_view name) {
  for (const auto& one : recipe.lines) {
    if (one.material == name) return &one;
  }
  return nullptr;
}

}  // namespace

// Grass 10 kg and leaves at C:N 30: 3.474 kg of leaves, whose mix has 66.17 % moisture (Cornell's
// example, worked through); with moisture held to 65 % at the most, the leaves are 10 x (0.77 -
// 0.65) / (0.65 - 0.35).
TEST_CASE("a waste goes in whole, and the moisture limit is met exactly") {
  const season::Recipe recipe = season::make_recipe(
      {
          .offers = {waste(kGrass, 10), free_of(kLeaves)},
      },
      model::Rules{});
  REQUIRE(recipe.outcome == MixOutcome::Found);
  CHECK(line(recipe, "grass")->mass.value == doctest::Approx(10));
  CHECK_FALSE(line(recipe, "grass")->left);
  CHECK(line(recipe, "leaves")->mass.value >= 4 - 1e-6);
  CHECK(recipe.blend->moisture.value <= 0.65 + 1e-6);
  CHECK(recipe.blend->c_to_n->value >= 25 - 1e-6);
  CHECK(recipe.blend->c_to_n->value <= 40 + 1e-6);
  REQUIRE(recipe.parts);
  CHECK(recipe.parts->parts.size() >= 2);
  CHECK(recipe.parts->blend.c_to_n->value <= 40);
}

TEST_CASE("as much of a waste as the rest can carry, and what is left") {
  const season::Recipe recipe = season::make_recipe(
      {.offers = {waste(kGrass, 100), free_of(kLeaves, Kilograms{4})}, .helpers = {kLeaves}},
      model::Rules{});
  REQUIRE(recipe.outcome == MixOutcome::Partly);
  CHECK(line(recipe, "grass")->mass.value == doctest::Approx(10).epsilon(1e-3));
  CHECK(line(recipe, "grass")->left->value == doctest::Approx(90).epsilon(1e-3));
  REQUIRE_FALSE(recipe.obstacles.empty());
  REQUIRE_FALSE(recipe.remedies.empty());
  CHECK(recipe.remedies.front().second.value == doctest::Approx(36).epsilon(1e-3));
}

// Horse manure at 30:1 and 72 % with fresh grass: the two equations give -30 kg of water (checked
// by hand; Cornell's page says that a wet material cannot lower the moisture). No negative mass is
// ever given.
TEST_CASE("what cannot be is said, with the one addition that would do it") {
  const model::Material horse = made("horse manure", 0.72, 0.48, 0.016, 800);
  const model::Material grass = made("fresh grass", 0.82, 0.578, 0.034, 300);
  const model::Material straw = made("straw", 0.12, 0.56, 0.007, 130);
  const season::Recipe recipe = season::make_recipe(
      {.offers = {waste(horse, 100), free_of(grass)}, .helpers = {straw}}, model::Rules{});
  REQUIRE(recipe.outcome == MixOutcome::Infeasible);
  CHECK(recipe.lines.empty());
  REQUIRE_FALSE(recipe.obstacles.empty());
  REQUIRE(recipe.remedies.size() == 1);
  CHECK(recipe.remedies.front().first == "straw");
  // 100 (0.72 - 0.65) / (0.65 - 0.12) for the moisture; more for the bulk density of at most 593
  // kg/m3.
  CHECK(recipe.remedies.front().second.value >= 100 * 0.07 / 0.53 - 1e-3);
}

TEST_CASE("what is in a pile already stays, and the recipe adds to it") {
  science::Ingredient in{Kilograms{100},
                         Fraction{0.35},
                         Fraction{0.50},
                         Fraction{0.0075},
                         {},
                         {},
                         science::KilogramsPerCubicMetre{120}};
  const season::Recipe recipe =
      season::make_recipe({.offers = {free_of(kGrass)}, .already = {in}}, model::Rules{});
  REQUIRE(recipe.outcome == MixOutcome::Found);
  CHECK(recipe.blend->c_to_n->value <= 40 + 1e-6);
  CHECK(recipe.blend->mass.value > 100);
}

TEST_CASE("what is bought is as little as will do") {
  const model::Material straw = made("straw", 0.12, 0.56, 0.007, 130);
  season::RecipeOffer bought{straw, std::nullopt, false, true};
  const season::Recipe with = season::make_recipe(
      {
          .offers = {waste(kGrass, 10), free_of(kLeaves), bought},
      },
      model::Rules{});
  REQUIRE(with.outcome == MixOutcome::Found);
  CHECK(line(with, "straw") == nullptr);
  const season::Recipe without = season::make_recipe(
      {
          .offers = {waste(kGrass, 10), bought},
      },
      model::Rules{});
  REQUIRE(without.outcome == MixOutcome::Found);
  CHECK(line(without, "straw")->bought);
  // As little as keeps 65 % moisture: 10 (0.77 - 0.65) / (0.65 - 0.12).
  CHECK(line(without, "straw")->mass.value == doctest::Approx(10 * 0.12 / 0.53).epsilon(1e-3));
}

TEST_CASE("a missing figure is named; a missing bulk density is not judged") {
  model::Material bare;
  bare.name = "mystery";
  CHECK(season::make_recipe(
            {
                .offers = {free_of(bare)},
            },
            model::Rules{})
            .missing.front()
            .material == "mystery");
  const model::Material loose = made("loose grass", 0.77, 0.45, 0.024, 0);
  const season::Recipe recipe = season::make_recipe(
      {
          .offers = {waste(loose, 10), free_of(kLeaves)},
      },
      model::Rules{});
  CHECK(recipe.outcome == MixOutcome::Found);
  CHECK(recipe.loose == std::vector<std::string>{"loose grass"});
  CHECK_FALSE(recipe.parts);
}

TEST_CASE("a volume is made to measure") {
  const season::Recipe recipe = season::make_recipe({.offers = {free_of(kGrass), free_of(kLeaves)},
                                                     .volume = measure::Litres{1000},
                                                     .helpers = {}},
                                                    model::Rules{});
  REQUIRE(recipe.outcome == MixOutcome::Found);
  CHECK(recipe.blend->volume->value == doctest::Approx(1000).epsilon(1e-4));
  CHECK(recipe.blend->c_to_n->value <= 40);
  CHECK(recipe.blend->moisture.value <= 0.65 + 1e-6);
}

}  // namespace kinds_pile_recipe_test
