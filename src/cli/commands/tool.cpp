#include <fmt/format.h>

#include <ostream>

#include "book/read/recorded.h"
#include "book/write/pen.h"
#include "cli/desk/desk.h"
#include "cli/shell/commands.h"
#include "measure/text.h"
#include "render/json.h"
#include "render/text.h"

namespace cli {
namespace {

int list_checks(Context& context, const Desk& desk) {
  const auto checks = book::tool_checks(desk.logbook(), desk.today());
  if (context.json) {
    render::Json rows = render::Json::array();
    for (const model::ToolCheck& one : checks) {
      rows.push_back({{"tool", one.name},
                      {"day", measure::iso_date(one.day)},
                      {"against", one.against},
                      {"who", one.who}});
    }
    context.out << render::dumped({{"checks", rows}});
    return kDone;
  }
  render::Table table({{"tool"}, {"checked"}, {"against"}, {"by"}});
  for (const model::ToolCheck& one : checks) {
    table.add({one.name, measure::day_words(one.day, desk.today()), one.against, one.who});
  }
  context.out << (table.empty() ? "no check is on record; 'roundbook tool probe-1 ice water, 33F' "
                                  "records one\n"
                                : table.text(static_cast<std::size_t>(context.width)));
  return kDone;
}

}  // namespace

Outcome run_tool(Context& context, const Arguments& arguments) {
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  if (arguments.words.empty()) return list_checks(context, *desk);
  const std::string name = measure::folded(arguments.words[0]);
  std::vector<std::string> said(arguments.words.begin() + 1, arguments.words.end());
  // "probe-1 checked against ice water": the words that lead to what it was compared with.
  for (const char* lead : {"checked", "against"}) {
    if (!said.empty() && measure::folded(said.front()) == lead) said.erase(said.begin());
  }
  const std::string against = measure::joined(said, " ");
  if (against.empty()) {
    return measure::Mistake{arguments.words[0],
                            fmt::format("what was {} compared with, and how did it read? Like "
                                        "'tool {} ice water, 33F'",
                                        name, name)};
  }
  const auto at = recorded_at(context, arguments, desk->site());
  if (!at) return at.mistake();
  const measure::Day day = desk->site().zone.day_of(at->at);
  book::Pen pen(*context.book, {context.who, "tool", context.line, context.clock});
  pen.check_tool(name, day, against);
  pen.commit();
  context.out << render::wrapped(fmt::format("{}: checked {} against {}", name,
                                             measure::day_words(day, desk->today()), against),
                                 static_cast<std::size_t>(context.width), 2)
              << '\n';
  return kDone;
}

}  // namespace cli
