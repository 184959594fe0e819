#include "kinds/pile/foresight.h"

#include <algorithm>
#include <cmath>

#include "kinds/finding.h"
#include "kinds/pile/care.h"
#include "kinds/pile/says.h"
#include "kinds/pile/vocabulary.h"
#include "kinds/thresholds.h"

namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using date::days;
using measure::Celsius;
using model::Urgency;
using By = model::Ending::By;

// A straight line through two readings is believed only this near the limit (K): further off, a
// pile that warms up slows down before it gets there.
constexpr double kNear = 10;

// The days still ahead as of today.
std::vector<HeatForecast::Day> ahead(const HeatForecast& forecast, model::Day today) {
  std::vector<HeatForecast::Day> out;
  for (const HeatForecast::Day& day : forecast.days) {
    if (day.day > today && days_between(today, day.day) <= kMostAhead) out.push_back(day);
  }
  return out;
}

template <class Is>
std::optional<model::Day> first_day(const std::vector<HeatForecast::Day>& among, Is is) {
  const auto found = std::find_if(among.begin(), among.end(), is);
  return found == among.end() ? std::nullopt : std::optional(found->day);
}

HotSpell usual_spell(const Study& study) {
  HotSpell spell;
  if (!study.history().finished) return spell;
  for (const model::History& other : *study.history().finished) {
    const Standing at = standing(other, study.rules(), course_of(other));
    if (!at.first_hot || !at.last_hot) continue;
    spell.days += days_between(*at.first_hot, *at.last_hot) + 1;
    ++spell.piles;
  }
  if (spell.piles > 0) spell.days /= spell.piles;
  return spell;
}

using Forecasts = std::vector<model::Forecast>;

model::Forecast undated(std::string_view what, std::string says) {
  return {std::string(what), std::nullopt, std::nullopt, std::nullopt, std::move(says)};
}

void tell_temperature(const Study& study, const HeatForecast& forecast, Forecasts& into) {
  const auto next = ahead(forecast, study.history().today);
  if (next.empty()) return;
  into.push_back(undated("temperature", week_words(next, forecast.leaning, study)));
  for (const HeatForecast::Day& day : next) {
    into.back().steps.push_back({day.day, day.likely, day.low, day.high});
  }
  const double limit = study.rules()(limits::hot_above).value;
  if (study.at().peak_now > limit) return;
  model::Forecast hot = undated("too hot", "");
  hot.likely = first_day(next, [&](const auto& day) { return day.likely > limit; });
  hot.earliest = first_day(next, [&](const auto& day) { return day.high > limit; });
  hot.latest = first_day(next, [&](const auto& day) { return day.low > limit; });
  if (!hot.likely) return;
  hot.says = too_hot_words(hot, study);
  hot.line = too_hot_line(study);
  hot.scored = kTemperature.name;
  into.push_back(std::move(hot));
}

// When a hot pile has cooled, and how long after that it is ready.
void tell_end(const Study& study, Forecasts& into) {
  if (!in_heat(study.at().stage)) return;
  const auto days_to = study.heat()->cooled(study.rules()(limits::cold_below).value);
  if (!days_to) return;
  model::Forecast cooled{"cooled", days_to->earliest, days_to->likely, days_to->latest, ""};
  cooled.says = cooled_words(cooled, usual_spell(study), study);
  const days cure{whole(study.rules()(limits::ready_curing))};
  model::Forecast ready{std::string(kForeseenReady), *cooled.earliest + cure, *cooled.likely + cure,
                        *cooled.latest + cure, ""};
  ready.says = cured_then_words(ready, study);
  ready.line = ready_line();
  ready.scored = kForeseenReady;
  into.push_back(std::move(cooled));
  into.push_back(std::move(ready));
}

// A pile that cures is ready when its days are over, if it stays as it is.
void tell_curing(const Study& study, Forecasts& into) {
  const Standing& at = study.at();
  if (at.stage != Stage::kCooling && at.stage != Stage::kCuring) return;
  if (!at.last_hot) return;
  const model::Day over = *at.last_hot + days{whole(study.rules()(limits::ready_curing))};
  if (over <= study.history().today) return;
  into.push_back({std::string(kForeseenReady),
                  over,
                  over,
                  std::nullopt,
                  cures_until_words(over, study),
                  {},
                  ready_line(),
                  kForeseenReady});
}

