#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "model/material.h"
#include "model/rules.h"
#include "science/compost/mix_program.h"

// What to mix from what is at hand: the linear programme of science/compost/mix_program.h over the
// site's materials, within the ranges of the site's rules (pile.mix.*).
namespace season {

// A material that may go in, as the person offers it.
struct RecipeOffer {
  model::Material material;
  std::optional<measure::Kilograms> at_most;  // none: any amount
  bool use_up = false;                        // a waste: as much of it as possible is to go in
  bool bought = false;                        // as little of it as possible
};

struct RecipeAsk {
  std::vector<RecipeOffer> offers{};  // one that lacks a figure is left out and named in `missing`
  std::vector<science::Ingredient> already{};  // what is in the pile that the recipe adds to
  std::optional<measure::Litres> volume{};     // how much to make; none: what the offers come to
  std::optional<measure::Number> c_to_n{};     // aims, in place of the rules' best
  std::optional<measure::Fraction> moisture{};
  std::vector<model::Material> helpers{};  // asked for only where the offers do not suffice
};

struct RecipeLine {
  std::string material;
  measure::Kilograms mass;
  std::optional<measure::Litres> volume;   // none: its bulk density is not known
  std::optional<measure::Kilograms> left;  // of a waste, what could not go in
  bool bought = false;
};

// "3 parts of grounds to 5 of leaves": whole parts by volume that keep the ranges.
struct RecipeParts {
  std::vector<std::pair<std::string, int>> parts;
  science::Blend blend;  // of exactly those parts
};

// An offer that no mix can be reckoned with.
struct RecipeMissing {
  std::string material;
  std::string lacks;  // "moisture", "carbon and nitrogen"
};

struct Recipe {
  science::MixOutcome outcome{};
  std::vector<RecipeLine> lines;  // of what goes in, in the order offered; water last
  std::optional<science::Blend> blend;
  std::optional<RecipeParts> parts;
  std::vector<science::MixObstacle> obstacles;
  bool together = false;  // all of the obstacles have to give; else any of them
  std::vector<std::pair<std::string, measure::Kilograms>> remedies;  // each by itself, least first
  std::vector<RecipeMissing> missing;                                // left out
  std::vector<std::string> loose;  // materials without a bulk density: then it is not judged
};

// Whether a mix can be reckoned with it: water needs no carbon and nitrogen.
bool has_figures(const science::Ingredient& one);

// Water is always at hand. Where every offer lacks a figure and nothing is in the pile already, the
// outcome is Unusable. The same ask has the same answer; never a negative mass.
Recipe make_recipe(const RecipeAsk& ask, const model::Rules& rules);

}  // namespace season
