#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ostream>

#include "book/write/pen.h"
#include "cli/desk/desk.h"
#include "cli/shell/commands.h"
#include "measure/text.h"
#include "render/json.h"

namespace cli {

Outcome run_place(Context& context, const Arguments& arguments) {
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  if (!arguments.words.empty()) {
    const std::vector<std::string> known = book::places(desk->logbook());
    const std::string name = as_known(measure::joined(arguments.words, " "), known);
    const bool is_known = std::find(known.begin(), known.end(), name) != known.end();
    for (const std::string& one : known) {
      if (is_known || arguments.flag("new") || !measure::is_slip_of(name, one)) continue;
      return measure::Mistake{name,
                              fmt::format("there is no place {}; did you mean {}? --new makes "
                                          "it a place of its own",
                                          measure::quoted(name), one)};
    }
    if (name.size() > 60)
      return measure::Mistake{name, "a place's name has 60 letters at the most"};
    std::optional<int> position;
    if (const auto at = arguments.option("at")) {
      const auto number = measure::parse_number(*at);
      if (!number || *number < 1 || *number > 1000 || std::floor(*number) != *number) {
        return measure::Mistake{*at,
                                fmt::format("--at takes a place in the walk, 1 the first, not {}",
                                            measure::quoted(*at))};
      }
      position = static_cast<int>(*number);
    }
    book::Pen pen(*context.book, {context.who, "place", context.line, context.clock});
    pen.set_place(name, position);
    pen.commit();
  }
  const std::vector<std::string> walk = book::places(desk->logbook());
  if (context.json) {
    context.out << render::dumped({{"places", walk}});
    return kDone;
  }
  if (walk.empty())
    context.out << "no place is set; 'roundbook place \"upper yard\"' sets the first\n";
  for (std::size_t i = 0; i < walk.size(); ++i)
    context.out << fmt::format("{:>3}  {}\n", i + 1, walk[i]);
  return kDone;
}

}  // namespace cli