void tell_treatments(const Study& study, const std::optional<HeatForecast>& forecast,
                     Forecasts& into) {
  for (const Treatment& one : study.treatments()) {
    if (one.outcome != Outcome::kNotYet || !one.earliest || one.tally.met) continue;
    std::optional<model::Day> cooler;
    if (forecast && one.window) {
      cooler = first_day(forecast->days, [&](const HeatForecast::Day& day) {
        return day.day > study.history().today && !one.rule.warm_enough(day.likely);
      });
      if (cooler && *cooler > *one.earliest) cooler.reset();
    }
    into.push_back({std::string(one.name),
                    one.earliest,
                    std::nullopt,
                    std::nullopt,
                    met_words(one, cooler, study),
                    {},
                    met_line(one)});
  }
}

// Where a position's last two days lead, in days from the last reading to the limit.
struct Trend {
  std::string position;
  double last = 0;
  double days_to_limit = 0;
};

std::optional<Trend> steepest(const Study& study, double limit) {
  std::optional<Trend> found;
  const model::Deed* turned = study.history().last_deed(kTurned);
  for (const model::Series* series : study.history().all(kTemperature)) {
    if (series->days.size() < 2) continue;
    const model::DayRoll& now = series->days.back();
    const model::DayRoll& before = series->days[series->days.size() - 2];
    const double gap =
        std::chrono::duration<double, days::period>(now.last_at - before.last_at).count();
    if (gap > 3 || gap <= 0.25 || days_between(now.day, study.history().today) > 1) continue;
    if (turned != nullptr && turned->at >= before.last_at) continue;
    const double rise = (now.last - before.last) / gap;
    if (rise <= 0 || now.last < limit - kNear || now.last > limit) continue;
    const double to_limit = (limit - now.last) / rise;
    if (found && found->days_to_limit <= to_limit) continue;
    found = Trend{series->position, now.last, to_limit};
  }
  return found;
}

}  // namespace

std::vector<model::Forecast> foretell(const Study& study) {
  std::vector<model::Forecast> all;
  std::optional<HeatForecast> forecast;
  if (study.heat()) {
    forecast = study.heat()->ahead(kMostAhead);
    tell_temperature(study, *forecast, all);
    tell_end(study, all);
  }
  tell_curing(study, all);
  tell_treatments(study, forecast, all);
  return all;
}

std::optional<model::Finding> judge_heating(const Study& study) {
  const Celsius limit = study.rules()(limits::hot_above);
  const model::Deed* turned = study.history().last_deed(kTurned);
  model::Instant latest{};
  for (const model::Series* series : study.history().all(kTemperature)) {
    if (series->last->value > limit.value + kSameKelvins) return std::nullopt;  // pile.hot says it
    latest = std::max(latest, series->last->at);
  }
  // A day whose mean is past the limit and whose last reading is not has cooled since.
  if (study.at().peak_now > limit.value) return std::nullopt;
  // What it was before the turning says nothing of how fast it heats after it.
  if (turned != nullptr && turned->at >= latest) return std::nullopt;
  if (!study.heat()) return std::nullopt;
  const HeatForecast forecast = study.heat()->ahead(kMostAhead);
  const model::Day today = study.history().today;
  const int within = whole(study.rules()(limits::heating_days));
  const auto next = ahead(forecast, today);
  const auto over = first_day(next, [&](const auto& day) { return day.likely > limit.value; });
  const bool by_model = over && days_between(today, *over) <= within;
  const auto trend = steepest(study, limit.value);
  const bool by_trend = trend && trend->days_to_limit <= within;
  if (!by_model && !by_trend) return std::nullopt;
  model::Finding made =
      measured(kRuleHeating, Urgency::kToday, limits::hot_above, study, kTemperature);
  set_value(made, kTemperature, measure::value_of(Celsius{study.at().peak_now}));
  made.job = kJobTurn;
  made.facts.set(kNow, Celsius{by_trend ? trend->last : study.at().peak_now});
  made.facts.set(kLimit, limit);
  made.facts.set(kByTrend, by_trend);
  made.facts.set(kByModel, by_model);
  if (by_model) made.due = *over;
  if (by_trend) {
    made.facts.set(kPosition, trend->position);
    const model::Day when =
        today + days{std::max(1, static_cast<int>(std::ceil(trend->days_to_limit)))};
    made.due = by_model ? std::min(when, *over) : when;
  }
  if (!next.empty()) {
    made.facts.set(kForeseen, Celsius{next.front().likely});
    made.facts.set(kForeseenLow, Celsius{next.front().low});
    made.facts.set(kForeseenHigh, Celsius{next.front().high});
  }
  made.ends = {{By::kDeed, std::string(kTurned)}, {By::kReading, std::string(kTemperature)}};
  return made;
}

}  // namespace kinds::pile
