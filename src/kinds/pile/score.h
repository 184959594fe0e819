#pragma once

#include <vector>

#include "kinds/pile/study.h"

namespace kinds::pile {

// Foresees the pile's temperature 1 to 7 days ahead, and the day on which it has cooled, as of each
// of its days that was read, and compares with what was read then.
std::vector<ForesightScore> replay_of(const Study& study);

}  // namespace kinds::pile
