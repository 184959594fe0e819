#pragma once

#include <optional>

#include "measure/scalar.h"
#include "science/numbers/units.h"

// What gas a substance can give, and how much gas a metered volume really is.
namespace science {

// Atoms in one molecule, or in one unit of a mean composition (fractions are fine).
struct OrganicFormula {
  measure::Number carbon{};
  measure::Number hydrogen{};
  measure::Number oxygen{};
  measure::Number nitrogen{0};
  measure::Number sulfur{0};
};

// Complete digestion of one mole. Amounts are moles.
struct BuswellYield {
  measure::Number water{};  // taken up; below zero: released
  measure::Number methane{};
  measure::Number carbon_dioxide{};
  measure::Number ammonia{};
  measure::Number hydrogen_sulfide{};
  measure::Number molar_mass{};             // g/mol
  NormalLitresPerKilogram methane_yield{};  // per kilogram of substance
  NormalLitresPerKilogram gas_yield{};      // methane + carbon dioxide
  measure::Fraction methane_share{};        // of methane + carbon dioxide
};

// The theoretical potential: everything degraded, nothing kept for growth. A feed reaches some
// half to nine tenths of it. With n, a, b, c, d atoms of C, H, O, N, S:
//   CH4 = n/2 + a/8 - b/4 - 3c/8 - d/4;  CO2 = n - CH4;  H2O = n - a/4 - b/2 + 3c/4 + d/2
// Nothing where there is no carbon, an atom count is negative, or the balance would need methane or
// carbon dioxide as an input.
// Source: Buswell & Mueller 1952, Ind. Eng. Chem. 44:550; N and S after Boyle 1977. Molar volume
// 22.414 L/mol.
std::optional<BuswellYield> buswell_boyle(const OrganicFormula& formula);

// Pressure of water vapour over water, or below 0 degC over ice. Valid from -20 to 55 degC, both
// included; nothing outside.
// Source: Buck 1981, J. Appl. Meteorol. 20:1527, with the coefficients of 1996.
std::optional<measure::Kilopascals> saturation_vapour_pressure(measure::Celsius temperature);

// Mean air pressure at a height above sea level: what to use where there is no barometer. Weather
// moves the true one by some 2 %. Valid from -500 to 5000 m; nothing outside.
// Source: U.S. Standard Atmosphere 1976, lowest layer.
std::optional<measure::Kilopascals> station_pressure(measure::Metres altitude);

inline constexpr measure::Kilopascals kStandardPressure{101.325};

struct GasState {
  measure::Celsius temperature{};
  // Of the place itself. The pressure in a weather report is brought to sea level: do not use it.
  measure::Kilopascals barometric = kStandardPressure;
  measure::Kilopascals gauge{0};           // above the air outside
  measure::Fraction relative_humidity{1};  // gas that stood over slurry or water is saturated
};

// The metered volume brought to 0 degC, 101.325 kPa, dry:
//   V (p - rh pw(T)) / 101.325 x 273.15 / (273.15 + T),   p = barometric + gauge
// Nothing where the volume is negative, the humidity is outside 0..1, the temperature is outside
// the range of saturation_vapour_pressure, or no pressure is left for the dry gas.
// Source: ideal gas law, as VDI 4630 uses it; Hafner et al. 2015 in two steps.
std::optional<NormalLitres> normal_volume(measure::Litres metered, const GasState& state);

}  // namespace science
