#pragma once

#include <optional>

#include "measure/scalar.h"

// Salt in what is poured on a bed, and what it costs the crop.
namespace science {

// Dissolved salts estimated from conductivity at 25 degC: 640 mg/L for each dS/m. Good up to some
// 5 dS/m, low above. Nothing where a number is negative.
// Source: Ayers & Westcot 1985, FAO Irrigation and Drainage Paper 29 (from memory).
std::optional<measure::Kilograms> dissolved_salts(measure::DecisiemensPerMetre conductivity,
                                                  measure::Litres volume);

enum class SaltRisk { none, slight_to_moderate, severe };

// The conductivities at which each risk begins; FAO 29, table 1, gives 0.7 and 3.0 dS/m for
// irrigation water used all season (from memory).
struct SaltBands {
  measure::DecisiemensPerMetre slight_to_moderate{};
  measure::DecisiemensPerMetre severe{};  // not below the other
};

// A limit itself still belongs to the lower risk at neither end: at `slight_to_moderate` the risk
// is slight to moderate; it is severe only above `severe`.
SaltRisk salt_risk(measure::DecisiemensPerMetre applied, const SaltBands& bands);

// How a crop bears salt: no loss up to the threshold, then a straight line.
struct SaltTolerance {
  measure::DecisiemensPerMetre threshold{};  // of the saturated soil extract
  measure::Fraction loss_per_step{};         // of the yield, for each dS/m above it
};

// Yield left, 1 to 0: 1 - loss (ECe - threshold). ECe is of the saturated soil extract, not of the
// water poured. Nothing where a number is negative.
// Source: Maas & Hoffman 1977, J. Irrig. Drain. Div. 103:115.
std::optional<measure::Fraction> relative_yield(measure::DecisiemensPerMetre soil_extract,
                                                const SaltTolerance& crop);

}  // namespace science
