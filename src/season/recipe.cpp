#include "season/recipe.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "kinds/blend.h"
#include "kinds/thresholds.h"
#include "measure/text.h"

namespace season {
namespace {

using measure::Kilograms;
using measure::Litres;
using measure::Number;
using science::Ingredient;
using science::KilogramsPerCubicMetre;

// Whole parts above this are no help at the heap.
constexpr int kMostParts = 9;
// A grain of a material is not worth a line.
constexpr double kLeastKilograms = 0.01;

struct Program {
  science::MixProgram mix;
  std::vector<const RecipeOffer*> offers;  // of the candidates after `already`; null: water
  std::size_t first_offer = 0;
};

// The figures that a mix wants of a material and does not have.
std::string lacks_of(const model::Material& material) {
  std::vector<std::string_view> lacks;
  if (!material.moisture()) lacks.emplace_back("moisture");
  if (!material.carbon()) lacks.emplace_back("carbon");
  if (!material.nitrogen()) lacks.emplace_back("nitrogen");
  return lacks.empty() ? "figures that can be" : measure::listed(lacks, "and");
}

science::MixCandidate candidate_of(const RecipeOffer& offer, Ingredient ingredient) {
  ingredient.mass = offer.at_most.value_or(Kilograms{0});
  if (offer.use_up && offer.at_most) return science::to_be_used_up(ingredient);
  science::MixCandidate made =
      offer.at_most ? science::at_hand(ingredient) : science::to_buy(ingredient, Number{0});
  if (offer.bought) made.cost = Number{1};
  return made;
}

Program program_of(const RecipeAsk& ask, const model::Rules& rules, Recipe& into) {
  Program program;
  const auto note_loose = [&](const Ingredient& one, const std::string& name) {
    if (!one.bulk_density) into.loose.push_back(name);
  };
  for (const Ingredient& one : ask.already) {
    program.mix.candidates.push_back(science::already_in(one));
    note_loose(one, "what is in it already");
  }
  program.first_offer = program.mix.candidates.size();
  bool has_water = false;
  for (const RecipeOffer& offer : ask.offers) {
    const auto ingredient = kinds::ingredient_of(offer.material, Kilograms{0});
    if (!ingredient || !has_figures(*ingredient)) {
      into.missing.push_back({offer.material.name, lacks_of(offer.material)});
      continue;
    }
    has_water = has_water || offer.material.name == "water";
    note_loose(*ingredient, offer.material.name);
    program.mix.candidates.push_back(candidate_of(offer, *ingredient));
    program.offers.push_back(&offer);
  }
  if (!has_water) {
    program.mix.candidates.push_back(
        science::to_buy(science::water_ingredient(Kilograms{0}), Number{0}));
    program.offers.push_back(nullptr);
  }
  const kinds::MixRanges ranges = kinds::mix_ranges(rules);
  program.mix.c_to_n = ranges.c_to_n;
  program.mix.moisture = ranges.moisture;
  program.mix.preferred_c_to_n = ask.c_to_n.value_or(ranges.best_c_to_n);
  program.mix.preferred_moisture = ask.moisture.value_or(ranges.best_moisture);
  if (into.loose.empty()) program.mix.bulk_density = ranges.bulk_density;
  if (ask.volume && into.loose.empty()) {
    program.mix.total_volume = {ask.volume, ask.volume};
  } else if (ask.volume) {
    const double density = rules(kinds::thresholds::pile::foresee_density).value;
    const Kilograms mass{ask.volume->value * density / 1000};
    program.mix.total_mass = {mass, mass};
  }
  return program;
}

void read_lines(const Program& program, const science::MixResult& result, Recipe& into) {
  for (std::size_t i = 0; i < program.offers.size(); ++i) {
    const Ingredient& ingredient = program.mix.candidates[program.first_offer + i].material;
    const RecipeOffer* offer = program.offers[i];
    RecipeLine line{offer == nullptr ? "water" : offer->material.name,
                    result.masses[program.first_offer + i], std::nullopt, std::nullopt, false};
    if (ingredient.bulk_density) {
      line.volume = Litres{line.mass.value / ingredient.bulk_density->value * 1000};
    }
    // The programme answers to a millionth: all of it is all of it.
    if (offer != nullptr && offer->at_most) {
      const Kilograms left = *offer->at_most - line.mass;
      if (std::fabs(left.value) <= 1e-5 * offer->at_most->value) line.mass = *offer->at_most;
      if (offer->use_up && left.value > kLeastKilograms) line.left = left;
    }
    if (offer != nullptr) line.bought = offer->bought;
    if (line.mass.value >= kLeastKilograms || line.left) into.lines.push_back(line);
  }
}

bool keeps(const science::Blend& blend, const science::MixProgram& program) {
  const double slack = 1e-6;
  const auto within = [&](double value, double least, double most) {
    return value >= least * (1 - slack) && value <= most * (1 + slack);
  };
  return blend.c_to_n &&
         within(blend.c_to_n->value, program.c_to_n.at_least->value,
                program.c_to_n.at_most->value) &&
         within(blend.moisture.value, program.moisture.at_least->value,
                program.moisture.at_most->value);
}

// The whole parts nearest to the recipe, in the fewest parts that are within a tenth of it, and in
// range.
std::optional<RecipeParts> parts_of(const Program& program, const Recipe& recipe) {
  std::vector<std::size_t> used;
  double largest = 0;
  for (std::size_t i = 0; i < recipe.lines.size(); ++i) {
    const RecipeLine& line = recipe.lines[i];
    if (line.mass.value < kLeastKilograms) continue;
    if (!line.volume) return std::nullopt;
    used.push_back(i);
    largest = std::max(largest, line.volume->value);
  }
  if (used.size() < 2 || program.first_offer > 0) return std::nullopt;
  std::optional<RecipeParts> best;
  double least = std::numeric_limits<double>::infinity();
  for (int most = 1; most <= kMostParts; ++most) {
    RecipeParts tried;
    std::vector<Ingredient> mix;
    double worst = 0;
    for (const std::size_t i : used) {
      const RecipeLine& line = recipe.lines[i];
      const double exact = line.volume->value / largest * most;
      const int whole = static_cast<int>(std::lround(exact));
      if (whole == 0) {
        worst = std::max(worst, exact);
        continue;
      }
      worst = std::max(worst, std::fabs(whole - exact) / exact);
      tried.parts.emplace_back(line.material, whole);
      for (std::size_t k = 0; k < program.offers.size(); ++k) {
        const std::string name =
            program.offers[k] == nullptr ? "water" : program.offers[k]->material.name;
        if (name != line.material) continue;
        Ingredient part = program.mix.candidates[program.first_offer + k].material;
        part.mass = Kilograms{whole * part.bulk_density->value};
        mix.push_back(part);
      }
    }
    const auto blend = science::blend_of(mix);
    if (!blend || tried.parts.size() < 2 || worst >= least || !keeps(*blend, program.mix)) continue;
    tried.blend = *blend;
    best = tried;
    least = worst;
    if (worst <= 0.1) break;
  }
  return best;
}

}  // namespace

bool has_figures(const Ingredient& one) {
  return one.moisture.value >= 1 || (one.carbon && one.nitrogen);
}

Recipe make_recipe(const RecipeAsk& ask, const model::Rules& rules) {
  Recipe recipe;
  const Program program = program_of(ask, rules, recipe);
  if (!recipe.missing.empty() && recipe.missing.size() == ask.offers.size() &&
      ask.already.empty()) {
    recipe.outcome = science::MixOutcome::Unusable;
    return recipe;
  }
  std::vector<science::MixCandidate> helpers;
  std::vector<std::string> names;
  for (const model::Material& one : ask.helpers) {
    const auto ingredient = kinds::ingredient_of(one, Kilograms{0});
    if (!ingredient || !has_figures(*ingredient)) continue;
    helpers.push_back(science::to_buy(*ingredient, Number{1}));
    names.push_back(one.name);
  }
  const science::MixResult result = science::solve_mix(program.mix, helpers);
  recipe.outcome = result.outcome;
  recipe.obstacles = result.obstacles;
  recipe.together = result.together;
  for (const science::MixRemedy& one : result.remedies)
    recipe.remedies.emplace_back(names[one.helper], one.least);
  if (result.masses.empty()) return recipe;
  recipe.blend = result.blend;
  read_lines(program, result, recipe);
  recipe.parts = parts_of(program, recipe);
  return recipe;
}

}  // namespace season
