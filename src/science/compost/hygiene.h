#pragma once

#include <optional>
#include <span>

#include "measure/scalar.h"
#include "science/numbers/units.h"

// How much heat, for how long, and how much of the organic matter has gone. The time-temperature
// relation is that of 40 CFR 503.32(a)(3) for sewage sludge. For composting, the regulation and the
// organic and produce rules ask for days at a temperature instead: take what is here as a measure
// of how strong a treatment was, never as proof that it meets a standard.
namespace science {

// The four rows of 40 CFR 503.32(a)(3)(ii). All hold from 50 degC on.
enum class HeatRegime {
  SolidsFrom7Percent,          // at least 20 minutes; compost is here
  SmallParticlesFrom7Percent,  // small, warmed by gas or a liquid that does not mix: at least 15 s
  Under7PercentShort,          // liquids held for 15 s to less than 30 minutes
  Under7Percent                // liquids held for at least 30 minutes
};

// How long the material has to be held at this temperature: 131,700,000 / 10^(0.1400 t) days, or
// 50,070,000 / 10^(0.1400 t) for liquids held at least 30 minutes, and never less than the row's
// least time. None below 50 degC, where the relation does not hold, and for Under7PercentShort
// where the time comes to 30 minutes or more.
std::optional<measure::Days> time_to_treat(measure::Celsius temperature, HeatRegime regime);

// A while at one temperature.
struct HeldAt {
  measure::Celsius temperature;
  Hours time;
};

// The share of a whole treatment that these add up to: sum(time / time_to_treat), 1 or more being a
// whole one. What is below 50 degC counts nothing. The adding up over changing temperatures is
// common practice, not the regulation's, which knows one temperature. None where a time is negative
// or a figure is not finite.
std::optional<measure::Number> treatment_fraction(std::span<const HeldAt> held, HeatRegime regime);

}  // namespace science
