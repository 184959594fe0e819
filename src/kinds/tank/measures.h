#pragma once

#include "model/assessment.h"
#include "model/history.h"
#include "model/rules.h"

namespace kinds::tank {

// A tank in figures: rain, caught, spilt, drawn, added, mains water replaced.
void measure_water(const model::History& history, const model::Rules& rules,
                   model::Assessment& into);

// How often the tank, or one of another size, would have met what is wanted of it, over the rain on
// record: a table and a picture, and the size past which more buys little.
model::Record sizing(const model::History& history, const model::Rules& rules);

}  // namespace kinds::tank
