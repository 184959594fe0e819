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
// its C:N (two averages taken apart) can, and a mix of such rows is still worth its C:N; see
// is_plausible_carbon.
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

// The as-is mass of `added` (its own mass is not read) that brings the base to a moisture within
// 0..1. Zero where the base is there already. None where no amount does it: that is said, never
// turned into zero. Q2 = Q1 (G - M1) / (M2 - G), and for more base materials the sum of them.
// Source: Cornell Waste Management Institute (1996), Moisture and Carbon/Nitrogen Ratio
// Calculation.
std::optional<measure::Kilograms> mass_for_moisture(std::span<const Ingredient> base,
                                                    const Ingredient& added,
                                                    measure::Fraction goal);

// The same for a C:N above 0; none also where a carbon or nitrogen figure is missing.
// Q2 = Q1 (1 - M1) (R N1 - C1) / ((1 - M2) (C2 - R N2)). Source: BC Agricultural Composting
// Handbook, 2nd ed. (1998), Appendix A2; Cornell Waste Management Institute (1996).
std::optional<measure::Kilograms> mass_for_c_to_n(std::span<const Ingredient> base,
                                                  const Ingredient& added, measure::Number goal);

// The water that brings the base up to a moisture: Q (G - M) / (1 - G). None where the base is
// wetter than the goal, or the goal is 1.
std::optional<measure::Kilograms> water_to_add(std::span<const Ingredient> base,
                                               measure::Fraction goal);

// The solution of the two equations, with its signs: a negative mass says that this material would
// have to be taken out of the mix, so that these two materials cannot meet both goals. (A wet
// material cannot lower the moisture, nor one rich in nitrogen raise the C:N.)
struct TwoMasses {
  measure::Kilograms second;
  measure::Kilograms third;
  bool feasible() const { return second.value >= 0 && third.value >= 0; }
};

// How much of two materials (their own masses are not read) brings the base to a moisture and a C:N
// at once. None where the equations have no single solution or a figure is missing.
// Source: Cornell Waste Management Institute (1996), simultaneous solution of moisture and C:N.
std::optional<TwoMasses> masses_for_both(std::span<const Ingredient> base, const Ingredient& second,
                                         const Ingredient& third, measure::Fraction moisture_goal,
                                         measure::Number c_to_n_goal);

// Moisture of a sample weighed before and after drying (24 h at 105-110 degC), without its
// container: (wet - dry) / wet. None unless 0 <= dry <= wet and wet > 0. Source: Cornell (1996).
std::optional<measure::Fraction> moisture_from_drying(measure::Kilograms wet,
                                                      measure::Kilograms dry);

// A content given of the FRESH mass, as garden tables do, brought to the dry mass that Ingredient
// wants: content / (1 - moisture). None at moisture 1 and outside 0..1.
std::optional<measure::Fraction> dry_basis(measure::Fraction of_fresh_mass,
                                           measure::Fraction moisture);

// Carbon of the dry mass from nitrogen and C:N: N x C:N. Source: Cornell (1996).
measure::Fraction carbon_from_c_to_n(measure::Fraction nitrogen, measure::Number c_to_n);

// Carbon of the dry mass from ash (of the dry mass, within 0..1): (1 - ash) / 1.8, which takes
// carbon as 55 % of the volatile solids (it ranges over 45-60 %). Source: Cornell, T. Richard
// (1996).
measure::Fraction carbon_from_ash(measure::Fraction ash);

// Whether carbon of the dry mass is at most 60 %, above which volatile solids would exceed the
// whole. A pair of handbook averages that fails this (sawdust, telephone books) is usable, but to
// be marked.
bool is_plausible_carbon(measure::Fraction carbon);

}  // namespace science
