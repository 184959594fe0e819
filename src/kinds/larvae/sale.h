#pragma once

#include <vector>

#include "model/finding.h"

// What a jurisdiction asks of frass and of dried larvae that are sold. A reminder, not legal
// advice.
namespace kinds::larvae {

class Study;

// `larvae.frass` (setting law=eu) and `larvae.dried` (law=us), where what left the site or was read
// was not shown to meet the rule.
void judge_sale(const Study& study, std::vector<model::Finding>& into);

}  // namespace kinds::larvae
