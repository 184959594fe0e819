#include "cli/import_package.h"

#include <fmt/format.h>

#include <ostream>

#include "book/package.h"
#include "cli/commands.h"
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
  context.out << fmt::format("a logbook of {}: {}\n  {} entries\n", folder.string(),
                             context.book_path.string(), entries);
  return kDone;
}

Outcome run_import(Context& context, const Arguments& arguments) {
  if (arguments.words.size() != 1) {
    return measure::Mistake{"",
                            "import needs the folder that export wrote, like 'import tern-hollow'"};
  }
  const std::filesystem::path folder = arguments.words[0];
  if (!is_package(folder)) {
    return measure::Mistake{arguments.words[0], folder.string() +
                                                    " is no folder that export wrote: it has no "
                                                    "datapackage.json"};
  }
  return import_package(context, folder);
}

}  // namespace cli
