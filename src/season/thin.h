#pragma once

#include <vector>

#include "model/history.h"
#include "season/report.h"

// Long series made short enough to draw. No peak is lost: a point holds the least, the mean and the
// greatest of all readings that it stands for.
namespace season {

// Readings (ascending) in at most `most` points: each stands alone where they are few, else time is
// cut into `most` equal parts; a point stands at its first reading's moment. `most` is at least 1.
std::vector<PlotPoint> thinned(const std::vector<model::Reading>& readings,
                               const measure::Zone& zone, std::size_t most);

// One point a day of the roll-ups within the span, at noon.
std::vector<PlotPoint> day_points(const std::vector<model::DayRoll>& days, measure::Day from,
                                  measure::Day to);

}  // namespace season
