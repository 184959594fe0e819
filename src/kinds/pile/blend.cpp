#include "kinds/pile/blend.h"

#include "kinds/pile/vocabulary.h"
#include "kinds/thresholds.h"

namespace kinds::pile {
std::optional<model::Load> share_of(const Inputs& inputs, const model::Movement& load) {
  const auto mass = load.mass();
  if (!mass || !inputs.blend || !inputs.unweighed.empty() || !inputs.unknown.empty()) {
    return std::nullopt;
  }
  const science::Blend& blend = *inputs.blend;
  const double part = *mass / blend.mass;
  const auto of = [&](const std::optional<science::ElementContent>& content) {
    return content ? std::optional(measure::Kilograms{content->mass.value * part}) : std::nullopt;
  };
  model::Load held;
  held.mass = *mass;
  held.carbon = of(blend.carbon);
  held.nitrogen = of(blend.nitrogen);
  held.phosphorus = of(blend.phosphorus);
  held.potassium = of(blend.potassium);
  held.basis = "by what went into the pile it came from";
  return held;
}

StartRatio start_ratio(const model::History& history, const model::Rules& rules,
                       const Inputs& inputs) {
  using Unknown = StartRatio::Unknown;
  if (const auto measured = history.batch.number(kStartRatio)) {
    return {measure::Number{measured->si}, true};
  }
  if (inputs.empty()) return {.unknown = Unknown::kNothingWentIn};
  if (!inputs.unweighed.empty()) return {.unknown = Unknown::kUnweighed, .of = inputs.unweighed};
  if (inputs.share_lacking_c_to_n() > rules(thresholds::pile::treat_cn_lacking)) {
    return {.unknown = Unknown::kLacksFigures, .of = inputs.lacking_c_to_n()};
  }
  if (!inputs.blend || !inputs.blend->c_to_n) return {.unknown = Unknown::kNoNitrogen};
  return {inputs.blend->c_to_n};
}

bool is_raw(const model::Material& material) {
  if (material.is(kFlagAnimal) || material.is(kFlagManure)) return true;
  return material.group != kGroupWater && material.group != kGroupMineral &&
         material.group != kGroupChar;
}

}  // namespace kinds::pile
