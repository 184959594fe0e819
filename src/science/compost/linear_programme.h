#pragma once

#include <span>
#include <utility>
#include <vector>

// A linear programme in real numbers, solved by lp_solve.
namespace science {

inline constexpr double kEndless = 1e30;  // no upper end of a range: lp_solve's own infinity

enum class Bound { AtLeast, AtMost };

struct Row {
  std::vector<double> coefficients;  // one a variable
  Bound bound;
  double limit;
};

struct LinearProgramme {
  std::vector<std::pair<double, double>> ranges;  // of each variable: from, to
  std::vector<Row> rows;
};

enum class Solved {
  Yes,
  Endless,  // the objective falls without end
  No        // the rows cannot be met together, or not to the solver's precision
};

struct Solution {
  Solved solved;
  double objective;            // 0 unless solved
  std::vector<double> values;  // one a variable; empty unless solved
};

// The variables that make the sum of objective x variable least. The objective has one number a
// variable. The same programme has the same solution.
Solution minimise(const LinearProgramme& programme, std::span<const double> objective);

// Some solution of the rows, whichever it is.
Solution any_solution(const LinearProgramme& programme);

}  // namespace science
