#include "measure/unit.h"

#include <algorithm>
#include <array>
#include <cassert>

#include "measure/text.h"

namespace measure {
namespace {

// Exact by definition: inch 0.0254 m, pound 0.45359237 kg, US gallon 231 in3, psi 6.894757... kPa
// from the pound, the inch and 9.80665 m/s2 (NIST Special Publication 811, 2008, appendix B.8).
// inH2O is the conventional one, of water of 1000 kg/m3. The acre is 43,560 international square
// feet.
constexpr double kInch = 0.0254;
constexpr double kFoot = 12 * kInch;
constexpr double kPound = 0.45359237;
constexpr double kLitresPerCubicMetre = 1000;
constexpr double kGallon = 231 * kInch * kInch * kInch * kLitresPerCubicMetre;
constexpr double kCubicFoot = kFoot * kFoot * kFoot * kLitresPerCubicMetre;
constexpr double kPsi = kPound * 9.80665 / (kInch * kInch) / 1000;
using D = Dimension;

constexpr std::array kUnits{
    Unit{"°F", D::kTemperature, 5.0 / 9.0, 32, "f degf fahrenheit"},
    Unit{"°C", D::kTemperature, 1, 0, "c degc celsius"},
    Unit{"K", D::kTemperatureDifference, 1, 0, "k kelvin"},
    Unit{"kg", D::kMass, 1, 0, "kg kgs kilo kilos kilogram kilograms"},
    Unit{"g", D::kMass, 1e-3, 0, "g gram grams"},
    Unit{"mg", D::kMass, 1e-6, 0, "mg milligram milligrams"},
    Unit{"t", D::kMass, 1000, 0, "t tonne tonnes metric-ton metric-tons"},
    Unit{"lb", D::kMass, kPound, 0, "lb lbs pound pounds"},
    Unit{"oz", D::kMass, kPound / 16, 0, "oz ounce ounces"},
    Unit{"short-ton", D::kMass, kPound * 2000, 0, "short-ton short-tons us-ton us-tons"},
    Unit{"L", D::kVolume, 1, 0, "l litre litres liter liters"},
    Unit{"mL", D::kVolume, 1e-3, 0, "ml millilitre millilitres milliliter milliliters cc"},
    Unit{"m3", D::kVolume, 1000, 0, "m3 cubic-metre cubic-metres cubic-meter cubic-meters"},
    Unit{"gal", D::kVolume, kGallon, 0, "gal gals gallon gallons"},
    Unit{"qt", D::kVolume, kGallon / 4, 0, "qt qts quart quarts"},
    Unit{"pt", D::kVolume, kGallon / 8, 0, "pt pint pints"},
    Unit{"cup", D::kVolume, kGallon / 16, 0, "cup cups"},
    Unit{"fl-oz", D::kVolume, kGallon / 128, 0, "fl-oz floz fluid-ounce fluid-ounces"},
    Unit{"ft3", D::kVolume, kCubicFoot, 0, "ft3 cuft cubic-foot cubic-feet"},
    Unit{"yd3", D::kVolume, kCubicFoot * 27, 0, "yd3 cuyd cubic-yard cubic-yards"},
    Unit{"m2", D::kArea, 1, 0, "m2 square-metre square-metres square-meter square-meters"},
    Unit{"cm2", D::kArea, 1e-4, 0, "cm2"},
    Unit{"ha", D::kArea, 1e4, 0, "ha hectare hectares"},
    Unit{"ft2", D::kArea, kFoot* kFoot, 0, "ft2 sqft square-foot square-feet"},
    Unit{"acre", D::kArea, kFoot* kFoot * 43560, 0, "acre acres ac"},
    Unit{"m", D::kLength, 1, 0, "m metre metres meter meters"},
    Unit{"cm", D::kLength, 0.01, 0, "cm centimetre centimetres centimeter centimeters"},
    Unit{"mm", D::kLength, 1e-3, 0, "mm millimetre millimetres millimeter millimeters"},
    Unit{"in", D::kLength, kInch, 0, "in inch inches"},
    Unit{"ft", D::kLength, kFoot, 0, "ft foot feet"},
    Unit{"yd", D::kLength, kFoot * 3, 0, "yd yard yards"},
    Unit{"%", D::kFraction, 0.01, 0, "% percent pct"},
    Unit{"ppm", D::kFraction, 1e-6, 0, "ppm"},
    Unit{"ppb", D::kFraction, 1e-9, 0, "ppb"},
    Unit{"pH", D::kAcidity, 1, 0, "ph"},
    Unit{"dS/m", D::kConductivity, 1, 0, "ds/m"},
    Unit{"mS/cm", D::kConductivity, 1, 0, "ms/cm"},
    Unit{"uS/cm", D::kConductivity, 1e-3, 0, "us/cm µs/cm μs/cm"},
    Unit{"kPa", D::kPressure, 1, 0, "kpa"},
    Unit{"Pa", D::kPressure, 1e-3, 0, "pa"},
    Unit{"psi", D::kPressure, kPsi, 0, "psi"},
    Unit{"bar", D::kPressure, 100, 0, "bar bars"},
    Unit{"mbar", D::kPressure, 0.1, 0, "mbar hpa millibar"},
    Unit{"inH2O", D::kPressure, 0.24908891, 0, "inh2o inwc inches-of-water"},
    Unit{"cmH2O", D::kPressure, 0.0980665, 0, "cmh2o cmwc"},
    Unit{"mmH2O", D::kPressure, 0.00980665, 0, "mmh2o mmwc"},
    Unit{"kWh", D::kEnergy, 1, 0, "kwh"},
    Unit{"Wh", D::kEnergy, 1e-3, 0, "wh"},
    Unit{"MJ", D::kEnergy, 1 / 3.6, 0, "mj"},
    Unit{"W", D::kPower, 1, 0, "w watt watts"},
    Unit{"kW", D::kPower, 1000, 0, "kw"},
    Unit{"count", D::kCount, 1, 0, "count ct pcs piece pieces each head"},
    Unit{"dozen", D::kCount, 12, 0, "dozen doz dozens"},
    Unit{"days", D::kDuration, 1, 0, "d day days"},
    Unit{"hours", D::kDuration, 1.0 / 24, 0, "h hr hrs hour hours"},
    Unit{"minutes", D::kDuration, 1.0 / 1440, 0, "min mins minute minutes"},
    Unit{"weeks", D::kDuration, 7, 0, "wk wks week weeks"},
    Unit{"°C·d", D::kDegreeDays, 1, 0, "c.d c·d degree-days degree-day degreedays"},
    Unit{"°F·d", D::kDegreeDays, 5.0 / 9.0, 0, "f.d f·d"},
};

}  // namespace

std::span<const Unit> all_units() {
  return kUnits;
}

const Unit* find_unit(std::string_view spelling) {
  const std::string wanted = folded(spelling);
  if (wanted.empty()) return nullptr;
  for (const Unit& candidate : kUnits) {
    for (const std::string& alias : split(candidate.aliases, ' ')) {
      if (alias == wanted) return &candidate;
    }
  }
  return nullptr;
}

const Unit& unit(std::string_view symbol) {
  const auto found = std::find_if(kUnits.begin(), kUnits.end(), [&](const Unit& candidate) {
    return candidate.symbol == symbol;
  });
  assert(found != kUnits.end());
  return *found;
}

std::vector<std::string_view> units_of(Dimension dimension) {
  std::vector<std::string_view> symbols;
  for (const Unit& candidate : kUnits) {
    if (candidate.dimension == dimension) symbols.push_back(candidate.symbol);
  }
  return symbols;
}

const Unit& usual_unit(Dimension dimension, UnitSystem system) {
  const bool us = system == UnitSystem::kUs;
  switch (dimension) {
    case Dimension::kTemperature:
      return unit(us ? "°F" : "°C");
    case Dimension::kTemperatureDifference:
      return unit("K");
    case Dimension::kMass:
      return unit(us ? "lb" : "kg");
    case Dimension::kVolume:
      return unit(us ? "gal" : "L");
    case Dimension::kArea:
      return unit(us ? "ft2" : "m2");
    case Dimension::kLength:
      return unit(us ? "in" : "cm");
    case Dimension::kFraction:
      return unit("%");
    case Dimension::kAcidity:
      return unit("pH");
    case Dimension::kConductivity:
      return unit("dS/m");
    case Dimension::kPressure:
      return unit(us ? "inH2O" : "mbar");
    case Dimension::kEnergy:
      return unit("kWh");
    case Dimension::kPower:
      return unit("W");
    case Dimension::kCount:
    case Dimension::kNumber:
      return unit("count");
    case Dimension::kDuration:
      return unit("days");
    case Dimension::kDegreeDays:
      return unit(us ? "°F·d" : "°C·d");
  }
  return unit("count");
}

}  // namespace measure
