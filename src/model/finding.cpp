#include "model/finding.h"

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

std::string_view word(Hazard hazard) {
  switch (hazard) {
    case Hazard::kGas:
      return "gas";
    case Hazard::kFire:
      return "fire";
    case Hazard::kCarbonMonoxide:
      return "carbon monoxide";
    case Hazard::kGerms:
      return "germs";
    case Hazard::kPressure:
      return "pressure";
    case Hazard::kHeight:
      return "height";
    case Hazard::kBitesAndDust:
      return "bites and dust";
    case Hazard::kDrinking:
      return "drinking";
    case Hazard::kElectric:
      return "electric";
  }
  return "gas";
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

std::string full_text(const std::vector<const Caution*>& cautions) {
  std::string text;
  for (const Caution* one : cautions) text += (text.empty() ? "" : " ") + std::string(one->full);
  return text;
}

std::string full_text(const Told& finding) {
  const std::string rows = full_text(finding.cautions);
  const std::string& own = finding.words.caution;
  return rows.empty() || own.empty() ? rows + own : rows + " " + own;
}

std::string brief_text(const std::vector<const Caution*>& cautions) {
  std::string text;
  for (const Caution* one : cautions) text += (text.empty() ? "" : "; ") + std::string(one->brief);
  return text;
}

}  // namespace model
