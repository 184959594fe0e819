#pragma once

#include <optional>

#include "measure/scalar.h"
#include "science/numbers/units.h"

// Is the slurry souring, or poisoned by its own ammonia?
namespace science {

// Filtered slurry titrated with 0.1 N (0.05 mol/L) sulfuric acid.
struct Titration {
  Millilitres to_ph_5{};           // acid to bring it to pH 5.0
  Millilitres from_ph_5_to_4_4{};  // further acid to pH 4.4
  Millilitres sample = Millilitres{20};
};

struct TitratedAcids {
  MilligramsPerLitre volatile_acids{};  // FOS, as acetic acid
  MilligramsPerLitre alkalinity{};      // TAC, as calcium carbonate
  measure::Number ratio{};              // FOS/TAC
  bool below_range{};  // so little acid that the formula fell below zero: taken as 0
};

// With both volumes scaled to a sample of 20 mL: TAC = 250 V1, FOS = 500 (1.66 V2 - 0.15).
// Nothing where the first volume or the sample is not above zero, or the second is negative.
// Source: Nordmann 1977, KA 24. The scaling to other samples: common practice.
std::optional<TitratedAcids> fos_tac(const Titration& titration);

// The same ratio from laboratory figures: volatile acids as acetic acid, alkalinity as calcium
// carbonate. It is no exact twin of the titrated one. Nothing where the alkalinity is not above
// zero or the acids are negative.
std::optional<measure::Number> acids_to_alkalinity(MilligramsPerLitre volatile_acids,
                                                   MilligramsPerLitre alkalinity);

struct FreeAmmonia {
  measure::Fraction share{};      // of the total ammonia nitrogen
  MilligramsPerLitre nitrogen{};  // NH3-N, what most limits are given in
  MilligramsPerLitre ammonia{};   // NH3 itself, 1.216 times as much
};

// The part of the total ammonia nitrogen (TAN, NH3-N + NH4-N) that is un-ionised:
//   share = 1/(1 + 10^(pKa - pH)),  pKa = 0.09018 + 2729.92/(273.15 + T)
// For dilute water; in a slurry of 5 % solids it overstates by more than 40 % (Hafner & Bisogni
// 2009, Water Res. 43:4105). Valid from 0 to 60 degC and pH 0 to 14; nothing outside, or where TAN
// is negative. Source: Emerson et al. 1975, J. Fish. Res. Board Can. 32:2379 (0 to 30 degC);
// used to 60 degC in digesters by Hansen et al. 1998, Water Res. 32:5.
std::optional<FreeAmmonia> free_ammonia(MilligramsPerLitre total_ammonia_nitrogen, measure::Ph ph,
                                        measure::Celsius temperature);

}  // namespace science
