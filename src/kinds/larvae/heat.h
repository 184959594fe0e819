#pragma once

#include "kinds/larvae/course.h"
#include "model/assessment.h"

// Too hot, on the way there, or too cold.
namespace kinds::larvae {

enum class Comfort { kUnknown, kWell, kHot, kSlow, kDormant };

// `larvae.hot`, `larvae.heating` and `larvae.cold`, from fresh readings of the bin or, where there
// are none, of the air.
Comfort judge_temperature(const model::History& history, const model::Rules& rules,
                          const Diet& diet, model::Assessment& into);

}  // namespace kinds::larvae
