#pragma once

#include <vector>

#include "model/assessment.h"
#include "model/history.h"
#include "model/rules.h"

// A flock in figures, for the season's end.
namespace kinds::flock {

// Eggs and laying; feed, larvae and what they replaced; protein and calcium a hen a day.
void measure_laying(const model::History& history, const model::Rules& rules,
                    std::vector<model::Measure>& into);

// Manure with its nitrogen, phosphorus and potassium, fresh, from the hen-days; and what was
// carried out.
void measure_manure(const model::History& history, std::vector<model::Measure>& into);

}  // namespace kinds::flock
