#include "science/compost/mix_obstacles.h"

#include <algorithm>
#include <utility>

namespace science {
namespace {

using measure::Kilograms;
using measure::Number;

constexpr double kSolverRounding = 1e-9;  // of the reference mass: rounding of the solver

std::vector<Condition> without(std::vector<Condition> conditions, std::size_t which) {
  conditions.erase(conditions.begin() + static_cast<std::ptrdiff_t>(which));
  return conditions;
}

// A programme over x as one over y = t x, with t as its last variable: a ratio of two sums in x is
// then one sum in y where the sum under it is held at 1 (A. Charnes and W. W. Cooper, "Programming
// with linear fractional functionals", 1962).
LinearProgramme with_scale(const LinearProgramme& programme) {
  const std::size_t scale = programme.ranges.size();
  LinearProgramme scaled;
  scaled.ranges.assign(scale + 1, {0, kEndless});
  for (const Row& row : programme.rows) {
    scaled.rows.push_back({row.coefficients, row.bound, 0});
    scaled.rows.back().coefficients.push_back(-row.limit);
  }
  const auto add_end = [&](std::size_t variable, Bound bound, double end) {
    Row row{std::vector<double>(scale + 1, 0.0), bound, 0};
    row.coefficients[variable] = 1;
    row.coefficients[scale] = -end;
    scaled.rows.push_back(std::move(row));
  };
  for (std::size_t n = 0; n < scale; ++n) {
    const auto [least, most] = programme.ranges[n];
    if (least > 0) add_end(n, Bound::AtLeast, least);
    if (most < kEndless) add_end(n, Bound::AtMost, most);
  }
  return scaled;
}

// The value of the condition's measure that comes nearest to its limit while the others are kept.
// None where no mix has one.
std::optional<double> nearest_to_limit(const Mix& mix, const std::vector<Condition>& conditions,
                                       std::size_t which) {
  const Condition& sought = conditions[which];
  LinearProgramme programme = programme_of(mix, without(conditions, which));
  const double sign = sought.bound == Bound::AtMost ? 1 : -1;
  std::vector<double> objective;
  std::vector<double> under;
  for (const MixCandidate& c : mix.candidates) {
    const Parts parts = parts_of(c.material, sought.measure);
    objective.push_back(sign * parts.over);
    under.push_back(parts.under);
  }
  if (!is_total(sought.measure)) {
    programme = with_scale(programme);
    objective.push_back(0);
    under.push_back(0);
    programme.rows.push_back({under, Bound::AtLeast, 1});
    programme.rows.push_back({under, Bound::AtMost, 1});
  }
  const Solution solution = minimise(programme, objective);
  if (solution.solved != Solved::Yes) return std::nullopt;
  return sign * solution.objective * (is_total(sought.measure) ? mix.reference : 1);
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
      const double give = programme.rows[r].bound == Bound::AtLeast ? 1 : -1;
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
  std::vector<double> objective(mix.candidates.size(), 0.0);
  if (is_total(dropped.measure) && dropped.bound == Bound::AtLeast) {
    for (std::size_t n = 0; n < objective.size(); ++n) {
      objective[n] = -parts_of(mix.candidates[n].material, dropped.measure).over;
    }
  }
  return minimise(programme_of(mix, without(conditions, which)), objective);
}

}  // namespace

void find_obstacles(MixResult& result, const Mix& mix, const std::vector<Condition>& conditions) {
  for (std::size_t n = 0; n < conditions.size(); ++n) {
    const Solution free = solution_without(mix, conditions, n);
    // A mix of nothing is no way out.
    if (free.solved != Solved::Yes || largest(free.values) < kNothing) continue;
    result.obstacles.push_back(obstacle_of(conditions[n], nearest_to_limit(mix, conditions, n)));
  }
  if (!result.obstacles.empty()) return;
  result.obstacles = giving_way_together(mix, conditions);
  result.together = true;
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

}  // namespace science
