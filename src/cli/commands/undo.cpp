#include "book/write/undo.h"

#include <fmt/format.h>

#include <ostream>

#include "cli/desk/desk.h"
#include "cli/shell/commands.h"
#include "render/json.h"

namespace cli {

namespace {

measure::Result<book::EntrySummary> taken_back(book::Logbook& logbook, book::Pen& pen,
                                               const Arguments& arguments) {
  if (arguments.words.empty()) {
    if (const auto last = book::undo_last(logbook, pen)) return *last;
    return measure::Mistake{"", "there is nothing to take back"};
  }
  const auto number = entry_number(arguments.words[0]);
  if (!number) return number.mistake();
  return book::undo_one(logbook, pen, *number);
}

}  // namespace

Outcome run_undo(Context& context, const Arguments& arguments) {
  if (arguments.words.size() > 1) {
    return measure::Mistake{
        "", "undo takes the number of one entry, or no word: then it takes back the last one"};
  }
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  book::Pen pen(*context.book, {context.who, "undo", context.line, context.clock});
  const auto undone = taken_back(*context.book, pen, arguments);
  if (!undone) return undone.mistake();
  pen.commit();
  if (context.json) {
    context.out << render::dumped({{"undone", undone->line},
                                   {"undone_entry", undone->id},
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
