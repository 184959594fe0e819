#include <ostream>

#include "cli/desk/desk.h"
#include "cli/season/tables.h"
#include "cli/shell/commands.h"
#include "cli/shell/write_file.h"
#include "render/html.h"
#include "render/json.h"
#include "render/report_text.h"

namespace cli {

Outcome run_season(Context& context, const Arguments& arguments) {
  const book::View view(*context.book);
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  if (arguments.words.size() > 1) {
    return measure::Mistake{arguments.words[1],
                            "season takes one span, like 2026 or "
                            "2026-03-01..2026-10-31"};
  }
  const auto span =
      season::parse_span(arguments.words.empty() ? "" : arguments.words[0], desk->today());
  if (!span) return span.mistake();
  const Season season = read_season(*desk, *span);
  if (const auto folder = arguments.option("csv")) {
    std::filesystem::create_directories(*folder);
    for (const auto& [name, content] : csv_files(season, *desk)) {
      write_file(std::filesystem::path(*folder) / name, content);
      context.out << (std::filesystem::path(*folder) / name).string() << '\n';
    }
    return kDone;
  }
  if (const auto file = arguments.option("html")) {
    write_file(*file, render::html(season.report));
    context.out << *file << '\n';
    return kDone;
  }
  if (context.json) {
    context.out << render::dumped(json_season(season, *desk));
  } else {
    context.out << render::report_text(season.report, static_cast<std::size_t>(context.width));
  }
  return kDone;
}

}  // namespace cli
