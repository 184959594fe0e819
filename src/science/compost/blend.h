#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "measure/scalar.h"
#include "science/numbers/units.h"

// What a mix of compost ingredients is: its moisture, carbon to nitrogen ratio, volume and
// nutrients; and how much of one or two ingredients brings it to a goal. Everything is worked out
// from as-is masses: a mean of ratios weighted by mass is wrong wherever moisture or nitrogen
// differ.
namespace science {

// One material of a mix, as it lies in the barrow.
struct Ingredient {
  measure::Kilograms mass;                             // as it is, with its water
  measure::Fraction moisture;                          // water, of the as-is mass
  std::optional<measure::Fraction> carbon;             // this and the next three: of the DRY mass
  std::optional<measure::Fraction> nitrogen;           //
  std::optional<measure::Fraction> phosphorus;         // the element P, not P2O5
  std::optional<measure::Fraction> potassium;          // the element K, not K2O
  std::optional<KilogramsPerCubicMetre> bulk_density;  // as it is
};

// Water to pour on: moisture 1, no solids, 1000 kg/m3.
Ingredient water_ingredient(measure::Kilograms mass);

// Whether the figures can be true of a material: mass at least 0, moisture within 0..1, contents
// within 0..1, bulk density above 0, all finite. Carbon may exceed 1, because a handbook's %N times
// its C:N (two averages taken apart) can, and a mix of such rows is still worth its C:N.
bool is_possible(const Ingredient& ingredient);

// One element in a blend.
struct ElementContent {
  measure::Kilograms mass;
  measure::Fraction share;  // of the dry mass of the ingredients that were counted
};

// Indices of the ingredients that lack a figure, and so are not in the blend's value of that name.
// An ingredient without solids (water) lacks nothing but a bulk density.
struct BlendGaps {
  std::vector<std::size_t> c_to_n;  // lacks carbon or nitrogen
  std::vector<std::size_t> carbon;
  std::vector<std::size_t> nitrogen;
  std::vector<std::size_t> phosphorus;
  std::vector<std::size_t> potassium;
  std::vector<std::size_t> volume;  // lacks a bulk density
};

// A mix. Each optional value counts only the ingredients that have the figure (the others are named
// in left_out), and is absent where none has it or the value is not defined.
struct Blend {
  measure::Kilograms mass;
  measure::Kilograms dry_mass;
  measure::Fraction moisture;             // of the as-is mass
  std::optional<measure::Number> c_to_n;  // absent also where there is no nitrogen
  std::optional<ElementContent> carbon;
  std::optional<ElementContent> nitrogen;
  std::optional<ElementContent> phosphorus;
  std::optional<ElementContent> potassium;
  // The sum of the ingredients' own volumes. An upper estimate: fine and wet materials settle into
  // the gaps of coarse ones, so that the real volume is less and the real bulk density more.
  std::optional<measure::Litres> volume;
  std::optional<KilogramsPerCubicMetre> bulk_density;
  BlendGaps left_out;
};

// The blend of these ingredients; none where the total mass is not above 0 or an ingredient is not
// possible. Moisture = sum(Q M) / sum(Q); C:N = sum(Q C (1 - M)) / sum(Q N (1 - M)).
// Source: BC Agricultural Composting Handbook, 2nd ed. (1998), Appendix A3.
std::optional<Blend> blend_of(std::span<const Ingredient> ingredients);

}  // namespace science
