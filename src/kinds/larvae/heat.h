#pragma once

#include <optional>

#include "kinds/larvae/course.h"
#include "model/finding.h"

// Too hot, on the way there, or too cold.
namespace kinds::larvae {

class Study;

enum class Comfort { kUnknown, kWell, kHot, kSlow, kDormant };

// The warmest place by fresh readings of the bin or, where there are none, of the air: larvae move
// there, so the bin is cold only where that is.
struct Warmest {
  measure::Celsius at;
  const model::Series* series;
  bool by_air = false;
  measure::Kelvins offset{};  // what was added to the air's reading
};
std::optional<Warmest> warmest_of(const model::History& history, const model::Rules& rules);

Comfort comfort_of(const std::optional<Warmest>& warmest, const Diet& diet,
                   const model::Rules& rules);

// `larvae.hot`, `larvae.heating` or `larvae.cold`.
std::optional<model::Finding> judge_temperature(const Study& study);

}  // namespace kinds::larvae
