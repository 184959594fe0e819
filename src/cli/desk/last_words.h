#pragma once

#include <string>

#include "cli/desk/desk.h"

namespace cli {

// "core 158 °F, edge 149 °F today 08:00; turned Sat 17 Oct"; empty: nothing was logged yet.
std::string last_words(const model::History& history, const Desk& desk);

}  // namespace cli
