#pragma once

#include <optional>
#include <string_view>

#include "measure/scalar.h"

namespace measure {

// What a number measures. Each dimension has one base unit, in which values are stored and
// computed: the SI unit, or a unit accepted beside it where a grower would not recognise the SI one
// (degree Celsius, litre, dS/m, kWh, day).
enum class Dimension {
  kTemperature,            // degC
  kTemperatureDifference,  // K
  kMass,                   // kg
  kVolume,                 // L
  kArea,                   // m2
  kLength,                 // m
  kFraction,               // 1 (shown as %)
  kAcidity,                // pH
  kConductivity,           // dS/m
  kPressure,               // kPa
  kEnergy,                 // kWh
  kPower,                  // W
  kCount,                  // 1
  kDuration,               // d
  kDegreeDays,             // degC d
  kNumber,                 // 1: a ratio or a rate whose unit stands in its name
};

// The stable word by which a dimension is stored: "temperature", "mass", ...
std::string_view key(Dimension dimension);
std::optional<Dimension> find_dimension(std::string_view key);

// The base unit as printed in JSON and CSV: "degC", "kg", "L", ...
std::string_view base_unit(Dimension dimension);

// "a temperature", "a mass": for sentences about a unit that does not fit.
std::string_view described(Dimension dimension);

// A number in its dimension's base unit.
struct Value {
  Dimension dimension{Dimension::kNumber};
  double si{};

  friend constexpr bool operator==(const Value&, const Value&) = default;
};

// The dimension that a scalar type belongs to.
template <class T>
inline constexpr Dimension kDimensionOf = Dimension::kNumber;
template <>
inline constexpr Dimension kDimensionOf<Celsius> = Dimension::kTemperature;
template <>
inline constexpr Dimension kDimensionOf<Kelvins> = Dimension::kTemperatureDifference;
template <>
inline constexpr Dimension kDimensionOf<Kilograms> = Dimension::kMass;
template <>
inline constexpr Dimension kDimensionOf<Litres> = Dimension::kVolume;
template <>
inline constexpr Dimension kDimensionOf<SquareMetres> = Dimension::kArea;
template <>
inline constexpr Dimension kDimensionOf<Metres> = Dimension::kLength;
template <>
inline constexpr Dimension kDimensionOf<Fraction> = Dimension::kFraction;
template <>
inline constexpr Dimension kDimensionOf<Ph> = Dimension::kAcidity;
template <>
inline constexpr Dimension kDimensionOf<DecisiemensPerMetre> = Dimension::kConductivity;
template <>
inline constexpr Dimension kDimensionOf<Kilopascals> = Dimension::kPressure;
template <>
inline constexpr Dimension kDimensionOf<KilowattHours> = Dimension::kEnergy;
template <>
inline constexpr Dimension kDimensionOf<Watts> = Dimension::kPower;
template <>
inline constexpr Dimension kDimensionOf<Days> = Dimension::kDuration;
template <>
inline constexpr Dimension kDimensionOf<DegreeDays> = Dimension::kDegreeDays;

// A typed scalar as a Value.
template <class T>
constexpr Value value_of(T scalar) {
  return Value{kDimensionOf<T>, scalar.value};
}

}  // namespace measure
