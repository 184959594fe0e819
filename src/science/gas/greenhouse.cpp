#include "science/gas/greenhouse.h"

namespace science {

using measure::Kilograms;

Kilograms treatment_emissions(Kilograms wet, const WasteFactors& factors,
                              const WarmingPotentials& warming) {
  const double per_tonne = factors.methane.value * warming.methane.value +
                           factors.nitrous_oxide.value * warming.nitrous_oxide.value;
  return wet * (per_tonne / 1000);
}

measure::Fraction landfill_methane(const Landfill& landfill) {
  constexpr double kMethaneOfCarbon = 16.0 / 12;
  return measure::Fraction{landfill.degradable_carbon.value * landfill.decomposes.value *
                           landfill.methane_in_gas.value * kMethaneOfCarbon *
                           landfill.correction.value};
}

Kilograms landfill_emissions(Kilograms wet, const Landfill& landfill,
                             const WarmingPotentials& warming) {
  return wet * (landfill_methane(landfill).value * landfill.escapes.value *
                (1 - landfill.oxidised.value) * warming.methane.value);
}

}  // namespace science
