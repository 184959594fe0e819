#include <fmt/format.h>

#include <ostream>

#include "book/write/pen.h"
#include "cli/desk/answer.h"
#include "cli/desk/desk.h"
#include "cli/desk/left.h"
#include "cli/desk/photo.h"
#include "cli/shell/commands.h"
#include "kinds/remark.h"
#include "measure/text.h"

namespace cli {
namespace {

constexpr std::string_view kAway = "away";  // off the site, or nobody's

// Where what is left goes: another batch, or none for away.
measure::Result<std::optional<model::Batch>> receiver(const std::string& code,
                                                      const model::Batch& from, measure::Instant at,
                                                      const Desk& desk) {
  if (measure::folded(code) == kAway) return std::optional<model::Batch>();
  const auto found = desk.open_batch(code, at);
  if (!found) return found.mistake();
  if (found->id == from.id) {
    return measure::Mistake{code, fmt::format("what is left in {} cannot stay in it", from.code)};
  }
  return std::optional(*found);
}

// Asks where it goes, where by the records the most of it is still there and nothing was said.
std::optional<measure::Mistake> where_it_goes(const Arguments& arguments, const model::Batch& batch,
                                              measure::Instant at, const Desk& desk) {
  if (arguments.option("to") || arguments.option("because") || arguments.flag("empty") ||
      arguments.flag("sure")) {
    return std::nullopt;
  }
  const auto left = mostly_left(batch, at, desk);
  if (!left) return std::nullopt;
  return measure::Mistake{
      batch.code, fmt::format("{0} holds {1} by its records: where does it go? 'end {0} --to CODE' "
                              "moves it, --to away says it left, --empty that nothing is left",
                              batch.code, desk.print()(*left))};
}

}  // namespace

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
  if (const auto why = kinds::against_closing(*desk->study(*batch, at->at));
      why && !arguments.flag("sure")) {
    return measure::Mistake{batch->code, objection_text(*why) + "; --sure closes it anyway"};
  }
  if (const auto why = where_it_goes(arguments, *batch, at->at, *desk)) return *why;
  Answer answer{*batch, {}, {}};
  add_cautions({.ends = true}, *batch, at->at, *desk, answer);
  const auto photo = photo_of(context, arguments);
  if (!photo) return photo.mistake();
  book::Pen pen(*context.book, {context.who, "end", context.line, context.clock});
  if (const auto code = arguments.option("to")) {
    const auto to = receiver(*code, *batch, at->at, *desk);
    if (!to) return to.mistake();
    if (auto why = move_left(pen, *batch, *to, at->at, arguments.flag("sure"), *desk, answer)) {
      return *why;
    }
  }
  pen.end_batch(batch->id, at->at, arguments.option("because"));
  const int days = (desk->site().zone.day_of(at->at) - batch->started_day).count() + 1;
  answer.recorded += fmt::format("{}closed after {} day{}", answer.recorded.empty() ? "" : "; ",
                                 days, days == 1 ? "" : "s");
  add_photo(pen, *photo, answer.recorded);
  pen.commit();
  answer.batch = *desk->batch(batch->code);
  print_answer(context, *desk, answer);
  return kDone;
}

}  // namespace cli
