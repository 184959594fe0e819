#include <algorithm>

#include "kinds/finding.h"
#include "kinds/larvae/learn.h"
#include "kinds/larvae/study.h"
#include "kinds/larvae/warmth.h"
#include "kinds/replay.h"
#include "kinds/thresholds.h"

// How the day of harvest was foreseen.
namespace kinds::larvae {

// Naive: it takes as long from the seeding as such bins mostly do.
std::vector<ForesightScore> Study::replay() const {
  ForesightScore harvest{.what = "harvest", .error = measure::Dimension::kDuration};
  // Where too few had turned, the day on which somebody thought them ready.
  auto came = day_of_readiness(history_, rules_);
  if (!came) came = main_harvest(history_);
  const model::Day seeded = seeding_day(history_);
  if (!came || !course().seeding_told) return {harvest};
  const model::Day usual =
      seeded + date::days{full_days(rules_(thresholds::larvae::harvest_usual))};
  for (model::Day day = seeded; day < *came; day += date::days{1}) {
    const model::History seen = as_seen_on(history_, day);
    const Study then(seen, rules_);
    if (then.readiness().ready()) continue;
    const auto& foreseen = then.foreseen();
    if (!foreseen || !foreseen->likely) continue;
    harvest.judge_day(day, *foreseen->likely, foreseen->earliest, foreseen->latest,
                      std::max(1, days_between(day, usual)), *came);
  }
  return {harvest};
}

}  // namespace kinds::larvae
