#pragma once

#include "kinds/pile/care.h"

// A pile in figures, for the season's end.
namespace kinds::pile {

// Mass and volume in and out, the blend, heat, turnings, treatment, nutrients and carbon kept,
// days. Stable keys "pile.*"; each figure says what it leans on and what it leaves out.
void add_figures(const Known& known, model::Assessment& into);

}  // namespace kinds::pile
