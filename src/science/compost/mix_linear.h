#pragma once

#include <optional>
#include <span>
#include <vector>

#include "science/compost/linear_programme.h"
#include "science/compost/mix_program.h"

// A mix as a linear programme: what mix_program and mix_obstacles share. Masses are solved in units
// of a reference mass, so that the solver's tolerances mean the same for a bucket and a windrow.
namespace science {

inline constexpr double kNothing = 1e-7;  // of the reference mass: this little is none

struct Condition {
  MixMeasure measure;
  Bound bound;
  double limit;
};

struct Mix {
  std::vector<MixCandidate> candidates;
  double reference;  // kg
};

// The condition's bounds, as the programme states them, and the preferred values.
std::vector<Condition> conditions_of(const MixProgram& program);
std::vector<Condition> preferences_of(const MixProgram& program);

// Whether the material's figures tell what the measure needs.
bool has_figure(const Ingredient& material, MixMeasure measure);

// Whether the candidate's figures and ranges are finite and in order.
bool is_possible_candidate(const MixCandidate& candidate);

bool is_total(MixMeasure measure);

// The mass that the programme is about, in kg: of what has to go in and of the wastes, or the total
// asked for; 1 where it names none.
double reference_mass(const MixProgram& program);

// What a kilogram of the material adds to a measure, which is the sum of the one over the sum of
// the other; a total has nothing under it.
struct Parts {
  double over;
  double under;
};
Parts parts_of(const Ingredient& material, MixMeasure measure);

// The condition as a row over the candidates, scaled to a largest coefficient of 1.
Row row_of(const Mix& mix, const Condition& condition);
LinearProgramme programme_of(const Mix& mix, std::span<const Condition> conditions);

// The largest of the magnitudes; 0 of none.
double largest(std::span<const double> values);

// What a solution's values say, in kg, and the blend of those masses.
std::vector<measure::Kilograms> masses_of(const Mix& mix, std::span<const double> values);
std::optional<Blend> blend_of_values(const Mix& mix, std::span<const double> values);
std::optional<double> measured(const Blend& blend, MixMeasure measure);

}  // namespace science
