#pragma once

#include <vector>

#include "model/assessment.h"

// A bed in figures: yield, what was put on (per area and as a depth), nutrients, char, water.
namespace kinds::bed {

class Study;

std::vector<model::Measure> measures_of(const Study& study);

}  // namespace kinds::bed
