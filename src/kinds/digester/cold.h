#pragma once

#include "kinds/digester/warmth.h"
#include "model/assessment.h"
#include "model/rules.h"

// What the slurry's temperature asks of hands.
namespace kinds::digester {

// `digester.cold`: the mean of the last days is below what it needs; whether that is a spell that
// days or trend mend, or not.
void judge_cold(const model::History& history, const model::Rules& rules, const Warmth& warmth,
                bool running, model::Assessment& into);
// `digester.winter`: it has been so for long: what to do, in the order of what it costs.
void judge_winter(const model::History& history, const model::Rules& rules, const Warmth& warmth,
                  bool running, model::Assessment& into);
// `digester.swing`: it changes too fast, within hours or from day to day.
void judge_swing(const model::History& history, const model::Rules& rules, model::Assessment& into);

}  // namespace kinds::digester
