#include "season/thin.h"

#include <algorithm>

namespace season {
namespace {

constexpr std::size_t kMostDays = 120;
constexpr std::size_t kReadInAll = 250'000;

}  // namespace

std::vector<PlotPoint> thinned(const std::vector<model::Reading>& readings,
                               const measure::Zone& zone, std::size_t most) {
  std::vector<PlotPoint> points;
  if (readings.size() <= most) {
    for (const model::Reading& one : readings)
      points.push_back({zone.local(one.at), one.value, one.value, one.value});
    return points;
  }
  const auto first = readings.front().at;
  const double width =
      static_cast<double>((readings.back().at - first).count() + 1) / static_cast<double>(most);
  std::size_t part = most;  // none yet
  std::size_t held = 0;
  for (const model::Reading& one : readings) {
    const auto in = static_cast<std::size_t>(static_cast<double>((one.at - first).count()) / width);
    if (in != part || points.empty()) {
      points.push_back({zone.local(one.at), one.value, one.value, one.value});
      part = in;
      held = 1;
      continue;
    }
    PlotPoint& point = points.back();
    point.least = std::min(point.least, one.value);
    point.greatest = std::max(point.greatest, one.value);
    ++held;
    point.mean += (one.value - point.mean) / static_cast<double>(held);
  }
  return points;
}

bool is_drawn_by_days(const std::vector<model::DayRoll>& days, measure::Day from, measure::Day to,
                      std::size_t lines) {
  std::size_t count = 0, readings = 0;
  for (const model::DayRoll& roll : days) {
    if (roll.day < from || roll.day > to) continue;
    ++count;
    readings += static_cast<std::size_t>(roll.count);
  }
  return count > kMostDays || readings > kReadInAll / lines;
}

std::vector<PlotPoint> day_points(const std::vector<model::DayRoll>& days, measure::Day from,
                                  measure::Day to) {
  std::vector<PlotPoint> points;
  for (const model::DayRoll& roll : days) {
    if (roll.day < from || roll.day > to) continue;
    points.push_back({date::local_seconds{roll.day} + std::chrono::hours{12}, roll.least,
                      roll.mean(), roll.greatest});
  }
  return points;
}

}  // namespace season
