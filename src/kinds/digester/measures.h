#pragma once

#include <vector>

#include "kinds/digester/feed.h"
#include "kinds/digester/gas.h"
#include "model/assessment.h"
#include "model/rules.h"

// What a digester took, gave and replaced, for the season report.
namespace kinds::digester {

std::vector<model::Measure> measures_of(const model::History& history, const model::Rules& rules,
                                        const Startup& startup, const Feed& feed, const Gas& gas);

}  // namespace kinds::digester
