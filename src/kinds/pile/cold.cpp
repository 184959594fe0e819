#include <algorithm>
#include <array>

#include "kinds/finding.h"
#include "kinds/pile/care.h"
#include "kinds/pile/vocabulary.h"
#include "kinds/thresholds.h"

// Why a pile is colder than it should be, and what that does to its treatment.
namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using measure::Celsius;
using model::Support;
using model::Urgency;
using By = model::Ending::By;

using Reasons = std::vector<model::Reason>;

std::optional<measure::Litres> volume_of(const Study& study) {
  const model::History& history = study.history();
  if (const auto read = history.all(kVolume); !read.empty()) {
    return measure::Litres{read.front()->last->value};
  }
  if (const auto said = history.batch.number(kBuiltVolume)) return measure::Litres{said->si};
  return study.inputs().blend ? study.inputs().blend->volume : std::nullopt;
}

template <class T>
model::Reason because(std::string_view id, Support support, model::Fact<T> fact, T value) {
  model::Reason made{id, support};
  made.facts.set(fact, value);
  return made;
}

void add_damp(const Study& study, Reasons& reasons) {
  const auto found = damp(study.history(), study.rules());
  if (!found || found->is == Damp::Is::kFine) return;
  const std::string_view id = found->is == Damp::Is::kTooLow ? kTooDry : kTooWet;
  if (found->measured) {
    reasons.push_back(because(id, Support::kRead, kMoistureRead, *found->measured));
  } else {
    reasons.push_back({id, Support::kFelt});
  }
}

void add_weather(const Study& study, Reasons& reasons) {
  for (const model::Series* series : study.history().all(kOxygen)) {
    const measure::Fraction oxygen{series->last->value};
    if (oxygen < study.rules()(limits::cold_oxygen)) {
      reasons.push_back(because(kShortOfOxygen, Support::kRead, kOxygenRead, oxygen));
    }
  }
  const auto& air = study.at().air;
  if (air && *air <= study.rules()(limits::cold_frost)) {
    reasons.push_back(because(kFrost, Support::kRead, kAirNow, *air));
  }
}

void add_contents(const Study& study, Reasons& reasons) {
  const StartRatio& ratio = study.ratio();
  if (ratio.value && ratio.value->value > study.rules()(limits::mix_cn_most).value) {
    reasons.push_back(because(kLittleNitrogen,
                              ratio.measured ? Support::kRead : Support::kWorkedOut, kRatio,
                              *ratio.value));
  }
  const auto volume = volume_of(study);
  if (volume && *volume < study.rules()(limits::cold_small)) {
    reasons.push_back(because(kTooSmall, Support::kWorkedOut, kSize, *volume));
  }
  if (study.at().hot_days >= whole(study.rules()(limits::cold_spent_days))) {
    reasons.push_back(because(kSpent, Support::kWorkedOut, kHotDays, study.at().hot_days));
    reasons.back().facts.set(kAllShown, study.shown());
  }
}

void add_turning(const Study& study, Reasons& reasons) {
  const auto turning = study.course().last_turning();
  const model::Day today = study.history().today;
  if (turning && days_between(*turning, today) <= whole(study.rules()(limits::turn_recovers))) {
    reasons.push_back({kJustTurned, Support::kWorkedOut});
  } else if (study.at().first_hot && study.method() == Method::kByTurning) {
    const int since = days_between(turning.value_or(study.course().start), today);
    if (since < whole(study.rules()(limits::turn_every))) return;
    reasons.push_back(because(kNotTurned, Support::kWorkedOut, kDaysSince, since));
  }
}

Reasons reasons_for_cold(const Study& study) {
  Reasons reasons;
  add_damp(study, reasons);
  add_weather(study, reasons);
  add_contents(study, reasons);
  add_turning(study, reasons);
  std::stable_sort(reasons.begin(), reasons.end(),
                   [](const auto& a, const auto& b) { return a.support < b.support; });
  return reasons;
}

// What both findings of the cold say: how cold, why, and what came of the treatment's days.
void explain(const Study& study, const Treatment* halted, model::Finding& made) {
  const Celsius now{study.at().peak_now};
  set_value(made, kTemperature, measure::value_of(now));
  made.facts.set(kNow, now);
  made.facts.set(kDaysOld, days_between(study.course().start, study.history().today));
  if (halted != nullptr) {
    made.facts.set(kTreatment, std::string(halted->name));
    made.facts.set(kTreatmentWanted, halted->wanted.days);
    if (halted->window) made.facts.set(kTreatmentDays, halted->window->days);
  }
  made.reasons = reasons_for_cold(study);
  made.job = made.reasons.empty() ? kJobRead : job_against(made.reasons.front().id);
  made.ends = {{By::kReading, std::string(kTemperature)}};
}

// The day on which the pile was found below the heat of a treatment and has been since.
std::optional<model::Day> below_since(const Study& study, const DayRule& rule) {
  std::optional<model::Day> since;
  for (const DaySeen& day : study.course().days) {
    if (rule.warm_enough(day.peak())) {
      since.reset();
    } else if (!since) {
      since = day.day;
    }
  }
  return since;
}

