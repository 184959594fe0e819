#pragma once

#include <vector>

#include "model/finding.h"

// Moisture, smell, other flies, bedding and cardboard.
namespace kinds::larvae {

class Study;

// `larvae.dry`, `larvae.wet`, `larvae.smell`, `larvae.flies`, `larvae.bedding`, `larvae.cardboard`
// and `larvae.moisture` (a meter that says the same every day). Near harvest a bin should be dry
// enough to sieve; until then it should not.
void judge_care(const Study& study, std::vector<model::Finding>& into);

// What of it grows old with the days alone: bedding and cardboard.
void judge_renewals(const Study& study, std::vector<model::Finding>& into);

}  // namespace kinds::larvae
