#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "science/numbers/statistics.h"

// Tests that lean on nothing but the drawing of lots: what would have come out had the lots fallen
// otherwise. Probabilities are two-sided.
namespace science {

// The share of all ways to divide the values into two such groups in which the means lie at least
// as far apart as they do. Exact; none where a group is empty or there are more than kMostWays.
std::optional<double> permutation_test(Sample first, Sample second);
// The same for pairs: the share of all ways to swap within pairs. Differences of 0 stay in.
std::optional<double> swap_test(Sample differences);
inline constexpr double kMostWays = 2e6;
// Source of both: Fisher 1935, The Design of Experiments, section 21.

// The smallest probability that such a test could give: with fewer plots it can never reach 5 %.
double least_p_apart(int first, int second);
double least_p_pairs(int pairs);

// A test by ranks, which a single outlier or many zeros (counts of pests) mislead less.
struct RankTest {
  double statistic{};  // of the first: U of Mann and Whitney, or the sum of positive ranks
  double p{};
  bool exact{};  // else by the normal approximation, corrected for ties and continuity
};
// Mann & Whitney 1947, Annals of Mathematical Statistics 18:50-60. None where a sample is empty or
// all values are the same. Exact where there are no ties and both have fewer than 50 values.
std::optional<RankTest> rank_sum_test(Sample first, Sample second);
// Wilcoxon 1945, Biometrics Bulletin 1:80-83. Differences of 0 drop out; none where all do. Exact
// where there are no ties, no zeros and fewer than 50 pairs.
std::optional<RankTest> signed_rank_test(Sample differences);

// A permutation of 0 ... count - 1 drawn with that seed: the same on every machine.
std::vector<int> drawn_order(int count, std::uint64_t seed);

}  // namespace science
