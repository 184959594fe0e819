#pragma once

#include <vector>

#include "kinds/pile/study.h"

namespace kinds::pile {

// Foresees the pile 1, 2, 3, 5 and 7 days ahead as of each of its days that was read, and compares
// with what was read then.
std::vector<ForesightScore> replay_of(const Study& study);

}  // namespace kinds::pile
