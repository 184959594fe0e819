#include <fmt/format.h>

#include <istream>
#include <ostream>

#include "book/write/pen.h"
#include "cli/commands/log_notes.h"
#include "cli/desk/log_entry.h"
#include "cli/desk/photo.h"
#include "cli/shell/commands.h"
#include "cli/shell/environment.h"
#include "measure/text.h"

namespace cli {
namespace {

using measure::Mistake;
using Lines = std::vector<LoggedBatch>;

bool says_nothing(const Logged& logged) {
  return logged.readings.empty() && logged.words.empty() && logged.note.empty();
}

// At a terminal a line that is not understood is offered as a remark: Enter keeps it, all else
// drops it.
bool is_kept(Context& context, const Mistake& why, const std::string& note) {
  if (!can_ask()) return false;
  context.err << fmt::format("roundbook: {}.\n  Keep \"{}\" as a remark? [Enter: yes, n: no] ",
                             why.why, measure::inert(note));
  context.err.flush();
  std::string typed;
  return std::getline(context.in, typed) &&
         measure::folded(typed).find_first_not_of("yes ") == std::string::npos;
}

// What the line says; where some of its words are no readings, with these as a remark if the person
// agrees.
measure::Result<Lines> read_or_ask(Context& context, const Arguments& arguments,
                                   measure::Instant at, const Desk& desk) {
  const bool sure = arguments.flag("sure");
  auto lines = read_log_line(arguments.words, at, sure, false, desk);
  if (lines) return lines;
  Mistake why = lines.mistake();
  // A slip of the hand has its own answer; else the words themselves may be meant.
  const std::size_t hint = why.why.find(kRemarkHint);
  if (hint == std::string::npos) return lines;
  const auto kept = read_log_line(arguments.words, at, sure, true, desk);
  if (!kept || kept->size() > 1) return lines;
  why.why.erase(hint);
  const std::string& note = kept->back().logged.note;
  if (is_kept(context, why, note)) return *kept;
  why.why += fmt::format("; as a remark: --note \"{}\"", note);
  return why;
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
  auto read = read_or_ask(context, arguments, at->at, *desk);
  if (!read) return read.mistake();
  Lines lines = *read;
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
  const LogMoment moment{*at, arguments.option("when").has_value(), arguments.flag("sure")};
  const auto answers = write_logged(pen, lines, moment, *desk);
  if (!answers) return answers.mistake();
  std::vector<Answer> said = *answers;
  add_photo(pen, *photo, said.front().recorded);
  pen.commit();
  print_answers(context, *desk, said);
  return kDone;
}

}  // namespace cli
