#pragma once

#include "kinds/digester/study.h"

namespace kinds::digester {

std::optional<Compared> compare_gas(const Study& study);

// `digester.lowgas`: far below what feed and temperature should give, or fallen from what it gave,
// or a flame that is weak; with what the records say of the reason: souring, cold, little feed, a
// leak. Of the first gas a flame says nothing.
Found judge_low_gas(const Study& study, bool first_gas);

}  // namespace kinds::digester
