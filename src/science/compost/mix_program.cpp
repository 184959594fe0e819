#include "science/compost/mix_program.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "science/compost/mix_linear.h"
#include "science/compost/mix_obstacles.h"

namespace science {
namespace {

using measure::Kilograms;
using measure::Number;

constexpr double kKeep = 1e-8;        // how far a later goal may give up an earlier one, relative
constexpr double kALittle = 1e-3;     // of the reference mass
constexpr double kUsedUp = 1 - 1e-6;  // this share of a waste is all of it
constexpr double kNear = 1e-7;        // a relative distance to a preferred value
constexpr int kHalvings = 40;

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
    programme_.rows.push_back({std::move(objective), Bound::AtMost, kept});
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
      programme.rows.push_back(row_of(mix_, {p.measure, Bound::AtLeast, p.limit * (1 - distance)}));
      programme.rows.push_back(row_of(mix_, {p.measure, Bound::AtMost, p.limit * (1 + distance)}));
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

// ---- What the programme asks -------------------------------------------------------------------

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

struct Sought {
  MixResult result;
  std::optional<Mix> wanted;  // what cannot be made, or not in full: to be explained
  bool can_be_helped = true;
};

Sought seek(const MixProgram& program, std::span<const Condition> conditions) {
  Sought sought;
  MixResult& result = sought.result;
  result.missing = missing_figures(program);
  if (!result.missing.empty() || !std::ranges::all_of(program.candidates, is_possible_candidate) ||
      !std::ranges::all_of(conditions, is_possible_limit) ||
      !std::ranges::all_of(preferences_of(program), is_possible_preference)) {
    result.outcome = MixOutcome::Unusable;
    return sought;
  }
  if (!has_to_hold_something(program) && !std::ranges::any_of(program.candidates, is_waste)) {
    result.outcome = MixOutcome::NothingAsked;
    return sought;
  }
  const Mix mix{program.candidates, reference_mass(program)};
  const LinearProgramme programme = programme_of(mix, conditions);
  Solution start = any_solution(programme);
  if (start.solved != Solved::Yes) {
    result.outcome = MixOutcome::Infeasible;
    sought.wanted = mix;
    return sought;
  }
  Stages stages{mix, programme, std::move(start.values)};
  const Solved used = stages.minimise_next(
      objective_of(mix, [](const MixCandidate& c) { return -c.use_up.value; }));
  if (used == Solved::Endless) {
    result.outcome = MixOutcome::Boundless;
    return sought;
  }
  if (!has_to_hold_something(program) && !uses_some(mix, stages.best())) {
    result.outcome = MixOutcome::Infeasible;
    sought.wanted = with_all_used_up(mix);
    sought.can_be_helped = holds_something(*sought.wanted);
    if (!sought.can_be_helped) sought.wanted = with_a_little_used_up(mix);
    return sought;
  }
  seek_the_rest(stages, mix, program);
  result.masses = masses_of(mix, stages.best());
  result.blend = blend_of_values(mix, stages.best());
  if (all_used_up(mix, stages.best())) {
    result.outcome = MixOutcome::Found;
    return sought;
  }
  result.outcome = MixOutcome::Partly;
  sought.wanted = with_all_used_up(mix);
  return sought;
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

MixResult find_mix(const MixProgram& program) {
  return seek(program, conditions_of(program)).result;
}

MixResult solve_mix(const MixProgram& program, std::span<const MixCandidate> helpers) {
  const std::vector<Condition> conditions = conditions_of(program);
  Sought sought = seek(program, conditions);
  if (sought.wanted) {
    find_obstacles(sought.result, *sought.wanted, conditions);
    if (sought.can_be_helped) {
      find_remedies(sought.result, *sought.wanted, conditions, helpers);
    }
  }
  return sought.result;
}

}  // namespace science
