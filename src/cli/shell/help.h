#pragma once

#include <iosfwd>

#include "cli/shell/command.h"

namespace cli {

// The commands, a line each, and what holds for all of them.
void print_overview(std::ostream& out, std::size_t width);

// One command: usage, what it does, what it has to say of the words given, its options, one worked
// example.
void print_help(std::ostream& out, const Command& command, const Arguments& arguments,
                std::size_t width);

}  // namespace cli
