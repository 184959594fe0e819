#pragma once

#include <optional>
#include <vector>

#include "kinds/flock/days.h"
#include "model/finding.h"

// How the hens lay.
namespace kinds::flock {

class Study;

// The last days against those before them; whole days that end before today, as today's eggs are
// not all laid yet.
struct Laying {
  int days, days_before;
  Eggs now, before;
  std::optional<measure::Fraction> rate, rate_before;
};
Laying laying_of(const model::History& history, const model::Rules& rules);

// `flock.laying`: laying has fallen against the weeks before.
std::optional<model::Finding> judge_laying(const Study& study);
// `flock.record`: more eggs than hens.
std::optional<model::Finding> judge_counts(const Study& study);

// The condition in which the hens were seen last, where that was lately; or null.
const model::Sensed* condition_of(const model::History& history, const model::Rules& rules);

}  // namespace kinds::flock
