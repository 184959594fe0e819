#pragma once

#include "kinds/digester/study.h"

// What the slurry's temperature asks of hands.
namespace kinds::digester {

// `digester.cold`: the mean of the last days is below what it needs; whether that is a spell that
// days or trend mend, or not.
Found judge_cold(const Study& study);
// `digester.winter`: it has been so for long: what to do, in the order of what it costs.
Found judge_winter(const Study& study);
// `digester.swing`: it changes too fast, within hours or from day to day.
Found judge_swing(const Study& study);

}  // namespace kinds::digester
