#include "science/numbers/statistics.h"

#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/non_central_t.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cassert>
#include <cmath>

// The only file that includes Boost.Math: it compiles slowly.
namespace science {
namespace {

// In doubles: the checks ask for no more, and tables in long double would be set up at each start
// of the program (and not at all under a checker that reckons long double as double).
using InDoubles = boost::math::policies::policy<boost::math::policies::promote_double<false>>;
using StudentsT = boost::math::students_t_distribution<double, InDoubles>;
using NonCentralT = boost::math::non_central_t_distribution<double, InDoubles>;
using FisherF = boost::math::fisher_f_distribution<double, InDoubles>;

constexpr double kTail = 0.025;  // of the 5 % level, each side
constexpr int kMostPlots = 10000;

Difference difference(double mean, double error, double degrees) {
  Difference made{mean, error, degrees, mean / error, 0, 0, 0};
  const StudentsT student(degrees);
  made.p = 2 * boost::math::cdf(boost::math::complement(student, std::fabs(made.t)));
  const double half = student_quantile(1 - kTail, degrees) * error;
  made.low = mean - half;
  made.high = mean + half;
  return made;
}

// The smallest n from 2 on for which `enough` holds; it holds for all above the first.
template <class Enough>
std::optional<int> least_n(Enough enough) {
  if (!enough(kMostPlots)) return std::nullopt;
  int low = 1, high = kMostPlots;  // enough(high), not enough(low)
  while (high - low > 1) {
    const int middle = (low + high) / 2;
    (enough(middle) ? high : low) = middle;
  }
  return high;
}

double f_tail(double f, int between, int within) {
  const FisherF fisher(between, within);
  return boost::math::cdf(boost::math::complement(fisher, f));
}

}  // namespace

std::optional<Summary> summary(Sample sample) {
  if (sample.empty()) return std::nullopt;
  const auto n = static_cast<double>(sample.size());
  double sum = 0;
  for (const double value : sample) sum += value;
  const double rough = sum / n;
  double off = 0, squares = 0;
  for (const double value : sample) off += value - rough;
  const double mean = rough + off / n;
  for (const double value : sample) squares += (value - mean) * (value - mean);
  return Summary{static_cast<int>(sample.size()), mean, n > 1 ? std::sqrt(squares / (n - 1)) : 0};
}

std::optional<Difference> welch(const Summary& first, const Summary& second) {
  if (first.n < 2 || second.n < 2) return std::nullopt;
  const double a = first.sd * first.sd / first.n, b = second.sd * second.sd / second.n;
  if (!(a + b > 0)) return std::nullopt;
  const double degrees = (a + b) * (a + b) / (a * a / (first.n - 1) + b * b / (second.n - 1));
  return difference(first.mean - second.mean, std::sqrt(a + b), degrees);
}

std::optional<Difference> paired(Sample first, Sample second) {
  assert(first.size() == second.size());
  std::vector<double> differences;
  for (std::size_t i = 0; i < first.size(); ++i) differences.push_back(first[i] - second[i]);
  const auto of = summary(differences);
  if (!of || of->n < 2 || !(of->sd > 0)) return std::nullopt;
  return difference(of->mean, of->sd / std::sqrt(static_cast<double>(of->n)), of->n - 1);
}

double student_quantile(double probability, double degrees) {
  return boost::math::quantile(StudentsT(degrees), probability);
}

double power(double errors, double degrees) {
  const double critical = student_quantile(1 - kTail, degrees);
  const NonCentralT shifted(degrees, errors);
  return boost::math::cdf(boost::math::complement(shifted, critical));
}

double findable(double chance, double degrees) {
  assert(chance > 2 * kTail && chance < 1);
  double low = 0, high = 1;
  while (power(high, degrees) < chance) high *= 2;
  for (int step = 0; step < 60; ++step) {
    const double middle = (low + high) / 2;
    (power(middle, degrees) < chance ? low : high) = middle;
  }
  return high;
}

std::optional<int> plots_a_side(double difference, double sd, double chance) {
  if (!(difference > 0) || !(sd > 0)) return std::nullopt;
  return least_n(
      [&](int n) { return power(difference / (sd * std::sqrt(2.0 / n)), 2.0 * n - 2) >= chance; });
}

std::optional<int> pairs_needed(double difference, double sd, double chance) {
  if (!(difference > 0) || !(sd > 0)) return std::nullopt;
  return least_n([&](int n) {
    return power(difference / (sd / std::sqrt(static_cast<double>(n))), n - 1.0) >= chance;
  });
}

std::optional<Blocks> blocks(const std::vector<std::vector<double>>& plots) {
  const std::size_t treatments = plots.size();
  if (treatments < 2 || plots.front().size() < 2) return std::nullopt;
  const std::size_t blocks_each = plots.front().size();
  const auto t = static_cast<double>(treatments), b = static_cast<double>(blocks_each);
  std::vector<double> of_treatment(treatments), of_block(blocks_each);
  double mean = 0;
  for (std::size_t i = 0; i < treatments; ++i) {
    assert(plots[i].size() == blocks_each);
    for (std::size_t j = 0; j < blocks_each; ++j) {
      of_treatment[i] += plots[i][j] / b;
      of_block[j] += plots[i][j] / t;
      mean += plots[i][j] / (t * b);
    }
  }
  double treatment_squares = 0, block_squares = 0, error_squares = 0;
  for (const double one : of_treatment) treatment_squares += b * (one - mean) * (one - mean);
  for (const double one : of_block) block_squares += t * (one - mean) * (one - mean);
  for (std::size_t i = 0; i < treatments; ++i) {
    for (std::size_t j = 0; j < blocks_each; ++j) {
      const double left = plots[i][j] - of_treatment[i] - of_block[j] + mean;
      error_squares += left * left;
    }
  }
  if (!(error_squares > 0)) return std::nullopt;
  const int between = static_cast<int>(treatments) - 1, among = static_cast<int>(blocks_each) - 1;
  Blocks made;
  made.error_degrees = between * among;
  made.error_square = error_squares / made.error_degrees;
  made.f_treatments = treatment_squares / between / made.error_square;
  made.p_treatments = f_tail(made.f_treatments, between, made.error_degrees);
  made.f_blocks = block_squares / among / made.error_square;
  made.p_blocks = f_tail(made.f_blocks, among, made.error_degrees);
  made.least_difference =
      student_quantile(1 - kTail, made.error_degrees) * std::sqrt(2 * made.error_square / b);
  return made;
}

}  // namespace science
