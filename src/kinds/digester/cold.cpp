#include "kinds/digester/cold.h"

#include <cmath>

#include "kinds/digester/facts.h"
#include "kinds/digester/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"
#include "science/gas/temperature_rate.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Celsius;
using measure::Days;
using measure::Kelvins;
using model::DayRoll;
using model::Urgency;
using By = model::Ending::By;

Found swing(const Study& study, std::string_view which, model::Threshold<Kelvins> rule,
            Kelvins size, model::Day over) {
  model::Finding made = finding(kRuleSwing, Urgency::kToday, rule, study.rules());
  made.case_of = which;
  made.job = kJobWarm;
  made.value = model::Measured{"change", measure::value_of(size), ""};
  made.facts.set(kChange, size);
  made.ends = {{.by = By::kDay, .day = over}};
  return made;
}

// Within hours: over half a day a steady change and a jump look alike; within minutes a probe
// settles.
Found swing_in_hours(const Study& study) {
  const model::History& history = study.history();
  const model::Rules& rules = study.rules();
  for (const model::Series* series : history.all(kTemperature)) {
    if (!series->before_last || series->last->at < history.now - std::chrono::hours{24}) continue;
    const double hours =
        std::chrono::duration<double, std::ratio<3600>>(series->last->at - series->before_last->at)
            .count();
    if (hours < 0.5 || hours > 12) continue;
    const Kelvins change{std::fabs(series->last->value - series->before_last->value)};
    const bool cold = Celsius{series->last->value} < rules(limits::cold_below);
    const auto rule = cold ? limits::swing_hour_cold : limits::swing_hour;
    const Kelvins hourly = change / hours;
    if (hourly <= rules(rule)) continue;
    return swing(study, kCaseHour, rule, hourly, history.today + date::days{1});
  }
  return std::nullopt;
}

}  // namespace

Found judge_cold(const Study& study) {
  const Warmth& warmth = study.warmth();
  if (!warmth.cold) return std::nullopt;
  const bool winter = study.winter();
  const bool by_itself = warmth.recovers();
  model::Finding made = finding(kRuleCold, winter || by_itself ? Urgency::kSoon : Urgency::kToday,
                                limits::cold_below, study.rules());
  made.case_of = winter ? kCaseWinter : by_itself ? kCaseSpell : kCaseStays;
  made.job = kJobWarm;
  made.since = warmth.below_since;
  made.value = model::Measured{"temperature", measure::value_of(*warmth.mean), ""};
  made.facts.set(kMean, *warmth.mean);
  made.facts.set(kRunning, study.running());
  made.ends = {{.by = By::kReading, .name = std::string(kTemperature), .day = warmth.back_on}};
  return made;
}

Found judge_winter(const Study& study) {
  if (!study.winter()) return std::nullopt;
  const model::Rules& rules = study.rules();
  const Warmth& warmth = study.warmth();
  const int days = days_between(*warmth.below_since, study.history().today) + 1;
  model::Finding made = finding(kRuleWinter, Urgency::kSoon, limits::winter_days, rules);
  made.job = kJobWarm;
  made.since = warmth.below_since;
  made.value =
      model::Measured{"time below", measure::value_of(Days{static_cast<double>(days)}), ""};
  made.facts.set(kDays, days);
  made.facts.set(kJudgedDays, warmth.below_judged);
  made.facts.set(kDay, *warmth.below_since);
  made.facts.set(kMean, *warmth.mean);
  made.facts.set(kRunning, study.running());
  const science::TemperatureRate response{.theta = rules(limits::gas_theta),
                                          .reference = rules(limits::cold_below),
                                          .ceiling = rules(limits::gas_ceiling)};
  if (const auto rate = science::relative_rate(*warmth.mean, response)) {
    made.facts.set(kPace, measure::Fraction{rate->value});
  }
  made.ends = {{.by = By::kReading, .name = std::string(kTemperature)},
               {.by = By::kDeed, .name = std::string(kRested)}};
  return made;
}

Found judge_swing(const Study& study) {
  if (auto hourly = swing_in_hours(study)) return hourly;
  const model::History& history = study.history();
  const auto rolls = whole_days(history, study.rules()).rolls;
  if (rolls.size() < 2) return std::nullopt;
  const DayRoll& last = rolls.back();
  const DayRoll& before = rolls[rolls.size() - 2];
  const int apart = days_between(before.day, last.day);
  if (days_between(last.day, history.today) > 1 || apart > 2) return std::nullopt;
  const Kelvins daily{std::fabs(last.mean() - before.mean()) / apart};
  if (daily <= study.rules()(limits::swing_day)) return std::nullopt;
  return swing(study, kCaseDay, limits::swing_day, daily, last.day + date::days{2});
}

}  // namespace kinds::digester
