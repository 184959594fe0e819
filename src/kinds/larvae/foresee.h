#pragma once

#include "kinds/larvae/warmth.h"
#include "model/assessment.h"

// What is to come of a bin that is not ready yet.
namespace kinds::larvae {

// The day of harvest with the interval that eight chances in ten lie in; `larvae.harvest` as soon
// as the likely day is near.
void foresee_harvest(const model::History& history, const model::Rules& rules, const Course& course,
                     const Diet& diet, const Warmth& warmth, model::Assessment& into);

// The larvae to expect of the feed given so far.
void foresee_larvae(const model::History& history, const model::Rules& rules, const Course& course,
                    model::Assessment& into);

}  // namespace kinds::larvae
