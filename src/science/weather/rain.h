#pragma once

#include "measure/scalar.h"

// Rain on a roof, and what its first millimetres wash off.
namespace science {

// What a roof catches: area x rain x runoff coefficient, exactly a litre a square metre and
// millimetre. The area is the roof's outline on the ground, not the length of its slope. In US
// units the factor is 144/231 = 0.623377 gal a ft2 and inch. Arguments are 0 or more; the
// coefficient is 0 to 1.
// Source: geometry; the unit definitions of NIST Special Publication 811.
measure::Litres roof_catch(measure::SquareMetres roof, measure::Metres rain,
                           measure::Fraction coefficient);

// The depth of rain that fills a first-flush pipe of that volume: volume / (roof x coefficient).
// The roof and the coefficient must be above 0.
measure::Metres flush_depth(measure::Litres flush, measure::SquareMetres roof,
                            measure::Fraction coefficient);

// The share of a roof's dirt that is still to come once so much rain has run off: it halves with
// each millimetre.
// Source: Martinson & Thomas, 12th International Rainwater Catchment Systems Conference, 2005, as
// given in "To Catch the Rain" (LibreTexts), 4.4.
measure::Fraction dirt_left_after(measure::Metres rain);

// The rain to throw away until no more than that share of the dirt is left: log2(1 / share) mm.
// The share must be above 0 and at most 1. Source: as above.
measure::Metres rain_until_dirt_left(measure::Fraction share);

}  // namespace science
