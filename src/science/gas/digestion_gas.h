#pragma once

#include <optional>
#include <span>
#include <vector>

#include "measure/scalar.h"
#include "science/gas/temperature_rate.h"
#include "science/numbers/units.h"

// How much methane a feed gives, and when.
namespace science {

// First-order release: the share of a feed's potential that is out after `time`, or at the steady
// state of a digester. `rate` is that at the slurry's temperature. Nothing where an argument is
// negative or there are no tanks.
// Batch 1 - e^(-kt); n stirred tanks in a row 1 - (1 + k RT/n)^(-n), one tank k RT/(1 + k RT).
std::optional<measure::Fraction> first_order_batch(PerDay rate, measure::Days time);
std::optional<measure::Fraction> first_order_tanks(PerDay rate, measure::Days retention, int tanks);

// One feeding.
struct FeedEvent {
  measure::Days at{};  // since the start of the first day of the temperatures; 0.33 is 8 o'clock
  measure::Kilograms volatile_solids{};
  NormalLitresPerKilogram potential{};  // B0, methane per kilogram of volatile solids
  PerDay rate{};                        // k at `rate_at`
  measure::Celsius rate_at{35};
};

struct FirstOrderDigester {
  // Change of k per degree. 1.06, like the usual range of 1.035 to 1.10, is from memory.
  measure::Number theta{1.06};
  // Mesophilic digestion has its best below it (GTZ 1989, table 5.4: maximum 35 to 45 degC).
  measure::Celsius ceiling{40};
  // Give it for a stirred, overflowing digester: what leaves takes its unreleased part along.
  // Absent: all feed stays, as in a batch or in a long unstirred plant.
  std::optional<measure::Days> retention{};
};

// Methane of each day, one entry for each temperature: the sum over the feedings of what each
// releases on that day. A feeding releases at k theta^(T - rate_at), with each day's own T, from
// its moment on; one after the last day counts for nothing yet. Nothing where a feeding is before
// the first day (its temperatures are unknown), a number is negative, or theta or the retention is
// not above zero. It foresees no souring, no poisoning and no loss.
std::optional<std::vector<NormalLitres>> daily_methane(
    std::span<const FeedEvent> feedings, std::span<const measure::Celsius> daily_temperatures,
    const FirstOrderDigester& digester = {});

enum class Manure { cattle, swine };

// The kinetic parameter of Chen & Hashimoto for manure fed at `volatile_solids` (kg VS a m3):
// cattle 0.8 + 0.0016 e^(0.06 S0), swine 0.6 + 0.0206 e^(0.051 S0). Hashimoto's regressions of
// 1982 and 1984, from memory; another form in use, e^(0.051 S0), gives quite other values.
// Nothing where the feed has no solids.
std::optional<measure::Number> chen_hashimoto_k(Manure manure,
                                                KilogramsPerCubicMetre volatile_solids);

struct ChenHashimotoYield {
  NormalLitresPerKilogram methane_yield{};  // per kilogram of volatile solids fed
  measure::Number volume_rate{};            // m3 of methane a m3 of digester a day
  bool washed_out{};  // retention too short for the microbes to keep up: no gas
};

// Steady state of one stirred digester:
//   B = B0 (1 - K / (RT mu - 1 + K)),  mu = 0.013 T - 0.129 a day,  washed out at RT <= 1/mu.
// Valid from 20 to 60 degC, both included; nothing outside, or where a number is not above zero.
// An unstirred household plant gives less, far less when cool and short of retention.
// Source: Chen & Hashimoto 1978, Biotechnol. Bioeng. Symp. 8:269; mu(T): Hashimoto et al. 1981
// (that attribution from memory).
std::optional<ChenHashimotoYield> chen_hashimoto(NormalLitresPerKilogram potential,
                                                 KilogramsPerCubicMetre volatile_solids,
                                                 measure::Number k, measure::Days retention,
                                                 measure::Celsius temperature);

}  // namespace science
