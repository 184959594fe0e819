#include <fmt/format.h>

#include <ostream>

#include "book/write/pen.h"
#include "cli/desk/answer.h"
#include "cli/desk/desk.h"
#include "cli/desk/photo.h"
#include "cli/shell/commands.h"

namespace cli {

Outcome run_end(Context& context, const Arguments& arguments) {
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  if (arguments.words.size() != 1)
    return measure::Mistake{"", "end needs one batch, like 'end heap-3'"};
  const auto at = recorded_at(context, arguments, desk->site());
  if (!at) return at.mistake();
  const auto batch = desk->open_batch(arguments.words[0], at->at);
  if (!batch) return batch.mistake();
  if (batch->ended) {
    return measure::Mistake{batch->code, fmt::format("{} ended already", batch->code)};
  }
  const auto latest = book::latest_of(desk->logbook(), *batch);
  if (latest && *latest > at->at) {
    return measure::Mistake{
        batch->code, fmt::format("{} has an entry of {}, after the end you give", batch->code,
                                 measure::moment_words(*latest, desk->now(), desk->site().zone))};
  }
  if (const auto why = desk->study(*batch, at->at)->against_ending();
      why && !arguments.flag("sure")) {
    return measure::Mistake{batch->code, objection_text(*why) + "; --sure closes it all the same"};
  }
  Answer answer{*batch, {}, {}};
  add_cautions({.ends = true}, *batch, at->at, *desk, answer);
  const auto photo = photo_of(context, arguments);
  if (!photo) return photo.mistake();
  book::Pen pen(*context.book, {context.who, "end", context.line, context.clock});
  pen.end_batch(batch->id, at->at, arguments.option("because"));
  const int days = (desk->site().zone.day_of(at->at) - batch->started_day).count() + 1;
  answer.recorded = fmt::format("closed after {} day{}", days, days == 1 ? "" : "s");
  add_photo(pen, *photo, answer.recorded);
  pen.commit();
  answer.batch = *desk->batch(batch->code);
  print_answer(context, *desk, answer);
  return kDone;
}

}  // namespace cli
