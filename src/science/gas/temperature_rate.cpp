#include "science/gas/temperature_rate.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace science {

using measure::Celsius;
using measure::Number;

std::optional<Number> relative_rate(Celsius temperature, const TemperatureRate& response) {
  if (!(response.theta.value > 0) || std::isnan(temperature.value)) return std::nullopt;
  if (temperature.value <= 0) return Number{0};
  const Celsius effective = std::min(temperature, response.ceiling);
  return Number{std::pow(response.theta.value, (effective - response.reference).value)};
}

std::optional<Number> theta_from_q10(Number q10) {
  if (!(q10.value > 0)) return std::nullopt;
  return Number{std::pow(q10.value, 0.1)};
}

std::optional<DailyTemperatures> fill_daily_temperatures(
    std::span<const std::optional<Celsius>> daily_means) {
  DailyTemperatures filled;
  std::optional<std::size_t> last;  // the latest measured day so far
  for (std::size_t day = 0; day < daily_means.size(); ++day) {
    if (!daily_means[day]) continue;
    const Celsius here = *daily_means[day];
    const Celsius before = last ? *daily_means[*last] : here;
    const std::size_t first_gap = last ? *last + 1 : 0;
    const auto steps = static_cast<double>(day - first_gap + 1);
    for (std::size_t gap = first_gap; gap < day; ++gap) {
      filled.days.push_back(before +
                            (here - before) * (static_cast<double>(gap - first_gap + 1) / steps));
      ++(last ? filled.interpolated_days : filled.carried_days);
    }
    filled.days.push_back(here);
    ++filled.measured_days;
    last = day;
  }
  if (!last && !daily_means.empty()) return std::nullopt;
  while (filled.days.size() < daily_means.size()) {
    filled.days.push_back(filled.days.back());
    ++filled.carried_days;
  }
  return filled;
}

}  // namespace science
