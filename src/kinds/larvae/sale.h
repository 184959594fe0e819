#pragma once

#include "model/assessment.h"
#include "model/history.h"
#include "model/rules.h"

// What a jurisdiction asks of frass and of dried larvae that are sold. A reminder, not legal
// advice.
namespace kinds::larvae {

// `larvae.frass` (setting law=eu) and `larvae.dried` (law=us), where what left the site or was read
// was not shown to meet the rule.
void judge_sale(const model::History& history, const model::Rules& rules, model::Assessment& into);

}  // namespace kinds::larvae
