#include "science/gas/greenhouse.h"

#include <doctest/doctest.h>

using measure::Fraction;
using measure::Kilograms;
using measure::Number;
using science::KilogramsPerTonne;

namespace {

// Warming potentials over 100 years as each assessment report of the IPCC prints them (open data
// set globalwarmingpotentials.csv, CC0: AR5 CH4 28, N2O 265; AR6 27.9 and 273).
const science::WarmingPotentials kAr5{Number{28}, Number{265}};
const science::WarmingPotentials kAr6{Number{27.9}, Number{273}};

// IPCC 2006 Guidelines vol. 5 table 4.1, wet weight: N2O 0.24 as corrected, 0.3 in the first
// printing. The central CH4 of 4 g/kg is from memory.
const science::WasteFactors kCorrected{KilogramsPerTonne{4}, KilogramsPerTonne{0.24}};
const science::WasteFactors kFirstPrinting{KilogramsPerTonne{4}, KilogramsPerTonne{0.3}};

// IPCC 2006 vol. 5 ch. 3, managed landfill: DOC of food 0.15, of garden waste 0.20, DOCf 0.5, F
// 0.5, MCF 1, OX 0.1 under a cover; nothing caught. From memory.
science::Landfill landfill(double degradable) {
  return {Fraction{degradable}, Fraction{0.5}, Fraction{0.5}, Number{1},
          Fraction{0.1},        Fraction{1}};
}

}  // namespace

// A tonne composted: 4 kg CH4 and 0.24 kg N2O. Worked by hand from the two tables:
// 4 x 28 + 0.24 x 265 = 175.6; 4 x 27.9 + 0.24 x 273 = 177.12; with 0.3: 191.5 and 193.5.
TEST_CASE("composting a tonne, IPCC 2006 tier 1") {
  const Kilograms tonne{1000};
  const auto co2e = [&](const auto& factors, const auto& warming) {
    return science::treatment_emissions(tonne, factors, warming).value;
  };
  CHECK(co2e(kCorrected, kAr5) == doctest::Approx(175.6));
  CHECK(co2e(kCorrected, kAr6) == doctest::Approx(177.12));
  CHECK(co2e(kFirstPrinting, kAr5) == doctest::Approx(191.5));
  CHECK(co2e(kFirstPrinting, kAr6) == doctest::Approx(193.5));
}

// L0 = DOC x DOCf x F x 16/12 x MCF (IPCC 2006 vol. 5 equation 3.3): food 0.15 x 0.5 x 0.5 x 16/12
// = 0.05 kg CH4 a kg; garden 0.0666667. A tonne of food, nothing caught, a tenth oxidised: 50 x 0.9
// x 27.9 = 1255.5 kg CO2e.
TEST_CASE("methane of a landfill, IPCC 2006") {
  CHECK(science::landfill_methane(landfill(0.15)).value == doctest::Approx(0.05));
  CHECK(science::landfill_methane(landfill(0.20)).value ==
        doctest::Approx(0.0666667).epsilon(1e-6));
  CHECK(science::landfill_emissions(Kilograms{1000}, landfill(0.15), kAr6).value ==
        doctest::Approx(1255.5));
}

// 500 kg of wet food scraps composted and not landfilled: 627.75 - 88.56 = 539.19 kg CO2e; where
// 61 % of a landfill's methane is not caught (US EPA 2023, EPA-600-R-23-064): 294.3675.
TEST_CASE("food scraps composted, not landfilled") {
  const Kilograms scraps{500};
  const Kilograms composted = science::treatment_emissions(scraps, kCorrected, kAr6);
  CHECK(composted.value == doctest::Approx(88.56));
  CHECK((science::landfill_emissions(scraps, landfill(0.15), kAr6) - composted).value ==
        doctest::Approx(539.19));
  science::Landfill caught = landfill(0.15);
  caught.escapes = Fraction{0.61};
  CHECK((science::landfill_emissions(scraps, caught, kAr6) - composted).value ==
        doctest::Approx(294.3675));
}

// Propane C3H8: IPCC 2006 vol. 2 gives LPG 63.1 t CO2 a TJ at 47.3 GJ a tonne, 2.985 kg a kg, for a
// mixture with butane (from memory); pure propane is within half a per cent of it.
TEST_CASE("carbon dioxide of bottled gas") {
  CHECK(science::kCarbonDioxideOfPropane == doctest::Approx(63.1 * 47.3 / 1000).epsilon(0.005));
}
