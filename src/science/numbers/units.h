#pragma once

#include "measure/scalar.h"

// Compound units that the formulas of this folder speak in, with the same protection as the plain
// units of measure/scalar.h.
namespace science {

// Gas brought to 0 degC and 101.325 kPa, dry. A type of its own, so that what a meter showed cannot
// be passed where the standard volume is meant. Some texts call 20 degC "normal": not here.
using NormalLitres = measure::Scalar<struct NormalLitresTag>;
using NormalLitresPerKilogram = measure::Scalar<struct NormalLitresPerKilogramTag>;  // = m3/t

using MilligramsPerLitre = measure::Scalar<struct MilligramsPerLitreTag>;
using KilogramsPerCubicMetre = measure::Scalar<struct KilogramsPerCubicMetreTag>;  // = g/L
using KilogramsPerTonne = measure::Scalar<struct KilogramsPerTonneTag>;            // = g/kg

using KilogramsPerHectare = measure::Scalar<struct KilogramsPerHectareTag>;
using TonnesPerHectare = measure::Scalar<struct TonnesPerHectareTag>;  // metric tonnes
using PoundsPerAcre = measure::Scalar<struct PoundsPerAcreTag>;

using Hours = measure::Scalar<struct HoursTag>;
using LitresPerHour = measure::Scalar<struct LitresPerHourTag>;
using Millilitres = measure::Scalar<struct MillilitresTag>;
using PerDay = measure::Scalar<struct PerDayTag>;  // a first-order rate constant
using KilogramsPerCubicMetreDay = measure::Scalar<struct KilogramsPerCubicMetreDayTag>;

}  // namespace science
