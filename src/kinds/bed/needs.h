#pragma once

#include <string_view>

#include "measure/result.h"
#include "science/soil/nutrients.h"

// What a soil test or a growers' guide says a crop should be given.
namespace kinds::bed {

// "N 160, P2O5 50, K2O 75 lb/acre": symbols with amounts, the unit after each or after the last.
// P2O5 and K2O are turned into P and K. A nutrient that is not named is not asked for. The mistake
// says what would be understood.
measure::Result<science::NutrientRate> read_needs(std::string_view text);

}  // namespace kinds::bed
