#pragma once

#include <string>

namespace cli {

// The manual page, roundbook(1), in the man macros: made from the tables of commands and kinds.
std::string manual_page();

}  // namespace cli
