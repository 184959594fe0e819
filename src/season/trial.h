#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "science/numbers/permutation.h"
#include "science/numbers/statistics.h"

// Did it work: plots of one sort against plots of another, and how to plan such a trial.
namespace season {

// The values of one side: a plot each, in the order in which they were named.
struct TrialSide {
  std::vector<std::string> labels;  // of the plots
  std::vector<double> values;
};

struct TrialAsk {
  TrialSide treated, against;
  bool pairs = false;  // the first of each side belong together, the second, ...
};

enum class Verdict {
  kOnePlot,   // one plot on a side: no difference can be called
  kNoSpread,  // no plot differs from its like: nothing to measure a difference against
  kShown,     // a difference is shown at the 5 % level
  kNotShown,  // none is
  kTooFew,    // so few plots that none could have been, by lot
};

// What a trial shows. Differences are treated less against, in the unit of the values.
struct Trial {
  science::Summary treated, against;
  double difference{};
  std::optional<double> share;  // of the mean of `against`; none where that is not above 0
  std::optional<science::Difference> student;  // Welch, or paired
  std::optional<double> by_lots;               // the exact test; none where there are too many ways
  double least_p{};                            // that lots could give with so many plots
  std::optional<science::RankTest> by_ranks;
  std::optional<double> could_see;  // the least true difference found four times in five
  Verdict verdict{};
};

// Chance with which a planned trial is to find the difference it looks for.
inline constexpr double kChance = 0.8;
inline constexpr double kLevel = 0.05;

// Both sides have a plot at least, and with `pairs` as many. A difference is called by the exact
// test where one can be made, else by Student's.
Trial judge_trial(const TrialAsk& ask);

// How many plots on each side (or pairs) find that difference with the chance above, and what fewer
// could find.
struct PlanStep {
  int plots{};
  double could_see{};
  bool lots_can_tell{};  // the exact test can reach the 5 % level at all
};
struct Plan {
  std::optional<int> needed;  // none: above 10,000
  std::vector<PlanStep> steps;
};
// `spread` is the standard deviation of single plots, or of the differences within pairs. Both are
// above 0, in one unit.
Plan plan_trial(double worth, double spread, bool pairs);

// The lots: which plot gets which treatment. With blocks, every block of neighbours holds each
// treatment once; without, plots fall as they may, as equal in number as can be.
struct Lot {
  std::string plot, treatment;
  int block{};  // from 1; 0: none
};
// At least two treatments, and of plots a whole number of blocks where blocks are asked.
std::vector<Lot> draw_lots(const std::vector<std::string>& plots,
                           const std::vector<std::string>& treatments, bool blocks,
                           std::uint64_t seed);

}  // namespace season
