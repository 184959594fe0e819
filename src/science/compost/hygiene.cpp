#include "science/compost/hygiene.h"

#include <algorithm>
#include <cmath>

namespace science {
namespace {

using measure::Celsius;
using measure::Days;
using measure::Fraction;
using measure::Number;

constexpr Celsius kLeast{50};
constexpr Days kFifteenSeconds{15.0 / 86400};
constexpr Days kTwentyMinutes{20.0 / 1440};
constexpr Days kThirtyMinutes{30.0 / 1440};

Days curve(double numerator, Celsius t) {
  return Days{numerator / std::pow(10.0, 0.1400 * t.value)};
}

}  // namespace

std::optional<Days> time_to_treat(Celsius temperature, HeatRegime regime) {
  if (!std::isfinite(temperature.value) || temperature < kLeast) return std::nullopt;
  const Days solids = curve(131'700'000, temperature);
  switch (regime) {
    case HeatRegime::SolidsFrom7Percent:
      return std::max(solids, kTwentyMinutes);
    case HeatRegime::SmallParticlesFrom7Percent:
      return std::max(solids, kFifteenSeconds);
    case HeatRegime::Under7PercentShort:
      if (solids >= kThirtyMinutes) return std::nullopt;
      return std::max(solids, kFifteenSeconds);
    case HeatRegime::Under7Percent:
      return std::max(curve(50'070'000, temperature), kThirtyMinutes);
  }
  return std::nullopt;
}

std::optional<Number> treatment_fraction(std::span<const HeldAt> held, HeatRegime regime) {
  Number fraction{0};
  for (const HeldAt& h : held) {
    if (!std::isfinite(h.temperature.value) || !std::isfinite(h.time.value) || h.time.value < 0) {
      return std::nullopt;
    }
    const std::optional<Days> whole = time_to_treat(h.temperature, regime);
    if (whole) fraction += Number{Days{h.time.value / 24} / *whole};
  }
  return fraction;
}

}  // namespace science
