#include "kinds/pile/score.h"

#include <algorithm>
#include <array>

#include "kinds/finding.h"
#include "kinds/pile/foresight.h"
#include "kinds/pile/vocabulary.h"
#include "kinds/replay.h"
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

bool turned_between(const model::History& history, model::Day from, model::Day to) {
  return std::any_of(history.deeds.begin(), history.deeds.end(), [&](const model::Deed& deed) {
    return deed.word == kTurned.word && deed.day > from && deed.day <= to;
  });
}

// In days from the day on which it is foreseen; naive: hot as long as the real piles mostly were. A
// turning in between warms it again: nothing of that was foreseen.
void score_cooled(const model::History& history, const HeatView& view, const DaySeen& now,
                  model::Day first_hot, model::Day came, const model::Rules& rules,
                  ForesightScore& score) {
  const auto foreseen = view.cooled(rules(limits::cold_below).value);
  if (!foreseen || now.day >= came) return;
  if (turned_between(history, now.day, came)) {
    ++score.disturbed;
    return;
  }
  const model::Day usual = first_hot + date::days{whole(rules(limits::foresee_end_usual))};
  score.judge_day(now.day, foreseen->likely, foreseen->earliest, foreseen->latest,
                  std::max(1, days_between(now.day, usual)), came);
}

// The first of the days on which the pile was ready until the last that is known; none where it is
// not ready then.
std::optional<model::Day> ready_on(const Study& study) {
  const model::History& history = study.history();
  const model::Day last = study.course().until;
  std::optional<model::Day> found;
  for (model::Day day = last; day > history.batch.started_day; day -= date::days{1}) {
    const model::History seen = as_seen_on(history, day);
    if (Study(seen, study.rules()).at().stage != Stage::kReady) break;
    found = day;
  }
  return found;
}

// Naive: every pile takes as long as the real ones mostly were hot, and its curing.
void score_ready(const model::History& known, const Study& then, model::Day first_hot,
                 model::Day came, ForesightScore& score) {
  const model::Rules& rules = then.rules();
  const model::Day day = then.history().today;
  if (turned_between(known, day, came)) {
    ++score.disturbed;
    return;
  }
  const model::Day usual = first_hot + date::days{whole(rules(limits::foresee_end_usual)) +
                                                  whole(rules(limits::ready_curing))};
  for (const model::Forecast& one : then.forecasts()) {
    if (one.what != kForeseenReady || !one.likely) continue;
    score.judge_day(day, *one.likely, one.earliest, one.latest,
                    std::max(1, days_between(day, usual)), came);
  }
}

// The earliest day of a treatment: it may come later, never before. Naive: as many days as the rule
// asks for, from the first that was hot.
void score_treatment(const Treatment& then, model::Day day, model::Day first_hot, model::Day came,
                     ForesightScore& score) {
  if (!then.earliest || then.tally.met || then.outcome != Outcome::kNotYet) return;
  const model::Day usual = first_hot + date::days{then.wanted.days - 1};
  score.judge_day(day, *then.earliest, then.earliest, std::max(*then.earliest, came),
                  std::max(0, days_between(day, usual)), came);
}

// From the first day in the working band on.
void replay_ends(const Study& study, model::Day first_hot, std::vector<ForesightScore>& into) {
  const auto ready = ready_on(study);
  ForesightScore ready_score{.what = kForeseenReady, .error = Dimension::kDuration};
  std::vector<ForesightScore> treated;
  std::vector<std::optional<model::Day>> met;
  model::Day last = ready.value_or(first_hot);
  for (const Treatment& one : study.treatments()) {
    treated.push_back({.what = one.name, .error = Dimension::kDuration});
    // Where the days were met and the outcome waits for something else, the days are what was
    // foreseen.
    met.push_back(one.tally.met ? std::optional(one.tally.met->last) : one.shown_on);
    if (met.back()) last = std::max(last, *met.back());
  }
  for (model::Day day = first_hot; day < last; day += date::days{1}) {
    const model::History seen = as_seen_on(study.history(), day);
    const Study then(seen, study.rules());
    if (ready && day < *ready) score_ready(study.history(), then, first_hot, *ready, ready_score);
    for (std::size_t i = 0; i < treated.size() && i < then.treatments().size(); ++i) {
      if (met[i] && day < *met[i])
        score_treatment(then.treatments()[i], day, first_hot, *met[i], treated[i]);
    }
  }
  into.push_back(ready_score);
  into.insert(into.end(), treated.begin(), treated.end());
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
    if (cool && first_hot)
      score_cooled(study.history(), *view, now, *first_hot, *cool, study.rules(), cooled);
  }
  scores.push_back(cooled);
  if (first_hot) replay_ends(study, *first_hot, scores);
  return scores;
}

}  // namespace kinds::pile
