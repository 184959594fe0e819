#pragma once

#include <vector>

#include "kinds/digester/study.h"

// What a digester took, gave and replaced, for the season report.
namespace kinds::digester {

std::vector<model::Measure> figures_of(const Study& study);

}  // namespace kinds::digester
