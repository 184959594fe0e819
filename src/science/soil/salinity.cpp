#include "science/soil/salinity.h"

#include <algorithm>

namespace science {

using measure::DecisiemensPerMetre;
using measure::Fraction;
using measure::Kilograms;
using measure::Litres;

std::optional<Kilograms> dissolved_salts(DecisiemensPerMetre conductivity, Litres volume) {
  constexpr double kKilogramsPerLitre = 640e-6;
  if (!(conductivity.value >= 0 && volume.value >= 0)) return std::nullopt;
  return Kilograms{conductivity.value * kKilogramsPerLitre * volume.value};
}

SaltRisk salt_risk(DecisiemensPerMetre applied, const SaltBands& bands) {
  if (applied > bands.severe) return SaltRisk::severe;
  if (applied >= bands.slight_to_moderate) return SaltRisk::slight_to_moderate;
  return SaltRisk::none;
}

std::optional<Fraction> relative_yield(DecisiemensPerMetre soil_extract,
                                       const SaltTolerance& crop) {
  if (!(soil_extract.value >= 0 && crop.threshold.value >= 0 && crop.loss_per_step.value >= 0)) {
    return std::nullopt;
  }
  const double above = std::max((soil_extract - crop.threshold).value, 0.0);
  return Fraction{std::max(1 - crop.loss_per_step.value * above, 0.0)};
}

}  // namespace science
