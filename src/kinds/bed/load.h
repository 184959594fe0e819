#pragma once

#include <string>

#include "model/history.h"
#include "model/rules.h"

// What is said of a load when it is carried to a bed.
namespace kinds::bed {

// Nutrients that a load brings to the bed, for the moment when it is carried there; empty where
// nothing of it is known.
std::string brings_words(const model::Movement& load, const model::History& bed,
                         const model::Rules& rules);
// What the crop still wanted before that load, and how much of it that would be by each nutrient
// alone; what of that the load covers, and what is left to give. Nutrients that are not asked for
// are left out. `bed` is without the load. Empty where the need or the load's content is not known.
std::string rate_words(const model::Movement& load, const model::History& bed,
                       const model::Rules& rules);

}  // namespace kinds::bed
