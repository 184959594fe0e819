#pragma once

#include <optional>
#include <span>
#include <vector>

// The statistics of a small trial. Samples are plain numbers of any one unit, and what comes back
// is in that unit; probabilities are 0 to 1 and always two-sided. Distributions are Boost.Math's.
namespace science {

using Sample = std::span<const double>;

struct Summary {
  int n{};
  double mean{};
  double sd{};  // with n - 1; 0 for one value
};
// None for an empty sample. In two passes, so that large numbers that differ little keep their sd.
std::optional<Summary> summary(Sample sample);

// A mean difference, its standard error, and what Student's t says of it.
struct Difference {
  double mean{};  // of the first less the second
  double error{};
  double degrees{};
  double t{};
  double p{};
  double low{}, high{};  // 95 % interval of the mean difference
};
// Welch 1947, Biometrika 34:28-35: two samples, spreads not taken to be equal. None where one of
// them has fewer than two values, or where neither varies.
std::optional<Difference> welch(const Summary& first, const Summary& second);
// Student 1908: pairs. The samples have one size. None for fewer than two pairs, or where all
// differences are the same.
std::optional<Difference> paired(Sample first, Sample second);

// The quantile of Student's t: x with P(T <= x) = probability, 0 < probability < 1, degrees > 0.
double student_quantile(double probability, double degrees);

// The chance that a difference is found at the 5 % level, where the true one is `errors` standard
// errors and the test has so many degrees of freedom (noncentral t, the right side only).
double power(double errors, double degrees);
// The true difference, in standard errors, that is found with that chance (0.05 < chance < 1).
double findable(double chance, double degrees);

// How many plots on each side (or pairs) find a true difference with that chance, where single
// plots (or the differences of pairs) have that standard deviation. At least 2; none above
// 10,000, or where the difference or the sd is not above 0.
std::optional<int> plots_a_side(double difference, double sd, double chance);
std::optional<int> pairs_needed(double difference, double sd, double chance);

// Treatments x blocks, one plot each (randomised complete blocks).
struct Blocks {
  double f_treatments{}, p_treatments{};
  double f_blocks{}, p_blocks{};
  double error_square{};  // mean square of what is left
  int error_degrees{};
  double least_difference{};  // of two treatment means at the 5 % level (Fisher's LSD)
};
// `plots[t][b]`: all rows have one length. None for fewer than two of either, or where nothing is
// left over. Source: Gomez & Gomez 1984, Statistical Procedures for Agricultural Research, 2.3.
std::optional<Blocks> blocks(const std::vector<std::vector<double>>& plots);

}  // namespace science
