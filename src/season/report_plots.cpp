#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "kinds/kind.h"
#include "measure/text.h"
#include "season/report_parts.h"

// Readings over time: lines, limits and deeds.
namespace season {
namespace {

// A deed done more often than this in the span would be a fence, not a mark.
constexpr int kMostMarks = 60;

std::vector<PlotMark> marks_of(const ReportBatch& batch, const ReportWords& words) {
  std::map<std::string, int> times;
  const auto within = [&](const model::Deed& deed) {
    return deed.day >= words.input.span.from && deed.day <= words.input.span.to;
  };
  for (const model::Deed& deed : batch.history.deeds) {
    if (within(deed)) ++times[deed.word];
  }
  std::vector<PlotMark> marks;
  for (const model::Deed& deed : batch.history.deeds) {
    if (within(deed) && times[deed.word] <= kMostMarks) {
      marks.push_back({words.input.site.zone.local(deed.at), deed.word});
    }
  }
  return marks;
}

std::string plot_words(const TimePlot& plot, const kinds::Kind& kind, const measure::Unit& unit,
                       const ReportWords& words) {
  const PlotPoint *lowest = nullptr, *highest = nullptr;
  for (const PlotLine& line : plot.lines) {
    for (const PlotPoint& point : line.points) {
      if (lowest == nullptr || point.least < lowest->least) lowest = &point;
      if (highest == nullptr || point.greatest > highest->greatest) highest = &point;
    }
  }
  const auto on = [&](const PlotPoint& point) {
    return words.day(date::floor<date::days>(point.at));
  };
  std::string text =
      fmt::format("Lowest {} {} on {}, highest {} {} on {}.",
                  measure::print_number(lowest->least, 1), unit.symbol, on(*lowest),
                  measure::print_number(highest->greatest, 1), unit.symbol, on(*highest));
  for (std::size_t i = 0; i < plot.limits.size(); ++i)
    text +=
        fmt::format(" Line at {}: {}.", plot.limits[i].says, kind.drawing.plot_limits[i]->meaning);
  std::map<std::string, std::vector<std::string>> deeds;
  for (const PlotMark& mark : plot.marks)
    deeds[mark.says].push_back(words.day(date::floor<date::days>(mark.at)));
  for (const auto& [word, days] : deeds) {
    text += days.size() <= 12 ? fmt::format(" Marked: {} on {}.", word, measure::joined(days, ", "))
                              : fmt::format(" Marked: {} {} times, {} to {}.", word, days.size(),
                                            days.front(), days.back());
  }
  return text;
}

}  // namespace

std::optional<TimePlot> plot_of(const ReportBatch& batch, const ReportWords& words) {
  const kinds::Kind* kind = kinds::find_kind(batch.history.batch.kind);
  if (kind == nullptr) return std::nullopt;
  const kinds::Quantity* quantity = kinds::find_quantity(*kind, kind->vocabulary.temperature);
  if (quantity == nullptr) return std::nullopt;
  const measure::Unit& unit = measure::usual_unit(quantity->dimension, words.input.units);
  TimePlot plot{batch.label,
                fmt::format("{}: {}", batch.label, quantity->name),
                std::string(unit.symbol),
                {},
                {},
                {},
                ""};
  std::size_t count = 0;
  for (const PlotLine& line : batch.lines) {
    PlotLine shown{line.name, {}};
    for (const PlotPoint& point : line.points) {
      shown.points.push_back({point.at, unit.from_base(point.least), unit.from_base(point.mean),
                              unit.from_base(point.greatest)});
    }
    count += shown.points.size();
    if (!shown.points.empty()) plot.lines.push_back(std::move(shown));
  }
  if (count < 2) return std::nullopt;
  for (const model::ThresholdInfo* info : kind->drawing.plot_limits) {
    const double value = unit.from_base(batch.rules.in_force(*info).si);
    plot.limits.push_back(
        {value, fmt::format("{} {}", measure::print_number(value, 1), unit.symbol)});
  }
  plot.marks = marks_of(batch, words);
  plot.says = plot_words(plot, *kind, unit, words);
  return plot;
}

}  // namespace season
