#pragma once

#include <vector>

#include "kinds/digester/study.h"

namespace kinds::digester {

// `digester.check`, `digester.trap`, `digester.scrubber`: what is due by the calendar once there is
// gas. A trap or a scrubber that was never logged may not be there, so it is not asked for.
void judge_upkeep(const Study& study, std::vector<model::Finding>& into);

}  // namespace kinds::digester
