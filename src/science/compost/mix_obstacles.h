#pragma once

#include <span>
#include <vector>

#include "science/compost/mix_linear.h"

// What stands in the way of a mix, and what would help.
namespace science {

// Puts into the result each condition that, given up alone, lets the mix be made; or, where none
// does, the conditions that have to give way together.
void find_obstacles(MixResult& result, const Mix& mix, const std::vector<Condition>& conditions);

// Puts into the result each helper that makes the mix possible by itself, the least mass first.
void find_remedies(MixResult& result, const Mix& mix, std::span<const Condition> conditions,
                   std::span<const MixCandidate> helpers);

}  // namespace science
