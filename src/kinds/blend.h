#pragma once

#include <optional>
#include <string>
#include <vector>

#include "measure/printer.h"
#include "model/history.h"
#include "model/rules.h"
#include "science/compost/blend.h"
#include "science/compost/mix_program.h"

// What goes together as one blend, and the ranges of a good one: from as-is masses, never from a
// mean of ratios. A pile judges itself by it, and the recipe what it proposes.
namespace kinds {

// The material as science knows it; none where its moisture is not known, as then neither its dry
// mass nor its water can be told.
std::optional<science::Ingredient> ingredient_of(const model::Material& material,
                                                 measure::Kilograms mass);

struct Inputs {
  std::vector<science::Ingredient> ingredients;  // one a material
  std::vector<model::Material> materials;        // the same order
  std::optional<science::Blend> blend;           // none where nothing that is known went in
  std::vector<std::string> unweighed;            // materials of unknown mass
  std::vector<std::string> unknown;              // materials without a moisture figure
  measure::Kilograms left_out;                   // mass of those
  bool estimated = false;                        // some of the mass follows from a bulk density

  bool empty() const { return ingredients.empty() && unweighed.empty() && unknown.empty(); }
  // Names of the materials in the blend that lack carbon or nitrogen, and their share of all the
  // mass that went in (with the mass left out).
  std::vector<std::string> lacking_c_to_n() const;
  measure::Fraction share_lacking_c_to_n() const;
};

// Everything that went in up to the history's moment, water with it.
Inputs inputs_of(const model::History& history);

// The ranges of a good mix under these rules.
struct MixRanges {
  science::MixLimits<measure::Number> c_to_n;
  science::MixLimits<measure::Fraction> moisture;
  science::MixLimits<science::KilogramsPerCubicMetre> bulk_density;
  measure::Number best_c_to_n;
  measure::Fraction best_moisture;
};
MixRanges mix_ranges(const model::Rules& rules);

// "31:1 carbon to nitrogen, 54 % moisture".
std::string blend_words(const science::Blend& blend, const measure::Printer& print);

}  // namespace kinds
