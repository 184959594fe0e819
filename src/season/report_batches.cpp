#include <fmt/format.h>

#include <algorithm>

#include "kinds/kind.h"
#include "measure/text.h"
#include "season/report_parts.h"

// What needs care, and each kind with its batches.
namespace season {
namespace {

std::string life_words(const model::Batch& batch, const ReportWords& words) {
  if (!batch.ended_day || *batch.ended_day > words.input.span.to) {
    return "since " + words.day(batch.started_day);
  }
  return words.day(batch.started_day) + " to " + words.day(*batch.ended_day);
}

Sum sum_within(const std::vector<model::Movement>& movements, const Span& span) {
  Sum sum;
  for (const model::Movement& one : movements) {
    if (one.day >= span.from && one.day <= span.to) sum.add(one);
  }
  return sum;
}

ReportTable batches_table(const std::vector<const ReportBatch*>& batches,
                          const ReportWords& words) {
  ReportTable table{"batches",
                    "Batches, with what went in and came out in these days",
                    {{"batch", Role::kText},
                     {"when", Role::kText},
                     {"stage", Role::kText},
                     {"days", Role::kNumber},
                     {"in", Role::kNumber},
                     {"out", Role::kNumber}},
                    {},
                    false};
  for (const ReportBatch* one : batches) {
    const std::string& label = one->label;
    table.rows.push_back(
        {text_cell(label), text_cell(life_words(one->history.batch, words)),
         text_cell(one->assessment.stage),
         figure_cell(count_figure("batches.days", label, "days alive in these days",
                                  alive_within(one->history.batch, words.input.span).days())),
         figure_cell(mass_figure("batches.in", label, "weight in",
                                 sum_within(one->history.in, words.input.span), words)),
         figure_cell(mass_figure("batches.out", label, "weight out",
                                 sum_within(one->history.out, words.input.span), words))});
  }
  return table;
}

ReportTable figures_table(const ReportBatch& batch, const ReportWords& words) {
  ReportTable table{"figures",
                    batch.label + ": its figures, from its first day on",
                    {{"figure", Role::kText}, {"value", Role::kNumber}, {"rests on", Role::kAside}},
                    {},
                    false};
  const model::Batch& of = batch.history.batch;
  for (const model::Measure& one : batch.assessment.measures) {
    Figure figure = figure_of(one, batch.label, words.print);
    figure.since = measure::iso_date(of.started_day);
    figure.until = measure::iso_date(of.ended_day.value_or(batch.history.today));
    table.rows.push_back(
        {text_cell(one.name), figure_cell(std::move(figure)), text_cell(one.basis)});
  }
  return table;
}

ReportTable notes_table(const std::vector<const ReportBatch*>& batches, const ReportWords& words) {
  ReportTable table{
      "notes", "Notes as typed", {{"batch"}, {"day"}, {"note", Column::Role::kText}}, {}, false};
  for (const ReportBatch* one : batches) {
    for (const model::Note& note : one->history.notes) {
      if (note.day < words.input.span.from || note.day > words.input.span.to) continue;
      table.rows.push_back(
          {text_cell(one->label), text_cell(words.day(note.day)), text_cell(note.text)});
    }
  }
  return table;
}

}  // namespace

Section section_care(const ReportWords& words) {
  Section section{"care", "What needs care", {}, {}, {}, {}, {}, std::nullopt};
  std::vector<model::Told> findings;
  for (const ReportBatch& batch : words.input.batches) {
    for (const model::Told& one : batch.assessment.findings) findings.push_back(one);
  }
  std::stable_sort(findings.begin(), findings.end(),
                   [](const auto& a, const auto& b) { return a.urgency < b.urgency; });
  section.says.push_back(fmt::format("As of {}.", words.day(words.input.span.to)));
  if (findings.empty()) {
    section.says.emplace_back("Nothing waits.");
    return section;
  }
  ReportTable table{"care",
                    "Findings, most urgent first",
                    {{"batch"}, {"when"}, {"what and what to do"}, {"by"}, {"source"}},
                    {},
                    false};
  for (const model::Told& one : findings) {
    std::string text = one.words.says;
    if (!one.words.why.empty()) text += "; " + one.words.why;
    text += ".";
    if (!one.words.action.empty()) text += " " + measure::capitalised(one.words.action) + ".";
    const std::string caution = model::full_text(one);
    if (!caution.empty()) text += " Caution: " + caution;
    table.rows.push_back({text_cell(one.batch), text_cell(std::string(model::word(one.urgency))),
                          text_cell(std::move(text)), text_cell(one.due ? words.day(*one.due) : ""),
                          text_cell(one.source)});
  }
  section.tables.push_back(std::move(table));
  return section;
}

std::vector<Section> sections_kinds(const ReportWords& words) {
  std::vector<Section> sections;
  for (const kinds::Kind* kind : kinds::all_kinds()) {
    std::vector<const ReportBatch*> batches;
    for (const ReportBatch& one : words.input.batches) {
      if (one.history.batch.kind == kind->name) batches.push_back(&one);
    }
    if (batches.empty()) continue;
    const std::string name(kind->name);
    Section section{"kind." + name,
                    "Kind: " + name,
                    {measure::capitalised(std::string(kind->meaning)) + "."},
                    {},
                    {},
                    {},
                    {},
                    std::nullopt};
    section.tables.push_back(batches_table(batches, words));
    for (const ReportBatch* one : batches) {
      if (!one->assessment.measures.empty()) section.tables.push_back(figures_table(*one, words));
      if (auto plot = plot_of(*one, words)) section.plots.push_back(std::move(*plot));
    }
    ReportTable notes = notes_table(batches, words);
    if (!notes.rows.empty()) section.tables.push_back(std::move(notes));
    sections.push_back(std::move(section));
  }
  return sections;
}

}  // namespace season
