#pragma once

#include <string_view>

#include "cli/desk/desk.h"

// What `start` and `amend` tell of a batch.
namespace cli {

// Reads "method=turned", "volume=1yd3". A number beyond what the setting can be is a mistake unless
// the person is sure.
measure::Result<model::Setting> read_setting(std::string_view word, const kinds::Kind& kind,
                                             bool sure, const Desk& desk);

}  // namespace cli
