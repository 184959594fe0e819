#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/history.h"
#include "model/rules.h"
#include "science/compost/blend.h"

// What went into a pile, as one blend: from as-is masses, never from a mean of ratios.
namespace kinds::pile {

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

// What of it is in a load taken now, by the ratio of all that went in; none where that is not
// known.
std::optional<model::Load> share_of(const Inputs& inputs, const model::Movement& load);

// Everything that went in up to the history's moment, water with it.
Inputs inputs_of(const model::History& history);

// The carbon to nitrogen of all that went in: a laboratory's (the setting cn), or the blend's where
// enough of the mass has figures (pile.treat.cn_lacking) and all of it was weighed.
struct StartRatio {
  enum class Unknown { kNothingWentIn, kUnweighed, kLacksFigures, kNoNitrogen };
  std::optional<measure::Number> value{};
  bool measured = false;
  Unknown unknown{};                 // why there is none
  std::vector<std::string> of = {};  // the materials that it is unknown of
};
StartRatio start_ratio(const model::History& history, const model::Rules& rules,
                       const Inputs& inputs);

// Whether a material brings raw matter into a pile: all but water, minerals and char.
bool is_raw(const model::Material& material);

}  // namespace kinds::pile
