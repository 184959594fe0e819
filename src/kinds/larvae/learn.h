#pragma once

#include <optional>
#include <span>

#include "kinds/larvae/course.h"

// What the site's own finished bins show, drawn together with the published figures.
namespace kinds::larvae {

// A published figure and the site's own, weighed by how many there are of each.
struct Learned {
  double value;
  double spread;  // standard deviation of one run
  int runs;       // own runs it leans on
};

// Mean of the published figure, counted as `weight` runs, and the own ones. The spread is that of
// all of them about their mean: it narrows as own runs agree among themselves, and does not where
// they scatter. A plain shrinkage estimate, common practice.
Learned drawn_together(double published, double published_spread, double weight,
                       std::span<const double> own);

// The day on which a finished run showed that its larvae had had enough warmth: their dark ones
// reached their share or, where those were not read, half of them were out. None where it showed
// nothing.
std::optional<model::Day> day_of_readiness(const model::History& run, const model::Rules& rules);

// The day by which half of all the larvae weighed were out: a handful for the hens is no harvest.
std::optional<model::Day> main_harvest(const model::History& run);

// Warmth that this bin's larvae needed: from runs of the same code on the same diet where there are
// any, else from the site's other larva bins on that diet. A run shows it on the day its dark
// larvae reached their share or, where those were not read, the day by which half of its larvae
// were out; a run of which too few days were read shows nothing.
Learned learned_constant(const model::History& history, const model::Rules& rules,
                         const Diet& diet);

// Live larvae a kilogram of fresh feed.
Learned learned_yield(const model::History& history, const model::Rules& rules);

}  // namespace kinds::larvae
