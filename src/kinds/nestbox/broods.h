#pragma once

#include <optional>
#include <vector>

#include "model/history.h"
#include "model/rules.h"

// The broods that a box's counts tell of.
namespace kinds::nestbox {

// One brood, from the first egg or young seen to the young flown, the box empty, or cleaned out.
struct Brood {
  model::Day first;                       // anything seen
  std::optional<model::Day> eggs_since;   // the first count of eggs
  std::optional<model::Day> young_since;  // the first count of young
  double eggs{}, young{};                 // the most counted
  std::optional<double> fledged;          // as told; none: not told
  std::optional<model::Day> ended;        // none: still in the box
};
// In the order in which they began.
std::vector<Brood> broods(const model::History& history);

// The brood that is in the box now, or null.
const Brood* present(const std::vector<Brood>& broods);

// Whether a day lies in the nesting season of the site's half of the earth.
bool in_season(model::Day day, const model::History& history, const model::Rules& rules);

// The last day on which anyone is known to have looked in; none: never.
std::optional<model::Day> last_look(const model::History& history);

}  // namespace kinds::nestbox
