#include "kinds/pile/days.h"

#include <algorithm>
#include <map>

namespace kinds::pile {

const PositionDay& DaySeen::coldest() const {
  return *std::min_element(positions.begin(), positions.end(),
                           [](const auto& a, const auto& b) { return a.least < b.least; });
}

const PositionDay& DaySeen::hottest() const {
  return *std::max_element(positions.begin(), positions.end(),
                           [](const auto& a, const auto& b) { return a.greatest < b.greatest; });
}

double DaySeen::peak() const {
  double warmest = positions.front().mean;
  for (const PositionDay& one : positions) warmest = std::max(warmest, one.mean);
  return warmest;
}

bool DaySeen::outside() const {
  return std::any_of(positions.begin(), positions.end(), [](const PositionDay& one) {
    return !one.position.empty() && one.position != kCore;
  });
}

const DaySeen* Course::on(model::Day day) const {
  const auto found = std::lower_bound(days.begin(), days.end(), day,
                                      [](const DaySeen& one, model::Day d) { return one.day < d; });
  return found == days.end() || found->day != day ? nullptr : &*found;
}

std::optional<model::Day> Course::last_turning() const {
  return turnings.empty() ? std::nullopt : std::optional(turnings.back());
}

int Course::turnings_between(model::Day first, model::Day last) const {
  const auto from = std::lower_bound(turnings.begin(), turnings.end(), first);
  const auto to = std::upper_bound(turnings.begin(), turnings.end(), last);
  return from < to ? static_cast<int>(to - from) : 0;
}

std::optional<measure::Celsius> Course::air_before(model::Day day, int back) const {
  double total = 0;
  int count = 0;
  for (const model::DayRoll& roll : air) {
    if (roll.day > day || (day - roll.day).count() >= back) continue;
    total += roll.mean();
    ++count;
  }
  if (count == 0) return std::nullopt;
  return measure::Celsius{total / count};
}

Course course_of(const model::History& history) {
  Course course{history.batch.started_day, history.today, {}, {}, {}, {}};
  if (history.batch.ended_day) course.until = std::min(course.until, *history.batch.ended_day);
  std::map<model::Day, DaySeen> days;
  for (const model::Series& series : history.series) {
    if (series.quantity != kTemperature.name) continue;
    course.positions.push_back(series.position);
    for (const model::DayRoll& roll : series.days) {
      if (roll.day < course.start || roll.day > course.until) continue;
      DaySeen& seen = days[roll.day];
      seen.day = roll.day;
      seen.positions.push_back({series.position, roll.least, roll.greatest, roll.mean(), roll.last,
                                roll.count, roll.last_at});
    }
  }
  for (auto& [day, seen] : days) course.days.push_back(std::move(seen));
  for (const model::Deed& deed : history.deeds) {
    if (deed.word != kTurned.word || deed.day > course.until) continue;
    if (course.turnings.empty() || course.turnings.back() != deed.day) {
      course.turnings.push_back(deed.day);
    }
  }
  course.air = model::pooled_days(history.all(kAir));
  return course;
}

Method method_of(const model::Batch& batch) {
  const std::string word = batch.text(kMethod, kMethod.otherwise);
  for (const MethodChoice& one : kMethods) {
    if (one.word == word) return one.method;
  }
  return Method::kByTurning;
}

}  // namespace kinds::pile
