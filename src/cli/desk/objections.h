#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "book/write/pen.h"
#include "cli/words/carried.h"

// What stands against carrying a load: more would be taken than is there, or either end objects.
namespace cli {

// Remarks to make on the load; a mistake where an objection refuses it, unless `sure` overrules
// that. `corrects` is the movement that the load takes the place of, which is not counted.
measure::Result<std::vector<std::string>> objections(const Carried& carried,
                                                     const model::Movement& load,
                                                     const std::optional<model::Batch>& from,
                                                     const std::optional<model::Batch>& to,
                                                     bool sure, const Desk& desk,
                                                     std::optional<std::int64_t> corrects = {});

// The same for a recorded movement as it would be once amended.
measure::Result<std::vector<std::string>> standing_against(const book::NewMovement& movement,
                                                           const Desk& desk, bool sure,
                                                           std::int64_t corrects);

}  // namespace cli
