#include "cli/write_file.h"

#include <fmt/format.h>

#include <fstream>

#include "book/error.h"

namespace cli {

void write_file(const std::filesystem::path& path, std::string_view content) {
  std::ofstream file(path, std::ios::binary | std::ios::trunc);
  file << content;
  file.close();
  if (!file) throw book::BookError(fmt::format("{}: could not be written", path.string()));
}

}  // namespace cli
