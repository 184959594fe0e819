#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "measure/dimension.h"

namespace measure {

enum class UnitSystem { kUs, kMetric };

// One unit: base value = typed value x factor + offset.
struct Unit {
  std::string_view symbol;  // as printed
  Dimension dimension;
  double factor;
  double offset;
  std::string_view aliases;  // folded spellings, separated by spaces

  double to_base(double typed) const { return typed * factor + offset; }
  double from_base(double base) const { return (base - offset) / factor; }
};

std::span<const Unit> all_units();

// The unit of that symbol or alias (spelling folded: "°F", "f" and "F" are one), or none. Where one
// spelling names two units ("oz" the mass, "in" the length) there is one only: "oz" is the mass, and
// the volume is "fl-oz".
const Unit* find_unit(std::string_view spelling);

// The unit of that symbol. The symbol must be one of the table's own.
const Unit& unit(std::string_view symbol);

// Symbols of the units of a dimension, for "takes F or C".
std::vector<std::string_view> units_of(Dimension dimension);

// The unit in which a bare number of that dimension is read: F or C, lb or kg, gal or L, ...
const Unit& usual_unit(Dimension dimension, UnitSystem system);

}  // namespace measure
