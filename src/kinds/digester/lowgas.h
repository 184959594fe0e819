#pragma once

#include "kinds/digester/expected.h"
#include "kinds/digester/feed.h"
#include "kinds/digester/gas.h"
#include "kinds/digester/slurry.h"
#include "kinds/digester/warmth.h"
#include "model/assessment.h"
#include "model/rules.h"

namespace kinds::digester {

// What the judgement of the gas rests on.
struct GasRecords {
  const Feed& feed;
  const Warmth& warmth;
  const Slurry& slurry;
  const Gas& gas;
};

// `digester.lowgas`: far below what feed and temperature should give, or fallen from what it gave,
// or a flame that is weak; with what the records say of the reason: souring, cold, little feed, a
// leak.
void judge_low_gas(const model::History& history, const model::Rules& rules,
                   const GasRecords& records, bool first_gas, model::Assessment& into);

// "9.2 ft3 a day over 12 days, 84 % of what its feed and temperature should give".
std::optional<model::Progress> gas_line(const model::History& history, const model::Rules& rules,
                                        const GasRecords& records);

}  // namespace kinds::digester
