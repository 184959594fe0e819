#pragma once

#include <string>

#include "model/assessment.h"
#include "model/history.h"
#include "model/rules.h"

// What a tank wants of its keeper.
namespace kinds::tank {

// `tank.level`: the last level against the one before, the rain and the draws between them.
void judge_level(const model::History& history, const model::Rules& rules, model::Assessment& into);
// `tank.low` and `tank.full`, what is in it, how long it lasts, what an inch of rain brings.
void judge_supply(const model::History& history, const model::Rules& rules,
                  model::Assessment& into);
// `tank.clean`, `tank.flush`, `tank.foul`, `tank.drink`.
void judge_care(const model::History& history, const model::Rules& rules, model::Assessment& into);

// ", roof not told: what rain brings is not foreseen, ..."; empty where roof and capacity were
// told.
std::string missing_words(const model::History& history);

}  // namespace kinds::tank
