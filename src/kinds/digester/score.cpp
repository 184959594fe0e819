#include "kinds/digester/expected.h"
#include "kinds/digester/study.h"
#include "kinds/digester/warmth.h"
#include "kinds/finding.h"
#include "kinds/replay.h"
#include "kinds/thresholds.h"

// How the digester's forecasts did over its own past.
namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Dimension;

// How far back its own forecasts say whether there is skill, and how many it takes.
constexpr date::days kLookBack{60};
constexpr int kJudgedForSkill = 10;

std::optional<double> mean_on(const std::vector<model::DayRoll>& rolls, model::Day day) {
  for (const model::DayRoll& roll : rolls) {
    if (roll.day == day) return roll.mean();
  }
  return std::nullopt;
}

void judge_warmth(const Study& then, const std::vector<model::DayRoll>& rolls,
                  ForesightScore& score) {
  const auto ahead = foresee_warmth(then.history(), then.rules());
  const auto now = mean_on(rolls, then.history().today);
  if (!ahead || !now) return;
  const auto came = mean_on(rolls, ahead->day);
  if (!came) return;
  const double likely = ahead->likely.value, half = ahead->half_width.value;
  score.judge(likely, likely - half, likely + half, *now, *came);
}

void judge_gas(const Study& then, const Gas& gas, ForesightScore& score) {
  const auto ahead = foresee_gas(then.history(), then.rules(), then.feed(), then.warmth(),
                                 then.gas(), then.expected());
  if (!ahead) return;
  const model::Day today = then.history().today;
  const auto window = ahead->last - today;
  const auto came = gas_rate(gas, today, ahead->last);
  const auto before = gas_rate(gas, today - window, today);
  if (!came || !before || came->days() < window.count() / 2) return;
  score.judge(ahead->likely.value, ahead->low.value, ahead->high.value, before->a_day.value,
              came->a_day.value);
}

}  // namespace

std::vector<ForesightScore> Study::replay_from(model::Day first) const {
  const auto rolls = model::pooled_days(history_.all(kTemperature));
  const int ahead = full_days(rules_(limits::forecast_ahead));
  ForesightScore warmth{.what = "slurry temperature",
                        .error = Dimension::kTemperatureDifference,
                        .days_ahead = ahead};
  ForesightScore gas_a_day{.what = "gas a day", .error = Dimension::kVolume, .days_ahead = ahead};
  for (const model::DayRoll& roll : rolls) {
    if (roll.day < first) continue;
    if (roll.day + date::days{ahead} > history_.today) break;
    const model::History seen = as_seen_on(history_, roll.day);
    const Study then(seen, rules_);
    judge_warmth(then, rolls, warmth);
    judge_gas(then, gas(), gas_a_day);
  }
  return {warmth, gas_a_day};
}

std::vector<ForesightScore> Study::replay() const {
  return replay_from(history_.batch.started_day);
}

// Gas has to show its skill first: no record is known in which it was foreseen better than by
// "it gives what it gave".
Foreseen Study::foreseen_well() const {
  const auto scores = replay_from(history_.today - kLookBack);
  const ForesightScore &warmth = scores[0], &gas = scores[1];
  return {!warmth.loses_to_naive(kJudgedForSkill),
          gas.count >= kJudgedForSkill && !gas.loses_to_naive(kJudgedForSkill)};
}

}  // namespace kinds::digester
