#include "science/compost/mix_linear.h"

#include <algorithm>
#include <cmath>

namespace science {
namespace {

using measure::Kilograms;

template <class Quantity>
void add_conditions(std::vector<Condition>& to, MixMeasure measure,
                    const MixLimits<Quantity>& limits) {
  if (limits.at_least) to.push_back({measure, Bound::AtLeast, limits.at_least->value});
  if (limits.at_most) to.push_back({measure, Bound::AtMost, limits.at_most->value});
}

}  // namespace

double largest(std::span<const double> values) {
  double most = 0;
  for (const double v : values) most = std::max(most, std::abs(v));
  return most;
}

Parts parts_of(const Ingredient& material, MixMeasure measure) {
  const double dry = 1 - material.moisture.value;
  switch (measure) {
    case MixMeasure::CToN:
      if (dry == 0) return {0, 0};
      return {dry * material.carbon->value, dry * material.nitrogen->value};
    case MixMeasure::Moisture:
      return {material.moisture.value, 1};
    case MixMeasure::BulkDensity:
      return {1, 1 / material.bulk_density->value};
    case MixMeasure::TotalMass:
      return {1, 0};
    case MixMeasure::TotalVolume:
      return {1000 / material.bulk_density->value, 0};
  }
  return {0, 0};
}

bool is_total(MixMeasure measure) {
  return measure == MixMeasure::TotalMass || measure == MixMeasure::TotalVolume;
}

bool has_figure(const Ingredient& material, MixMeasure measure) {
  switch (measure) {
    case MixMeasure::CToN:
      return material.moisture.value == 1 || (material.carbon && material.nitrogen);
    case MixMeasure::BulkDensity:
    case MixMeasure::TotalVolume:
      return material.bulk_density.has_value();
    case MixMeasure::Moisture:
    case MixMeasure::TotalMass:
      return true;
  }
  return true;
}

bool is_possible_candidate(const MixCandidate& c) {
  const auto at_least_zero = [](double x) { return std::isfinite(x) && x >= 0; };
  return is_possible(c.material) && at_least_zero(c.at_least.value) &&
         (!c.at_most || (std::isfinite(c.at_most->value) && *c.at_most >= c.at_least)) &&
         at_least_zero(c.use_up.value) && at_least_zero(c.cost.value);
}

std::vector<Condition> conditions_of(const MixProgram& program) {
  std::vector<Condition> conditions;
  add_conditions(conditions, MixMeasure::CToN, program.c_to_n);
  add_conditions(conditions, MixMeasure::Moisture, program.moisture);
  add_conditions(conditions, MixMeasure::BulkDensity, program.bulk_density);
  add_conditions(conditions, MixMeasure::TotalMass, program.total_mass);
  add_conditions(conditions, MixMeasure::TotalVolume, program.total_volume);
  return conditions;
}

std::vector<Condition> preferences_of(const MixProgram& program) {
  std::vector<Condition> preferences;
  if (program.preferred_c_to_n) {
    preferences.push_back({MixMeasure::CToN, Bound::AtMost, program.preferred_c_to_n->value});
  }
  if (program.preferred_moisture) {
    preferences.push_back({MixMeasure::Moisture, Bound::AtMost, program.preferred_moisture->value});
  }
  return preferences;
}

double reference_mass(const MixProgram& program) {
  double reference = 0;
  for (const MixCandidate& c : program.candidates) {
    reference += c.at_least.value;
    if (c.use_up.value > 0 && c.at_most) reference += c.at_most->value;
  }
  if (reference > 0) return reference;
  if (program.total_mass.at_least && program.total_mass.at_least->value > 0) {
    return program.total_mass.at_least->value;
  }
  if (program.total_mass.at_most && program.total_mass.at_most->value > 0) {
    return program.total_mass.at_most->value;
  }
  return 1;
}

Row row_of(const Mix& mix, const Condition& condition) {
  Row row{{}, condition.bound, is_total(condition.measure) ? condition.limit / mix.reference : 0};
  for (const MixCandidate& c : mix.candidates) {
    const Parts parts = parts_of(c.material, condition.measure);
    row.coefficients.push_back(parts.over - condition.limit * parts.under);
  }
  const double scale = largest(row.coefficients);
  if (scale > 0) {
    for (double& coefficient : row.coefficients) coefficient /= scale;
    row.limit /= scale;
  }
  return row;
}

LinearProgramme programme_of(const Mix& mix, std::span<const Condition> conditions) {
  LinearProgramme programme;
  for (const MixCandidate& c : mix.candidates) {
    programme.ranges.emplace_back(c.at_least.value / mix.reference,
                                  c.at_most ? c.at_most->value / mix.reference : kEndless);
  }
  for (const Condition& c : conditions) programme.rows.push_back(row_of(mix, c));
  return programme;
}

std::vector<Kilograms> masses_of(const Mix& mix, std::span<const double> values) {
  std::vector<Kilograms> masses;
  for (const double v : values) {
    masses.emplace_back(std::abs(v) < kNothing ? 0.0 : v * mix.reference);
  }
  return masses;
}

std::optional<Blend> blend_of_values(const Mix& mix, std::span<const double> values) {
  const std::vector<Kilograms> masses = masses_of(mix, values);
  std::vector<Ingredient> ingredients;
  for (std::size_t n = 0; n < masses.size(); ++n) {
    ingredients.push_back(mix.candidates[n].material);
    ingredients.back().mass = masses[n];
  }
  return blend_of(ingredients);
}

std::optional<double> measured(const Blend& blend, MixMeasure measure) {
  const auto value = [](const auto& figure) -> std::optional<double> {
    if (!figure) return std::nullopt;
    return figure->value;
  };
  switch (measure) {
    case MixMeasure::CToN:
      return value(blend.c_to_n);
    case MixMeasure::Moisture:
      return blend.moisture.value;
    case MixMeasure::BulkDensity:
      return value(blend.bulk_density);
    case MixMeasure::TotalMass:
      return blend.mass.value;
    case MixMeasure::TotalVolume:
      return value(blend.volume);
  }
  return std::nullopt;
}

}  // namespace science
