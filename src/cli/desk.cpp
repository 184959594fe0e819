#include "cli/desk.h"

#include <fmt/format.h>

#include <algorithm>

#include "measure/text.h"

namespace cli {
namespace {

constexpr std::size_t kMostPrecedents = 12;

bool is_open(const model::Batch& batch, measure::Instant at) {
  return batch.started <= at && (!batch.ended || *batch.ended > at);
}

}  // namespace

Desk::Desk(const book::Logbook& logbook, measure::Instant now, measure::UnitSystem units)
    : logbook_(&logbook),
      now_(now),
      print_(units),
      materials_(logbook),
      containers_(book::containers(logbook)) {}

measure::Result<Desk> Desk::lay_out(const Context& context) {
  const model::Site& site = context.book->site();
  measure::Instant now = context.clock;
  if (context.as_of) {
    const auto when =
        measure::parse_when(*context.as_of, context.clock, site.zone, measure::DayMeans::kItsEnd);
    if (!when) return measure::Mistake{*context.as_of, "--as-of: " + when.mistake().why};
    now = when->at;
  }
  return Desk(*context.book, now, context.units.value_or(site.units));
}

measure::Result<model::Batch> Desk::batch(std::string_view label) const {
  if (auto found = book::find_batch(*logbook_, label)) return *found;
  std::vector<std::string> codes;
  for (const model::Batch& one : book::all_batches(*logbook_)) codes.push_back(one.code);
  if (codes.empty()) {
    return measure::Mistake{std::string(label),
                            fmt::format("there is no batch {}, nor any other yet; 'roundbook start "
                                        "pile {}' would begin it",
                                        measure::quoted(label), "heap-1")};
  }
  return no_such("batch", label, codes);
}

measure::Result<model::Batch> Desk::open_batch(std::string_view label, measure::Instant at) const {
  auto found = batch(label);
  if (!found) return found;
  if (at < found->started) {
    return measure::Mistake{std::string(label),
                            fmt::format("{} was started {}, after the moment you give", found->code,
                                        measure::moment_words(found->started, now_, site().zone))};
  }
  if (found->ended && at > *found->ended) {
    return measure::Mistake{
        std::string(label),
        fmt::format("{} ended {}; 'roundbook start' begins a new one of that code", found->code,
                    measure::moment_words(*found->ended, now_, site().zone))};
  }
  return found;
}

std::vector<model::Batch> Desk::open_batches() const {
  std::vector<model::Batch> open;
  for (model::Batch& one : book::all_batches(*logbook_)) {
    if (is_open(one, now_)) open.push_back(std::move(one));
  }
  return open;
}

model::History Desk::history(const model::Batch& batch, measure::Instant at) const {
  model::History history = book::history(*logbook_, materials_, batch, at);
  history.units = print_.system();
  if (!kind(batch).learns) return history;
  auto finished = std::make_shared<std::vector<model::History>>();
  std::vector<model::Batch> all = book::all_batches(*logbook_);
  std::sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.ended > b.ended; });
  for (const model::Batch& one : all) {
    if (one.kind != batch.kind || !one.ended || *one.ended > at) continue;
    finished->push_back(book::history(*logbook_, materials_, one, at));
    if (finished->size() == kMostPrecedents) break;
  }
  history.finished = std::move(finished);
  return history;
}

model::Assessment Desk::assess(const model::History& history) const {
  return kinds::assess(history, book::rules(*logbook_, history.batch));
}

const kinds::Kind& Desk::kind(const model::Batch& batch) const {
  const kinds::Kind* found = kinds::find_kind(batch.kind);
  assert(found != nullptr);
  return *found;
}

measure::Result<Recorded> recorded_at(const Context& context, const Arguments& arguments,
                                      const model::Site& site) {
  const auto option = arguments.option("when");
  if (!option) return Recorded{context.clock, ""};
  const auto when = measure::parse_when(*option, context.clock, site.zone);
  if (!when) return measure::Mistake{*option, "--when: " + when.mistake().why};
  Recorded recorded{when->at, ""};
  if (when->twice) {
    recorded.remark =
        fmt::format("the clock showed that time twice that night; taken as the first, {}",
                    site.zone.iso(when->at));
  }
  return recorded;
}

measure::Mistake no_such(std::string_view what, std::string_view word,
                         const std::vector<std::string>& known) {
  std::vector<std::string_view> words(known.begin(), known.end());
  std::sort(words.begin(), words.end());
  words.erase(std::unique(words.begin(), words.end()), words.end());
  std::string why = fmt::format("there is no {} {}", what, measure::quoted(word));
  if (const auto near = measure::nearest(word, words)) {
    why += fmt::format("; did you mean {}?", *near);
  } else if (!words.empty() && words.size() <= 24) {
    why += fmt::format("; there {} {}", words.size() == 1 ? "is" : "are",
                       measure::listed(words, "and"));
  }
  return {std::string(word), why};
}

}  // namespace cli
