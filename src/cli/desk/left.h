#pragma once

#include "book/write/pen.h"
#include "cli/desk/answer.h"
#include "cli/desk/desk.h"

// What is left in a batch by its records: all that went in less all that came out.
namespace cli {

// A mass; a volume where only volumes were recorded whose mass is not known. A mistake where
// nothing is left, or the records cannot say.
measure::Result<measure::Value> left_in(const model::Batch& batch, measure::Instant at,
                                        const Desk& desk);

// Whether the most of what went in is still there by the records, so that someone must say where it
// goes before the batch is closed: a sum for the sentence, or none.
std::optional<measure::Value> mostly_left(const model::Batch& batch, measure::Instant at,
                                          const Desk& desk);

// Writes under the pen that all that is left goes to another batch, or away. What speaks against it
// is a mistake unless the person is sure; the answer gets what is to be said of it.
std::optional<measure::Mistake> move_left(book::Pen& pen, const model::Batch& from,
                                          const std::optional<model::Batch>& to,
                                          measure::Instant at, bool sure, const Desk& desk,
                                          Answer& answer);

}  // namespace cli
