#include "season/report.h"

#include <fmt/format.h>

#include "season/report_parts.h"

namespace season {

std::vector<const Figure*> all_figures(const Section& section) {
  std::vector<const Figure*> all;
  for (const Figure& one : section.figures) all.push_back(&one);
  for (const ReportTable& table : section.tables) {
    for (const auto& row : table.rows) {
      for (const Cell& cell : row) {
        if (cell.figure) all.push_back(&*cell.figure);
      }
    }
  }
  return all;
}

Report make_report(const ReportInput& input) {
  const ReportWords words(input);
  const auto from_to = [](const Span& span) {
    return fmt::format("{} to {}", measure::full_day_words(span.from),
                       measure::full_day_words(span.to));
  };
  Report report;
  report.site = input.site.name;
  report.span = from_to(input.span);
  if (words.compares) report.compared = from_to(input.before);
  report.from = measure::iso_date(input.span.from);
  report.to = measure::iso_date(input.span.to);
  report.days = input.span.days();
  report.made = measure::full_day_words(input.site.zone.day_of(input.now)) + ", " +
                date::format("%H:%M", input.site.zone.local(input.now));
  report.zone = input.site.zone.name();
  report.sections.push_back(section_came(words));
  report.sections.push_back(section_care(words));
  for (Section& one : sections_kinds(words)) report.sections.push_back(std::move(one));
  report.sections.push_back(section_inputs(words));
  report.sections.push_back(section_yields(words));
  report.sections.push_back(section_flows(words));
  report.sections.push_back(section_nutrients(words));
  report.sections.push_back(section_balances(words));
  report.sections.push_back(section_loop(words));
  report.sections.push_back(section_greenhouse(words));
  report.sections.push_back(section_treatment(words));
  report.sections.push_back(section_completeness(words));
  report.sections.push_back(section_method(words));
  report.front = front_of(words, report.sections);
  return report;
}

}  // namespace season
