#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "cli/shell/command.h"

namespace cli {

// Writes a file in place of what it held, whole or not at all. One that cannot be written, or that
// is a database such as the logbook, is left as it is; then a BookError names it.
void write_file(const std::filesystem::path& path, std::string_view content);

// The same, and says what is in it ("3 labels") and where; "-" prints it instead.
void write_or_print(Context& context, const std::string& file, std::string_view content,
                    const std::string& what);

// The name under which a file is written until it is whole: beside it, and this process's own.
std::filesystem::path draft_of(const std::filesystem::path& path);

}  // namespace cli
