#pragma once

#include <optional>

#include "kinds/digester/expected.h"
#include "kinds/digester/feed.h"
#include "model/rules.h"
#include "science/numbers/units.h"

// The gas that the feeding of the last days is worth, by two published models that know nothing of
// each other.
namespace kinds::digester {

// Biogas a day at standard.
struct GasDue {
  science::NormalLitres by_loads;     // first-order release of each load, at each day's temperature
  science::NormalLitres least, most;  // what that lies between (rules digester.gas.doubt)
  // Chen and Hashimoto's stirred digester, fed so for ever. Only where the feed is nearly all
  // manure and the slurry from 20 to 60 degC; none elsewhere.
  std::optional<science::NormalLitres> stirred;
  bool washed_out = false;  // by that model the microbes leave faster than they grow: no gas
};

// None where no temperature was read, or no load's figures are known for so long.
std::optional<GasDue> gas_due(const model::History& history, const model::Rules& rules,
                              const Feed& feed, const Warmth& warmth,
                              const std::optional<Expected>& expected);

}  // namespace kinds::digester
