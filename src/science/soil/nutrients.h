#pragma once

#include <optional>
#include <span>

#include "measure/scalar.h"
#include "science/numbers/units.h"

// Nitrogen, phosphorus and potassium: how much there is, how much a crop gets, how much to spread.
// Everything is in the elements; the oxides of fertiliser labels have a type of their own.
namespace science {

struct NutrientMass {
  measure::Kilograms nitrogen{};
  measure::Kilograms phosphorus{};
  measure::Kilograms potassium{};

  friend constexpr bool operator==(const NutrientMass&, const NutrientMass&) = default;
};
NutrientMass operator+(const NutrientMass& a, const NutrientMass& b);
NutrientMass operator-(const NutrientMass& a, const NutrientMass& b);

// In a tonne of the material as it is weighed.
struct NutrientContent {
  KilogramsPerTonne nitrogen{};
  KilogramsPerTonne phosphorus{};
  KilogramsPerTonne potassium{};
};

// On a hectare of bed.
struct NutrientRate {
  KilogramsPerHectare nitrogen{};
  KilogramsPerHectare phosphorus{};
  KilogramsPerHectare potassium{};
};

// As labels and many handbooks print it: "18 lb P2O5" holds 7.9 lb of phosphorus.
struct OxideContent {
  KilogramsPerTonne nitrogen{};
  KilogramsPerTonne phosphate{};  // P2O5
  KilogramsPerTonne potash{};     // K2O
};
struct OxideMass {
  measure::Kilograms nitrogen{};
  measure::Kilograms phosphate{};  // P2O5
  measure::Kilograms potash{};     // K2O
};

// Shares of an oxide that are the element, from the atomic masses (P 30.974, K 39.098, O 15.999).
inline constexpr measure::Fraction kPhosphorusInPhosphate{2 * 30.974 / (2 * 30.974 + 5 * 15.999)};
inline constexpr measure::Fraction kPotassiumInPotash{2 * 39.098 / (2 * 39.098 + 15.999)};

NutrientContent to_elements(const OxideContent& oxides);
NutrientMass to_elements(const OxideMass& oxides);

// What so much of a material holds; also what a harvest takes off, with the crop's removal.
NutrientMass nutrients_in(measure::Kilograms material, const NutrientContent& content);

// The same amount as a rate and as a mass. Nothing where the area is not above zero.
std::optional<NutrientRate> spread_over(const NutrientMass& mass, measure::SquareMetres area);
NutrientMass on_area(const NutrientRate& rate, measure::SquareMetres area);

// 1 kg/ha = 0.89218 lb/acre (acre of 4046.8564224 m2, pound of 0.45359237 kg).
KilogramsPerHectare to_kilograms_per_hectare(PoundsPerAcre rate);

// Nitrogen of a manure, compost or digestate, as a laboratory reports it.
struct ManureNitrogen {
  KilogramsPerTonne total{};
  KilogramsPerTonne ammonium{};  // NH4-N
  KilogramsPerTonne nitrate{};   // NO3-N
};

struct FirstYearShares {
  measure::Fraction organic_mineralised{};
  measure::Fraction ammonium_kept{};  // the rest goes to the air as ammonia
  measure::Fraction nitrate_kept{1};
};

struct AvailableNitrogen {
  KilogramsPerTonne organic{};      // total less ammonium and nitrate
  KilogramsPerTonne mineralised{};  // of the organic
  KilogramsPerTonne available{};    // mineralised, ammonium kept and nitrate kept
};

// What the first crop can take. Nothing where ammonium and nitrate are more than the total, an
// amount is negative or a share is outside 0..1.
std::optional<AvailableNitrogen> first_year_nitrogen(const ManureNitrogen& manure,
                                                     const FirstYearShares& shares);

// How much of a material meets the need, judged by each nutrient alone. Absent where it holds none
// of that nutrient.
struct ApplicationRates {
  std::optional<TonnesPerHectare> by_nitrogen{};
  std::optional<TonnesPerHectare> by_phosphorus{};
  std::optional<TonnesPerHectare> by_potassium{};
};

// `available` holds the nitrogen of first_year_nitrogen, not the total. A nutrient that is not
// needed (zero or less) asks for none of the material.
ApplicationRates application_rates(const NutrientRate& need, const NutrientContent& available);

}  // namespace science
