#pragma once

#include <string>
#include <vector>

#include "cli/desk/desk.h"
#include "cli/words/log_words.h"

// A whole line of `log`: a batch with its words.
namespace cli {

struct LoggedBatch {
  model::Batch batch;
  Logged logged;
};

// The batch that the first word names, open at that moment, with what the others say of it.
// `keeps_rest`: words that are no readings become the note.
measure::Result<std::vector<LoggedBatch>> read_log_line(const std::vector<std::string>& words,
                                                        measure::Instant at, bool sure,
                                                        bool keeps_rest, const Desk& desk);

}  // namespace cli
