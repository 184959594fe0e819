#pragma once

#include <optional>
#include <span>

#include "measure/scalar.h"
#include "science/compost/blend.h"
#include "science/numbers/units.h"

// What is fed to a digester: how thick, how rich, how much for its size. A day's feed is given as
// an amount over a number of days, so that one feeding and a week's mean are asked alike.
namespace science {

// Solids left in a slurry after water is added, by mass. Nothing where an amount is negative, both
// are zero, or the share is outside 0..1. Equal masses of cattle dung at 16 % and water give 8 %.
std::optional<measure::Fraction> diluted_solids(measure::Fraction total_solids,
                                                measure::Kilograms feed, measure::Kilograms water);

// Water that thins a feed to the solids wanted. Nothing where the feed is thinner already, or
// `wanted` is not above zero.
std::optional<measure::Kilograms> water_to_dilute(measure::Kilograms feed,
                                                  measure::Fraction total_solids,
                                                  measure::Fraction wanted);

// One thing that goes into the slurry. Water is {water_ingredient(mass)}.
struct SlurryPart {
  Ingredient material{};
  measure::Fraction volatile_solids{};  // of the total solids
};

struct SlurryMix {
  measure::Kilograms mass{};
  measure::Kilograms total_solids{};
  measure::Kilograms volatile_solids{};
  measure::Fraction total_solids_share{};  // of the mass
  // Absent where a part with solids lacks its carbon or nitrogen, or there is no nitrogen.
  std::optional<measure::Number> c_to_n{};
};

// The mix by mass balance: its C:N is all the carbon over all the nitrogen. (Averaging the parts'
// C:N by fresh weight, as some handbooks do, gives wet dung with a little straw too low a figure.)
// Nothing where the parts weigh nothing, or a mass or share is impossible.
std::optional<SlurryMix> mix_slurry(std::span<const SlurryPart> parts);

// Volatile solids fed to each cubic metre of slurry space a day. Nothing where `over` or the volume
// is not above zero, or the feed is negative.
std::optional<KilogramsPerCubicMetreDay> loading_rate(measure::Kilograms volatile_solids,
                                                      measure::Days over,
                                                      measure::Litres working_volume);

// How long feed stays: working volume over daily slurry (feed and water). Nothing where an amount
// is not above zero; with nothing fed it stays for ever. Source of this and the next two: Sasse
// 1988, Biogas Plants (GATE/GTZ), 4.2: RT = VD/Sd.
std::optional<measure::Days> retention_time(measure::Litres working_volume, measure::Litres slurry,
                                            measure::Days over);

// The slurry space that keeps this feed for `retention`. Gas space comes on top.
std::optional<measure::Litres> working_volume_for(measure::Litres slurry, measure::Days over,
                                                  measure::Days retention);

// The slurry that may be fed in `over` so that it stays for `retention`.
std::optional<measure::Litres> slurry_for(measure::Litres working_volume, measure::Days retention,
                                          measure::Days over);

// Gas per kilogram of what was fed, fresh or volatile solids as given. Nothing where the feed is
// not above zero or the gas is negative.
std::optional<NormalLitresPerKilogram> specific_gas(NormalLitres gas, measure::Kilograms fed);

// False for biogas per kilogram of volatile solids above what pure fat (triolein) could give, 1443
// L/kg: then the feed, the meter or a solids figure is wrong. Only for means over at least one
// retention time: gas of one day comes from the feed of many.
bool gas_yield_is_possible(NormalLitresPerKilogram gas_per_volatile_solids);

}  // namespace science
