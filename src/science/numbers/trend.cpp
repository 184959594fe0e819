#include "science/numbers/trend.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace science {
namespace {

using measure::Days;
using measure::Number;

// Student's t, 95 % one-sided, for 1 to 30 degrees of freedom; beyond them it changes little.
constexpr std::array kStudent{6.314, 2.920, 2.353, 2.132, 2.015, 1.943, 1.895, 1.860, 1.833, 1.812,
                              1.796, 1.782, 1.771, 1.761, 1.753, 1.746, 1.740, 1.734, 1.729, 1.725,
                              1.721, 1.717, 1.714, 1.711, 1.708, 1.706, 1.703, 1.701, 1.699, 1.697};

double student(int points) {
  const auto freedom = static_cast<std::size_t>(points - 2);
  return kStudent[std::min(freedom, kStudent.size()) - 1];
}

}  // namespace

Number LinearTrend::at(Days when) const {
  return intercept + slope * when.value;
}

Number LinearTrend::half_width(Days when) const {
  const double away = (when - mean_at).value;
  return residual * (student(points) * std::sqrt(1 + 1.0 / points + away * away / spread.value));
}

Number LinearTrend::slope_half_width() const {
  return slope_error * student(points);
}

std::optional<LinearTrend> linear_trend(std::span<const TrendPoint> points) {
  if (points.size() < 3) return std::nullopt;
  const auto n = static_cast<double>(points.size());
  double mean_x = 0, mean_y = 0;
  for (const TrendPoint& point : points) {
    mean_x += point.at.value / n;
    mean_y += point.value.value / n;
  }
  double sxx = 0, sxy = 0;
  for (const TrendPoint& point : points) {
    const double x = point.at.value - mean_x;
    sxx += x * x;
    sxy += x * (point.value.value - mean_y);
  }
  if (!(sxx > 0)) return std::nullopt;
  const double slope = sxy / sxx;
  double squares = 0;
  for (const TrendPoint& point : points) {
    const double off = point.value.value - mean_y - slope * (point.at.value - mean_x);
    squares += off * off;
  }
  const double residual = std::sqrt(squares / (n - 2));
  return LinearTrend{.intercept = Number{mean_y - slope * mean_x},
                     .slope = Number{slope},
                     .intercept_error = Number{residual * std::sqrt(1 / n + mean_x * mean_x / sxx)},
                     .slope_error = Number{residual / std::sqrt(sxx)},
                     .residual = Number{residual},
                     .points = static_cast<int>(points.size()),
                     .mean_at = Days{mean_x},
                     .spread = Number{sxx}};
}

}  // namespace science