// A turning cools a pile for a day or two: the first one since it was last at heat is waited out.
bool recovers(const Study& study, model::Day since) {
  for (const model::Day turning : study.course().turnings) {
    if (turning < since - date::days{1}) continue;
    return days_between(turning, study.history().today) <=
           whole(study.rules()(limits::turn_recovers));
  }
  return false;
}

// What was not read of late is not known: pile.unread asks for it.
bool is_unread(const Study& study) {
  const DaySeen* last = study.course().last();
  return last == nullptr || days_between(last->day, study.history().today) >
                                full_days(study.rules()(limits::unread_days));
}

// The first treatment asked for whose days are not there and whose heat the pile has not.
const Treatment* halted(const Study& study) {
  if (study.method() == Method::kCold) return nullptr;
  for (const Treatment& one : study.treatments()) {
    if (!one.tally.met && !one.rule.warm_enough(study.at().peak_now)) return &one;
  }
  return nullptr;
}

}  // namespace

std::string_view job_against(std::string_view reason) {
  struct Answer {
    std::string_view reason, job;
  };
  constexpr std::array kAnswers{
      Answer{kTooDry, kJobTurn},        Answer{kTooWet, kJobTurn}, Answer{kShortOfOxygen, kJobTurn},
      Answer{kNotTurned, kJobTurn},     Answer{kFrost, kJobCover}, Answer{kTooSmall, kJobCover},
      Answer{kLittleNitrogen, kJobMix}, Answer{kSpent, kJobMix},   Answer{kJustTurned, kJobRead},
  };
  for (const Answer& one : kAnswers) {
    if (one.reason == reason) return one.job;
  }
  return kJobRead;
}

Found judge_cold(const Study& study) {
  const Standing& at = study.at();
  if (is_unread(study)) return std::nullopt;

  const bool active = at.stage == Stage::kNotHeating || in_heat(at.stage) ||
                      at.stage == Stage::kCooling || at.stage == Stage::kCuring;
  if (!active || study.days_shown() || study.course().days.empty()) return std::nullopt;
  const Celsius limit = study.rules()(limits::cold_below);
  if (at.peak_now >= limit.value - kSameKelvins || at.dipped) return std::nullopt;
  model::Finding made =
      measured(kRuleCold, Urgency::kToday, limits::cold_below, study, kTemperature);
  made.case_of = at.stage == Stage::kNotHeating ? kCaseNeverHeated : kCaseNotShown;
  made.since = below_since(study, {limit.value, false, std::nullopt});
  made.facts.set(kLimit, limit);
  explain(study, halted(study), made);
  return made;
}

Found judge_stopped(const Study& study) {
  if (study.at().stage != Stage::kWarm || study.at().dipped || is_rising(study.course()) ||
      is_unread(study)) {
    return std::nullopt;
  }

  const Treatment* one = halted(study);
  if (one == nullptr) return std::nullopt;
  const auto since = below_since(study, one->rule);
  if (!since || recovers(study, *since)) return std::nullopt;
  const int age = days_between(study.course().start, study.history().today);
  if (!one->window && age <= whole(study.rules()(limits::cold_after))) return std::nullopt;
  model::Finding made =
      measured(kRuleStopped, Urgency::kToday, limits::treat_from, study, kTemperature);
  made.case_of = one->window ? kCaseBroken : kCaseNoDay;
  made.since = since;
  made.facts.set(kLimit, Celsius{one->rule.from});
  explain(study, one, made);
  return made;
}

Found judge_edge(const Study& study) {
  if (!in_heat(study.at().stage) || is_unread(study)) return std::nullopt;
  const DaySeen& last = *study.course().last();
  const PositionDay& cold = last.coldest();
  const auto turning = study.course().last_turning();
  if (turning && *turning >= last.day) return std::nullopt;
  for (const Treatment& one : study.treatments()) {
    if (one.tally.met || one.rule.warm_enough(cold.least)) continue;
    int held = 0;
    for (auto day = one.days.rbegin(); day != one.days.rend(); ++day) {
      if (day->grade == Grade::kGap) continue;
      const DaySeen* seen = study.course().on(day->day);
      if (seen == nullptr || day->grade != Grade::kBelow || !one.rule.warm_enough(seen->peak()))
        break;
      ++held;
    }
    if (held < whole(study.rules()(limits::turn_every))) continue;
    model::Finding made =
        measured(kRuleEdge, Urgency::kToday, limits::treat_from, study, kTemperature);
    set_value(made, kTemperature, measure::value_of(Celsius{cold.least}));
    made.job = kJobTurn;
    made.facts.set(kOuter, Celsius{cold.least});
    made.facts.set(kPosition, cold.position);
    made.facts.set(kNow, Celsius{last.peak()});
    made.facts.set(kLimit, Celsius{one.rule.from});
    made.facts.set(kTreatment, std::string(one.name));
    made.facts.set(kDaysHeld, held);
    made.ends = {{By::kReading, std::string(kTemperature), cold.position},
                 {By::kDeed, std::string(kTurned)}};
    return made;
  }
  return std::nullopt;
}

}  // namespace kinds::pile
