#include "cli/season/tables.h"

#include <fmt/format.h>

#include "cli/season/flow_lines.h"
#include "render/csv.h"
#include "render/report_data.h"
#include "season/flows.h"
#include "season/thin.h"

namespace cli {
namespace {

std::string side_words(season::Side side) {
  return side == season::Side::kIn ? "in" : "out";
}

render::Json json_sum(const season::Sum& sum, const measure::Printer& print) {
  return {{"mass_kg", sum.mass.value},
          {"mass_shown", print(sum.mass)},
          {"mass_estimated", sum.estimated},
          {"unweighed_litres", sum.unweighed_volume.value},
          {"count", sum.count},
          {"energy_kwh", sum.energy.value},
          {"movements", sum.movements},
          {"paid", static_cast<double>(sum.paid_cents) / 100},
          {"sold", static_cast<double>(sum.sold_cents) / 100}};
}

const std::vector<render::CsvColumn> kMovementColumns{
    {"date", "the site's own day, ISO 8601", "date"},
    {"at", "the moment, ISO 8601 with the site's offset", "datetime"},
    {"material", "the material's own name"},
    {"from", "the batch it came from; empty: from outside"},
    {"to", "the batch it went to; empty: away"},
    {"for", "what it was taken for, as typed"},
    {"amount_si", "the amount as measured: kg, L, 1 (a count) or kWh", "number"},
    {"amount_unit", "the unit of amount_si"},
    {"amount_shown", "the amount as typed"},
    {"mass_kg", "mass, weighed or by bulk density; empty: not known", "number"},
    {"mass_is", "weighed, estimated (by bulk density) or unknown"},
    {"paid", "money paid", "number"},
    {"sold", "money received", "number"},
    {"supplier", "who brought it, as typed"},
    {"lot", "its lot, invoice or delivery note, as typed"},
    {"buyer", "who got it, as typed"},
    {"marked", "1: recorded against an objection, on the person's word", "integer"}};
const std::vector<render::CsvColumn> kSumColumns{
    {"batch", "the batch"},
    {"kind", "its kind"},
    {"side", "in or out"},
    {"material", "the material's own name"},
    {"other", "the batch at the other end; empty: outside, or away"},
    {"for", "what it was taken for"},
    {"mass_kg", "the mass that is known", "number"},
    {"mass_shown", "the same in the units asked for"},
    {"mass_is", "weighed, or estimated where any of it is by bulk density"},
    {"unweighed_litres", "volume whose mass is not known, in L; not in mass_kg", "number"},
    {"count", "things counted; not in mass_kg", "number"},
    {"energy_kwh", "energy, in kWh", "number"},
    {"movements", "how many movements the row sums", "integer"}};
const std::vector<render::CsvColumn> kFigureColumns{
    {"batch", "the batch"},
    {"kind", "its kind"},
    {"key", "a stable name of the figure"},
    {"name", "the figure in words"},
    {"si", "its value", "number"},
    {"unit", "the unit of si"},
    {"shown", "the value in the units asked for"},
    {"basis", "what it rests on and what it leaves out"},
    {"low_si", "where only a range is known: its lower end; else empty", "number"},
    {"high_si", "its upper end", "number"},
    {"from_day", "the batch's first day: the figure is of its whole life", "date"},
    {"to_day", "the last day that it counts", "date"}};
const std::vector<render::CsvColumn> kReadingColumns{
    {"batch", "the batch"},
    {"quantity", "what was read"},
    {"position", "the probe position; empty: none said"},
    {"date", "the site's own day, ISO 8601", "date"},
    {"readings", "how many that day", "integer"},
    {"least", "the lowest, in unit", "number"},
    {"mean", "the mean, in unit", "number"},
    {"greatest", "the highest, in unit", "number"},
    {"unit", "the unit of the three"}};

measure::Instant end_of(const measure::Zone& zone, measure::Day day) {
  return zone.start_of(day + date::days{1}) - std::chrono::seconds{1};
}

// What the batches' figures were just before the moment, for those that count up over their life.
std::vector<season::Judged> judged(const std::vector<season::ReportBatch>& batches,
                                   const Desk& desk, measure::Instant from) {
  std::vector<season::Judged> all;
  for (const season::ReportBatch& batch : batches) {
    season::Judged one{batch.label, batch.history.batch.kind, batch.assessment.measures, {}};
    if (desk.kind(batch.history.batch).roles.counts_up && batch.history.batch.started < from) {
      one.before = desk.assess(desk.history(batch.history.batch, from - std::chrono::seconds{1}),
                               kinds::Extent::kFigures)
                       .measures;
    }
    all.push_back(std::move(one));
  }
  return all;
}

// The site's figures of the span before, which has none where nothing was carried then.
std::vector<model::Measure> figures_before(const season::ReportInput& input, const Desk& desk) {
  if (input.movements_before.empty()) return {};
  const measure::Zone& zone = desk.site().zone;
  const measure::Instant from = zone.start_of(input.before.from);
  const measure::Instant until = end_of(zone, input.before.to);
  std::vector<season::ReportBatch> earlier;
  for (const model::Batch& batch : desk.batches()) {
    const bool outside = batch.started > until || (batch.ended && *batch.ended < from);
    if (outside || !desk.kind(batch).roles.counts_up) continue;
    model::History history = desk.history(batch, until);
    model::Assessment assessment = desk.assess(history, kinds::Extent::kFigures);
    earlier.push_back({batch.code, std::move(history), std::move(assessment), {}, {}});
  }
  const season::Loop loop =
      season::loop_of(input.movements_before, judged(earlier, desk, from), desk.site_rules());
  return season::site_figures(input.movements_before, loop);
}

std::string movements_csv(const Season& season, const Desk& desk) {
  render::Csv csv(render::names(kMovementColumns));
  const measure::Zone& zone = desk.site().zone;
  for (const model::Movement& one : season.input.movements) {
    const auto mass = one.mass();
    csv.text(measure::iso_date(one.day)).text(zone.iso(one.at)).text(one.material.name);
    csv.text(one.from).text(one.to).text(one.purpose).number(one.amount.si);
    csv.text(measure::base_unit(one.amount.dimension)).text(one.typed);
    mass ? csv.number(mass->value) : csv.empty();
    csv.text(!mass ? "unknown" : one.weighed() ? "weighed" : "estimated");
    one.paid_cents ? csv.number(static_cast<double>(*one.paid_cents) / 100) : csv.empty();
    one.sold_cents ? csv.number(static_cast<double>(*one.sold_cents) / 100) : csv.empty();
    csv.text(one.supplier).text(one.lot).text(one.buyer);
    csv.whole(one.sure ? 1 : 0).end_row();
  }
  return csv.str();
}

std::string flows_csv(const Season& season, const Desk& desk) {
  render::Csv csv(render::names(kSumColumns));
  for (const season::Flow& flow : season::flows(season.input.movements)) {
    csv.text(flow.batch).text(flow.kind).text(side_words(flow.side)).text(flow.material);
    csv.text(flow.other).text(flow.purpose).number(flow.sum.mass.value);
    csv.text(desk.print()(flow.sum.mass)).text(flow.sum.estimated ? "estimated" : "weighed");
    csv.number(flow.sum.unweighed_volume.value).number(flow.sum.count);
    csv.number(flow.sum.energy.value).whole(flow.sum.movements);
    csv.end_row();
  }
  return csv.str();
}

std::string figures_csv(const Season& season, const Desk& desk) {
  render::Csv csv(render::names(kFigureColumns));
  for (const season::ReportBatch& batch : season.input.batches) {
    for (const model::Measure& one : batch.assessment.measures) {
      csv.text(batch.label).text(batch.history.batch.kind).text(one.key).text(one.name);
      csv.number(one.value.value.si)
          .text(model::unit_of(one.value))
          .text(model::shown(one, desk.print()))
          .text(one.basis);
      one.range ? csv.number(one.range->low).number(one.range->high) : csv.empty().empty();
      csv.text(measure::iso_date(batch.history.batch.started_day))
          .text(measure::iso_date(batch.history.batch.ended_day.value_or(batch.history.today)));
      csv.end_row();
    }
  }
  return csv.str();
}

std::string readings_csv(const Season& season, const Desk& desk) {
  render::Csv csv(render::names(kReadingColumns));
  for (const season::ReportBatch& batch : season.input.batches) {
    for (const model::Series& series : batch.history.series) {
      const kinds::Quantity* quantity =
          kinds::find_quantity(desk.kind(batch.history.batch), series.quantity);
      const auto dimension =
          quantity == nullptr ? measure::Dimension::kNumber : quantity->dimension;
      for (const model::DayRoll& roll : series.days) {
        if (roll.day < season.input.span.from || roll.day > season.input.span.to) continue;
        csv.text(batch.label).text(series.quantity).text(series.position);
        csv.text(measure::iso_date(roll.day)).whole(roll.count).number(roll.least);
        csv.number(roll.mean()).number(roll.greatest).text(measure::base_unit(dimension));
        csv.end_row();
      }
    }
  }
  return csv.str();
}

std::string readme(const Season& season, const Desk& desk, const std::vector<CsvFile>& files) {
  std::string text = fmt::format(
      "{}: the season {} to {}\n\nCSV after RFC 4180, UTF-8, one table a file. Dates are ISO 8601; "
      "days "
      "are the\nsite's own ({}). Numbers have a decimal point. A text cell that a "
      "spreadsheet\nwould run "
      "as a formula has an apostrophe in front.\n",
      desk.site().name, measure::iso_date(season.input.span.from),
      measure::iso_date(season.input.span.to), desk.site().zone.name());
  for (const CsvFile& file : files) {
    text += fmt::format("\n{}: {}\n", file.name, file.what);
    for (const auto& column : file.columns)
      text += fmt::format("  {:<17} {:<9} {}\n", column.name, column.type, column.meaning);
  }
  return text;
}

// Twice as many as a wide screen shows apart.
constexpr std::size_t kMostPoints = 800;

// The series that a batch's picture shows.
std::vector<const model::Series*> drawn(const season::ReportBatch& batch, const Desk& desk) {
  return batch.history.all(desk.kind(batch.history.batch).vocabulary.temperature);
}

// The lines of each batch's picture.
void draw_lines(std::vector<season::ReportBatch>& batches, const Desk& desk, measure::Instant from,
                measure::Instant until) {
  const measure::Zone& zone = desk.site().zone;
  const measure::Day first = zone.day_of(from), last = zone.day_of(until);
  std::size_t count = 0;
  for (const season::ReportBatch& batch : batches) count += drawn(batch, desk).size();
  for (season::ReportBatch& batch : batches) {
    for (const model::Series* series : drawn(batch, desk)) {
      const bool by_days = season::is_drawn_by_days(series->days, first, last, count);
      batch.lines.push_back(
          {series->position,
           by_days
               ? season::day_points(series->days, first, last)
               : season::thinned(book::readings(desk.logbook(), batch.history.batch,
                                                series->quantity, series->position, from, until),
                                 zone, kMostPoints)});
    }
  }
}

}  // namespace

Season read_season(const Desk& desk, season::Span span) {
  const measure::Zone& zone = desk.site().zone;
  const measure::Instant from = zone.start_of(span.from);
  const measure::Instant until = std::min(desk.now(), end_of(zone, span.to));
  const season::Span before = season::span_before(span);
  Season season{{desk.site(), desk.print().system(), desk.now(), span, before}, {}};
  season::ReportInput& input = season.input;
  input.rules = desk.site_rules();
  input.movements = desk.movements(from, until);
  input.movements_before = desk.movements(zone.start_of(before.from), end_of(zone, before.to));
  for (model::Batch batch : desk.batches()) {
    if (batch.started > until || (batch.ended && *batch.ended < from)) continue;
    const std::string label = book::label_of(desk.logbook(), batch);
    // As of the span's end, what ended later was open.
    if (batch.ended && *batch.ended > until) {
      batch.ended.reset();
      batch.ended_day.reset();
      batch.because.clear();
    }
    model::History history = desk.history(batch, until);
    // A balance asks what left with them.
    if (desk.kind(batch).needs.provenance) desk.bring_provenance(history.out);
    model::Assessment assessment = desk.assess(history, kinds::Extent::kFigures);
    input.batches.push_back(
        {label, std::move(history), std::move(assessment), book::rules(desk.logbook(), batch), {}});
  }
  draw_lines(input.batches, desk, from, until);
  const model::Rules& rules = input.rules;
  std::set<std::string> unbegun;
  for (const season::ReportBatch& batch : input.batches) {
    if (!season::loses(batch.history, batch.rules)) unbegun.insert(batch.label);
    // What gives without being given (a tank, a panel) has nothing to close.
    const kinds::Kind& kind = desk.kind(batch.history.batch);
    if (batch.history.in.empty() && !kinds::passes_on(kind)) continue;
    // Animals burn most of what they eat, and nobody weighs what they grow.
    if (kind.roles.animals) continue;
    input.balances.push_back(
        season::balance_of(batch.history, batch.label, batch.assessment.measures, rules));
    for (auto& one : season::impossible_findings(input.balances.back(), desk.print().system())) {
      input.impossible.push_back(std::move(one));
    }
  }
  input.site_balance = season::site_balance(input.movements, span.to, rules, unbegun);
  input.loop = season::loop_of(input.movements, judged(input.batches, desk, from), rules);
  input.figures = season::compared(season::site_figures(input.movements, input.loop),
                                   figures_before(input, desk));
  season.report = season::make_report(season.input);
  return season;
}

render::Json json_season(const Season& season, const Desk& desk) {
  render::Json json{{"site", desk.site().name},
                    {"from", measure::iso_date(season.input.span.from)},
                    {"to", measure::iso_date(season.input.span.to)},
                    {"days", season.input.span.days()},
                    {"compared_from", measure::iso_date(season.input.before.from)},
                    {"compared_to", measure::iso_date(season.input.before.to)},
                    {"sections", render::json_of(season.report.sections)},
                    {"crossings", render::Json::array()},
                    {"flows", render::Json::array()},
                    {"batches", render::Json::array()}};
  for (const season::Crossing& row : season::crossings(season.input.movements)) {
    render::Json one{
        {"side", side_words(row.side)}, {"material", row.material}, {"group", row.group}};
    one.update(json_sum(row.sum, desk.print()));
    json["crossings"].push_back(one);
  }
  for (const season::Flow& row : season::flows(season.input.movements)) {
    render::Json one{{"batch", row.batch},           {"kind", row.kind},
                     {"side", side_words(row.side)}, {"material", row.material},
                     {"other", row.other},           {"for", row.purpose}};
    one.update(json_sum(row.sum, desk.print()));
    json["flows"].push_back(one);
  }
  for (const season::ReportBatch& batch : season.input.batches) {
    render::Json one = render::json_of(batch.history.batch, batch.label, desk.site().zone);
    one["measures"] = render::Json::array();
    for (const model::Measure& measure : batch.assessment.measures) {
      one["measures"].push_back(render::json_of(measure, desk.print()));
    }
    json["batches"].push_back(one);
  }
  add_flow_json(season, desk, json);
  return json;
}

namespace {

std::vector<CsvFile> tables_of(const Season& season, const Desk& desk) {
  std::vector<CsvFile> files{
      {"report.csv", "every figure of the report, a row a figure", render::report_csv_columns(),
       render::report_csv(season.report)},
      {"movements.csv", "every movement of the span", kMovementColumns,
       movements_csv(season, desk)},
      {"flows.csv", "sums by batch, side, material, other end and purpose", kSumColumns,
       flows_csv(season, desk)},
      {"figures.csv", "each batch's own figures, as of the span's end", kFigureColumns,
       figures_csv(season, desk)},
      {"readings.csv", "what was read, a row a day", kReadingColumns, readings_csv(season, desk)}};
  for (CsvFile& file : flow_csv(season)) files.push_back(std::move(file));
  return files;
}

// As Tabular Data Package of Frictionless Data describes tables.
std::string package_json(const Season& season, const std::vector<CsvFile>& files) {
  render::Json resources = render::Json::array();
  for (const CsvFile& file : files) {
    render::Json fields = render::Json::array();
    for (const render::CsvColumn& column : file.columns) {
      render::Json field{{"name", std::string(column.name)},
                         {"type", std::string(column.type)},
                         {"description", std::string(column.meaning)}};
      // With the site's offset, which the default form has not.
      if (column.type == "datetime") field["format"] = "any";
      fields.push_back(field);
    }
    resources.push_back({{"name", file.name.substr(0, file.name.find('.'))},
                         {"path", file.name},
                         {"description", file.what},
                         {"profile", "tabular-data-resource"},
                         {"format", "csv"},
                         {"encoding", "utf-8"},
                         {"schema", {{"fields", fields}, {"missingValues", {""}}}}});
  }
  return render::dumped({{"profile", "tabular-data-package"},
                         {"name", "season"},
                         {"title", season.report.site + ", " + season.report.span},
                         {"resources", resources}});
}

}  // namespace

std::string fields_text(const Season& season, const Desk& desk) {
  return readme(season, desk, tables_of(season, desk));
}

std::vector<std::pair<std::string, std::string>> csv_files(const Season& season, const Desk& desk) {
  const std::vector<CsvFile> files = tables_of(season, desk);
  std::vector<std::pair<std::string, std::string>> written;
  for (const CsvFile& file : files) written.emplace_back(file.name, file.content);
  written.emplace_back("README.txt", readme(season, desk, files));
  written.emplace_back("datapackage.json", package_json(season, files));
  return written;
}

}  // namespace cli
