#pragma once

#include <optional>

#include "book/pen.h"
#include "book/read.h"

namespace book {

// Takes back the last entry that still holds, within the pen's own entry: what it added is removed,
// what it changed is as it was before, and the journal keeps all of it. None: there is nothing to
// take back.
std::optional<EntrySummary> undo_last(Logbook& logbook, Pen& pen);

}  // namespace book
