#pragma once

#include <optional>
#include <vector>

#include "kinds/larvae/course.h"

// The degree-days that larvae have had, from the bin's own daily temperatures.
namespace kinds::larvae {

struct Warmth {
  // No substrate temperature was ever read: the air's, with an offset.
  bool by_air = false;
  // Whole days from the hatch or the seeding to the day before `until`; none: nothing was read.
  std::optional<science::DegreeDaySum> days;
  measure::DegreeDays total{};           // with the head start of larvae whose age was told
  measure::DegreeDays constant{};        // the diet's
  std::optional<model::Day> reached;     // the day on which the total reached the constant
  int too_cold = 0, too_hot = 0;         // days read of which nothing counts
  std::vector<measure::Celsius> recent;  // daily means of late: what the days to come are taken as

  double share() const { return constant > measure::DegreeDays{0} ? total / constant : 0; }
};

// A day counts when it is over, `until` itself not yet; but a reading of that day helps to fill a
// gap before it. Never faster above the diet's upper limit, and nothing at or below its lower one
// or from larvae.hot.lethal on, whatever was read.
Warmth warmth_of(const model::History& history, const model::Rules& rules, const Course& course,
                 const Diet& diet, model::Day until);

// The mean of the recent daily means; none where none was read.
std::optional<measure::Celsius> recent_mean(const Warmth& warmth);

}  // namespace kinds::larvae
