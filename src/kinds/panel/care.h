#pragma once

#include "model/assessment.h"
#include "model/history.h"
#include "model/rules.h"

namespace kinds::panel {

inline constexpr std::string_view kWiring =
    "Panels give full voltage whenever light falls on them, and batteries burn and gas: wiring and "
    "battery work is for a licensed electrician, under local code.";

// `panel.weak`: clear days against the set's own clear days before.
void judge_output(const model::History& history, const model::Rules& rules,
                  model::Assessment& into);
// `panel.low`: the battery near its floor; and how long it carries.
void judge_battery(const model::History& history, const model::Rules& rules,
                   model::Assessment& into);
// `panel.over` and `panel.sun`: more than the sun can give, made or told.
void judge_numbers(const model::History& history, const model::Rules& rules,
                   model::Assessment& into);
// What it made of what was expected, and how long that carries each use; the season's figures.
void measure_output(const model::History& history, const model::Rules& rules,
                    model::Assessment& into);

}  // namespace kinds::panel
