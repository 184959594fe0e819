#include "model/assessment.h"

namespace model {

std::optional<double> value_of(const std::vector<Measure>& measures, std::string_view key) {
  for (const Measure& one : measures) {
    if (one.key == key) return one.value.value.si;
  }
  return std::nullopt;
}

std::string shown(const Measure& measure, const measure::Printer& print) {
  if (!measure.range || !measure.value.words.empty()) return shown(measure.value, print);
  const Measured& value = measure.value;
  const measure::Dimension dimension = value.value.dimension;
  const std::string text = print.between({dimension, measure.range->low},
                                         {dimension, measure.range->high}, value.shown_in);
  return value.label.empty() || value.label == "1" ? text : text + " " + value.label;
}

}  // namespace model
