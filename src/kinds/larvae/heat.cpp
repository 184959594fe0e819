#include "kinds/larvae/heat.h"

#include <algorithm>
#include <cmath>

#include "kinds/finding.h"
#include "kinds/larvae/facts.h"
#include "kinds/larvae/study.h"
#include "kinds/larvae/vocabulary.h"
#include "kinds/thresholds.h"

namespace kinds::larvae {
namespace {

namespace limits = thresholds::larvae;
using measure::Celsius;
using measure::Days;
using model::Ending;
using model::Finding;
using model::Urgency;

bool is_fresh(const model::Series& series, const model::History& history, Days limit) {
  return history.now - series.last->at <=
         std::chrono::duration<double, date::days::period>(limit.value);
}

std::optional<Warmest> warmest_among(const model::History& history, const model::Rules& rules,
                                     std::string_view quantity) {
  std::optional<Warmest> warmest;
  for (const model::Series* series : history.all(quantity)) {
    if (!is_fresh(*series, history, rules(limits::fresh_days))) continue;
    const Celsius here{series->last->value};
    if (!warmest || here > warmest->at) warmest = Warmest{here, series};
  }
  return warmest;
}

Finding temperature_finding(std::string_view rule, std::string_view case_of, Urgency urgency,
                            auto threshold, const Study& study, Celsius value) {
  const Warmest& warmest = *study.warmest();
  Finding made = finding(rule, urgency, threshold, study.rules());
  made.case_of = case_of;
  made.job = kJobCool;
  made.value = model::Measured{"temperature", measure::value_of(value), ""};
  made.facts.set(kRead, value);
  made.facts.set(kPosition, warmest.series->position);
  made.facts.set(kByAir, warmest.by_air);
  made.ends = {{.by = Ending::By::kReading,
                .name = std::string(kTemperature),
                .position = warmest.by_air ? "" : warmest.series->position}};
  return made;
}

Finding hot(const Study& study) {
  const Celsius at = study.warmest()->at;
  const bool deadly = at >= study.rules()(limits::hot_lethal);
  return temperature_finding(kRuleHot, deadly ? kCaseDeadly : kCaseFled, Urgency::kNow,
                             limits::hot_above, study, at);
}

// A rise within the day: two readings at one place, hours apart, followed on.
std::optional<double> hours_to_limit(const model::History& history, const model::Rules& rules,
                                     const Warmest& warmest) {
  const model::Series& series = *warmest.series;
  if (!series.before_last) return std::nullopt;
  const auto hours = [](auto time) {
    return std::chrono::duration<double, std::ratio<3600>>(time).count();
  };
  const double ahead = rules(limits::hot_ahead).value * 24;
  const double between = hours(series.last->at - series.before_last->at);
  const double since = hours(history.now - series.last->at);
  const double rise = series.last->value - series.before_last->value;
  // Closer together than this, a thermometer's own last digit makes a slope.
  constexpr double kLeastHours = 0.5;
  if (between < kLeastHours || between > 2 * ahead || since > ahead || rise <= 0)
    return std::nullopt;
  const double limit = rules(limits::hot_above).value - warmest.offset.value;
  const double to_go = (limit - series.last->value) / (rise / between) - since;
  if (to_go > ahead) return std::nullopt;
  return std::max(to_go, 0.0);
}

// What tomorrow's highest reading would be if the last days' went on in a straight line.
std::optional<Celsius> tomorrows_high(const model::History& history, const model::Rules& rules,
                                      const Warmest& warmest) {
  const int spell = static_cast<int>(rules(limits::hot_spell).value);
  std::vector<std::pair<double, double>> highs;  // days from today (negative), highest
  for (const model::DayRoll& roll : model::pooled_days(history.all(warmest.series->quantity))) {
    const int back = days_between(roll.day, history.today);
    if (back >= 0 && back <= spell) highs.push_back({-back, roll.greatest + warmest.offset.value});
  }
  if (spell < 2 || static_cast<int>(highs.size()) < spell) return std::nullopt;
  double mean_x = 0, mean_y = 0, up = 0, across = 0;
  for (const auto& [x, y] : highs) {
    mean_x += x / static_cast<double>(highs.size());
    mean_y += y / static_cast<double>(highs.size());
  }
  for (const auto& [x, y] : highs) {
    up += (x - mean_x) * (y - mean_y);
    across += (x - mean_x) * (x - mean_x);
  }
  if (up <= 0) return std::nullopt;
  return Celsius{mean_y + up / across * (1 - mean_x)};
}

std::optional<Finding> heating(const Study& study) {
  const model::History& history = study.history();
  const Warmest& warmest = *study.warmest();
  if (const auto hours = hours_to_limit(history, study.rules(), warmest)) {
    Finding made = temperature_finding(kRuleHeating, kCaseToday, Urgency::kToday, limits::hot_above,
                                       study, warmest.at);
    made.facts.set(kHours, static_cast<int>(std::ceil(*hours)));
    made.due = history.today;
    return made;
  }
  const auto high = tomorrows_high(history, study.rules(), warmest);
  if (!high || *high <= study.rules()(limits::hot_above)) return std::nullopt;
  Finding made = temperature_finding(kRuleHeating, kCaseTomorrow, Urgency::kSoon, limits::hot_above,
                                     study, *high);
  made.due = history.today + date::days{1};
  return made;
}

Finding cold(const Study& study) {
  const Celsius at = study.warmest()->at;
  const Diet& diet = study.diet();
  const auto made_of = [&](std::string_view case_of, Urgency urgency, auto threshold) {
    Finding made = temperature_finding(kRuleCold, case_of, urgency, threshold, study, at);
    made.job = kJobWarm;
    return made;
  };
  if (at <= study.rules()(limits::cold_harm))
    return made_of(kCaseFrost, Urgency::kNow, limits::cold_harm);
  if (at <= study.rules()(diet.from)) return made_of(kCaseStill, Urgency::kToday, diet.from);
  return made_of(kCaseSlow, Urgency::kToday, limits::cold_below);
}

}  // namespace

std::optional<Warmest> warmest_of(const model::History& history, const model::Rules& rules) {
  if (auto bin = warmest_among(history, rules, kTemperature)) return bin;
  auto air = warmest_among(history, rules, kAir);
  if (!air) return std::nullopt;
  air->by_air = true;
  air->offset = rules(limits::air_offset);
  air->at = air->at + air->offset;
  return air;
}

Comfort comfort_of(const std::optional<Warmest>& warmest, const Diet& diet,
                   const model::Rules& rules) {
  if (!warmest) return Comfort::kUnknown;
  if (warmest->at > rules(limits::hot_above)) return Comfort::kHot;
  if (warmest->at >= rules(limits::cold_below)) return Comfort::kWell;
  return warmest->at <= rules(diet.from) ? Comfort::kDormant : Comfort::kSlow;
}

std::optional<Finding> judge_temperature(const Study& study) {
  switch (study.comfort()) {
    case Comfort::kUnknown:
      return std::nullopt;
    case Comfort::kHot:
      return hot(study);
    case Comfort::kWell:
      return heating(study);
    case Comfort::kSlow:
    case Comfort::kDormant:
      return cold(study);
  }
  return std::nullopt;
}

}  // namespace kinds::larvae
