#include "science/numbers/permutation.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>

namespace science {
namespace {

// Sums that are equal on paper may differ in their last bits.
constexpr double kSlack = 1e-9;
constexpr std::size_t kExactBelow = 50;

double ways(std::size_t n, std::size_t k) {
  double product = 1;
  for (std::size_t i = 1; i <= k; ++i) {
    product *= static_cast<double>(n - k + i) / static_cast<double>(i);
  }
  return std::round(product);
}

struct Ranks {
  std::vector<double> rank;  // of each value, ties sharing their mean
  double tie_cubes = 0;      // sum of t^3 - t over groups of ties
};

Ranks ranks_of(const std::vector<double>& values) {
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(),
            [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
  Ranks ranks{std::vector<double>(values.size()), 0};
  for (std::size_t from = 0; from < order.size();) {
    std::size_t to = from;
    while (to < order.size() && values[order[to]] == values[order[from]]) ++to;
    const auto tied = static_cast<double>(to - from);
    const double shared = static_cast<double>(from + to + 1) / 2;
    for (std::size_t i = from; i < to; ++i) ranks.rank[order[i]] = shared;
    ranks.tie_cubes += tied * tied * tied - tied;
    from = to;
  }
  return ranks;
}

double normal_tail(double z) {
  return std::erfc(z / std::sqrt(2.0)) / 2;
}

// Twice the smaller tail of a symmetric statistic, at most 1.
double two_sided(double statistic, double centre, double sd) {
  const double off = std::max(std::fabs(statistic - centre) - 0.5, 0.0);
  return std::min(1.0, 2 * normal_tail(off / sd));
}

// Both tails of a distribution that is given by the number of ways to each whole sum.
double two_sided(const std::vector<double>& ways_to, double statistic) {
  const double all = std::accumulate(ways_to.begin(), ways_to.end(), 0.0);
  double below = 0, above = 0;
  for (std::size_t sum = 0; sum < ways_to.size(); ++sum) {
    if (static_cast<double>(sum) <= statistic + kSlack) below += ways_to[sum];
    if (static_cast<double>(sum) >= statistic - kSlack) above += ways_to[sum];
  }
  return std::min(1.0, 2 * std::min(below, above) / all);
}

// In how many ways `chosen` of the ranks 1 ... n sum to each number.
std::vector<double> rank_sum_ways(std::size_t n, std::size_t chosen) {
  const std::size_t most = n * (n + 1) / 2;
  std::vector<std::vector<double>> table(chosen + 1, std::vector<double>(most + 1));
  table[0][0] = 1;
  for (std::size_t rank = 1; rank <= n; ++rank) {
    for (std::size_t taken = std::min(chosen, rank); taken > 0; --taken) {
      for (std::size_t sum = most; sum >= rank; --sum) {
        table[taken][sum] += table[taken - 1][sum - rank];
      }
    }
  }
  return table[chosen];
}

std::vector<double> signed_rank_ways(std::size_t n) {
  std::vector<double> ways_to(n * (n + 1) / 2 + 1);
  ways_to[0] = 1;
  for (std::size_t rank = 1; rank <= n; ++rank) {
    for (std::size_t sum = ways_to.size() - 1; sum >= rank; --sum) {
      ways_to[sum] += ways_to[sum - rank];
    }
  }
  return ways_to;
}

}  // namespace

std::optional<double> permutation_test(Sample first, Sample second) {
  if (first.empty() || second.empty()) return std::nullopt;
  std::vector<double> all(first.begin(), first.end());
  all.insert(all.end(), second.begin(), second.end());
  const std::size_t n = all.size(), chosen = first.size();
  if (ways(n, chosen) > kMostWays) return std::nullopt;
  const double total = std::accumulate(all.begin(), all.end(), 0.0);
  const double centre = total * static_cast<double>(chosen) / static_cast<double>(n);
  const double off = std::fabs(std::accumulate(first.begin(), first.end(), 0.0) - centre);
  double size = 0;
  for (const double value : all) size = std::max(size, std::fabs(value));
  const double slack = kSlack * std::max(size, off);
  // The means lie as far apart as the first group's sum lies from its centre.
  std::vector<bool> in(n, false);
  std::fill(in.begin(), in.begin() + static_cast<std::ptrdiff_t>(chosen), true);
  double as_far = 0, count = 0;
  do {
    double sum = 0;
    for (std::size_t i = 0; i < n; ++i) {
      if (in[i]) sum += all[i];
    }
    if (std::fabs(sum - centre) >= off - slack) ++as_far;
    ++count;
  } while (std::prev_permutation(in.begin(), in.end()));
  return as_far / count;
}

std::optional<double> swap_test(Sample differences) {
  const std::size_t n = differences.size();
  if (n == 0 || std::exp2(static_cast<double>(n)) > kMostWays) return std::nullopt;
  double sum = 0, size = 0;
  for (const double one : differences) {
    sum += one;
    size += std::fabs(one);
  }
  const double off = std::fabs(sum) - kSlack * size;
  const std::uint64_t all = std::uint64_t{1} << n;
  double as_far = 0;
  for (std::uint64_t swaps = 0; swaps < all; ++swaps) {
    double swapped = 0;
    for (std::size_t i = 0; i < n; ++i) {
      swapped += (swaps >> i & 1) != 0 ? -differences[i] : differences[i];
    }
    if (std::fabs(swapped) >= off) ++as_far;
  }
  return as_far / static_cast<double>(all);
}

double least_p_apart(int first, int second) {
  // Groups of one size can be exchanged whole, so that two divisions lie farthest apart.
  const double all = ways(static_cast<std::size_t>(first) + static_cast<std::size_t>(second),
                          static_cast<std::size_t>(first));
  return std::min(1.0, (first == second ? 2 : 1) / all);
}

double least_p_pairs(int pairs) {
  return std::min(1.0, 2 / std::exp2(pairs));
}

std::optional<RankTest> rank_sum_test(Sample first, Sample second) {
  if (first.empty() || second.empty()) return std::nullopt;
  std::vector<double> all(first.begin(), first.end());
  all.insert(all.end(), second.begin(), second.end());
  const Ranks ranks = ranks_of(all);
  const auto a = static_cast<double>(first.size()), b = static_cast<double>(second.size());
  const double least = a * (a + 1) / 2;
  const double sum = std::accumulate(
      ranks.rank.begin(), ranks.rank.begin() + static_cast<std::ptrdiff_t>(first.size()), 0.0);
  RankTest test{sum - least, 1, false};
  if (ranks.tie_cubes == 0 && first.size() < kExactBelow && second.size() < kExactBelow) {
    test.exact = true;
    test.p = two_sided(rank_sum_ways(all.size(), first.size()), sum);
    return test;
  }
  const double n = a + b;
  const double variance = a * b / 12 * (n + 1 - ranks.tie_cubes / (n * (n - 1)));
  if (!(variance > 0)) return std::nullopt;
  test.p = two_sided(test.statistic, a * b / 2, std::sqrt(variance));
  return test;
}

std::optional<RankTest> signed_rank_test(Sample differences) {
  std::vector<double> sizes;
  std::vector<bool> positive;
  for (const double one : differences) {
    if (one == 0) continue;
    sizes.push_back(std::fabs(one));
    positive.push_back(one > 0);
  }
  if (sizes.empty()) return std::nullopt;
  const Ranks ranks = ranks_of(sizes);
  RankTest test;
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    if (positive[i]) test.statistic += ranks.rank[i];
  }
  const bool no_zero = sizes.size() == differences.size();
  if (no_zero && ranks.tie_cubes == 0 && sizes.size() < kExactBelow) {
    test.exact = true;
    test.p = two_sided(signed_rank_ways(sizes.size()), test.statistic);
    return test;
  }
  const auto n = static_cast<double>(sizes.size());
  const double variance = n * (n + 1) * (2 * n + 1) / 24 - ranks.tie_cubes / 48;
  test.p = two_sided(test.statistic, n * (n + 1) / 4, std::sqrt(variance));
  return test;
}

std::vector<int> drawn_order(int count, std::uint64_t seed) {
  std::vector<int> order(static_cast<std::size_t>(std::max(count, 0)));
  std::iota(order.begin(), order.end(), 0);
  // Fisher and Yates by hand: the standard library's distributions differ between machines, its
  // generators do not.
  std::mt19937_64 random(seed);
  for (std::size_t left = order.size(); left > 1; --left) {
    const std::uint64_t fair = random.max() - random.max() % left;
    std::uint64_t drawn = random();
    while (drawn >= fair) drawn = random();
    std::swap(order[left - 1], order[drawn % left]);
  }
  return order;
}

}  // namespace science
