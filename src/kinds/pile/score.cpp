#include "kinds/pile/score.h"

#include <array>
#include <cmath>

namespace kinds::pile {
namespace {

constexpr std::array kAhead{1, 2, 3, 5, 7};

void judge(const Course& course, const DaySeen& now, const HeatForecast& forecast,
           ForesightScore& score) {
  const model::Day then = now.day + date::days{score.days_ahead};
  const DaySeen* read = course.on(then);
  if (read == nullptr) return;
  for (const HeatForecast::Day& day : forecast.days) {
    if (day.day != then) continue;
    const double error = day.likely - read->peak();
    const double naive = now.peak() - read->peak();
    ++score.count;
    score.error_total += std::fabs(error);
    score.squared_total += error * error;
    score.naive_total += std::fabs(naive);
    score.naive_squared_total += naive * naive;
    if (read->peak() >= day.low && read->peak() <= day.high) ++score.within;
  }
}

}  // namespace

std::vector<ForesightScore> replay_of(const Study& study) {
  const Course& course = study.course();
  std::vector<ForesightScore> scores;
  for (const int ahead : kAhead) scores.push_back({.days_ahead = ahead});
  for (const DaySeen& now : course.days) {
    const auto forecast = foresee(study.history(), course, study.rules(), now.day, kAhead.back());
    if (!forecast) continue;
    for (ForesightScore& score : scores) judge(course, now, *forecast, score);
  }
  return scores;
}

}  // namespace kinds::pile
