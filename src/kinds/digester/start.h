#pragma once

#include "kinds/digester/study.h"

// How a digester comes into use: what is late or off.
namespace kinds::digester {

bool mix_is_off(const Startup& startup, const model::Rules& rules);

// `digester.start`: what is late or off, and why, temperature first.
Found judge_start(const Study& study);
// `digester.firstgas`: the first gas is let off, not used.
Found judge_first_gas(const Study& study);
// `digester.restart`: resting, and warm enough again.
Found judge_restart(const Study& study);

}  // namespace kinds::digester
