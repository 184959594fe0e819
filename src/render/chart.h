#pragma once

#include <optional>
#include <string>
#include <vector>

#include "measure/moment.h"
#include "measure/unit.h"
#include "model/history.h"

namespace render {

// A chart in characters of a series' daily highest readings: `width` columns, one a day or several
// days a column where the time is longer, eight steps high a line. `mark` draws a line of dots at a
// limit. Empty where there are fewer than two days.
std::string chart(const std::vector<model::DayRoll>& days, const measure::Unit& unit,
                  std::optional<double> mark, std::size_t width, model::Day today);

}  // namespace render
