#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "measure/scalar.h"
#include "science/compost/blend.h"
#include "science/compost/linear_programme.h"
#include "science/numbers/units.h"

// What to mix, from what is at hand: a linear programme over the as-is masses of the candidates.
// Moisture, C:N and bulk density are ratios, but each limit on them is linear in the masses (for
// moisture at most G: sum(Q (M - G)) <= 0), so that the answer is exact.
namespace science {

// A range whose ends belong to it; an end that is absent is open.
template <class Quantity>
struct MixLimits {
  std::optional<Quantity> at_least{};
  std::optional<Quantity> at_most{};
};

// A material that may go in.
struct MixCandidate {
  Ingredient material;                          // its figures; its mass is not read
  measure::Kilograms at_least{0};               // what has to go in
  std::optional<measure::Kilograms> at_most{};  // none: as much as is wanted
  measure::Number use_up{0};  // a kilogram's worth of using up; above 0 names a waste
  measure::Number cost{0};    // of a kilogram, at least 0: money, labour, or a preference
};

// The usual candidates, from an ingredient with its mass.
MixCandidate already_in(const Ingredient& material);     // all of its mass, no more and no less
MixCandidate to_be_used_up(const Ingredient& material);  // a waste: up to its mass, all if possible
MixCandidate at_hand(const Ingredient& material);        // up to its mass, at no cost
MixCandidate to_buy(const Ingredient& material, measure::Number cost_per_kilogram);  // any amount

// Goals, in this order, each kept while the next is sought:
//  1. use up as much as possible of the wastes (sum of use_up x mass);
//  2. spend as little as possible (sum of cost x mass);
//  3. come as near as possible to the preferred C:N and moisture: the larger of the two relative
//     distances first, then C:N, then moisture;
//  4. move the least mass; and then take from the candidates named first.
struct MixProgram {
  std::vector<MixCandidate> candidates;
  MixLimits<measure::Number> c_to_n;
  MixLimits<measure::Fraction> moisture;
  MixLimits<KilogramsPerCubicMetre> bulk_density;
  MixLimits<measure::Kilograms> total_mass;  // a target has both ends equal, a cap only at_most
  MixLimits<measure::Litres> total_volume;   // of the sum of volumes, see Blend::volume
  std::optional<measure::Number> preferred_c_to_n;
  std::optional<measure::Fraction> preferred_moisture;
};

enum class MixMeasure { CToN, Moisture, BulkDensity, TotalMass, TotalVolume };

// A condition that cannot be kept beside the others.
struct MixObstacle {
  MixMeasure measure;
  Bound bound;
  measure::Number limit;  // a ratio, a fraction, kg/m3, kg or L, as the measure has it
  // The value nearest to the limit that can be had while everything else is kept. None where
  // several conditions have to give together, or a mix without nitrogen has no C:N.
  std::optional<measure::Number> nearest;
};

// One helper that makes the mix possible by itself.
struct MixRemedy {
  std::size_t helper;        // its index in the helpers given
  measure::Kilograms least;  // the least mass that does it
};

// A figure that a condition needs and a candidate lacks.
struct MissingFigure {
  std::size_t candidate;
  MixMeasure measure;
};

enum class MixOutcome {
  Found,         // every condition is met, and all that is to be used up goes in
  Partly,        // every condition is met, but some of what is to be used up is left
  Infeasible,    // the conditions cannot be met together, or only by using up nothing at all
  NothingAsked,  // nothing has to go in and nothing is to be used up: the empty mix would do
  Boundless,     // more and more could be used up: a waste has no amount, the mix no total
  Unusable       // an impossible figure or limit, or one that is missing (see missing)
};

struct MixResult {
  MixOutcome outcome{};
  std::vector<measure::Kilograms> masses;  // one a candidate; empty unless Found or Partly
  std::optional<Blend> blend;              // of those masses
  // Partly and Infeasible: what stands in the way (for Partly, of using up everything). Each of
  // them, given up alone, would do; where `together` is set, all of them have to give.
  std::vector<MixObstacle> obstacles;
  bool together = false;
  // Partly and Infeasible: least mass first. None for a waste that has no amount.
  std::vector<MixRemedy> remedies;
  std::vector<MissingFigure> missing;  // Unusable
};

// Solves the programme. The helpers (water, straw, coffee grounds ...) are only asked for when the
// candidates do not suffice: each alone, up to its at_most; one that lacks a figure is passed over.
// Conditions are met to a relative 1e-6: round amounts away from the limit, not to the nearest.
// Never a negative mass. The same programme has the same answer.
MixResult solve_mix(const MixProgram& program, std::span<const MixCandidate> helpers = {});

// The same without what stands in the way and what would help: for one who only asks whether.
MixResult find_mix(const MixProgram& program);

}  // namespace science
