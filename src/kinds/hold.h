#pragma once

#include <optional>

#include "kinds/study.h"

// The morning's findings that forbid something are asked wherever it is done: who takes eggs or
// lights a flame has not always read the morning.
namespace kinds {

// The finding that forbids that now; none: nothing does.
std::optional<model::Told> forbidding(const Study& study, model::Forbids what);

// Against carrying that load out past such a finding.
std::optional<Objection> against_hold(const Study& study, const model::Movement& load);

}  // namespace kinds
