#include <fmt/format.h>

#include <ostream>

#include "cli/desk/desk.h"
#include "cli/desk/inspection.h"
#include "cli/season/tables.h"
#include "cli/shell/commands.h"
#include "cli/shell/write_file.h"
#include "measure/text.h"
#include "render/html.h"
#include "render/json.h"
#include "render/report_text.h"

namespace cli {
namespace {

using measure::Mistake;

// A span, a chapter, or both: "2026", "piles", "2026 piles".
struct Asked {
  season::Span span;
  std::string chapter;
};

bool is_span(std::string_view word) {
  return word.empty() || (word[0] >= '0' && word[0] <= '9') || word.find("..") != word.npos;
}

measure::Result<Asked> asked_for(const std::vector<std::string>& words, measure::Day today) {
  const bool has_span = !words.empty() && is_span(words[0]);
  if (words.size() > (has_span ? 2U : 1U)) {
    return Mistake{words.back(),
                   "season takes one span and one chapter, like 2026, 2026-03-01..2026-10-31 or "
                   "2026 piles"};
  }
  const auto span = season::parse_span(has_span ? words[0] : "", today);
  if (!span) return span.mistake();
  return Asked{*span, words.size() > (has_span ? 1U : 0U) ? words.back() : ""};
}

// Each chapter's word: the kind for a kind's, else its key.
std::string word_of(const season::Section& section) {
  return section.key.substr(section.key.find('.') + 1);
}

measure::Result<const season::Section*> chapter_named(const std::string& typed,
                                                      const season::Report& report) {
  const std::string word = measure::folded(typed);
  std::vector<std::string> words;
  for (const season::Section& one : report.sections) {
    words.push_back(word_of(one));
    if (word == words.back() || word == words.back() + "s" || word == words.back() + "es")
      return &one;
  }
  return Mistake{typed, fmt::format("there is no chapter {} in this season; there {} {}",
                                    measure::quoted(typed), words.size() == 1 ? "is" : "are",
                                    measure::listed(words, "and"))};
}

}  // namespace

Outcome run_season(Context& context, const Arguments& arguments) {
  const book::View view(*context.book);
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  const auto asked = asked_for(arguments.words, desk->today());
  if (!asked) return asked.mistake();
  if (arguments.option("record")) {
    if (!asked->chapter.empty()) {
      return Mistake{asked->chapter, "--record is of the whole season, without a chapter"};
    }
    write_document(context, arguments, record_of_season(*desk, asked->span), "record");
    return kDone;
  }
  const Season season = read_season(*desk, asked->span);
  const season::Section* chapter = nullptr;
  if (!asked->chapter.empty()) {
    const auto found = chapter_named(asked->chapter, season.report);
    if (!found) return found.mistake();
    chapter = *found;
  }
  if (arguments.flag("fields")) {
    context.out << fields_text(season, *desk);
    return kDone;
  }
  if (const auto folder = arguments.option("csv")) {
    std::filesystem::create_directories(*folder);
    for (const auto& [name, content] : csv_files(season, *desk)) {
      write_file(std::filesystem::path(*folder) / name, content);
      context.out << (std::filesystem::path(*folder) / name).string() << '\n';
    }
    return kDone;
  }
  if (const auto file = arguments.option("html")) {
    write_file(*file, render::html(season.report, arguments.flag("all")));
    context.out << *file << '\n';
    return kDone;
  }
  if (context.json) {
    context.out << render::dumped(json_season(season, *desk));
  } else {
    const auto width = static_cast<std::size_t>(context.width);
    context.out << (chapter != nullptr      ? render::chapter_text(season.report, *chapter, width)
                    : arguments.flag("all") ? render::report_text(season.report, width)
                                            : render::report_screen(season.report, width));
  }
  return kDone;
}

}  // namespace cli
