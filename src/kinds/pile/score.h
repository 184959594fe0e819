#pragma once

#include <vector>

#include "kinds/kind.h"

namespace kinds::pile {

// Foresees the pile 1, 2, 3, 5 and 7 days ahead as of each of its days that was read, and compares
// with what was read then.
std::vector<ForesightScore> replay(const model::History& history, const model::Rules& rules);

}  // namespace kinds::pile
