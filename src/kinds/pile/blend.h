#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/blend.h"

// What went into a pile: the ratio it began with, and what of it a load carries on.
namespace kinds::pile {

// What of it is in a load taken now, by the ratio of all that went in; none where that is not
// known.
std::optional<model::Load> share_of(const Inputs& inputs, const model::Movement& load);

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
