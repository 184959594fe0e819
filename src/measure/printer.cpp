#include "measure/printer.h"

#include <fmt/format.h>

#include <cmath>

namespace measure {
namespace {

// Enough decimals to tell two readings of a thermometer or a kitchen scale apart, and no more.
int decimals_for(Dimension dimension, double shown) {
  const double size = std::fabs(shown);
  switch (dimension) {
    case Dimension::kTemperature:
    case Dimension::kTemperatureDifference:
      return 1;
    case Dimension::kFraction:
      return size < 100 ? 1 : 0;
    case Dimension::kAcidity:
    case Dimension::kConductivity:
      return 2;
    case Dimension::kCount:
    case Dimension::kDegreeDays:
      return 0;
    case Dimension::kDuration:
      return 1;
    case Dimension::kMass:
      // Two digits of a small part of an ounce.
      if (size < 1) return size < 0.01 ? 4 : size < 0.1 ? 3 : 2;
      return size < 10 ? 2 : size < 100 ? 1 : 0;
    case Dimension::kVolume:
    case Dimension::kArea:
    case Dimension::kLength:
    case Dimension::kPressure:
    case Dimension::kEnergy:
    case Dimension::kPower:
    case Dimension::kNumber:
      return size < 10 ? 2 : size < 100 ? 1 : 0;
  }
  return 1;
}

// The unit that suits the size: ounces and grams below a pound and a kilogram, and so on. What is
// less than a thousandth of an ounce is in milligrams everywhere.
const Unit& suitable_unit(Value value, UnitSystem system) {
  const double size = std::fabs(value.si);
  const bool us = system == UnitSystem::kUs;
  if (value.dimension == Dimension::kMass && size > 0) {
    if (us) {
      const bool tiny = size < unit("oz").to_base(0.001);
      return tiny ? unit("mg") : size < 0.45 ? unit("oz") : unit("lb");
    }
    return size < 1e-3 ? unit("mg") : size < 1 ? unit("g") : unit("kg");
  }
  if (value.dimension == Dimension::kVolume && size > 0) {
    if (us) return size < 0.9 ? unit("fl-oz") : size >= 700 ? unit("yd3") : unit("gal");
    return size < 1 ? unit("mL") : size >= 1000 ? unit("m3") : unit("L");
  }
  if (value.dimension == Dimension::kArea && size > 0) {
    if (us) return size >= 4000 ? unit("acre") : unit("ft2");
    return size >= 1e4 ? unit("ha") : unit("m2");
  }
  if (value.dimension == Dimension::kDuration && size > 0 && size < 1) {
    // An hour in days is no round number, and is not to be 60 minutes.
    return size < 0.999 * unit("hours").factor ? unit("minutes") : unit("hours");
  }
  return usual_unit(value.dimension, system);
}

}  // namespace

std::string print_number(double number, int decimals) {
  std::string text = fmt::format("{:.{}f}", number, decimals);
  if (text.find('.') != std::string::npos) {
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
  }
  if (text == "-0") text = "0";
  const std::size_t start = text[0] == '-' ? 1 : 0;
  const std::size_t point = std::min(text.find('.'), text.size());
  for (std::size_t at = point; at > start + 3; at -= 3) text.insert(at - 3, 1, ',');
  return text;
}

namespace {

// One of what a label names in the plural: "turning" of "turnings", "entry" of "entries". A label
// that is no plain word ("kg/kg", "L/kg VS") stays as it is.
std::string singular(std::string_view label) {
  const bool plain = label.find_first_not_of("abcdefghijklmnopqrstuvwxyz-") == label.npos;
  if (!plain || label.size() < 3 || !label.ends_with('s')) return std::string(label);
  label.remove_suffix(1);
  if (label.ends_with("ie")) return std::string(label.substr(0, label.size() - 2)) + "y";
  return std::string(label);
}

}  // namespace

namespace {

const Unit& unit_for(Value value, ShownIn shown_in, UnitSystem system) {
  const std::string_view asked = system == UnitSystem::kUs ? shown_in.us : shown_in.metric;
  return asked.empty() ? suitable_unit(value, system) : unit(asked);
}

double shown_number(Value value, const Unit& in, UnitSystem system) {
  if (value.dimension != Dimension::kTemperatureDifference) return in.from_base(value.si);
  return system == UnitSystem::kUs ? value.si * 9 / 5 : value.si;
}

// A number as printed, with the unit of its dimension.
std::string with_unit(const std::string& number, Dimension dimension, const Unit& in,
                      UnitSystem system) {
  switch (dimension) {
    case Dimension::kCount:
    case Dimension::kNumber:
      return number;
    case Dimension::kAcidity:
      return "pH " + number;
    case Dimension::kTemperatureDifference:
      return number + (system == UnitSystem::kUs ? " °F" : " °C");
    case Dimension::kTemperature:
    case Dimension::kMass:
    case Dimension::kVolume:
    case Dimension::kArea:
    case Dimension::kLength:
    case Dimension::kFraction:
    case Dimension::kConductivity:
    case Dimension::kPressure:
    case Dimension::kEnergy:
    case Dimension::kPower:
    case Dimension::kDegreeDays:
      return number + " " + std::string(in.symbol);
    case Dimension::kDuration:
      return number + " " + (number == "1" ? singular(in.symbol) : std::string(in.symbol));
  }
  return number;
}

// Two figures of it: 1,333 is 1,300.
std::string two_figures(double number) {
  if (number == 0) return "0";
  const int places = 1 - static_cast<int>(std::floor(std::log10(std::fabs(number)) + 1e-9));
  const double step = std::pow(10, places);
  return print_number(std::round(number * step) / step, std::max(0, places));
}

}  // namespace

std::string Printer::operator()(Value value, ShownIn shown_in) const {
  const Unit& in = unit_for(value, shown_in, system_);
  const double shown = shown_number(value, in, system_);
  return with_unit(print_number(shown, decimals_for(value.dimension, shown)), value.dimension, in,
                   system_);
}

std::string Printer::between(Value low, Value high, ShownIn shown_in) const {
  const Value greater = std::fabs(low.si) > std::fabs(high.si) ? low : high;
  const Unit& in = unit_for(greater, shown_in, system_);
  const std::string from = two_figures(shown_number(low, in, system_)),
                    to = two_figures(shown_number(high, in, system_));
  const std::string end = with_unit(to, high.dimension, in, system_);
  return from == to ? "about " + end : from + " to " + end;
}

std::string Printer::roughly(Value value, ShownIn shown_in) const {
  const Unit& in = unit_for(value, shown_in, system_);
  return with_unit(two_figures(shown_number(value, in, system_)), value.dimension, in, system_);
}

std::string Printer::beside(Value value, Value limit, ShownIn shown_in) const {
  constexpr int kMostDecimals = 4;
  const std::string usual = (*this)(value, shown_in);
  if (value.si == limit.si || usual != (*this)(limit, shown_in)) return usual;
  const Unit& in = unit_for(value, shown_in, system_);
  const double shown = shown_number(value, in, system_), bound = shown_number(limit, in, system_);
  for (int decimals = decimals_for(value.dimension, shown) + 1; decimals <= kMostDecimals;
       ++decimals) {
    const std::string number = print_number(shown, decimals);
    if (number == print_number(bound, decimals)) continue;
    return with_unit(number, value.dimension, in, system_);
  }
  return usual;
}

std::string Printer::difference(Kelvins difference) const {
  return (*this)(value_of(difference));
}

std::string Printer::labelled(double number, std::string_view label) {
  const std::string shown = print_number(number, decimals_for(Dimension::kNumber, number));
  if (label.empty() || label == "1") return shown;
  return shown + " " + (shown == "1" ? singular(label) : std::string(label));
}

}  // namespace measure
