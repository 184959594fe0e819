#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/burn/course.h"
#include "model/finding.h"

// The fire and what is left of it: who must look, and when it is out.
namespace kinds::burn {

class Study;

// What somebody saw of quenched char: its heat, its moisture or both.
struct Look {
  model::Instant at;
  std::optional<bool> cold;
  std::optional<bool> wet;
  std::optional<measure::Celsius> read;  // none: felt by hand
};

// What is known of the embers since they are watched. What nobody saw is not known to be cold.
struct Embers {
  std::optional<model::Instant> out;  // found cold long enough after the quench, and wet
  bool cold = false;                  // long enough after the quench
  bool cold_early = false;            // cold, but too soon to trust
  bool wet = false;
  std::optional<Look> hot;                  // the last look at its heat, where that was not cold
  std::optional<model::Instant> last_look;  // of any sort
};
Embers embers_of(const model::History& history, const model::Rules& rules, const Course& course);

// Where char went before it was out: the watch has to follow it.
std::vector<std::string> gone_to(const model::History& history, const Course& course);

// `burn.lit`: burning, and nobody has logged the quench.
std::optional<model::Finding> judge_fire(const Study& study);
// `burn.ember`: quenched or opened, and not yet found cold and wet.
std::optional<model::Finding> judge_embers(const Study& study);

}  // namespace kinds::burn
