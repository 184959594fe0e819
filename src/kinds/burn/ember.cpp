#include "kinds/burn/ember.h"

#include <algorithm>
#include <map>

#include "kinds/burn/facts.h"
#include "kinds/burn/study.h"
#include "kinds/burn/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"

namespace kinds::burn {
namespace {

namespace limits = thresholds::burn;
using measure::Celsius;
using measure::Days;
using model::Finding;
using model::Urgency;

double hours(Days days) {
  return days.value * 24;
}

// A day's readings of the thermometer are one look, as hot as its hottest position: one cold edge
// says nothing of the core.
std::vector<Look> thermometer_looks(const model::History& history, model::Instant quenched,
                                    Celsius cold) {
  std::map<model::Day, Look> days;
  for (const model::Series* series : history.all(kTemperature)) {
    for (const model::DayRoll& roll : series->days) {
      if (roll.last_at <= quenched) continue;
      Look& look = days[roll.day];
      look.at = std::max(look.at, roll.last_at);
      look.read = std::max(look.read.value_or(Celsius{roll.last}), Celsius{roll.last});
      look.cold = *look.read <= cold;
    }
  }
  std::vector<Look> looks;
  for (const auto& [day, look] : days) looks.push_back(look);
  return looks;
}

std::vector<Look> looks_since(const model::History& history, const Course& course,
                              model::Instant from, Celsius cold) {
  std::vector<Look> looks = thermometer_looks(history, from, cold);
  // From then on warmth may be the compost's; smoke is not.
  const auto charging = [&](model::Instant at) { return course.charge && at > course.charge->at; };
  std::erase_if(looks, [&](const Look& look) { return charging(look.at); });
  for (const model::Sensed& sensed : history.sensed) {
    if (sensed.at < from || (sensed.word == kWarm.word && charging(sensed.at))) continue;
    Look look{sensed.at, {}, {}, {}};
    if (sensed.sense == kHeat) look.cold = sensed.word == kCold.word;
    if (sensed.sense == kWetness) look.wet = sensed.word != kDry.word;
    if (look.cold || look.wet) looks.push_back(look);
  }
  std::stable_sort(looks.begin(), looks.end(),
                   [](const Look& a, const Look& b) { return a.at < b.at; });
  return looks;
}

model::Ending ended_by(model::Ending::By by, std::string_view name) {
  return {.by = by, .name = std::string(name)};
}

measure::Number hours_since(model::Instant from, const Study& study) {
  return measure::Number{hours_between(from, study.history().now)};
}

Finding ember(std::string_view case_of, Urgency urgency, const auto& threshold,
              const Study& study) {
  Finding made = finding(kRuleEmber, urgency, threshold, study.rules());
  made.case_of = case_of;
  made.job = kJobQuench;
  made.ends = {ended_by(model::Ending::By::kJudgement, kCold),
               ended_by(model::Ending::By::kJudgement, kWet)};
  return made;
}

Finding still_hot(const Study& study) {
  Finding made = ember(kCaseHot, Urgency::kNow, limits::ember_cold, study);
  made.since = study.history().today;
  made.facts.set(kColdBelow, study.rules()(limits::ember_cold));
  if (const auto read = study.embers().hot->read) {
    made.value = model::Measured{"temperature", measure::value_of(*read), ""};
    made.facts.set(kHottest, *read);
  }
  return made;
}

// Nobody knows what is in there: as if it glowed.
Finding unseen(const Study& study, double since_look) {
  const Days every = study.rules()(limits::ember_look);
  Finding made = ember(kCaseUnseen, Urgency::kNow, limits::ember_look, study);
  made.value =
      model::Measured{"time since the last look", measure::value_of(Days{since_look / 24}), ""};
  made.facts.set(kOverdue, since_look > hours(every));
  made.facts.set(kSinceLook, measure::Number{since_look});
  made.facts.set(kEvery, measure::Number{hours(every)});
  return made;
}

// Found cold and wet too soon to trust: the look that was asked for then, until it is made.
Finding too_soon(const Study& study, double since_quench, double since_look) {
  const double settle = hours(study.rules()(limits::ember_settle));
  const bool due = since_quench >= settle;
  Finding made =
      ember(kCaseTooSoon, due ? Urgency::kNow : Urgency::kToday, limits::ember_settle, study);
  made.value =
      model::Measured{"time since the quench", measure::value_of(Days{since_quench / 24}), ""};
  made.facts.set(kOverdue, due);
  made.facts.set(kSettle, measure::Number{settle});
  made.facts.set(kFoundAfter, measure::Number{since_quench - since_look});
  return made;
}

}  // namespace

Embers embers_of(const model::History& history, const model::Rules& rules, const Course& course) {
  Embers embers;
  const auto from = course.watched_from();
  if (!from) return embers;
  const double settle = hours(rules(limits::ember_settle));
  for (const Look& look : looks_since(history, course, *from, rules(limits::ember_cold))) {
    embers.last_look = look.at;
    if (look.wet && !embers.out) embers.wet = *look.wet;
    if (look.cold) {
      const bool settled = hours_between(*from, look.at) >= settle;
      embers.cold = *look.cold && settled;
      embers.cold_early = *look.cold && !settled;
      embers.hot = *look.cold ? std::nullopt : std::optional(look);
      // Once it was out, only heat brings the watch back: char that dries later is no fire.
      if (!*look.cold) embers.out.reset();
    }
    if (embers.cold && embers.wet && !embers.out) embers.out = look.at;
  }
  return embers;
}

std::vector<std::string> gone_to(const model::History& history, const Course& course) {
  std::vector<std::string> places;
  for (const model::Movement& out : history.out) {
    if (!is_char(out) || out.at < *course.watched_from()) continue;
    const std::string place = out.to.empty() ? "elsewhere" : out.to;
    if (std::find(places.begin(), places.end(), place) == places.end()) places.push_back(place);
  }
  return places;
}

std::optional<Finding> judge_fire(const Study& study) {
  const Course& course = study.course();
  if (!course.lit || course.quenched) return std::nullopt;
  const measure::Number burning = hours_since(*course.lit, study);
  const bool overdue = burning.value > hours(study.rules()(limits::lit_hours));
  Finding made = finding(kRuleLit, Urgency::kNow, limits::lit_hours, study.rules());
  made.case_of = overdue ? kCaseOverdue : kCaseBurning;
  made.job = kJobQuench;
  made.since = study.history().last_deed(kLit)->day;
  made.value = model::Measured{"time since lit", measure::value_of(Days{burning.value / 24}), ""};
  made.facts.set(kSinceLit, burning);
  made.ends = {ended_by(model::Ending::By::kDeed, kQuenched)};
  return made;
}

std::optional<Finding> judge_embers(const Study& study) {
  const auto from = study.course().watched_from();
  const Embers& embers = study.embers();
  if (!from || embers.out) return std::nullopt;
  const double since_quench = hours_between(*from, study.history().now);
  const double since_look = hours_between(embers.last_look.value_or(*from), study.history().now);
  Finding made = [&] {
    if (embers.hot) return still_hot(study);
    if (embers.cold) return ember(kCaseNotWet, Urgency::kNow, limits::ember_settle, study);
    if (embers.cold_early && embers.wet) return too_soon(study, since_quench, since_look);
    return unseen(study, since_look);
  }();
  made.facts.set(kSinceQuench, measure::Number{since_quench});
  made.facts.set(kNoQuench, !study.course().quenched);
  made.facts.set(kGoneTo, gone_to(study.history(), study.course()));
  return made;
}

}  // namespace kinds::burn
