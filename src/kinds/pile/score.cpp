#include "kinds/pile/score.h"

#include <array>

#include "kinds/finding.h"
#include "kinds/thresholds.h"

namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using measure::Dimension;

constexpr std::array kAhead{1, 2, 3, 4, 5, 6, 7};

void judge(const Course& course, const DaySeen& now, const HeatForecast& forecast,
           ForesightScore& score) {
  const model::Day then = now.day + date::days{score.days_ahead};
  const DaySeen* read = course.on(then);
  if (read == nullptr) return;
  for (const HeatForecast::Day& day : forecast.days) {
    if (day.day != then) continue;
    if (day.disturbed) {
      ++score.disturbed;
    } else {
      score.judge(day.likely, day.low, day.high, now.peak(), read->peak());
    }
  }
}

// The first day that was read below the working band with none in it after; none where the last was
// in it.
std::optional<model::Day> cooled_on(const Course& course, double below) {
  std::optional<model::Day> found;
  for (auto day = course.days.rbegin(); day != course.days.rend() && day->peak() < below; ++day) {
    found = day->day;
  }
  return found;
}

// In days from the day on which it is foreseen; naive: hot as long as the real piles mostly were.
void judge_cooled(const HeatView& view, const DaySeen& now, model::Day first_hot, model::Day came,
                  const model::Rules& rules, ForesightScore& score) {
  const auto foreseen = view.cooled(rules(limits::cold_below).value);
  if (!foreseen || now.day >= came) return;
  const auto away = [&](model::Day day) { return static_cast<double>(days_between(now.day, day)); };
  const model::Day usual = std::max(
      now.day + date::days{1}, first_hot + date::days{whole(rules(limits::foresee_end_usual))});
  score.judge(away(foreseen->likely), away(foreseen->earliest), away(foreseen->latest), away(usual),
              away(came));
}

}  // namespace

std::vector<ForesightScore> replay_of(const Study& study) {
  const Course& course = study.course();
  std::vector<ForesightScore> scores;
  for (const int ahead : kAhead) {
    scores.push_back(
        {.what = "temperature", .error = Dimension::kTemperatureDifference, .days_ahead = ahead});
  }
  ForesightScore cooled{.what = "cooled", .error = Dimension::kDuration};
  if (study.method() == Method::kCold) return scores;
  const double below = study.rules()(limits::cold_below).value;
  const auto cool = study.history().batch.ended ? cooled_on(course, below) : std::nullopt;
  std::optional<model::Day> first_hot;
  for (const DaySeen& now : course.days) {
    if (!first_hot && now.peak() >= below) first_hot = now.day;
    const auto view = HeatView::of(study.history(), course, study.rules(), now.day);
    if (!view) continue;
    const HeatForecast forecast = view->ahead(kAhead.back());
    for (ForesightScore& score : scores) judge(course, now, forecast, score);
    if (cool && first_hot) judge_cooled(*view, now, *first_hot, *cool, study.rules(), cooled);
  }
  scores.push_back(cooled);
  return scores;
}

}  // namespace kinds::pile
