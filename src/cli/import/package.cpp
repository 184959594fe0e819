#include "cli/import/package.h"

#include <fmt/format.h>

#include <ostream>

#include "book/keep/package.h"
#include "render/json.h"

namespace cli {

bool is_package(const std::filesystem::path& path) {
  std::error_code none;
  return std::filesystem::exists(path / "datapackage.json", none);
}

Outcome import_package(Context& context, const std::filesystem::path& folder) {
  const int entries = book::read_package(folder, context.book_path);
  if (context.json) {
    context.out << render::dumped({{"logbook", context.book_path.string()}, {"entries", entries}});
    return kDone;
  }
  context.out << fmt::format("a logbook of {}: {}\n  its entries: {}\n", folder.string(),
                             context.book_path.string(), entries);
  return kDone;
}

}  // namespace cli
