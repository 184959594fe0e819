#include "science/mix_program.h"

#include <lpsolve/lp_lib.h>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <memory>
#include <utility>

namespace science {
namespace {

using measure::Kilograms;
using measure::Number;

constexpr double kEndless = 1e30;  // lp_solve's own infinity
constexpr double kKeep = 1e-8;     // how far a later goal may give up an earlier one, relative
constexpr double kNothing = 1e-7;  // of the reference mass: this little is none
constexpr double kALittle = 1e-3;  // of the reference mass
constexpr double kSolverRounding = 1e-9;  // of the reference mass: rounding of the solver
constexpr double kUsedUp = 1 - 1e-6;      // this share of a waste is all of it
constexpr double kNear = 1e-7;            // a relative distance to a preferred value
constexpr int kHalvings = 40;

// ---- The linear programme, in general ----------------------------------------------------------

struct Row {
  std::vector<double> coefficients;
  MixBound bound;
  double limit;
};

struct LinearProgramme {
  std::vector<std::pair<double, double>> ranges;  // of each variable
  std::vector<Row> rows;
};

enum class Solved { Yes, Endless, No };

struct Solution {
  Solved solved;
  double objective;
  std::vector<double> values;
};

double largest(std::span<const double> values) {
  double most = 0;
  for (const double v : values) most = std::max(most, std::abs(v));
  return most;
}

struct DeleteProgramme {
  void operator()(lprec* lp) const { delete_lp(lp); }
};

Solution minimise(const LinearProgramme& programme, std::span<const double> objective) {
  const std::size_t count = programme.ranges.size();
  assert(objective.size() == count);
  const std::unique_ptr<lprec, DeleteProgramme> lp{make_lp(0, static_cast<int>(count))};
  if (!lp) return {Solved::No, 0, {}};
  set_verbose(lp.get(), NEUTRAL);       // prints nothing
  std::vector<double> line(count + 1);  // lp_solve counts variables from 1
  std::ranges::copy(objective, line.begin() + 1);
  set_obj_fn(lp.get(), line.data());
  set_minim(lp.get());
  // The default starts with the dual simplex, which was seen to pass a bound by 1e-7 of the mass.
  set_simplextype(lp.get(), SIMPLEX_PRIMAL_PRIMAL);
  for (const Row& row : programme.rows) {
    std::ranges::copy(row.coefficients, line.begin() + 1);
    add_constraint(lp.get(), line.data(), row.bound == MixBound::AtLeast ? GE : LE, row.limit);
  }
  for (std::size_t n = 0; n < count; ++n) {
    const auto [least, most] = programme.ranges[n];
    set_lowbo(lp.get(), static_cast<int>(n + 1), least);
    set_upbo(lp.get(), static_cast<int>(n + 1), most);
  }
  const int status = solve(lp.get());
  if (status == UNBOUNDED) return {Solved::Endless, 0, {}};
  if (status != OPTIMAL && status != PRESOLVED) return {Solved::No, 0, {}};
  Solution solution{Solved::Yes, get_objective(lp.get()), std::vector<double>(count)};
  get_variables(lp.get(), solution.values.data());
  return solution;
}

// ---- The mix as a linear programme -------------------------------------------------------------

struct Condition {
  MixMeasure measure;
  MixBound bound;
  double limit;
};

// What a kilogram of the material adds to the condition's left side.
double pull(const Ingredient& material, MixMeasure measure, double limit) {
  const double dry = 1 - material.moisture.value;
  switch (measure) {
    case MixMeasure::CToN:
      if (dry == 0) return 0;
      return dry * (material.carbon->value - limit * material.nitrogen->value);
    case MixMeasure::Moisture:
      return material.moisture.value - limit;
    case MixMeasure::BulkDensity:
      return 1 - limit / material.bulk_density->value;
    case MixMeasure::TotalMass:
      return 1;
    case MixMeasure::TotalVolume:
      return 1000 / material.bulk_density->value;
  }
  return 0;
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

template <class Quantity>
void add_conditions(std::vector<Condition>& to, MixMeasure measure,
                    const MixLimits<Quantity>& limits) {
  if (limits.at_least) to.push_back({measure, MixBound::AtLeast, limits.at_least->value});
  if (limits.at_most) to.push_back({measure, MixBound::AtMost, limits.at_most->value});
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
    preferences.push_back({MixMeasure::CToN, MixBound::AtMost, program.preferred_c_to_n->value});
  }
  if (program.preferred_moisture) {
    preferences.push_back(
        {MixMeasure::Moisture, MixBound::AtMost, program.preferred_moisture->value});
  }
  return preferences;
}

// The mass that the programme is about; masses are solved in units of it, so that the solver's
// tolerances mean the same for a bucket and for a windrow.
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

struct Mix {
  std::vector<MixCandidate> candidates;
  double reference;
};

Row row_of(const Mix& mix, const Condition& condition) {
  Row row{{}, condition.bound, is_total(condition.measure) ? condition.limit / mix.reference : 0};
  for (const MixCandidate& c : mix.candidates) {
    row.coefficients.push_back(pull(c.material, condition.measure, condition.limit));
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

Solution any_solution(const LinearProgramme& programme) {
  return minimise(programme, std::vector<double>(programme.ranges.size(), 0.0));
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

// ---- The goals, one after the other ------------------------------------------------------------

class Stages {
 public:
  Stages(const Mix& mix, LinearProgramme programme, std::vector<double> start)
      : mix_(mix), programme_(std::move(programme)), best_(std::move(start)) {}

  const std::vector<double>& best() const { return best_; }

  // Seeks the goal and keeps it for the goals after it. Where the solver fails for want of
  // precision, the solution so far stands, which meets every condition.
  Solved minimise_next(std::vector<double> objective) {
    const double scale = largest(objective);
    if (scale == 0) return Solved::Yes;
    for (double& coefficient : objective) coefficient /= scale;
    Solution solution = minimise(programme_, objective);
    if (solution.solved != Solved::Yes) return solution.solved;
    best_ = std::move(solution.values);
    const double kept = solution.objective + kKeep * std::max(1.0, std::abs(solution.objective));
    programme_.rows.push_back({std::move(objective), MixBound::AtMost, kept});
    return Solved::Yes;
  }

  // Brings the ratios as near to the preferred values as they go, by halving the relative distance
  // allowed: at a given distance the question is linear again.
  void draw_near(std::span<const Condition> preferred) {
    const std::optional<Blend> blend = blend_of_values(mix_, best_);
    if (!blend) return;
    double distance = 0;
    for (const Condition& p : preferred) {
      const std::optional<double> now = measured(*blend, p.measure);
      if (!now) return;
      distance = std::max(distance, std::abs(*now / p.limit - 1));
    }
    double out_of_reach = 0;
    for (int n = 0; n < kHalvings && distance - out_of_reach > kNear; ++n) {
      const double tried = n == 0 ? 0 : (out_of_reach + distance) / 2;
      Solution solution = any_solution(within(preferred, tried));
      if (solution.solved == Solved::Yes) {
        distance = tried;
        best_ = std::move(solution.values);
      } else {
        out_of_reach = tried;
      }
    }
    programme_ = within(preferred, distance + kKeep);
  }

 private:
  LinearProgramme within(std::span<const Condition> preferred, double distance) const {
    LinearProgramme programme = programme_;
    for (const Condition& p : preferred) {
      programme.rows.push_back(
          row_of(mix_, {p.measure, MixBound::AtLeast, p.limit * (1 - distance)}));
      programme.rows.push_back(
          row_of(mix_, {p.measure, MixBound::AtMost, p.limit * (1 + distance)}));
    }
    return programme;
  }

  const Mix& mix_;
  LinearProgramme programme_;
  std::vector<double> best_;
};

std::vector<double> objective_of(const Mix& mix, auto per_candidate) {
  std::vector<double> objective;
  for (const MixCandidate& c : mix.candidates) objective.push_back(per_candidate(c));
  return objective;
}

void seek_the_rest(Stages& stages, const Mix& mix, const MixProgram& program) {
  stages.minimise_next(objective_of(mix, [](const MixCandidate& c) { return c.cost.value; }));
  const std::vector<Condition> preferred = preferences_of(program);
  stages.draw_near(preferred);
  if (preferred.size() > 1) {
    for (const Condition& p : preferred) stages.draw_near({&p, 1});
  }
  stages.minimise_next(std::vector<double>(mix.candidates.size(), 1.0));
  double rank = 0;
  stages.minimise_next(objective_of(mix, [&rank](const MixCandidate&) { return ++rank; }));
}

// ---- What stands in the way, and what would help -----------------------------------------------

std::optional<double> nearest_to_limit(const Mix& mix, std::vector<Condition> conditions,
                                       std::size_t which, const Solution& without) {
  const std::optional<Blend> blend = blend_of_values(mix, without.values);
  const std::optional<double> reached =
      blend ? measured(*blend, conditions[which].measure) : std::nullopt;
  if (!reached) return std::nullopt;
  double out_of_reach = conditions[which].limit;
  double nearest = *reached;
  for (int n = 0; n < kHalvings; ++n) {
    conditions[which].limit = (out_of_reach + nearest) / 2;
    const bool can = any_solution(programme_of(mix, conditions)).solved == Solved::Yes;
    (can ? nearest : out_of_reach) = conditions[which].limit;
  }
  return nearest;
}

MixObstacle obstacle_of(const Condition& c, std::optional<double> nearest) {
  MixObstacle obstacle{c.measure, c.bound, Number{c.limit}, std::nullopt};
  if (nearest) obstacle.nearest = Number{*nearest};
  return obstacle;
}

// The conditions that give way when the sum of what is given way is as small as it can be.
std::vector<MixObstacle> giving_way_together(const Mix& mix,
                                             std::span<const Condition> conditions) {
  LinearProgramme programme = programme_of(mix, conditions);
  const std::size_t materials = mix.candidates.size();
  std::vector<double> objective(materials, 0.0);
  for (std::size_t n = 0; n < conditions.size(); ++n) {
    programme.ranges.emplace_back(0, kEndless);
    objective.push_back(1);
    for (std::size_t r = 0; r < programme.rows.size(); ++r) {
      const double give = programme.rows[r].bound == MixBound::AtLeast ? 1 : -1;
      programme.rows[r].coefficients.push_back(r == n ? give : 0);
    }
  }
  const Solution solution = minimise(programme, objective);
  std::vector<MixObstacle> obstacles;
  if (solution.solved != Solved::Yes) return obstacles;
  for (std::size_t n = 0; n < conditions.size(); ++n) {
    if (solution.values[materials + n] > kSolverRounding) {
      obstacles.push_back(obstacle_of(conditions[n], std::nullopt));
    }
  }
  return obstacles;
}

// A mix with one condition dropped; for a total that has to be reached, the most there can be of
// it.
Solution solution_without(const Mix& mix, const std::vector<Condition>& conditions,
                          std::size_t which) {
  const Condition dropped = conditions[which];
  std::vector<Condition> others = conditions;
  others.erase(others.begin() + static_cast<std::ptrdiff_t>(which));
  std::vector<double> objective(mix.candidates.size(), 0.0);
  if (is_total(dropped.measure) && dropped.bound == MixBound::AtLeast) {
    for (std::size_t n = 0; n < objective.size(); ++n) {
      objective[n] = -pull(mix.candidates[n].material, dropped.measure, dropped.limit);
    }
  }
  return minimise(programme_of(mix, others), objective);
}

void find_obstacles(MixResult& result, const Mix& mix, const std::vector<Condition>& conditions) {
  for (std::size_t n = 0; n < conditions.size(); ++n) {
    const Solution without = solution_without(mix, conditions, n);
    // A mix of nothing is no way out.
    if (without.solved != Solved::Yes || largest(without.values) < kNothing) continue;
    result.obstacles.push_back(
        obstacle_of(conditions[n], nearest_to_limit(mix, conditions, n, without)));
  }
  if (!result.obstacles.empty()) return;
  result.obstacles = giving_way_together(mix, conditions);
  result.together = true;
}

bool is_possible_candidate(const MixCandidate& c) {
  const auto at_least_zero = [](double x) { return std::isfinite(x) && x >= 0; };
  return is_possible(c.material) && at_least_zero(c.at_least.value) &&
         (!c.at_most || (std::isfinite(c.at_most->value) && *c.at_most >= c.at_least)) &&
         at_least_zero(c.use_up.value) && at_least_zero(c.cost.value);
}

void find_remedies(MixResult& result, const Mix& mix, std::span<const Condition> conditions,
                   std::span<const MixCandidate> helpers) {
  for (std::size_t n = 0; n < helpers.size(); ++n) {
    const bool known = std::ranges::all_of(
        conditions, [&](const Condition& c) { return has_figure(helpers[n].material, c.measure); });
    if (!known || !is_possible_candidate(helpers[n])) continue;
    Mix helped = mix;
    helped.candidates.push_back(helpers[n]);
    helped.candidates.back().at_least = Kilograms{0};
    std::vector<double> objective(helped.candidates.size(), 0.0);
    objective.back() = 1;
    const Solution solution = minimise(programme_of(helped, conditions), objective);
    if (solution.solved != Solved::Yes) continue;
    result.remedies.push_back({n, Kilograms{solution.objective * mix.reference}});
  }
  std::ranges::sort(result.remedies, [](const MixRemedy& a, const MixRemedy& b) {
    return a.least != b.least ? a.least < b.least : a.helper < b.helper;
  });
}

// The mix with all that is to be used up put in.
Mix with_all_used_up(Mix mix) {
  for (MixCandidate& c : mix.candidates) {
    if (c.use_up.value > 0 && c.at_most) c.at_least = *c.at_most;
  }
  return mix;
}

// The mix with a little of each waste that has no amount: enough to see what is in its way, since
// the ratios know no amount, but not how much of a helper it takes.
Mix with_a_little_used_up(Mix mix) {
  for (MixCandidate& c : mix.candidates) {
    if (c.use_up.value > 0 && !c.at_most) c.at_least = Kilograms{mix.reference * kALittle};
  }
  return mix;
}

bool holds_something(const Mix& mix) {
  return std::ranges::any_of(mix.candidates,
                             [](const MixCandidate& c) { return c.at_least.value > 0; });
}

// ---- What the programme asks -------------------------------------------------------------------

bool is_possible_limit(const Condition& c) {
  return std::isfinite(c.limit) && c.limit >= 0;
}

bool is_possible_preference(const Condition& c) {
  return std::isfinite(c.limit) && c.limit > 0;
}

std::vector<MissingFigure> missing_figures(const MixProgram& program) {
  std::vector<Condition> needed = conditions_of(program);
  std::ranges::copy(preferences_of(program), std::back_inserter(needed));
  std::vector<MissingFigure> missing;
  for (std::size_t n = 0; n < program.candidates.size(); ++n) {
    for (const Condition& c : needed) {
      if (has_figure(program.candidates[n].material, c.measure)) continue;
      const bool named =
          !missing.empty() && missing.back().candidate == n && missing.back().measure == c.measure;
      if (!named) missing.push_back({n, c.measure});
    }
  }
  return missing;
}

// Whether the empty mix is ruled out.
bool has_to_hold_something(const MixProgram& program) {
  const auto above_zero = [](const auto& limit) { return limit && limit->value > 0; };
  return above_zero(program.total_mass.at_least) || above_zero(program.total_volume.at_least) ||
         std::ranges::any_of(program.candidates,
                             [](const MixCandidate& c) { return c.at_least.value > 0; });
}

bool is_waste(const MixCandidate& c) {
  return c.use_up.value > 0 && (!c.at_most || c.at_most->value > 0);
}

bool uses_some(const Mix& mix, std::span<const double> values) {
  for (std::size_t n = 0; n < values.size(); ++n) {
    if (is_waste(mix.candidates[n]) && values[n] > kNothing) return true;
  }
  return false;
}

bool all_used_up(const Mix& mix, std::span<const double> values) {
  for (std::size_t n = 0; n < values.size(); ++n) {
    const MixCandidate& c = mix.candidates[n];
    if (c.use_up.value <= 0 || !c.at_most) continue;
    if (values[n] * mix.reference < c.at_most->value * kUsedUp) return false;
  }
  return true;
}

}  // namespace

MixCandidate already_in(const Ingredient& material) {
  return {material, material.mass, material.mass, Number{0}, Number{0}};
}

MixCandidate to_be_used_up(const Ingredient& material) {
  return {material, Kilograms{0}, material.mass, Number{1}, Number{0}};
}

MixCandidate at_hand(const Ingredient& material) {
  return {material, Kilograms{0}, material.mass, Number{0}, Number{0}};
}

MixCandidate to_buy(const Ingredient& material, Number cost_per_kilogram) {
  return {material, Kilograms{0}, std::nullopt, Number{0}, cost_per_kilogram};
}

MixResult solve_mix(const MixProgram& program, std::span<const MixCandidate> helpers) {
  MixResult result;
  const std::vector<Condition> conditions = conditions_of(program);
  result.missing = missing_figures(program);
  if (!result.missing.empty() || !std::ranges::all_of(program.candidates, is_possible_candidate) ||
      !std::ranges::all_of(conditions, is_possible_limit) ||
      !std::ranges::all_of(preferences_of(program), is_possible_preference)) {
    result.outcome = MixOutcome::Unusable;
    return result;
  }
  if (!has_to_hold_something(program) && !std::ranges::any_of(program.candidates, is_waste)) {
    result.outcome = MixOutcome::NothingAsked;
    return result;
  }
  const Mix mix{program.candidates, reference_mass(program)};
  const LinearProgramme programme = programme_of(mix, conditions);
  const auto not_possible = [&](const Mix& wanted, std::span<const MixCandidate> with) {
    result.outcome = MixOutcome::Infeasible;
    find_obstacles(result, wanted, conditions);
    find_remedies(result, wanted, conditions, with);
    return result;
  };
  Solution start = any_solution(programme);
  if (start.solved != Solved::Yes) return not_possible(mix, helpers);

  Stages stages{mix, programme, std::move(start.values)};
  const Solved used = stages.minimise_next(
      objective_of(mix, [](const MixCandidate& c) { return -c.use_up.value; }));
  if (used == Solved::Endless) {
    result.outcome = MixOutcome::Boundless;
    return result;
  }
  if (!has_to_hold_something(program) && !uses_some(mix, stages.best())) {
    const Mix full = with_all_used_up(mix);
    if (holds_something(full)) return not_possible(full, helpers);
    return not_possible(with_a_little_used_up(mix), {});
  }

  seek_the_rest(stages, mix, program);
  result.masses = masses_of(mix, stages.best());
  result.blend = blend_of_values(mix, stages.best());
  if (all_used_up(mix, stages.best())) {
    result.outcome = MixOutcome::Found;
    return result;
  }
  result.outcome = MixOutcome::Partly;
  const Mix full = with_all_used_up(mix);
  find_obstacles(result, full, conditions);
  find_remedies(result, full, conditions, helpers);
  return result;
}

}  // namespace science
