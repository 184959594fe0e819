#pragma once

#include <optional>
#include <span>
#include <vector>

#include "measure/scalar.h"
#include "science/numbers/units.h"

// How fast compost burns itself, what slows it, and how warm a pile gets. The equations are those
// of R. T. Haug, The Practical Handbook of Compost Engineering (1993), unless another source is
// named; their constants are from memory. I. G. Mason (2006, Waste Management 26:3-21) compared
// such models: first-order ones with corrections for temperature and moisture did best, and none
// met the usual criteria of accuracy. They show what is plausible; they do not pass or fail a pile.
namespace science {

// ---- What the rate depends on ------------------------------------------------------------------

// Rate against that at 20 degC: 1.066^(T - 20) - 1.21^(T - 60). Greatest (17.93) at 71.6 degC; zero
// from 80.18 degC on. Meant for 5-80 degC; zero at and below 0 degC, where the water is frozen
// (ours).
measure::Number haug_temperature_factor(measure::Celsius temperature);

// 1 / (exp(-17.684 m + 7.0622) + 1) of the moisture m, within 0..1. It speaks of drought only: what
// too much water does is in the free air space.
measure::Fraction haug_moisture_factor(measure::Fraction moisture);

// 1 / (exp(-23.675 FAS + 3.4945) + 1) of the free air space, within 0..1.
measure::Fraction haug_free_air_space_factor(measure::Fraction free_air_space);

// O2 / (O2 + 2 %) of the oxygen in the gaps by volume: 0.209 in open air.
measure::Fraction oxygen_factor(measure::Fraction oxygen);

// Where microbes work: nothing outside least..most, best at `best`, which has to lie in the upper
// half of the range. The defaults are the composting constants in use, from memory.
struct CardinalTemperatures {
  measure::Celsius least{5};
  measure::Celsius best{58.6};
  measure::Celsius most{71.6};
};

// Rate against the best one, by the cardinal temperature model with inflection.
// Source: L. Rosso, J. R. Lobry, J. P. Flandrois (1993), Journal of Theoretical Biology
// 162:447-463.
measure::Fraction cardinal_temperature_factor(measure::Celsius temperature,
                                              const CardinalTemperatures& cardinal = {});

// Rate against the best one: T / 30 up to 30 degC, 1 up to 55 degC, (85 - T) / 30 up to 85 degC.
// Source: D. E. Stombaugh, S. E. Nokes (1996), Transactions of the ASAE 39:239-247.
measure::Fraction stombaugh_nokes_factor(measure::Celsius temperature);

// ---- The pile ----------------------------------------------------------------------------------

enum class PileShape {
  Heap,  // half a ball on the ground
  Box,   // a cube, warm towards the ground
  Drum   // a closed cylinder as long as it is wide
};

// The surface through which a pile of this volume loses heat. Geometry: the rounder, the less.
measure::SquareMetres cooling_surface(measure::Litres volume, PileShape shape);

// Which of the temperature factors drives a pile, and so what its rate is the rate at.
enum class TemperatureResponse {
  Haug,      // the rate at 20 degC (0.00632 a day is Haug's example); slow to start, up to 80 degC
  Cardinal,  // the rate at the best temperature; slowest to start, up to 71.6 degC
  StombaughNokes  // the rate at 30-55 degC; starts from cold as piles do, up to 85 degC
};

// A pile as one well-mixed lump. Defaults are from memory except where said, and are meant to be
// fitted to a site's own piles.
struct PileModel {
  measure::Kilograms mass{};           // above 0; held constant
  measure::Fraction moisture{};        // 0..1; held constant: somebody waters
  measure::SquareMetres surface{};     // at least 0, see cooling_surface
  measure::Fraction degradable{0.40};  // of the dry mass, now: what can still burn, 0..1
  TemperatureResponse response = TemperatureResponse::StombaughNokes;
  // 0..1. The default is what a third of the volatile solids in 12 days comes to, when half of them
  // are degradable (S. Kumar et al. 2010, Waste Management 30:602): -ln(1 - 0.66) / 12.
  PerDay rate{0.09};
  measure::Number megajoules_per_kilogram{20};                       // 0..30
  std::optional<measure::Fraction> free_air_space{};                 // 0..1; none: no hindrance
  std::optional<measure::Fraction> oxygen{measure::Fraction{0.05}};  // in the gaps, 0..0.21; so too
  measure::Number watts_per_square_metre_kelvin{1.5};                // through the surface, 0..20
  measure::Fraction evaporative_share{0.60};  // of the heat that leaves a pile warmer than the
                                              // air, what goes as water vapour: 0..0.95
  measure::Number dry_kilojoules_per_kilogram_kelvin{1.2};  // 0.5..4; water has 4.186
};

// Heat to warm the pile by one kelvin, kJ/K.
measure::Number heat_capacity(const PileModel& pile);

// Daily mean temperatures, one for each daily mean of the air, from the pile's temperature at the
// start of the first day. The balance, with B the degradable matter left:
//   C dT/dt = k B H - U A (T - Tair) / (1 - e),   dB/dt = -k B,
//   k = rate f(T) F(moisture) F(free air space) F(oxygen),
// where e is the evaporative share, and 0 while the pile is colder than the air. Runge-Kutta of
// the fourth order with fixed steps, made shorter than `step` (above 0, at most a day) where the
// pile is quick. Empty where a figure is outside its range, a temperature is not within -60..120
// degC, or the pile would follow the air within seconds.
//
// Not in it: rain, turning, snow, ice, and the slow chemical heat of a dry, large pile. Above
// about 80 degC that heat goes on where this model cools: never read a forecast as safety from
// fire.
std::vector<measure::Celsius> simulate_pile(const PileModel& pile, measure::Celsius start,
                                            std::span<const measure::Celsius> ambient_daily,
                                            measure::Days step = measure::Days{1.0 / 48});

}  // namespace science
