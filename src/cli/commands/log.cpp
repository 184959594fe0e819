#include <fmt/format.h>

#include "book/write/pen.h"
#include "cli/commands/log_notes.h"
#include "cli/desk/log_entry.h"
#include "cli/desk/photo.h"
#include "cli/shell/commands.h"

namespace cli {
namespace {

using measure::Mistake;

bool says_nothing(const Logged& logged) {
  return logged.readings.empty() && logged.words.empty() && logged.note.empty();
}

}  // namespace

Outcome run_log(Context& context, const Arguments& arguments) {
  const bool from_notes = arguments.words == std::vector<std::string>{"-"};
  if (from_notes || (arguments.words.empty() && arguments.option("from"))) {
    return log_notes(context, arguments);
  }
  for (const std::string_view one : {"from", "keep-good"}) {
    if (!arguments.option(one)) continue;
    return Mistake{"", fmt::format("--{} is for a file of lines, without words beside it", one)};
  }
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  if (arguments.words.empty()) {
    return Mistake{"", "log needs a batch and what you saw, like 'log heap-3 148F turned'"};
  }
  const auto at = recorded_at(context, arguments, desk->site());
  if (!at) return at.mistake();
  const bool sure = arguments.flag("sure");
  const auto read = read_log_line(arguments.words, at->at, sure, false, *desk);
  if (!read) return read.mistake();
  auto lines = *read;
  for (LoggedBatch& one : lines) {
    if (const auto note = arguments.option("note")) {
      one.logged.note += (one.logged.note.empty() ? "" : " ") + *note;
    }
    if (says_nothing(one.logged)) {
      return Mistake{"", fmt::format("log {} needs a reading, a deed or a note", one.batch.code)};
    }
  }
  const auto photo = photo_of(context, arguments);
  if (!photo) return photo.mistake();
  book::Pen pen(*context.book, {context.who, "log", context.line, context.clock});
  const LogMoment moment{*at, arguments.option("when").has_value(), sure};
  const auto answers = write_logged(pen, lines, moment, *desk);
  if (!answers) return answers.mistake();
  std::vector<Answer> said = *answers;
  add_photo(pen, *photo, said.front().recorded);
  pen.commit();
  print_answers(context, *desk, said);
  return kDone;
}

}  // namespace cli
