#pragma once

#include <string>

#include "book/file/logbook.h"
#include "measure/result.h"

// Whose hands it was.
namespace cli {

// The name as the logbook has it, or as it is typed for somebody new. A mistake: it cannot be a
// name, or is nearly that of somebody known (unless `is_new`).
measure::Result<std::string> who_is(const std::string& name, const book::Logbook& logbook,
                                    bool is_new);
// Only somebody who is known: for looking things up.
measure::Result<std::string> known_who(const std::string& name, const book::Logbook& logbook);

}  // namespace cli
