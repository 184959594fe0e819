#include "book/file/holders.h"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <fstream>

namespace book {

std::string holders_of(const std::filesystem::path& path) {
  namespace fs = std::filesystem;
  std::error_code error;
  const fs::path wanted = fs::canonical(path, error);
  if (error) return {};
  std::string holders;
  for (const auto& process : fs::directory_iterator("/proc", error)) {
    const std::string id = process.path().filename();
    const bool numeric =
        std::all_of(id.begin(), id.end(), [](char c) { return c >= '0' && c <= '9'; });
    if (!numeric || id == std::to_string(getpid())) continue;
    std::error_code closed;
    for (const auto& handle : fs::directory_iterator(process.path() / "fd", closed)) {
      std::error_code gone;
      if (fs::read_symlink(handle.path(), gone) != wanted) continue;
      std::string name;
      std::ifstream(process.path() / "comm") >> name;
      if (!holders.empty()) holders += ", ";
      holders += fmt::format("{} (process {})", name, id);
      break;
    }
  }
  return holders;
}

}  // namespace book
