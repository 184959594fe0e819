#pragma once

#include "measure/scalar.h"
#include "science/numbers/units.h"

// Greenhouse gases of waste, after the IPCC 2006 Guidelines, volume 5. Amounts in kg; estimates.
namespace science {

struct WarmingPotentials {
  measure::Number methane, nitrous_oxide;  // kg of CO2 a kg, over 100 years
};

// What wet material lets into the air while it composts or digests: factors in g a kg of it.
struct WasteFactors {
  KilogramsPerTonne methane, nitrous_oxide;
};

// Chapter 4, tier 1: mass x factor x warming, in kg of CO2 equivalent. The carbon dioxide itself is
// of this year's growth and is not counted.
measure::Kilograms treatment_emissions(measure::Kilograms wet, const WasteFactors& factors,
                                       const WarmingPotentials& warming);

// Chapter 3. DOC: degradable organic carbon of the wet waste; of it DOCf ever decomposes; F is the
// methane in the gas by volume; MCF the site's correction factor.
struct Landfill {
  measure::Fraction degradable_carbon, decomposes, methane_in_gas;
  measure::Number correction{1};
  measure::Fraction oxidised;  // in the cover, of what is not caught
  measure::Fraction escapes;   // of the methane made, what is not caught
};

// L0 = DOC x DOCf x F x 16/12 x MCF: methane that a kg of wet waste ever makes.
measure::Fraction landfill_methane(const Landfill& landfill);

// The same for a mass, as what reaches the air: m L0 x escapes x (1 - oxidised) x warming.
measure::Kilograms landfill_emissions(measure::Kilograms wet, const Landfill& landfill,
                                      const WarmingPotentials& warming);

// Carbon dioxide of burnt propane, C3H8, from the atomic masses (C 12.011, H 1.008, O 15.999).
inline constexpr double kCarbonDioxideOfPropane =
    3 * (12.011 + 2 * 15.999) / (3 * 12.011 + 8 * 1.008);

}  // namespace science
