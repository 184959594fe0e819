#include "science/compost/linear_programme.h"

#include <lpsolve/lp_lib.h>

#include <algorithm>
#include <cassert>
#include <memory>

namespace science {
namespace {

struct DeleteProgramme {
  void operator()(lprec* lp) const { delete_lp(lp); }
};

}  // namespace

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
    add_constraint(lp.get(), line.data(), row.bound == Bound::AtLeast ? GE : LE, row.limit);
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

Solution any_solution(const LinearProgramme& programme) {
  return minimise(programme, std::vector<double>(programme.ranges.size(), 0.0));
}

}  // namespace science
