#pragma once

#include <optional>
#include <string_view>

#include "kinds/burn/course.h"
#include "kinds/kind.h"
#include "model/assessment.h"

// The fire and what is left of it: who must look, and when it is out.
namespace kinds::burn {

inline constexpr std::string_view kFireCaution =
    "Check local burn rules and permits before lighting. Bare ground, water at hand, never left "
    "alone, never under a roof: charring gives off carbon monoxide and smoke.";
inline constexpr std::string_view kEmberCaution =
    "Char that looks out can flare up again for a day or more, and gives off carbon monoxide: "
    "keep it outdoors on bare ground, away from buildings, until it is cold and wet. Local burn "
    "rules stand above this.";

// `burn.lit`: burning, and nobody has logged the quench.
void judge_fire(const model::History& history, const model::Rules& rules, const Course& course,
                model::Assessment& into);

// `burn.ember`: quenched, and not yet found cold and wet. Gives the moment from which it counts as
// out; none while it does not, or where no quench was logged.
std::optional<model::Instant> judge_embers(const model::History& history, const model::Rules& rules,
                                           const Course& course, model::Assessment& into);

// Char is carried nowhere before it was found cold and wet, long enough after the quench. Nothing
// is said where no fire is on record.
std::optional<Objection> objects_to_taking(const model::Movement& load,
                                           const model::History& history,
                                           const model::Rules& rules);

}  // namespace kinds::burn
