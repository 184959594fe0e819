#include "science/numbers/robust_trend.h"

#include <algorithm>
#include <vector>

namespace science {
namespace {

using measure::Days;
using measure::Number;

// In a hundred: what may lie below the interval, and as much above it.
constexpr double kOneSide = 0.05;

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  if (values.size() % 2 == 1) return *middle;
  return (*middle + *std::max_element(values.begin(), middle)) / 2;
}

// Of all orders of so many values, the share that has 0, 1, 2, ... pairs in disorder: each further
// value adds 0 to n - 1 of them, all alike.
std::vector<double> shares_by_disorder(int points) {
  std::vector<double> shares{1};
  for (int n = 2; n <= points; ++n) {
    std::vector<double> wider(shares.size() + static_cast<std::size_t>(n) - 1);
    for (std::size_t had = 0; had < shares.size(); ++had) {
      for (int more = 0; more < n; ++more) {
        wider[had + static_cast<std::size_t>(more)] += shares[had] / n;
      }
    }
    shares = std::move(wider);
  }
  return shares;
}

}  // namespace

Number RobustTrend::at(Days when) const {
  return level + slope * (when - middle).value;
}

std::optional<int> slopes_left_out(int points) {
  if (points < 4) return std::nullopt;
  const std::vector<double> shares = shares_by_disorder(points);
  double sum = 0;
  int left_out = -1;
  for (const double share : shares) {
    sum += share;
    if (sum > kOneSide) break;
    ++left_out;
  }
  return left_out;
}

std::optional<RobustTrend> robust_trend(std::span<const TrendPoint> points) {
  const auto left_out = slopes_left_out(static_cast<int>(points.size()));
  if (!left_out) return std::nullopt;
  std::vector<double> slopes, times, values;
  for (std::size_t i = 0; i < points.size(); ++i) {
    times.push_back(points[i].at.value);
    values.push_back(points[i].value.value);
    for (std::size_t j = 0; j < i; ++j) {
      const double apart = (points[i].at - points[j].at).value;
      if (apart == 0) return std::nullopt;
      slopes.push_back((points[i].value - points[j].value).value / apart);
    }
  }
  std::sort(slopes.begin(), slopes.end());
  const auto ends = std::minmax_element(times.begin(), times.end());
  const auto out = static_cast<std::size_t>(*left_out);
  return RobustTrend{.middle = Days{median(times)},
                     .level = Number{median(values)},
                     .slope = Number{median(slopes)},
                     .slope_low = Number{slopes[out]},
                     .slope_high = Number{slopes[slopes.size() - 1 - out]},
                     .points = static_cast<int>(points.size()),
                     .span = Days{*ends.second - *ends.first}};
}

std::optional<Crossing> crossing(const RobustTrend& trend, Number value) {
  if (!trend.rises() && !trend.falls()) return std::nullopt;
  const double way = (value - trend.level).value;
  if (trend.rises() ? way < 0 : way > 0) return std::nullopt;
  const auto at = [&](Number slope) { return trend.middle + Days{way / slope.value}; };
  const auto& steep = trend.rises() ? trend.slope_high : trend.slope_low;
  const auto& flat = trend.rises() ? trend.slope_low : trend.slope_high;
  return Crossing{at(steep), at(trend.slope), at(flat)};
}

}  // namespace science
