#pragma once

#include <optional>

#include "kinds/larvae/course.h"
#include "model/finding.h"

// Whether the larvae can still be alive after the heat or the frost that was read since they were
// seeded.
namespace kinds::larvae {

class Study;

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

// `larvae.survival`: an ordeal that is over by the fresh readings; while it lasts it is
// `larvae.hot` or `larvae.cold`.
std::optional<model::Finding> judge_survival(const Study& study);

}  // namespace kinds::larvae
