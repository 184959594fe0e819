#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/digester/feed.h"
#include "kinds/digester/slurry.h"
#include "kinds/digester/startup.h"
#include "kinds/digester/warmth.h"
#include "model/rules.h"
#include "science/numbers/robust_trend.h"

// Whither the slurry's chemistry and the feeding go, week by week, and when that is at a limit.
namespace kinds::digester {

// What is followed: read now and then, or worked out of each week's feeding.
enum class Followed { kPh, kAcidsToAlkalinity, kFreeAmmonia, kLoading, kRetention };

inline constexpr int kWeek = 7;  // days

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
                             const Startup& startup, const Feed& feed, const Slurry& slurry,
                             const Warmth& warmth);

// Whether more of it is the harm: of acids, not of pH.
bool limit_is_the_most(Followed what);

}  // namespace kinds::digester
