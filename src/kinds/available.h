#pragma once

#include <optional>

#include "measure/scalar.h"
#include "model/material.h"
#include "model/rules.h"

namespace kinds {

// Of the nitrogen in a load, what the first crop can have; none where no share is known of such a
// material (char, wood, straw: they give none, or bind some). The shares are rules, with their
// sources.
std::optional<measure::Fraction> first_year_share(const model::Material& material,
                                                  const model::Rules& rules);

// The range that share is known to lie in, where it is a wide one (a brew, frass, compost); else
// none.
struct ShareRange {
  measure::Fraction least, most;
};
std::optional<ShareRange> first_year_range(const model::Material& material,
                                           const model::Rules& rules);

}  // namespace kinds
