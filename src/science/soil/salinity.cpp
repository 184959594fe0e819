#include "science/soil/salinity.h"

#include <algorithm>

namespace science {

using measure::DecisiemensPerMetre;
using measure::Fraction;
using measure::Kilograms;
using measure::Litres;

SaltRisk salt_risk(DecisiemensPerMetre applied, const SaltBands& bands) {
  if (applied > bands.severe) return SaltRisk::severe;
  if (applied >= bands.slight_to_moderate) return SaltRisk::slight_to_moderate;
  return SaltRisk::none;
}

}  // namespace science
