#pragma once

#include "kinds/pile/care.h"
#include "kinds/pile/heat.h"

// What a pile is on its way to.
namespace kinds::pile {

// Temperature for the next seven days, the day 160 °F would be crossed, the days on which it will
// have cooled and will be ready, and the earliest day of each treatment, each with its interval.
void foretell(const Known& known, model::Assessment& into);

// `pile.heating`: not too hot yet, but the model or the last readings of a position lead past the
// limit within pile.heating.days. Readings from before a turning say nothing of it.
void judge_heating(const Known& known, model::Assessment& into);

}  // namespace kinds::pile
