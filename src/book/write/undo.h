#pragma once

#include <optional>

#include "book/read/read.h"
#include "book/write/pen.h"
#include "measure/result.h"

namespace book {

// Takes back the last entry that still holds, within the pen's own entry: what it added is removed,
// what it changed is as it was before, and the journal keeps all of it. None: there is nothing to
// take back.
std::optional<EntrySummary> undo_last(Logbook& logbook, Pen& pen);

// The same of one entry, whatever was recorded since. A mistake says why it cannot be: there is no
// such entry, it is no record, it was taken back, something later rests on it (changed what it
// wrote, or speaks of what it began), or what is left would not fit the lives of the batches. The
// pen is then to be dropped.
measure::Result<EntrySummary> undo_one(Logbook& logbook, Pen& pen, std::int64_t entry);

}  // namespace book
