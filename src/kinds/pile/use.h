#pragma once

#include <string>
#include <vector>

#include "kinds/pile/care.h"

// Compost that is carried to a bed before its pile is done.
namespace kinds::pile {

// What is said of a load as a bed gets it: what its pile still lacks; nothing where it is ready and
// its treatment shown. `history` is the pile's as of that moment.
std::vector<std::string> at_use(const model::Movement& out, const model::History& history,
                                const model::Rules& rules);

// `pile.unready`: the same as a finding, for pile.unready.told days after the load, once a bed.
void judge_unready(const model::History& history, const model::Rules& rules,
                   model::Assessment& into);

}  // namespace kinds::pile
