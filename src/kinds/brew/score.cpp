#include <algorithm>

#include "kinds/brew/study.h"
#include "kinds/finding.h"
#include "kinds/replay.h"

// How the day on which a brew's time is full was foreseen.
namespace kinds::brew {

// Naive: every day counts as one at the rule's temperature.
std::vector<ForesightScore> Study::replay() const {
  ForesightScore ready{.what = "ready", .error = measure::Dimension::kDuration};
  if (!clock().full() || clock().in_hours() || clock().thermometer == Thermometer::kNone)
    return {ready};
  const model::Day came = clock().full_day();
  for (model::Day day = clock().from; day < came; day += date::days{1}) {
    const model::History seen = as_seen_on(history_, day);
    const Study then(seen, rules_);
    const auto foreseen = foresee_ready(seen, rules_, then.clock());
    if (!foreseen || !foreseen->likely || !foreseen->earliest || !foreseen->latest) continue;
    const double usual = std::max(1.0, clock().wanted.value - days_between(clock().from, day));
    ready.judge_day(day, *foreseen->likely, foreseen->earliest, foreseen->latest, usual, came);
  }
  return {ready};
}

}  // namespace kinds::brew
