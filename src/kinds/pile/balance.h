#pragma once

#include <optional>
#include <vector>

#include "kinds/pile/days.h"
#include "model/rules.h"
#include "science/compost/heat.h"

// A pile's heat balance, day by day, against the published one (science/compost/heat.h).
namespace kinds::pile {

// Days without a reading over which two readings still make one balance.
inline constexpr int kFreshDays = 3;

// The published model with the size and moisture that were known by a day.
science::PileModel model_by(const model::History& history, const model::Rules& rules,
                            model::Day as_of);

// What a pile's days say of its heat. A pile that burns more than the model, or keeps its heat
// better, shows the same: the correction g makes the heat g times as much and the loss g times
// less.
struct Heat {
  double log_factor = 0;  // of g, by least squares over the days' balances; 0 where there are none
  int pairs = 0;          // readings next to each other with no turning at either end
  double degradable = 0;  // share of dry mass left, by the temperatures that were read
};

// The balances of a pile's days, worked out once for all the days on which it is asked about.
class HeatDays {
 public:
  HeatDays(const Course& course, const science::PileModel& pile, const model::Rules& rules);

  // As seen on `day`. `back`: how many days before it count, the latest most; none: all of them
  // alike.
  Heat as_of(model::Day day, std::optional<int> back) const;

 private:
  struct Balanced {
    model::Day day;
    bool counts{};                         // a balance with the day before it
    double gained{}, burning{}, losing{};  // kJ a day
    double degradable{};                   // after it
  };
  std::vector<Balanced> days_;  // ascending
  double fresh_;                // degradable at the start
};

// The air of the days up to `day`, or the rule's where it was not read.
double air_on(const Course& course, const model::Rules& rules, model::Day day);

// The pile's temperature at the same hour of the next days, from `start` on, with the correction's
// logarithm; empty where the model has no answer.
std::vector<double> simulated(science::PileModel pile, double degradable, double log_factor,
                              double start, double air, int days_ahead);

}  // namespace kinds::pile
