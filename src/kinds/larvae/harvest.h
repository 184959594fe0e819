#pragma once

#include <algorithm>
#include <optional>

#include "kinds/larvae/warmth.h"
#include "model/finding.h"

// When the larvae are ready: by warmth or by their dark share, whichever comes first.
namespace kinds::larvae {

class Study;

struct DarkShare {
  std::optional<model::Reading> last;
  std::optional<model::Day> last_day;
  std::optional<model::Day> reached;  // first day on which it was read at its share
  // Whether it still is: fewer now means that the dark ones crawled off or were taken.
  bool stands = false;
};
// Only what was read from the seeding on.
DarkShare dark_share_of(const model::History& history, const model::Rules& rules);

// The first day on which larvae were taken out, from a day on.
std::optional<model::Day> first_harvest(const model::History& history, model::Day from);

struct Readiness {
  std::optional<model::Day> by_warmth, by_dark;
  bool ready() const { return by_warmth || by_dark; }
  // The earlier of the two; none where it is not ready.
  std::optional<model::Day> since() const {
    if (!by_warmth || !by_dark) return by_warmth ? by_warmth : by_dark;
    return std::min(*by_warmth, *by_dark);
  }
};

// `larvae.harvest`: ready, near by what is foreseen, or, where nothing was read, in need of a look.
std::optional<model::Finding> judge_harvest(const Study& study);

}  // namespace kinds::larvae
