#pragma once

#include <vector>

#include "book/file/logbook.h"
#include "model/recorded.h"

// What was recorded of a batch up to a moment, each with who recorded it. Throws BookError where
// the file cannot be read, and changes nothing.
namespace book {

model::Recorded recorded(const Logbook& logbook, const model::Batch& batch, measure::Instant until);

// Who recorded each movement up to a moment, by the movement's id.
std::map<std::int64_t, std::string> carried_by(const Logbook& logbook, measure::Instant until);

// The checks of the site's measuring tools up to a day: by name, then the oldest first.
std::vector<model::ToolCheck> tool_checks(const Logbook& logbook, measure::Day until);

}  // namespace book
