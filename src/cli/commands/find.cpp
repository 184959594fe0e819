#include "book/read/find.h"

#include <fmt/format.h>

#include <ostream>

#include "cli/desk/desk.h"
#include "cli/shell/commands.h"
#include "measure/text.h"
#include "render/json.h"
#include "render/text.h"

namespace cli {
namespace {

constexpr std::size_t kFoundShown = 20;

std::string found_line(const book::Found& one, const Desk& desk) {
  std::string text = measure::moment_words(one.at, desk.now(), desk.site().zone);
  if (!one.batch.empty()) text += "  " + one.batch;
  text += fmt::format("  {}: {}", one.of, one.text);
  if (one.of != "who") text += "  (" + one.who + ")";
  return text;
}

}  // namespace

Outcome run_find(Context& context, const Arguments& arguments) {
  std::vector<std::string> words;
  for (const std::string& typed : arguments.words) {
    for (std::string& word : measure::split(measure::folded(typed), ' ')) {
      if (!word.empty()) words.push_back(std::move(word));
    }
  }
  if (words.empty()) {
    return measure::Mistake{"", "find needs a word, like 'roundbook find wasps'"};
  }
  const book::View view(*context.book);
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  std::vector<book::Found> found = book::find_words(desk->logbook(), words);
  const std::size_t all = found.size();
  if (!arguments.flag("all") && all > kFoundShown) found.resize(kFoundShown);
  if (context.json) {
    render::Json rows = render::Json::array();
    for (const book::Found& one : found) {
      rows.push_back({{"at", desk->site().zone.iso(one.at)},
                      {"batch", one.batch.empty() ? render::Json(nullptr) : one.batch},
                      {"of", std::string(one.of)},
                      {"text", one.text},
                      {"who", one.who},
                      {"entry", one.entry}});
    }
    context.out << render::dumped({{"found", rows}, {"count", all}});
    return kDone;
  }
  const auto width = static_cast<std::size_t>(context.width);
  for (const book::Found& one : found) {
    context.out << render::wrapped(found_line(one, *desk), width, 4) << '\n';
  }
  if (all == 0) {
    context.out << render::wrapped(fmt::format("{} stands nowhere",
                                               measure::quoted(measure::joined(words, " "))),
                                   width, 2)
                << '\n';
  }
  if (all > found.size()) context.out << fmt::format("and {} more: --all\n", all - found.size());
  return kDone;
}

}  // namespace cli
