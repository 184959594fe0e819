#pragma once

#include <vector>

#include "kinds/pile/study.h"

// A pile in figures, for the season's end.
namespace kinds::pile {

// Mass and volume in and out, the blend, heat, turnings, treatment, nutrients and carbon kept,
// days. Stable keys "pile.*"; each figure says what it leans on and what it leaves out.
std::vector<model::Measure> figures_of(const Study& study);

}  // namespace kinds::pile
