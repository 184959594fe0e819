#pragma once

#include <vector>

#include "book/write/pen.h"
#include "cli/desk/answer.h"
#include "cli/words/log_line.h"

// What `log` records, once its words are understood.
namespace cli {

struct LogMoment {
  Recorded recorded;
  bool was_said = false;  // --when
  bool sure = false;
};

// Writes what was logged of each batch under the pen and gives an answer for each; a mistake where
// something can hardly be so (and the person is not sure) or another value stands at that moment:
// the pen is then to be dropped.
measure::Result<std::vector<Answer>> write_logged(book::Pen& pen,
                                                  const std::vector<LoggedBatch>& logged,
                                                  const LogMoment& moment, const Desk& desk);

}  // namespace cli
