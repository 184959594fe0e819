#pragma once

#include <vector>

#include "model/assessment.h"

// A bin in figures, for the season's end: feed, larvae and frass, the figures of conversion on both
// bases, days, warmth, density, growth and survival; protein, fat and calcium in the larvae taken
// out, and for how many hen-days that protein lasts.
namespace kinds::larvae {

class Study;

std::vector<model::Measure> measures_of(const Study& study);

}  // namespace kinds::larvae
