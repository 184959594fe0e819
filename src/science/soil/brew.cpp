#include "science/soil/brew.h"

#include <algorithm>

#include "science/gas/temperature_rate.h"
#include "science/numbers/constants.h"

namespace science {
namespace {

using measure::Celsius;
using measure::Days;
using measure::DecisiemensPerMetre;
using measure::Fraction;
using measure::Kilograms;
using measure::Litres;
using measure::Number;

constexpr double kMilligramsPerKilogram = 1e6;

std::optional<TemperatureRate> response_of(const BrewClock& clock) {
  const std::optional<Number> theta = theta_from_q10(clock.q10);
  if (!theta) return std::nullopt;
  return TemperatureRate{.theta = *theta, .reference = clock.reference, .ceiling = clock.ceiling};
}

}  // namespace

std::optional<BrewTime> brew_time(std::span<const std::optional<Celsius>> daily_means,
                                  const BrewClock& clock) {
  const std::optional<TemperatureRate> response = response_of(clock);
  const std::optional<DailyTemperatures> filled = fill_daily_temperatures(daily_means);
  if (!response || !filled) return std::nullopt;

  BrewTime time{.measured_days = filled->measured_days,
                .interpolated_days = filled->interpolated_days,
                .carried_days = filled->carried_days};
  for (const Celsius day : filled->days) {
    const std::optional<Number> rate = relative_rate(day, *response);
    if (!rate) return std::nullopt;
    time.equivalent += Days{rate->value};
  }
  return time;
}

std::optional<Days> brew_days_left(Days wanted, Days so_far, Celsius expected,
                                   const BrewClock& clock) {
  if (so_far >= wanted) return Days{0};
  const std::optional<TemperatureRate> response = response_of(clock);
  if (!response) return std::nullopt;
  const std::optional<Number> rate = relative_rate(expected, *response);
  if (!rate || !(rate->value > 0)) return std::nullopt;
  return (wanted - so_far) / rate->value;
}

std::optional<BrewParts> dilution_to_ec(DecisiemensPerMetre brew, DecisiemensPerMetre wanted,
                                        DecisiemensPerMetre water) {
  if (!(brew.value >= 0 && water.value >= 0 && wanted > water)) return std::nullopt;
  const double parts = (brew - wanted) / (wanted - water);
  return BrewParts{.brew = Number{1}, .water = Number{std::max(parts, 0.0)}};
}

std::optional<BrewParts> dilution_to_nitrogen(MilligramsPerLitre brew, MilligramsPerLitre wanted) {
  if (!(brew.value >= 0 && wanted.value > 0)) return std::nullopt;
  return BrewParts{.brew = Number{1}, .water = Number{std::max(brew / wanted - 1, 0.0)}};
}

std::optional<Fraction> brew_share(const BrewParts& parts) {
  if (!(parts.brew.value > 0 && parts.water.value >= 0)) return std::nullopt;
  return Fraction{parts.brew / (parts.brew + parts.water)};
}

std::optional<BrewPortions> brew_portions(const BrewParts& parts, Litres mixed) {
  const std::optional<Fraction> share = brew_share(parts);
  if (!share || !(mixed.value >= 0)) return std::nullopt;
  const Litres brew = mixed * share->value;
  return BrewPortions{.brew = brew, .water = mixed - brew};
}

std::optional<MilligramsPerLitre> nutrient_concentration(Kilograms nutrient, Litres volume) {
  if (!(nutrient.value >= 0 && volume.value > 0)) return std::nullopt;
  return MilligramsPerLitre{nutrient.value * kMilligramsPerKilogram / volume.value};
}

std::optional<BrewNutrients> split_brew_nutrients(const NutrientMass& in,
                                                  const BrewShares& shares) {
  if (!(is_share(shares.nitrogen_extracted) && is_share(shares.phosphorus_extracted) &&
        is_share(shares.potassium_extracted) && is_share(shares.nitrogen_lost))) {
    return std::nullopt;
  }
  const NutrientMass extracted{.nitrogen = in.nitrogen * shares.nitrogen_extracted.value,
                               .phosphorus = in.phosphorus * shares.phosphorus_extracted.value,
                               .potassium = in.potassium * shares.potassium_extracted.value};
  const Kilograms lost = extracted.nitrogen * shares.nitrogen_lost.value;
  NutrientMass liquid = extracted;
  liquid.nitrogen = extracted.nitrogen - lost;
  return BrewNutrients{.liquid = liquid, .solids = in - extracted, .nitrogen_lost = lost};
}

}  // namespace science
