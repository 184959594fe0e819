#pragma once

#include <string>

#include "model/assessment.h"
#include "model/history.h"
#include "model/rules.h"

// How the hens lay.
namespace kinds::flock {

// `flock.laying`: laying has fallen against the weeks before. `short_of` is what their feed is
// short of by the records, or empty. Says the rate of the last days.
void judge_laying(const model::History& history, const model::Rules& rules,
                  const std::string& short_of, model::Assessment& into);

// `flock.record`: more eggs than hens, or hens that nobody counted.
void judge_counts(const model::History& history, const model::Rules& rules,
                  model::Assessment& into);

}  // namespace kinds::flock
