#include "book/undo.h"

#include <fmt/format.h>

#include <ostream>

#include "cli/commands.h"
#include "cli/desk.h"
#include "render/json.h"

namespace cli {

Outcome run_undo(Context& context, const Arguments& arguments) {
  if (!arguments.words.empty()) {
    return measure::Mistake{"", "undo takes no words: it takes back the last thing recorded"};
  }
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  book::Pen pen(*context.book, {context.who, "undo", context.line, context.clock});
  const auto undone = book::undo_last(*context.book, pen);
  if (!undone) return measure::Mistake{"", "there is nothing to take back"};
  pen.commit();
  if (context.json) {
    context.out << render::dumped({{"undone", undone->line},
                                   {"recorded", desk->site().zone.iso(undone->recorded_at)},
                                   {"who", undone->who}});
    return kDone;
  }
  context.out << fmt::format(
      "taken back: {}\n  (typed {} by {}; the logbook keeps what it was)\n", undone->line,
      measure::moment_words(undone->recorded_at, desk->now(), desk->site().zone), undone->who);
  return kDone;
}

}  // namespace cli
