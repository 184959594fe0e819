#pragma once

#include "model/assessment.h"
#include "model/history.h"
#include "model/rules.h"

// A bed in figures: yield, what was put on (per area and as a depth), nutrients, char, water.
namespace kinds::bed {

void measure_bed(const model::History& history, const model::Rules& rules, model::Assessment& into);

}  // namespace kinds::bed
