#pragma once

#include <optional>
#include <span>

#include "measure/scalar.h"
#include "science/numbers/units.h"
#include "science/soil/nutrients.h"

// Liquid fertiliser steeped from plants or manure: how far along, how to thin it, what is in it.
namespace science {

// Time in a cold drum counts for less. No published rate law for these brews was found: a doubling
// over ten degrees is a rule of thumb from memory, and so is the ceiling.
struct BrewClock {
  measure::Number q10{2};
  measure::Celsius reference{20};  // where a day counts as one
  measure::Celsius ceiling{35};    // warmer days count no more than this one
};

struct BrewTime {
  measure::Days equivalent{};  // days at the reference that brew as much
  int measured_days{};
  int interpolated_days{};  // on the straight line between the measured days either side
  int carried_days{};       // before the first measured day or after the last: that day's value
};

// The sum of q10^((T - reference)/10) over the days, one entry a day from the day of filling; days
// without a reading are filled in and counted. A day at or below 0 degC counts nothing. No days sum
// to zero. Nothing where days have passed and none was measured, or q10 is not above zero.
std::optional<BrewTime> brew_time(std::span<const std::optional<measure::Celsius>> daily_means,
                                  const BrewClock& clock = {});

// Calendar days until `wanted` days at the reference are full, if it stays at `expected`. 0 where
// they are full; nothing where at that temperature they never will be.
std::optional<measure::Days> brew_days_left(measure::Days wanted, measure::Days so_far,
                                            measure::Celsius expected, const BrewClock& clock = {});

// Parts by volume, both said: "1 to 10" alone is read in two ways.
struct BrewParts {
  measure::Number brew{1};
  measure::Number water{};
};

// Water to one part of brew, so that the mix has the conductivity wanted; conductivity is taken to
// mix by volume, close enough below some 10 dS/m. `water` is the conductivity of the water itself.
// No water where the brew is weak enough. Nothing where the water alone is as salty as the mix
// wanted, or a number is negative.
std::optional<BrewParts> dilution_to_ec(measure::DecisiemensPerMetre brew,
                                        measure::DecisiemensPerMetre wanted,
                                        measure::DecisiemensPerMetre water = {});

// The same to a nitrogen concentration, with water that holds none. Nothing where `wanted` is not
// above zero or the brew's is negative.
std::optional<BrewParts> dilution_to_nitrogen(MilligramsPerLitre brew, MilligramsPerLitre wanted);

// The brew's share of the mix: 1 part to 3 of water is 25 %. Nothing where a part is negative or
// there is no brew.
std::optional<measure::Fraction> brew_share(const BrewParts& parts);

struct BrewPortions {
  measure::Litres brew{};
  measure::Litres water{};
};

// What to pour for a can or a tank of `mixed`. Nothing as in brew_share, or where `mixed` is
// negative.
std::optional<BrewPortions> brew_portions(const BrewParts& parts, measure::Litres mixed);

// A mass of nutrient in a volume, and the volume that carries a mass. Nothing where the divisor is
// not above zero or the other is negative.
std::optional<MilligramsPerLitre> nutrient_concentration(measure::Kilograms nutrient,
                                                         measure::Litres volume);

// What becomes of the nutrients put in. Shares of what went in, except the loss.
struct BrewShares {
  measure::Fraction nitrogen_extracted{};
  measure::Fraction phosphorus_extracted{};
  measure::Fraction potassium_extracted{};
  measure::Fraction nitrogen_lost{};  // of the extracted nitrogen, to the air as ammonia
};

// in = liquid + solids + nitrogen_lost, element by element.
struct BrewNutrients {
  NutrientMass liquid{};
  NutrientMass solids{};  // left in the strained-out plants or dung
  measure::Kilograms nitrogen_lost{};
};

// Nothing where a share is outside 0..1.
std::optional<BrewNutrients> split_brew_nutrients(const NutrientMass& in, const BrewShares& shares);

}  // namespace science
