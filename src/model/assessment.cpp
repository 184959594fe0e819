#include "model/assessment.h"

namespace model {

std::string_view word(Urgency urgency) {
  switch (urgency) {
    case Urgency::kNow:
      return "now";
    case Urgency::kToday:
      return "today";
    case Urgency::kSoon:
      return "soon";
    case Urgency::kReady:
      return "ready";
  }
  return "today";
}

std::string shown(const Measured& measured, const measure::Printer& print) {
  if (!measured.words.empty()) return measured.words;
  return measured.label.empty() ? print(measured.value, measured.shown_in)
                                : measure::Printer::labelled(measured.value.si, measured.label);
}

std::string unit_of(const Measured& measured) {
  return measured.label.empty() ? std::string(measure::base_unit(measured.value.dimension))
                                : measured.label;
}

std::optional<double> value_of(const std::vector<Measure>& measures, std::string_view key) {
  for (const Measure& one : measures) {
    if (one.key == key) return one.value.value.si;
  }
  return std::nullopt;
}

}  // namespace model
