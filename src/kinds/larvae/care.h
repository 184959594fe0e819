#pragma once

#include "kinds/larvae/warmth.h"
#include "model/assessment.h"

// Moisture, smell, other flies, bedding and cardboard.
namespace kinds::larvae {

// `larvae.dry`, `larvae.wet`, `larvae.smell`, `larvae.flies`, `larvae.bedding`, `larvae.cardboard`
// and `larvae.moisture` (a meter that says the same every day). Near harvest a bin should be dry
// enough to sieve; until then it should not.
void judge_care(const model::History& history, const model::Rules& rules, const Warmth& warmth,
                bool ready, model::Assessment& into);

}  // namespace kinds::larvae
