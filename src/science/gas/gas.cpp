#include "science/gas/gas.h"

#include <cmath>

#include "science/numbers/constants.h"

namespace science {
namespace {

using measure::Celsius;
using measure::Fraction;
using measure::Kilopascals;
using measure::Litres;
using measure::Metres;
using measure::Number;

constexpr double kZeroCelsius = 273.15;  // K

}  // namespace

std::optional<BuswellYield> buswell_boyle(const OrganicFormula& formula) {
  const double n = formula.carbon.value;
  const double a = formula.hydrogen.value;
  const double b = formula.oxygen.value;
  const double c = formula.nitrogen.value;
  const double d = formula.sulfur.value;
  if (!(n > 0 && a >= 0 && b >= 0 && c >= 0 && d >= 0)) return std::nullopt;

  const double methane = n / 2 + a / 8 - b / 4 - 3 * c / 8 - d / 4;
  const double carbon_dioxide = n / 2 - a / 8 + b / 4 + 3 * c / 8 + d / 4;
  if (!(methane >= 0 && carbon_dioxide >= 0)) return std::nullopt;

  const double molar_mass = n * kCarbon + a * kHydrogen + b * kOxygen + c * kNitrogen + d * kSulfur;
  const double litres_per_mole_per_kg = kMolarVolume * 1000 / molar_mass;
  return BuswellYield{
      .water = Number{n - a / 4 - b / 2 + 3 * c / 4 + d / 2},
      .methane = Number{methane},
      .carbon_dioxide = Number{carbon_dioxide},
      .ammonia = Number{c},
      .hydrogen_sulfide = Number{d},
      .molar_mass = Number{molar_mass},
      .methane_yield = NormalLitresPerKilogram{methane * litres_per_mole_per_kg},
      .gas_yield = NormalLitresPerKilogram{(methane + carbon_dioxide) * litres_per_mole_per_kg},
      .methane_share = Fraction{methane / (methane + carbon_dioxide)},
  };
}

std::optional<Kilopascals> saturation_vapour_pressure(Celsius temperature) {
  const double t = temperature.value;
  if (!(t >= -20 && t <= 55)) return std::nullopt;
  if (t < 0) return Kilopascals{0.61115 * std::exp((23.036 - t / 333.7) * (t / (279.82 + t)))};
  return Kilopascals{0.61121 * std::exp((18.678 - t / 234.5) * (t / (257.14 + t)))};
}

std::optional<Kilopascals> station_pressure(Metres altitude) {
  constexpr double kEarthRadius = 6356766;    // m
  constexpr double kSeaLevelKelvin = 288.15;  // K
  constexpr double kLapse = 0.0065;           // K/m
  constexpr double kExponent = 5.25588;       // g M / (R lapse)
  const double z = altitude.value;
  if (!(z >= -500 && z <= 5000)) return std::nullopt;
  const double geopotential = kEarthRadius * z / (kEarthRadius + z);
  return kStandardPressure * std::pow(1 - kLapse * geopotential / kSeaLevelKelvin, kExponent);
}

std::optional<NormalLitres> normal_volume(Litres metered, const GasState& state) {
  const std::optional<Kilopascals> saturated = saturation_vapour_pressure(state.temperature);
  const double humidity = state.relative_humidity.value;
  if (!saturated || !(metered.value >= 0) || !(humidity >= 0 && humidity <= 1)) return std::nullopt;

  const Kilopascals dry = state.barometric + state.gauge - *saturated * humidity;
  if (!(dry.value > 0)) return std::nullopt;
  const double kelvin = kZeroCelsius + state.temperature.value;
  return NormalLitres{metered.value * (dry / kStandardPressure) * kZeroCelsius / kelvin};
}

}  // namespace science
