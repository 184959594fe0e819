#include <fmt/format.h>

#include <ostream>

#include "cli/commands/foresight.h"
#include "cli/desk/desk.h"
#include "cli/shell/commands.h"
#include "measure/text.h"
#include "render/json.h"
#include "render/text.h"

namespace cli {
namespace {

constexpr int kTableColumns = 60;  // what a table of batches needs
constexpr const char* kUnknownKind = "unknown kind";

// The latest reading of what the kind is read for, else of anything: "148 °F core".
std::string last_reading(const model::History& history, const kinds::Kind& kind, const Desk& desk) {
  const std::string_view main =
      kind.vocabulary.rhythm.empty() ? kind.vocabulary.temperature : kind.vocabulary.rhythm;
  const bool has_main = !history.all(main).empty();
  const model::Series* latest = nullptr;
  for (const model::Series& series : history.series) {
    if (has_main && series.quantity != main) continue;
    if (latest == nullptr || series.last->at > latest->last->at) latest = &series;
  }
  if (latest == nullptr) return "";
  const kinds::Quantity* quantity = kinds::find_quantity(kind, latest->quantity);
  if (quantity == nullptr) return "";
  const std::string name =
      latest->quantity == kind.vocabulary.temperature ? "" : latest->quantity + " ";
  const std::string position = latest->position.empty() ? "" : " " + latest->position;
  return name + desk.print()({quantity->dimension, latest->last->value}, quantity->shown_in) +
         position;
}

std::string needs(const model::Assessment& assessment) {
  std::string text;
  for (const model::Told& finding : assessment.findings) {
    text += (text.empty() ? "" : ", ") + finding.rule.substr(finding.rule.find('.') + 1);
  }
  return text;
}

}  // namespace

Outcome run_list(Context& context, const Arguments& arguments) {
  const book::View view(*context.book);
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  std::string only;
  if (!arguments.words.empty()) {
    only = measure::folded(arguments.words[0]);
    std::vector<std::string> names;
    for (const kinds::Kind* kind : kinds::all_kinds()) names.emplace_back(kind->name);
    if (kinds::find_kind(only) == nullptr) return no_such("kind", arguments.words[0], names);
  }
  if (arguments.flag("foresight")) return list_foresight(context, *desk, only);
  const std::vector<model::Batch> none;
  std::string narrow;  // two lines a batch, where a table has no room
  render::Table table({{"batch"}, {"kind"}, {"day", true}, {"stage"}, {"last read"}, {"wants"}});
  render::Json rows = render::Json::array();
  for (const model::Batch& batch : desk->batches()) {
    const bool open = !batch.ended || *batch.ended > desk->now();
    if (batch.started > desk->now() || (!only.empty() && batch.kind != only)) continue;
    if (!open && !arguments.flag("all")) continue;
    const model::History history = desk->history(batch);
    const model::Assessment assessment = desk->assess(history, kinds::Extent::kFindings);
    const std::string label = book::label_of(desk->logbook(), batch);
    const int days =
        open ? history.day_number() : (*batch.ended_day - batch.started_day).count() + 1;
    const std::string last = last_reading(history, desk->kind(batch), *desk);
    const std::string wants = needs(assessment);
    table.add({label, batch.kind, std::to_string(days), assessment.stage, last, wants});
    if (context.width < kTableColumns) {
      const auto width = static_cast<std::size_t>(context.width);
      const std::string head =
          fmt::format("{} · {} · day {} · {}", label, batch.kind, days, assessment.stage);
      narrow += render::wrapped(head, width, 2) + '\n';
      const std::string text =
          fmt::format("  {}{}{}", last, last.empty() || wants.empty() ? "" : "; ",
                      wants.empty() ? "" : "wants " + wants);
      if (!last.empty() || !wants.empty()) narrow += render::wrapped(text, width, 2) + '\n';
    }
    render::Json row = render::json_of(batch, label, desk->site().zone);
    row["day"] = days;
    row["stage"] = assessment.stage;
    rows.push_back(row);
  }
  for (const model::Batch& batch : only.empty() ? desk->unknown_batches() : none) {
    const bool open = !batch.ended || *batch.ended > desk->now();
    if (batch.started > desk->now() || (!open && !arguments.flag("all"))) continue;
    const std::string label = book::label_of(desk->logbook(), batch);
    const model::Day last = open ? desk->today() : *batch.ended_day;
    const int days = (last - batch.started_day).count() + 1;
    table.add({label, batch.kind, std::to_string(days), kUnknownKind, "", ""});
    narrow += fmt::format("{} · {} · day {} · {}\n", label, batch.kind, days, kUnknownKind);
    render::Json row = render::json_of(batch, label, desk->site().zone);
    row["day"] = days;
    row["stage"] = kUnknownKind;
    rows.push_back(row);
  }
  if (context.json) {
    context.out << render::dumped(
        {{"as_of", desk->site().zone.iso(desk->now())}, {"batches", rows}});
  } else if (table.empty()) {
    context.out << fmt::format("no {}batch is open{}\n", only.empty() ? "" : only + " ",
                               arguments.flag("all") ? "" : "; --all shows the ended ones too");
  } else {
    context.out << (context.width < kTableColumns
                        ? narrow
                        : table.text(static_cast<std::size_t>(context.width)));
  }
  return kDone;
}

}  // namespace cli
