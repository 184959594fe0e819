#include <fmt/format.h>

#include <ostream>

#include "cli/desk/columns.h"
#include "cli/desk/desk.h"
#include "cli/shell/commands.h"
#include "cli/shell/environment.h"
#include "cli/shell/kind_words.h"
#include "measure/text.h"
#include "render/text.h"

namespace cli {

std::string help_log(std::ostream& out, const Arguments& arguments) {
  constexpr std::size_t kNameColumns = 16;
  const auto width = static_cast<std::size_t>(terminal_width());
  if (arguments.words.empty()) {
    out << '\n'
        << render::wrapped("What can be said of a kind: 'roundbook log --help pile'.", width, 2)
        << '\n';
    return "";
  }
  const kinds::Kind* kind = kinds::find_kind(measure::folded(arguments.words[0]));
  if (kind == nullptr) {
    std::vector<std::string> names;
    for (const kinds::Kind* one : kinds::all_kinds()) names.emplace_back(one->name);
    out << '\n'
        << render::wrapped(no_such("kind", arguments.words[0], names).why, width, 2) << '\n';
    return "";
  }
  for (const WordSection& section : words_of(*kind)) {
    out << '\n' << render::wrapped(section.title + ":", width, 2) << '\n';
    for (const WordRow& row : section.rows) {
      const std::string line =
          width < kNarrow
              ? fmt::format("  {}: {}", row.names, row.meaning)
              : fmt::format("  {} {}", render::padded(row.names, kNameColumns), row.meaning);
      out << render::wrapped(line, width, width < kNarrow ? 4 : kNameColumns + 3) << '\n';
    }
  }
  (void)help_start(out, arguments);  // its settings; the example stays that of log
  return "";
}

}  // namespace cli
