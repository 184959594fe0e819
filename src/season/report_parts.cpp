#include "season/report_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "measure/text.h"

namespace season {

ReportWords::ReportWords(const ReportInput& of)
    : input(of), print(of.units), compares(!of.movements_before.empty()) {}

std::string ReportWords::day(measure::Day day) const {
  return measure::day_words(day, input.span.to);
}

std::string mass_words(const Sum& sum, const measure::Printer& print) {
  return sum.estimated ? "~" + print.roughly(measure::value_of(sum.mass)) : print(sum.mass);
}

namespace {

// How far a mass by bulk density may be off. Own judgement: handbook densities of one material
// differ by so much, and a bucket is heaped or struck, wet or dry.
constexpr double kDensityDoubt = 0.3;

measure::Kilograms doubt_of(const Sum& sum) {
  return sum.by_density * kDensityDoubt;
}

}  // namespace

std::string mass_basis(const Sum& sum, const measure::Printer& print) {
  std::vector<std::string> parts;
  if (sum.estimated) {
    const auto between = print.between(measure::value_of(sum.mass - doubt_of(sum)),
                                       measure::value_of(sum.mass + doubt_of(sum)));
    parts.push_back(
        fmt::format("{}: {} of it by bulk density, not by a scale", between,
                    print(measure::Fraction{std::round(100 * (sum.by_density / sum.mass)) / 100})));
  }
  if (sum.unweighed_volume.value > 0) {
    parts.push_back(fmt::format("leaves out {} of materials whose bulk density is not known",
                                print(sum.unweighed_volume)));
  }
  if (sum.count > 0 && sum.mass.value > 0) {
    parts.push_back(
        fmt::format("leaves out {} counted and not weighed", measure::print_number(sum.count, 0)));
  }
  return measure::joined(parts, "; ");
}

std::string money_words(std::int64_t cents) {
  return fmt::format("{}.{:02}", cents / 100, cents % 100);
}

Figure mass_figure(std::string key, std::string of, std::string name, const Sum& sum,
                   const ReportWords& words, const Sum* before) {
  Figure made;
  made.key = std::move(key);
  made.of = std::move(of);
  made.name = std::move(name);
  made.si = sum.mass.value;
  made.unit = "kg";
  made.shown = mass_words(sum, words.print);
  made.basis = mass_basis(sum, words.print);
  made.estimated = sum.estimated;
  if (sum.estimated) {
    made.low = (sum.mass - doubt_of(sum)).value;
    made.high = (sum.mass + doubt_of(sum)).value;
  }
  if (before != nullptr && words.compares) {
    made.before = before->mass.value;
    made.before_shown = mass_words(*before, words.print);
  }
  return made;
}

namespace {

// The greater part of what is no mass, and its dimension.
measure::Value not_mass(const Sum& sum) {
  if (sum.count > 0) return {measure::Dimension::kCount, sum.count};
  if (sum.energy.value > 0) return measure::value_of(sum.energy);
  return measure::value_of(sum.unweighed_volume);
}

std::string not_mass_words(const Sum& sum, const measure::Printer& print) {
  std::vector<std::string> parts;
  if (sum.count > 0) parts.push_back(measure::print_number(sum.count, 0));
  if (sum.energy.value > 0) parts.push_back(print(sum.energy));
  if (sum.unweighed_volume.value > 0) parts.push_back(print(sum.unweighed_volume));
  return measure::joined(parts, " + ");
}

}  // namespace

Cell other_cell(std::string key, std::string of, const Sum& sum, const ReportWords& words,
                const Sum* before) {
  const measure::Value value = not_mass(sum);
  if (value.si <= 0) return {};
  Figure made;
  made.key = std::move(key);
  made.of = std::move(of);
  made.name = value.dimension == measure::Dimension::kCount    ? "counted"
              : value.dimension == measure::Dimension::kEnergy ? "energy"
                                                               : "volume not weighed";
  made.si = value.si;
  made.unit = std::string(measure::base_unit(value.dimension));
  made.shown = not_mass_words(sum, words.print);
  made.estimated = false;
  if (before != nullptr && words.compares) {
    const measure::Value was = not_mass(*before);
    if (was.si > 0 && was.dimension == value.dimension) {
      made.before = was.si;
      made.before_shown = not_mass_words(*before, words.print);
    }
  }
  return figure_cell(std::move(made));
}

Figure count_figure(std::string key, std::string of, std::string name, double count) {
  Figure made;
  made.key = std::move(key);
  made.of = std::move(of);
  made.name = std::move(name);
  made.si = count;
  made.unit = "1";
  made.shown = measure::print_number(count, 0);
  made.estimated = false;
  return made;
}

Figure money_figure(std::string key, std::string of, std::string name, std::int64_t cents,
                    const std::int64_t* before) {
  Figure made;
  made.key = std::move(key);
  made.of = std::move(of);
  made.name = std::move(name);
  made.si = static_cast<double>(cents) / 100;
  made.unit = "the site's money";
  made.shown = money_words(cents);
  made.estimated = false;
  if (before != nullptr) {
    made.before = static_cast<double>(*before) / 100;
    made.before_shown = money_words(*before);
  }
  return made;
}

Figure figure_of(const model::Measure& measure, std::string of, const measure::Printer& print) {
  Figure made;
  made.key = measure.key;
  made.of = std::move(of);
  made.name = measure.name;
  made.si = measure.value.value.si;
  made.unit = model::unit_of(measure.value);
  made.shown = model::shown(measure, print);
  made.basis = measure.basis;
  if (measure.range) {
    made.low = measure.range->low;
    made.high = measure.range->high;
  }
  return made;
}

Cell mass_cell(std::string key, std::string of, const Sum& sum, const ReportWords& words,
               const Sum* before) {
  if (!(sum.mass.value > 0)) return {};
  return figure_cell(mass_figure(std::move(key), std::move(of), "weight", sum, words, before));
}

Span alive_within(const model::Batch& batch, const Span& span) {
  return {std::max(batch.started_day, span.from),
          std::min(batch.ended_day.value_or(span.to), span.to)};
}

Cell text_cell(std::string text) {
  return {std::move(text), std::nullopt};
}

Cell figure_cell(Figure figure) {
  Cell cell;
  cell.text = figure.shown;
  cell.figure = std::move(figure);
  return cell;
}

Cell before_cell(const Cell& cell) {
  return text_cell(cell.figure ? cell.figure->before_shown : "");
}

}  // namespace season
