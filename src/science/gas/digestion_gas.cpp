#include "science/gas/digestion_gas.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace science {
namespace {

using measure::Celsius;
using measure::Days;
using measure::Fraction;
using measure::Number;

bool is_possible(const FeedEvent& feeding) {
  return feeding.at.value >= 0 && feeding.volatile_solids.value >= 0 &&
         feeding.potential.value >= 0 && feeding.rate.value >= 0;
}

}  // namespace

std::optional<Fraction> first_order_batch(PerDay rate, Days time) {
  if (!(rate.value >= 0 && time.value >= 0)) return std::nullopt;
  return Fraction{-std::expm1(-rate.value * time.value)};
}

std::optional<Fraction> first_order_tanks(PerDay rate, Days retention, int tanks) {
  if (!(rate.value >= 0 && retention.value >= 0 && tanks >= 1)) return std::nullopt;
  return Fraction{1 - std::pow(1 + rate.value * retention.value / tanks, -tanks)};
}

std::optional<std::vector<NormalLitres>> daily_methane(std::span<const FeedEvent> feedings,
                                                       std::span<const Celsius> daily_temperatures,
                                                       const FirstOrderDigester& digester) {
  if (!(digester.theta.value > 0)) return std::nullopt;
  if (digester.retention && !(digester.retention->value > 0)) return std::nullopt;
  const double leaving = digester.retention ? 1 / digester.retention->value : 0;

  std::vector<NormalLitres> methane(daily_temperatures.size());
  for (const FeedEvent& feeding : feedings) {
    if (!is_possible(feeding)) return std::nullopt;
    const TemperatureRate response{
        .theta = digester.theta, .reference = feeding.rate_at, .ceiling = digester.ceiling};
    double unreleased = feeding.volatile_solids.value * feeding.potential.value;
    for (std::size_t day = 0; day < daily_temperatures.size(); ++day) {
      const double day_start = static_cast<double>(day);
      const double day_share = std::clamp(day_start + 1 - feeding.at.value, 0.0, 1.0);
      if (day_share == 0) continue;
      const std::optional<Number> relative = relative_rate(daily_temperatures[day], response);
      if (!relative) return std::nullopt;
      const double released = feeding.rate.value * relative->value * day_share;
      const double gone = released + leaving * day_share;
      if (!(gone > 0)) continue;
      // Release and overflow draw on the same stock and share what goes by their rates.
      const double spent = unreleased * -std::expm1(-gone);
      methane[day] += NormalLitres{spent * released / gone};
      unreleased -= spent;
    }
  }
  return methane;
}

std::optional<Number> chen_hashimoto_k(Manure manure, KilogramsPerCubicMetre volatile_solids) {
  const double s0 = volatile_solids.value;
  if (!(s0 > 0)) return std::nullopt;
  switch (manure) {
    case Manure::cattle:
      return Number{0.8 + 0.0016 * std::exp(0.06 * s0)};
    case Manure::swine:
      return Number{0.6 + 0.0206 * std::exp(0.051 * s0)};
  }
  return std::nullopt;
}

std::optional<ChenHashimotoYield> chen_hashimoto(NormalLitresPerKilogram potential,
                                                 KilogramsPerCubicMetre volatile_solids, Number k,
                                                 Days retention, Celsius temperature) {
  const double t = temperature.value;
  if (!(t >= 20 && t <= 60)) return std::nullopt;
  if (!(potential.value > 0 && volatile_solids.value > 0 && k.value > 0 && retention.value > 0)) {
    return std::nullopt;
  }
  const double growth = 0.013 * t - 0.129;  // 1/d
  const double surplus = retention.value * growth - 1;
  if (surplus <= 0) return ChenHashimotoYield{.washed_out = true};

  const NormalLitresPerKilogram yield = potential * (1 - k.value / (surplus + k.value));
  const double normal_litres_a_day = yield.value * volatile_solids.value / retention.value;
  return ChenHashimotoYield{
      .methane_yield = yield,
      .volume_rate = Number{normal_litres_a_day / 1000},
      .washed_out = false,
  };
}

}  // namespace science
