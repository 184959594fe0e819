#pragma once

#include <filesystem>
#include <string>

namespace book {

// "roundbook (process 4711), sqlite3 (process 4712)": the programs of this machine that have the
// file open, as far as this user may see them; empty where none is seen or the system cannot tell.
std::string holders_of(const std::filesystem::path& path);

}  // namespace book
