#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/digester_lowgas.h"
#include "kinds/digester_startup.h"
#include "model/assessment.h"
#include "model/rules.h"
#include "science/robust_trend.h"

// Whither the slurry's chemistry and the feeding go, week by week, and when that is at a limit.
namespace kinds::digester {

// What is followed: read now and then, or worked out of each week's feeding.
enum class Followed { kPh, kAcidsToAlkalinity, kFreeAmmonia, kLoading, kRetention };

struct Trend {
  Followed what{};
  std::vector<science::TrendPoint> points;   // times in days from today: below zero
  std::optional<science::RobustTrend> line;  // none: too few, over too few days, or too old
  // The limit that lies ahead of its present value; none: it is past the last one.
  std::optional<measure::Number> limit;
  // Days from today on which the line is at that limit, if it leads there within
  // digester.trend.window: never below zero.
  std::optional<science::Crossing> ahead;
};

// Only what was recorded at all; pH first.
std::vector<Trend> trends_of(const model::History& history, const model::Rules& rules,
                             const Startup& startup, const GasRecords& records);

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
