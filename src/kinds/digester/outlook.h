#pragma once

#include <optional>
#include <vector>

#include "kinds/digester/slurry.h"
#include "kinds/digester/trend.h"
#include "model/assessment.h"
#include "model/rules.h"

// What is said of the trends: findings, a line, and the days on which limits are reached.
namespace kinds::digester {

// `digester.trend`: what is at its limit soon; pH and acids that part are told of earlier. Of a
// slurry that is sour already `digester.sour` says enough.
void judge_trends(const model::Rules& rules, const Slurry& slurry, const std::vector<Trend>& trends,
                  model::Assessment& into);

// "pH falling 0.08 a week (6 readings in 35 days); loading steady (6 weeks of feeding)".
std::optional<model::Progress> trend_line(const model::Rules& rules,
                                          const std::vector<Trend>& trends);

// The day of each limit that is ahead.
std::vector<model::Forecast> foresee_limits(const model::History& history,
                                            const std::vector<Trend>& trends);

}  // namespace kinds::digester
