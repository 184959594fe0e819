#pragma once

#include "measure/scalar.h"

// What several formulas share.
namespace science {

// g/mol: IUPAC's abridged standard atomic weights of 2021, to three decimals at most.
inline constexpr double kHydrogen = 1.008;
inline constexpr double kCarbon = 12.011;
inline constexpr double kNitrogen = 14.007;
inline constexpr double kOxygen = 15.999;
inline constexpr double kSulfur = 32.06;

// L/mol of an ideal gas at 0 degC and 101.325 kPa (CODATA: 22.41396954).
inline constexpr double kMolarVolume = 22.414;

inline constexpr double kLitresPerCubicMetre = 1000;

inline bool is_share(measure::Fraction f) {
  return f.value >= 0 && f.value <= 1;
}

}  // namespace science
