#pragma once

#include "kinds/larvae/warmth.h"
#include "kinds/larvae/yield.h"

// A bin in figures, for the season's end.
namespace kinds::larvae {

// Feed, larvae and frass, and the figures of conversion on both bases. Where a figure is missing, a
// line of progress says what it wants.
void measure_conversion(const model::History& history, const Yield& yield, model::Assessment& into);

// Days, warmth, density, growth and survival.
void measure_growth(const Course& course, const Warmth& warmth, const Yield& yield,
                    const std::vector<Weighing>& weighings, model::Assessment& into);

// Protein, fat and calcium in the larvae taken out, and for how many hen-days that protein lasts.
void measure_worth(const model::History& history, const model::Rules& rules, const Course& course,
                   model::Assessment& into);

}  // namespace kinds::larvae
