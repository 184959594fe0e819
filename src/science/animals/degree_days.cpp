#include "science/animals/degree_days.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace science {

using measure::Celsius;
using measure::Days;
using measure::DegreeDays;

namespace {

// Standard normal quantile of 0.9; that of 0.1 is its negative.
constexpr double kZ90 = 1.2815515655446004;

// Degree-days above one threshold of a day that swings from minimum to maximum.
using AboveThreshold = double (*)(double minimum, double maximum, double threshold);

double sine_above(double minimum, double maximum, double threshold) {
  const double mean = (maximum + minimum) / 2;
  if (maximum <= threshold) return 0;
  if (minimum >= threshold) return mean - threshold;
  const double amplitude = (maximum - minimum) / 2;
  const double angle = std::asin((threshold - mean) / amplitude);
  return ((mean - threshold) * (std::numbers::pi / 2 - angle) + amplitude * std::cos(angle)) /
         std::numbers::pi;
}

double triangle_above(double minimum, double maximum, double threshold) {
  if (maximum <= threshold) return 0;
  if (minimum >= threshold) return (maximum + minimum) / 2 - threshold;
  const double over = maximum - threshold;
  return over * over / (2 * (maximum - minimum));
}

// Horizontal cutoff: what lies above the upper limit is taken off again.
std::optional<DegreeDays> between_limits(AboveThreshold above, Celsius minimum, Celsius maximum,
                                         const DegreeDayLimits& limits) {
  if (minimum > maximum) return std::nullopt;
  double sum = above(minimum.value, maximum.value, limits.lower.value);
  if (limits.upper) sum -= above(minimum.value, maximum.value, limits.upper->value);
  return DegreeDays{std::max(sum, 0.0)};
}

}  // namespace

DegreeDays degree_days_from_mean(Celsius mean, const DegreeDayLimits& limits) {
  if (limits.deadly && mean >= *limits.deadly) return DegreeDays{0};
  const Celsius counted = limits.upper ? std::min(mean, *limits.upper) : mean;
  return DegreeDays{std::max((counted - limits.lower).value, 0.0)};
}

std::optional<DegreeDays> degree_days_single_sine(Celsius minimum, Celsius maximum,
                                                  const DegreeDayLimits& limits) {
  return between_limits(sine_above, minimum, maximum, limits);
}

std::optional<DegreeDays> degree_days_single_triangle(Celsius minimum, Celsius maximum,
                                                      const DegreeDayLimits& limits) {
  return between_limits(triangle_above, minimum, maximum, limits);
}

std::optional<DegreeDaySum> accumulate_degree_days(
    std::span<const std::optional<Celsius>> daily_means, const DegreeDayLimits& limits) {
  DegreeDaySum sum;
  std::optional<std::size_t> last_read;
  for (std::size_t day = 0; day < daily_means.size(); ++day) {
    if (!daily_means[day]) continue;
    const Celsius here = *daily_means[day];
    const std::size_t gap_start = last_read ? *last_read + 1 : 0;
    for (std::size_t gap = gap_start; gap < day; ++gap) {
      Celsius filled = here;
      if (last_read) {
        const Celsius before = *daily_means[*last_read];
        const auto way = static_cast<double>(gap - *last_read);
        filled = before + (here - before) * (way / static_cast<double>(day - *last_read));
        ++sum.interpolated_days;
      } else {
        ++sum.carried_days;
      }
      sum.total += degree_days_from_mean(filled, limits);
    }
    sum.total += degree_days_from_mean(here, limits);
    ++sum.measured_days;
    last_read = day;
  }
  if (!last_read) return daily_means.empty() ? std::optional{sum} : std::nullopt;
  const auto after = static_cast<int>(daily_means.size() - 1 - *last_read);
  sum.total += degree_days_from_mean(*daily_means[*last_read], limits) * after;
  sum.carried_days += after;
  return sum;
}

std::optional<Days> days_to_reach(DegreeDays remaining, Celsius expected_mean,
                                  const DegreeDayLimits& limits) {
  if (remaining <= DegreeDays{0}) return Days{0};
  const DegreeDays a_day = degree_days_from_mean(expected_mean, limits);
  if (a_day <= DegreeDays{0}) return std::nullopt;
  return Days{remaining / a_day};
}

std::optional<DailyGain> daily_gain(std::span<const Celsius> recent_means,
                                    const DegreeDayLimits& limits) {
  if (recent_means.size() < 2) return std::nullopt;
  const auto count = static_cast<double>(recent_means.size());
  DegreeDays sum;
  for (const Celsius mean : recent_means) sum += degree_days_from_mean(mean, limits);
  const DegreeDays average = sum / count;
  double squares = 0;
  for (const Celsius mean : recent_means) {
    const double off = (degree_days_from_mean(mean, limits) - average).value;
    squares += off * off;
  }
  return DailyGain{average, DegreeDays{std::sqrt(squares / (count - 1))}};
}

std::optional<DaysToReach> days_to_reach_range(DegreeDays so_far, const ThermalConstant& constant,
                                               const DailyGain& gain) {
  if (gain.mean <= DegreeDays{0}) return std::nullopt;
  const double rate = gain.mean.value;
  const double remaining = (constant.value - so_far).value;
  const double rate_margin = kZ90 * gain.deviation.value;
  const double constant_margin = kZ90 * constant.standard_error.value;

  // After d days it is reached with probability Phi((d rate - remaining) / sqrt(sK^2 + d^2 sr^2)).
  // Setting the argument to -z and +z gives one quadratic in d, whose two roots are the limits. The
  // smaller root is written without a difference of near numbers, and without dividing by zero.
  DaysToReach range{Days{0}, Days{std::max(remaining / rate, 0.0)}, Days{0}};
  const auto root_part = [&] {
    return std::sqrt(std::max(std::pow(rate_margin * remaining, 2) +
                                  std::pow(rate * constant_margin, 2) -
                                  std::pow(rate_margin * constant_margin, 2),
                              0.0));
  };
  if (remaining > constant_margin) {
    const double numerator = remaining * remaining - constant_margin * constant_margin;
    range.earliest = Days{numerator / (rate * remaining + root_part())};
  }
  if (remaining > -constant_margin) {
    range.latest = std::nullopt;
    if (rate > rate_margin)
      range.latest =
          Days{(rate * remaining + root_part()) / (rate * rate - rate_margin * rate_margin)};
  }
  return range;
}

}  // namespace science
