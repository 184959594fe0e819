#pragma once

#include <optional>

#include "kinds/kind.h"

namespace kinds::brew {

// What speaks against pouring a brew on a bed, or giving it away, as it is now: not ready, left
// without air, or foul. It warns only. A pile or char takes any brew.
std::optional<Objection> objects_to_taking(const model::Movement& load,
                                           const model::History& history,
                                           const model::Rules& rules);

}  // namespace kinds::brew
