#pragma once

#include <string>

#include "cli/desk/desk.h"
#include "cli/shell/command.h"

namespace cli {

// Replays every ended batch of the kinds that foresee (of one kind where `only` is not empty) as of
// each of its days, and prints error and interval coverage beside those of "then is like today".
Outcome list_foresight(Context& context, const Desk& desk, const std::string& only);

}  // namespace cli
