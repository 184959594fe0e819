#pragma once

#include <filesystem>
#include <string_view>

namespace cli {

// Writes a file in place of whatever it held. One that could not be written whole is a BookError
// that names it.
void write_file(const std::filesystem::path& path, std::string_view content);

}  // namespace cli
