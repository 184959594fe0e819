#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "kinds/digester/startup.h"
#include "kinds/digester/warmth.h"
#include "model/finding.h"
#include "model/history.h"
#include "model/rules.h"
#include "science/gas/digestion_gas.h"
#include "science/numbers/units.h"
#include "science/soil/nutrients.h"

// What a digester is fed: how rich for its size, how long it stays.
namespace kinds::digester {

// One load of feed.
struct Load {
  model::Day day;
  measure::Kilograms fresh;
  std::optional<measure::Kilograms> volatile_solids;  // none: its figures are not known
  science::NormalLitresPerKilogram potential;         // methane; where the solids are known
  science::PerDay rate;                               // at digester.gas.rate_at
  // When the slurry fed after it fills the working volume, as if nothing mixed; none: not yet, or
  // unknown.
  std::optional<model::Day> leaves;
  measure::Litres behind;  // slurry fed after it
  bool limited = false;    // oil, grease or citrus
  bool manure = false, of_pigs = false;
};

struct Feed {
  std::vector<Load> loads;          // all of them, the filling's too
  science::NutrientMass nutrients;  // of the loads whose figures are known
  // Materials left out of the nitrogen, phosphorus and potassium.
  std::set<std::string> no_nitrogen, no_phosphorus, no_potassium;
  measure::Kilograms fresh, volatile_solids;
  measure::Litres water;
  std::vector<std::string> unknown;  // materials left out of the volatile solids

  // As said, else what filled it; none: neither is known.
  std::optional<measure::Litres> working_volume;

  // Means over the last days, without the filling.
  measure::Days window;  // shorter than the rule's while the digester is young
  measure::Kilograms volatile_solids_lately;
  // Feed of these days as it was measured: a volume where all of it was, else a weight.
  measure::Value lately;
  std::string lately_of;  // its material; "feed" where there are several
  std::optional<science::KilogramsPerCubicMetreDay>
      loading;                               // none: no working volume, or too young
  std::optional<measure::Days> retention;    // none: the same, or nothing fed
  std::optional<measure::Fraction> limited;  // of the fresh feed; none: nothing fed
};

Feed feed_of(const model::History& history, const model::Rules& rules, const Startup& startup);

// Feed and water of the days from `first` to `last`, both included.
measure::Litres slurry_fed(const model::History& history, model::Day first, model::Day last);

// The loading that it takes at this temperature.
science::KilogramsPerCubicMetreDay loading_limit(measure::Celsius temperature,
                                                 const model::Rules& rules);

class Study;

// `digester.overfed`: more than it takes at its temperature.
std::optional<model::Finding> judge_overfed(const Study& study);
// `digester.short`: feed and water leave too early.
std::optional<model::Finding> judge_short(const Study& study);

}  // namespace kinds::digester
