#pragma once

#include "kinds/digester/startup.h"
#include "kinds/digester/warmth.h"
#include "model/assessment.h"
#include "model/history.h"
#include "model/rules.h"

// How a digester comes into use: filled, one part of water to one of manure, waiting for gas that
// burns.
namespace kinds::digester {

// The start-up's own list, a line each, until gas burns.
void list_startup(const model::History& history, const model::Rules& rules, const Startup& startup,
                  model::Assessment& into);

// `digester.start`: what is late or off, and why, temperature first.
void judge_start(const model::History& history, const model::Rules& rules, const Startup& startup,
                 const Warmth& warmth, model::Assessment& into);
// `digester.firstgas`: the first gas is let off, not used.
void judge_first_gas(const model::History& history, const model::Rules& rules,
                     const Startup& startup, model::Assessment& into);
// `digester.restart`: resting, and warm enough again.
void judge_restart(const model::History& history, const model::Rules& rules, const Warmth& warmth,
                   model::Assessment& into);

}  // namespace kinds::digester
