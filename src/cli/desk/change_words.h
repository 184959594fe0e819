#pragma once

#include <string>
#include <string_view>

#include "book/read/past.h"
#include "cli/desk/desk.h"

// What a correction changed, in words.
namespace cli {

// "heap-1 temperature core: 148 °F became 138 °F".
std::string change_text(const Desk& desk, const book::Change& change);

// Whether a field of a changed row is an instant, and that instant.
bool is_moment(std::string_view field);
measure::Instant moment_of(const std::string& seconds);

}  // namespace cli
