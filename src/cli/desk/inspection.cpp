#include "cli/desk/inspection.h"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "book/read/past.h"
#include "book/read/recorded.h"
#include "cli/desk/change_words.h"
#include "cli/shell/write_file.h"
#include "render/document.h"

namespace cli {
namespace {

// Every entry of a batch is asked for.
constexpr std::size_t kEvery = 1'000'000'000;

season::Inspected site_of(const Desk& desk, measure::Instant until) {
  season::Inspected site{desk.site(), desk.print().system(), desk.now(), {}, {}, {}};
  site.movements = desk.movements(measure::Instant{}, until);
  site.carried_by = book::carried_by(desk.logbook(), until);
  site.checks = book::tool_checks(desk.logbook(), desk.site().zone.day_of(until));
  return site;
}

std::vector<model::RecordedChange> changes_of(const Desk& desk, const model::Batch& batch,
                                              measure::Instant until) {
  book::PastAsked asked;
  asked.batch = batch;
  const std::string label = book::label_of(desk.logbook(), batch);
  std::vector<model::RecordedChange> changes;
  for (const book::PastEntry& one : book::past(desk.logbook(), asked, kEvery)) {
    if (one.entry.recorded_at > until) continue;
    for (const book::Change& change : one.changes) {
      // That it ended or was put off is no correction, nor is what its other end changed.
      const bool own = change.batch == label || change.batch.empty();
      const bool corrects = one.entry.command == "amend" || change.taken_away;
      if (!own || !corrects) continue;
      changes.push_back(
          {one.entry.recorded_at, one.entry.who, change_text(desk, change), one.entry.line});
    }
    if (one.undone_by) {
      changes.push_back({one.entry.recorded_at, one.entry.who,
                         fmt::format("taken back by entry {}: {}", *one.undone_by, one.entry.line),
                         one.entry.line});
    }
  }
  std::reverse(changes.begin(), changes.end());
  return changes;
}

season::InspectedBatch inspected(const Desk& desk, const model::History& history,
                                 const model::Rules& rules) {
  return {book::label_of(desk.logbook(), history.batch), &history, &rules,
          book::recorded(desk.logbook(), history.batch, history.now),
          changes_of(desk, history.batch, history.now)};
}

}  // namespace

season::Document record_of_batch(const Desk& desk, const model::History& history) {
  model::History full = history;
  desk.bring_provenance(full.out);
  const model::Rules rules = book::rules(desk.logbook(), full.batch);
  return season::batch_record(inspected(desk, full, rules), site_of(desk, desk.now()));
}

season::Document record_of_season(const Desk& desk, const season::Span& span) {
  const measure::Zone& zone = desk.site().zone;
  const measure::Instant from = zone.start_of(span.from);
  const measure::Instant end =
      std::min(desk.now(), zone.start_of(span.to + date::days{1}) - std::chrono::seconds{1});
  struct Kept {
    model::History history;
    model::Rules rules;
  };
  std::vector<Kept> kept;
  for (const model::Batch& batch : desk.batches()) {
    if (batch.started > end || (batch.ended && *batch.ended < from)) continue;
    kept.push_back({desk.history(batch, end), book::rules(desk.logbook(), batch)});
    desk.bring_provenance(kept.back().history.out);
  }
  std::vector<season::InspectedBatch> batches;
  for (const Kept& one : kept) batches.push_back(inspected(desk, one.history, one.rules));
  return season::site_record(batches, site_of(desk, end), span);
}

void write_document(Context& context, const Arguments& arguments, const season::Document& document,
                    std::string_view page_option) {
  if (const auto file = arguments.option(page_option)) {
    write_file(*file, render::html(document));
    context.out << *file << '\n';
  }
  if (const auto folder = arguments.option("csv")) {
    std::filesystem::create_directories(*folder);
    for (const auto& [name, content] : render::csv_files(document)) {
      const std::filesystem::path path = std::filesystem::path(*folder) / name;
      write_file(path, content);
      context.out << path.string() << '\n';
    }
  }
}

}  // namespace cli
