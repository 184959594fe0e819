#pragma once

#include <string>
#include <vector>

#include "cli/desk/desk.h"
#include "cli/words/log_words.h"

// A whole line of `log`: one batch with its words, or several.
namespace cli {

struct LoggedBatch {
  model::Batch batch;
  Logged logged;
};

// "bin-1 81F bin-2 83F": the code of another open batch begins that batch's words; "box-1 box-2
// cleaned": several codes in a row share what follows. A code that is a word of the batch before it
// as well is asked back. In the order in which they stand. `keeps_rest`: words that are no readings
// become the note.
measure::Result<std::vector<LoggedBatch>> read_log_line(const std::vector<std::string>& words,
                                                        measure::Instant at, bool sure,
                                                        bool keeps_rest, const Desk& desk);

}  // namespace cli
