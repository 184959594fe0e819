#pragma once

#include <string>

#include "kinds/larvae/course.h"
#include "model/assessment.h"

// Whether the larvae can still be alive after the heat or the frost that was read since they were
// seeded.
namespace kinds::larvae {

// The worst that was read and that nothing recorded since has answered: no sample, no dark share,
// no harvest.
struct Ordeal {
  enum class Of { kDeadly, kFled, kFrost } of{};
  model::Day day;          // the latest such day
  int days = 0;            // all of them
  measure::Celsius worst;  // the hottest reading, or the coldest day's mean
};
std::optional<Ordeal> ordeal_of(const model::History& history, const model::Rules& rules,
                                const Course& course);

// "it was 113 °F on Tue 1 Jun, at or above 104 °F, where larvae die".
std::string ordeal_words(const Ordeal& ordeal, const model::History& history,
                         const model::Rules& rules);

// `larvae.survival`: an ordeal that is over by the fresh readings; while it lasts it is
// `larvae.hot` or `larvae.cold`.
void judge_survival(const model::History& history, const model::Rules& rules,
                    const std::optional<Ordeal>& ordeal, model::Assessment& into);

}  // namespace kinds::larvae
