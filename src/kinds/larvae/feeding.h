#pragma once

#include "kinds/larvae/heat.h"

// How much the larvae were given, and how much they can eat.
namespace kinds::larvae {

// `larvae.underfed` and `larvae.overfed`, and a line of advice for today. Nothing is wanted of a
// bin that is `ready` or dormant.
void judge_feeding(const model::History& history, const model::Rules& rules, const Course& course,
                   Comfort comfort, bool ready, model::Assessment& into);

}  // namespace kinds::larvae
