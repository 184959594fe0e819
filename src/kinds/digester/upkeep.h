#pragma once

#include "model/assessment.h"
#include "model/history.h"
#include "model/rules.h"

namespace kinds::digester {

// `digester.check`, `digester.trap`, `digester.scrubber`: what is due by the calendar once there is
// gas. A trap or a scrubber that was never logged may not be there, so it is not asked for.
void judge_upkeep(const model::History& history, const model::Rules& rules, model::Day gas_since,
                  model::Assessment& into);

}  // namespace kinds::digester
