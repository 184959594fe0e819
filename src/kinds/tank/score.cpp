#include <algorithm>

#include "kinds/finding.h"
#include "kinds/replay.h"
#include "kinds/tank/study.h"

// How a tank's level was foreseen: it falls by the present draw, if it does not rain.
namespace kinds::tank {
namespace {

using measure::Litres;

// A level read so soon after another says more of the eye than of the draw; one so much later is of
// another season.
constexpr int kSoonest = 3, kLatest = 35;

bool came_in_between(const Study& study, const Level& from, const Level& to) {
  const auto between = [&](model::Instant at) { return at > from.at && at <= to.at; };
  const auto& rain = study.rain();
  const bool rained = std::any_of(rain.begin(), rain.end(), [&](const RainDay& day) {
    return day.rain > measure::Metres{0} && between(day.at);
  });
  const auto& added = study.history().in;
  return rained || std::any_of(added.begin(), added.end(),
                               [&](const model::Movement& one) { return between(one.at); });
}

}  // namespace

std::vector<ForesightScore> Study::replay() const {
  ForesightScore level{.what = "level without rain", .error = measure::Dimension::kVolume};
  const auto& all = levels();
  for (auto then = all.begin(); then != all.end(); ++then) {
    if (then == all.begin()) continue;
    const Level& now = *std::prev(then);
    const int away = days_between(now.day, then->day);
    if (away < kSoonest || away > kLatest) continue;
    const model::History seen = as_seen_on(history_, now.day);
    const Study known(seen, rules_);
    if (!known.draw()) continue;
    if (came_in_between(*this, now, *then)) {
      ++level.disturbed;
      continue;
    }
    const Litres drawn = known.draw()->a_day * away;
    level.judge(std::max(Litres{0}, now.held - drawn).value, now.held.value, then->held.value);
  }
  return {level};
}

}  // namespace kinds::tank
