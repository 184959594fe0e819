#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/digester/feed.h"
#include "kinds/digester/gas.h"
#include "model/history.h"
#include "model/rules.h"
#include "science/numbers/units.h"

// How much gas the feed should give at the slurry's temperatures, looking back and ahead.
namespace kinds::digester {

// Biogas at standard, a day each from `first` on.
struct Expected {
  model::Day first;
  std::vector<science::NormalLitres> biogas;

  // The mean over the days after `from` up to `to`; none where they are not all in it.
  std::optional<science::NormalLitres> mean(model::Day from, model::Day to) const;
};

// First-order release of each load at each day's temperature, until it has stayed as long as feed
// stays in this digester. Days ahead are taken to be as warm as the mean of the last ones plus
// `warmer`, fed as the last ones were. Nothing where no load's figures are known or no temperature
// was read.
std::optional<Expected> expected_gas(const model::History& history, const model::Rules& rules,
                                     const Feed& feed, const Warmth& warmth, int days_ahead = 0,
                                     measure::Kelvins warmer = {});

// Gas a day of the coming days, slurry somewhat colder and warmer, brought to this digester's own
// measure where it was measured enough.
struct GasAhead {
  model::Day last;
  science::NormalLitres low, likely, high;
  double own = 1;    // what it gave of what was due
  int own_days = 0;  // over so many; 0: not compared
};
std::optional<GasAhead> foresee_gas(const model::History& history, const model::Rules& rules,
                                    const Feed& feed, const Warmth& warmth, const Gas& gas,
                                    const std::optional<Expected>& so_far);

}  // namespace kinds::digester
