#pragma once

#include <optional>
#include <vector>

#include "kinds/pile_days.h"
#include "model/rules.h"
#include "science/compost_heat.h"

// How warm a pile will be: the published heat balance (science/compost_heat.h), its heat corrected
// by what the pile itself did of late, and before that by the site's finished piles.
namespace kinds::pile {

// How much each source had to say on the heat, as shares that sum to 1.
struct Leaning {
  double model = 1, site = 0, own = 0;
  int site_piles = 0;
  int own_days = 0;  // pairs of readings next to each other
};

struct HeatForecast {
  struct Day {
    model::Day day;
    double likely{}, low{}, high{};  // degC; low to high should hold four days of five
  };
  std::vector<Day> days;  // from the day after the last reading
  Leaning leaning;
  // The same with the heat a good deal less and more: for days that lie weeks ahead.
  std::vector<double> lesser, greater;
};

// The pile's warmest position from the day after `as_of` on, seen from that day with what had been
// recorded by then. None where it was not read in the three days up to then.
std::optional<HeatForecast> foresee(const model::History& history, const Course& course,
                                    const model::Rules& rules, model::Day as_of, int days_ahead);

}  // namespace kinds::pile
