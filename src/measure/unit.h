#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "measure/dimension.h"

namespace measure {

enum class UnitSystem { kUs, kMetric };

// One unit: base value = (typed value - zero) x factor. In this order whole degrees stay whole, so
// that a limit of 131 °F and a reading of 55 °C meet to the last bit.
struct Unit {
  std::string_view symbol;  // as printed
  Dimension dimension;
  double factor;
  double zero;               // where its scale stands when the base unit's is at 0: 32 for °F
  std::string_view aliases;  // folded spellings, separated by spaces

  double to_base(double typed) const { return (typed - zero) * factor; }
  double from_base(double base) const { return base / factor + zero; }
};

std::span<const Unit> all_units();

// The unit of that symbol or alias (spelling folded: "°F", "f" and "F" are one), or none. Where one
// spelling names two units ("oz" the mass, "in" the length) there is one only: "oz" is the mass,
// and the volume is "fl-oz".
const Unit* find_unit(std::string_view spelling);

// The unit of that symbol. The symbol must be one of the table's own.
const Unit& unit(std::string_view symbol);

// Symbols of the units of a dimension, for "takes F or C".
std::vector<std::string_view> units_of(Dimension dimension);

// The unit in which a bare number of that dimension is read: F or C, lb or kg, gal or L, ...
const Unit& usual_unit(Dimension dimension, UnitSystem system);

}  // namespace measure
