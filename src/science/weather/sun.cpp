#include "science/weather/sun.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace science {

using measure::Days;
using measure::Fraction;
using measure::KilowattHours;
using measure::Watts;

namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kSolarConstant = 0.0820;  // MJ/m2/min, FAO-56
constexpr double kMegajoulesPerKilowattHour = 3.6;
constexpr double kSunsetDegrees = 0.8333;

double radians(double degrees) {
  return degrees * kPi / 180;
}

// FAO-56 eq. 23: the inverse relative distance of earth and sun.
double nearness(int day_of_year) {
  return 1 + 0.033 * std::cos(2 * kPi / 365 * day_of_year);
}

}  // namespace

Hours day_length(double latitude, int day_of_year) {
  const double theta =
      0.2163108 + 2 * std::atan(0.9671396 * std::tan(0.00860 * (day_of_year - 186)));
  const double declination = std::asin(0.39795 * std::cos(theta));
  const double lat = radians(latitude);
  const double across = std::cos(lat) * std::cos(declination);
  const double along = std::sin(radians(kSunsetDegrees)) + std::sin(lat) * std::sin(declination);
  const double cosine = across > 0 ? std::clamp(along / across, -1.0, 1.0) : (along > 0 ? 1 : -1);
  return Hours{24 - 24 / kPi * std::acos(cosine)};
}

Hours level_sun_above_air(double latitude, int day_of_year) {
  const double lat = radians(latitude);
  const double declination = 0.409 * std::sin(2 * kPi / 365 * day_of_year - 1.39);
  const double cosine = std::clamp(-std::tan(lat) * std::tan(declination), -1.0, 1.0);
  const double sunset = std::acos(cosine);
  const double megajoules = 24 * 60 / kPi * kSolarConstant * nearness(day_of_year) *
                            (sunset * std::sin(lat) * std::sin(declination) +
                             std::cos(lat) * std::cos(declination) * std::sin(sunset));
  return Hours{std::max(megajoules, 0.0) / kMegajoulesPerKilowattHour};
}

Hours facing_sun_above_air(double latitude, int day_of_year) {
  constexpr double kKilowatts = kSolarConstant * 60 / kMegajoulesPerKilowattHour;
  return day_length(latitude, day_of_year) * (kKilowatts * nearness(day_of_year));
}

Fraction combined_loss(std::span<const Fraction> losses) {
  double left = 1;
  for (const Fraction loss : losses) left *= 1 - loss.value;
  return Fraction{1 - left};
}

KilowattHours panel_energy(Watts rated, Hours sun, Fraction loss) {
  return KilowattHours{rated.value / 1000 * sun.value * (1 - loss.value)};
}

std::optional<Days> battery_days(KilowattHours battery, Fraction usable, KilowattHours a_day) {
  if (a_day <= KilowattHours{0}) return std::nullopt;
  return Days{battery * usable.value / a_day};
}

KilowattHours battery_needed(KilowattHours a_day, Days days, Fraction usable) {
  assert(usable.value > 0);
  return a_day * (days.value / usable.value);
}

}  // namespace science
