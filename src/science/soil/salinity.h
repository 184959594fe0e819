#pragma once

#include "measure/scalar.h"

// Salt in what is poured on a bed.
namespace science {

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

}  // namespace science
