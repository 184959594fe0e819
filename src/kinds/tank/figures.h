#pragma once

#include <vector>

#include "model/assessment.h"

namespace kinds::tank {

class Study;

// A tank in figures: rain, caught, spilt, drawn, added, mains water replaced.
std::vector<model::Measure> figures_of(const Study& study);

}  // namespace kinds::tank
