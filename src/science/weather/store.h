#pragma once

#include <span>
#include <vector>

#include "measure/scalar.h"

// A tank day by day: what runs in, what is wanted, what overflows. Used to judge a tank's size.
namespace science {

struct StoreDay {
  measure::Litres inflow{};
  measure::Litres demand{};
};

struct StoreStep {
  measure::Litres supplied{};
  measure::Litres spilt{};
  measure::Litres held{};  // at the day's end
};

// Which comes first within a day. After spillage is the cautious one: the day's water is taken from
// what stood there in the morning.
enum class StoreOrder { kYieldAfterSpill, kYieldBeforeSpill };

struct StoreRun {
  std::vector<StoreStep> steps;  // one a day
  measure::Litres inflow{}, demanded{}, supplied{}, spilt{};
  measure::Litres at_start{}, at_end{};
  int days_wanted{};  // days with a demand
  int days_met{};     // of those, days on which all of it was supplied

  // The share of the water wanted that the tank gave; 1 where none was wanted.
  measure::Fraction by_volume() const;
  // The share of the days with a demand on which all of it was given; 1 where there was none.
  measure::Fraction by_days() const;
};

// Yield after spillage:  Y = min(D, V'), V = min(V' + Q - Y, S - Y)
// Yield before spillage: Y = min(D, V' + Q), V = min(V' + Q - Y, S)
// with V' the day before's content; what is over is spilt, so that inflow = supplied + spilt +
// at_end - at_start. All amounts are 0 or more and at_start is at most the capacity.
// Source: Jenkins, Pearson, Moore, Sun & Valentine 1978, Feasibility of Rainwater Collection
// Systems in California; Fewkes & Butler 2000, Building Services Engineering Research and
// Technology 21(2):99-106.
StoreRun run_store(std::span<const StoreDay> days, measure::Litres capacity,
                   measure::Litres at_start, StoreOrder order);

}  // namespace science
