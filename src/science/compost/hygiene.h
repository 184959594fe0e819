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

// The reduction of volatile solids from their shares of the dry mass before and after, if no ash is
// lost or gained: (in - out) / (in - in x out). Negative where the share rose: a sampling error, or
// material added. None unless 0 < in <= 1 and 0 <= out < 1. Source: P. Van Kleeck, in EPA's
// Environmental Regulations and Technology: Control of Pathogens and Vector Attraction in Sewage
// Sludge, from memory.
std::optional<measure::Fraction> volatile_solids_reduction(measure::Fraction volatile_in,
                                                           measure::Fraction volatile_out);

// The same from ash, as composting papers have it: 1 - a1 (1 - a2) / (a2 (1 - a1)). None unless
// 0 <= ash_in < 1 and 0 < ash_out <= 1.
std::optional<measure::Fraction> organic_matter_loss(measure::Fraction ash_in,
                                                     measure::Fraction ash_out);

}  // namespace science
