#pragma once

#include <optional>
#include <span>

#include "measure/scalar.h"
#include "science/numbers/units.h"

// The sun on a small set of panels. Latitudes are in degrees, north positive, -90 to 90; a day of
// the year is 1 to 366. Peak sun hours are hours of 1 kW/m2, which is kWh/m2 by another name.
namespace science {

// Hours from sunrise to sunset (upper limb, with refraction: the sun's centre 0.8333 degrees below
// the horizon). 0 in polar night, 24 in polar day.
// Source: Forsythe, Rykiel, Stahl, Wu & Schoolfield 1995, Ecological Modelling 80:87-95 (CBM).
Hours day_length(double latitude, int day_of_year);

// The sun on a level plane above the air, in hours of 1 kW/m2: no level panel on the ground can
// have more over a day.
// Source: Allen, Pereira, Raes & Smith 1998, FAO Irrigation and Drainage Paper 56, eq. 21 to 25.
Hours level_sun_above_air(double latitude, int day_of_year);

// The sun above the air on a plane that faces it from rise to set: no panel can have more over a
// day, however it is tilted or turned. Source: the solar constant 0.0820 MJ/m2/min and eq. 23 of
// the same, times the length of the day.
Hours facing_sun_above_air(double latitude, int day_of_year);

// Losses one after the other: 1 - (1 - a)(1 - b)... Adding them up would say too much.
measure::Fraction combined_loss(std::span<const measure::Fraction> losses);

// Rated watts x peak sun hours x what the losses leave.
measure::KilowattHours panel_energy(measure::Watts rated, Hours sun, measure::Fraction loss);

// How long a battery carries a use, from full down to the depth to which it may go. None where
// nothing is used.
std::optional<measure::Days> battery_days(measure::KilowattHours battery, measure::Fraction usable,
                                          measure::KilowattHours a_day);

// The battery that carries a use for so many days. `usable` is above 0.
measure::KilowattHours battery_needed(measure::KilowattHours a_day, measure::Days days,
                                      measure::Fraction usable);

}  // namespace science
