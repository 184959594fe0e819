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

// Whether a series is drawn from its days instead of its readings: where it was read on more than
// 120 days of the span, or more often than its share of what a report reads for its pictures. The
// share is 250,000 readings over all its `lines`: read one by one, those of a logger on every pile
// would take longer than all else in the report. `lines` is at least 1.
bool is_drawn_by_days(const std::vector<model::DayRoll>& days, measure::Day from, measure::Day to,
                      std::size_t lines);

// One point a day of the roll-ups within the span, at noon.
std::vector<PlotPoint> day_points(const std::vector<model::DayRoll>& days, measure::Day from,
                                  measure::Day to);

}  // namespace season
