#include "science/weather/store.h"

#include <algorithm>
#include <cassert>

namespace science {

using measure::Fraction;
using measure::Litres;

Fraction StoreRun::by_volume() const {
  return Fraction{demanded > Litres{0} ? supplied / demanded : 1};
}

Fraction StoreRun::by_days() const {
  return Fraction{days_wanted > 0 ? static_cast<double>(days_met) / days_wanted : 1};
}

StoreRun run_store(std::span<const StoreDay> days, Litres capacity, Litres at_start,
                   StoreOrder order) {
  assert(at_start <= capacity);
  const bool after_spill = order == StoreOrder::kYieldAfterSpill;
  StoreRun run;
  run.at_start = at_start;
  Litres held = at_start;
  for (const StoreDay& day : days) {
    StoreStep step;
    step.supplied = std::min(day.demand, after_spill ? held : held + day.inflow);
    const Litres full = after_spill ? capacity - step.supplied : capacity;
    const Litres all = held + day.inflow - step.supplied;
    step.held = std::min(all, full);
    step.spilt = all - step.held;
    held = step.held;
    run.inflow += day.inflow;
    run.demanded += day.demand;
    run.supplied += step.supplied;
    run.spilt += step.spilt;
    if (day.demand > Litres{0}) {
      ++run.days_wanted;
      if (step.supplied >= day.demand) ++run.days_met;
    }
    run.steps.push_back(step);
  }
  run.at_end = held;
  return run;
}

}  // namespace science
