#pragma once

#include <optional>

#include "kinds/panel/study.h"
#include "model/finding.h"

namespace kinds::panel {

// `panel.weak`: clear days against the set's own clear days before.
std::optional<model::Finding> judge_output(const Study& study);
// `panel.low`: the battery near its floor.
std::optional<model::Finding> judge_battery(const Study& study);
// `panel.over`: more was logged than the sun can give.
std::optional<model::Finding> judge_latest(const Study& study);
// `panel.sun`: more sun was told than there is.
std::optional<model::Finding> judge_sun(const Study& study);

}  // namespace kinds::panel
