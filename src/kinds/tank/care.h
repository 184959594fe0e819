#pragma once

#include <vector>

#include "model/finding.h"

// What a tank wants of its keeper.
namespace kinds::tank {

class Study;

// `tank.level`: the last level against the one before, the rain and the draws between them.
void judge_level(const Study& study, std::vector<model::Finding>& into);
// `tank.full` and `tank.low`.
void judge_supply(const Study& study, std::vector<model::Finding>& into);
// `tank.clean`, `tank.flush`, `tank.foul`, `tank.drink`.
void judge_care(const Study& study, std::vector<model::Finding>& into);

}  // namespace kinds::tank
