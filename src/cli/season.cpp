#include <fmt/format.h>

#include <fstream>
#include <ostream>

#include "book/error.h"
#include "cli/commands.h"
#include "cli/desk.h"
#include "cli/season_tables.h"
#include "render/html.h"
#include "render/json.h"
#include "render/report_text.h"

namespace cli {
namespace {

// Whole or not at all: a file that could not be written is an error that names it.
void write_file(const std::filesystem::path& path, const std::string& content) {
  std::ofstream file(path, std::ios::binary | std::ios::trunc);
  file << content;
  file.close();
  if (!file) throw book::BookError(fmt::format("{}: could not be written", path.string()));
}

}  // namespace

Outcome run_season(Context& context, const Arguments& arguments) {
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
