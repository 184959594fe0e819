#pragma once

#include <string>
#include <vector>

#include "measure/printer.h"
#include "season/flows.h"
#include "season/report_input.h"

// Inside the report: how sums and values become figures, and the sections there are.
namespace season {

using Role = Column::Role;

// What the figures of the report share.
struct ReportWords {
  const ReportInput& input;
  measure::Printer print;
  bool compares;  // something was carried in the span before

  explicit ReportWords(const ReportInput& of);
  std::string day(measure::Day day) const;  // "Mon 3 May", with the year where it is another one
};

// "48.5 lb"; "~5,600 lb" where some of it is by bulk density.
std::string mass_words(const Sum& sum, const measure::Printer& print);
// What a sum of masses rests on and leaves out.
std::string mass_basis(const Sum& sum, const measure::Printer& print);
std::string money_words(std::int64_t cents);

Figure mass_figure(std::string key, std::string of, std::string name, const Sum& sum,
                   const ReportWords& words, const Sum* before = nullptr);
// The same in a cell, which is empty where there is no mass.
Cell mass_cell(std::string key, std::string of, const Sum& sum, const ReportWords& words,
               const Sum* before = nullptr);
// What a sum holds that is no mass: things counted, energy, or a volume of unknown weight. An empty
// cell where there is nothing.
Cell other_cell(std::string key, std::string of, const Sum& sum, const ReportWords& words,
                const Sum* before = nullptr);
Figure count_figure(std::string key, std::string of, std::string name, double count);
Figure money_figure(std::string key, std::string of, std::string name, std::int64_t cents,
                    const std::int64_t* before = nullptr);
Figure figure_of(const model::Measure& measure, std::string of, const measure::Printer& print);

Cell text_cell(std::string text);
Cell figure_cell(Figure figure);
// What the figure of a cell was in the span before; empty where it is not compared.
Cell before_cell(const Cell& cell);

// The days of the span on which a batch was alive.
Span alive_within(const model::Batch& batch, const Span& span);

// The sections, in the report's order.
Section section_came(const ReportWords& words);
Section section_care(const ReportWords& words);
std::vector<Section> sections_kinds(const ReportWords& words);
Section section_inputs(const ReportWords& words);
Section section_yields(const ReportWords& words);
Section section_flows(const ReportWords& words);
Section section_nutrients(const ReportWords& words);
Section section_balances(const ReportWords& words);
Section section_loop(const ReportWords& words);
Section section_greenhouse(const ReportWords& words);
Section section_treatment(const ReportWords& words);
Section section_completeness(const ReportWords& words);
Section section_method(const ReportWords& words);

// What a visitor reads first. The sections are those of the report.
Front front_of(const ReportWords& words, const std::vector<Section>& sections);

// The picture of what its kind charts; none where there are fewer than two readings.
std::optional<TimePlot> plot_of(const ReportBatch& batch, const ReportWords& words);

}  // namespace season
