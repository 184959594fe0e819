#include "science/soil/nutrients.h"

#include <algorithm>
#include <cstddef>

#include "science/numbers/constants.h"

namespace science {
namespace {

using measure::Fraction;
using measure::Kilograms;
using measure::SquareMetres;

constexpr double kPoundsPerKilogram = 1 / 0.45359237;
constexpr double kAcresPerHectare = 10000 / 4046.8564224;
constexpr double kKilogramsPerTonne = 1000;
constexpr double kSquareMetresPerHectare = 10000;
constexpr double kWholeSlack = 1e-9;  // decimal parts that make up a whole may miss it by a bit

std::optional<TonnesPerHectare> rate_for(KilogramsPerHectare need, KilogramsPerTonne content) {
  if (!(content.value > 0)) return std::nullopt;
  return TonnesPerHectare{std::max(need.value, 0.0) / content.value};
}

}  // namespace

NutrientMass operator+(const NutrientMass& a, const NutrientMass& b) {
  return {a.nitrogen + b.nitrogen, a.phosphorus + b.phosphorus, a.potassium + b.potassium};
}

NutrientMass operator-(const NutrientMass& a, const NutrientMass& b) {
  return {a.nitrogen - b.nitrogen, a.phosphorus - b.phosphorus, a.potassium - b.potassium};
}

NutrientContent to_elements(const OxideContent& oxides) {
  return {oxides.nitrogen, oxides.phosphate * kPhosphorusInPhosphate.value,
          oxides.potash * kPotassiumInPotash.value};
}

NutrientMass to_elements(const OxideMass& oxides) {
  return {oxides.nitrogen, oxides.phosphate * kPhosphorusInPhosphate.value,
          oxides.potash * kPotassiumInPotash.value};
}

NutrientMass nutrients_in(Kilograms material, const NutrientContent& content) {
  const double tonnes = material.value / kKilogramsPerTonne;
  return {Kilograms{content.nitrogen.value * tonnes}, Kilograms{content.phosphorus.value * tonnes},
          Kilograms{content.potassium.value * tonnes}};
}

std::optional<NutrientRate> spread_over(const NutrientMass& mass, SquareMetres area) {
  if (!(area.value > 0)) return std::nullopt;
  const double hectares = area.value / kSquareMetresPerHectare;
  return NutrientRate{KilogramsPerHectare{mass.nitrogen.value / hectares},
                      KilogramsPerHectare{mass.phosphorus.value / hectares},
                      KilogramsPerHectare{mass.potassium.value / hectares}};
}

NutrientMass on_area(const NutrientRate& rate, SquareMetres area) {
  const double hectares = area.value / kSquareMetresPerHectare;
  return {Kilograms{rate.nitrogen.value * hectares}, Kilograms{rate.phosphorus.value * hectares},
          Kilograms{rate.potassium.value * hectares}};
}

KilogramsPerHectare to_kilograms_per_hectare(PoundsPerAcre rate) {
  return KilogramsPerHectare{rate.value * kAcresPerHectare / kPoundsPerKilogram};
}

std::optional<AvailableNitrogen> first_year_nitrogen(const ManureNitrogen& manure,
                                                     const FirstYearShares& shares) {
  const KilogramsPerTonne rest = manure.total - (manure.ammonium + manure.nitrate);
  if (!(rest.value >= -kWholeSlack && manure.ammonium.value >= 0 && manure.nitrate.value >= 0)) {
    return std::nullopt;
  }
  if (!(is_share(shares.organic_mineralised) && is_share(shares.ammonium_kept) &&
        is_share(shares.nitrate_kept))) {
    return std::nullopt;
  }
  const KilogramsPerTonne organic = std::max(rest, KilogramsPerTonne{0});
  const KilogramsPerTonne mineralised = organic * shares.organic_mineralised.value;
  return AvailableNitrogen{
      .organic = organic,
      .mineralised = mineralised,
      .available = mineralised + manure.ammonium * shares.ammonium_kept.value +
                   manure.nitrate * shares.nitrate_kept.value,
  };
}

ApplicationRates application_rates(const NutrientRate& need, const NutrientContent& available) {
  return {.by_nitrogen = rate_for(need.nitrogen, available.nitrogen),
          .by_phosphorus = rate_for(need.phosphorus, available.phosphorus),
          .by_potassium = rate_for(need.potassium, available.potassium)};
}

}  // namespace science
