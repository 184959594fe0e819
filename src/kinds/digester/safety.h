#pragma once

#include <optional>
#include <string>

#include "kinds/kind.h"
#include "model/assessment.h"
#include "model/rules.h"

// What can hurt someone at a digester: a leak, and what hands are put to.
namespace kinds::digester {

// When it was logged that gas escapes, where no mending has been logged since.
std::optional<model::Instant> leaking_since(const model::History& history);

// `digester.leak`: until the mending is logged, whatever the digester's stage.
void judge_leak(const model::History& history, model::Assessment& into);

// Against burning gas of a digester that leaks; letting it off is no use of it.
std::optional<Objection> objects_to_taking(const model::Movement& load,
                                           const model::History& history, const model::Rules&);

// Kind::caution_at. What is done every few days is cautioned of when it was not done for
// digester.caution.again; feeding and readings never.
std::string caution_at(const Handled& handled, const model::History& before,
                       const model::Rules& rules);

}  // namespace kinds::digester
