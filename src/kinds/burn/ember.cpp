#include "kinds/burn/ember.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <vector>

#include "kinds/thresholds.h"
#include "kinds/finding.h"
#include "measure/text.h"

namespace kinds::burn {
namespace {

namespace limits = thresholds::burn;
using measure::Celsius;
using measure::Days;
using model::Urgency;

// What somebody saw of quenched char: its heat, its moisture or both.
struct Look {
  model::Instant at;
  std::optional<bool> cold;
  std::optional<bool> wet;
  std::optional<Celsius> read;  // none: felt by hand
};

double hours(Days days) {
  return days.value * 24;
}

// A day's readings of the thermometer are one look, as hot as its hottest position: one cold edge
// says nothing of the core.
std::vector<Look> thermometer_looks(const model::History& history, model::Instant quenched,
                                    Celsius cold) {
  std::map<model::Day, Look> days;
  for (const model::Series* series : history.all("temperature")) {
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

std::vector<Look> looks_since_quench(const model::History& history, const Course& course,
                                     Celsius cold) {
  std::vector<Look> looks = thermometer_looks(history, *course.quenched, cold);
  // From then on warmth may be the compost's; smoke is not.
  const auto charging = [&](model::Instant at) { return course.charge && at > course.charge->at; };
  std::erase_if(looks, [&](const Look& look) { return charging(look.at); });
  for (const model::Sensed& sensed : history.sensed) {
    if (sensed.at < *course.quenched || (sensed.word == "warm" && charging(sensed.at))) continue;
    Look look{sensed.at, {}, {}, {}};
    if (sensed.sense == "heat") look.cold = sensed.word == "cold";
    if (sensed.sense == "moisture") look.wet = sensed.word != "dry";
    if (look.cold || look.wet) looks.push_back(look);
  }
  std::stable_sort(looks.begin(), looks.end(),
                   [](const Look& a, const Look& b) { return a.at < b.at; });
  return looks;
}

struct Embers {
  std::optional<model::Instant> out;  // found cold long enough after the quench, and wet
  bool cold = false;                  // long enough after the quench
  bool cold_early = false;            // cold, but too soon to trust
  bool wet = false;
  const Look* hot = nullptr;  // the last look at its heat, where that was not cold
};

// Once it was out, only heat brings the watch back: char that dries later is no fire.
Embers embers_by(const std::vector<Look>& looks, model::Instant quenched, Days settle) {
  Embers embers;
  for (const Look& look : looks) {
    if (look.wet && !embers.out) embers.wet = *look.wet;
    if (look.cold) {
      const bool settled = hours_between(quenched, look.at) >= hours(settle);
      embers.cold = *look.cold && settled;
      embers.cold_early = *look.cold && !settled;
      embers.hot = *look.cold ? nullptr : &look;
      if (!*look.cold) embers.out.reset();
    }
    if (embers.cold && embers.wet && !embers.out) embers.out = look.at;
  }
  return embers;
}

model::Told ember(Urgency urgency, const auto& threshold, const model::Rules& rules) {
  model::Told made = finding("burn.ember", urgency, threshold, rules);
  made.old_caution = kEmberCaution;
  return made;
}

model::Told still_hot(const model::History& history, const model::Rules& rules,
                         const Look& look) {
  model::Told made = ember(Urgency::kNow, limits::ember_cold, rules);
  const measure::Printer print(history.units);
  if (look.read) {
    made.words.says = fmt::format("the quenched char is still hot: {}, above {}", print(*look.read),
                            print(rules(limits::ember_cold)));
    made.value = model::Measured{"temperature", measure::value_of(*look.read), ""};
  } else {
    made.words.says = "the quenched char is still warm or smoking";
  }
  made.words.action = "drown it and stir it to the bottom, then look again";
  return made;
}

model::Told unseen(const model::Rules& rules, double since_quench, double since_look) {
  const Days every = rules(limits::ember_look);
  const bool overdue = since_look > hours(every);
  model::Told made = ember(overdue ? Urgency::kNow : Urgency::kToday, limits::ember_look, rules);
  made.value =
      model::Measured{"time since the last look", measure::value_of(Days{since_look / 24}), ""};
  made.words.says = overdue ? fmt::format("quenched {} ago and not looked at for {}",
                                    hours_words(since_quench), hours_words(since_look))
                      : fmt::format("quenched {} ago, not yet found cold and wet",
                                    hours_words(since_quench));
  made.words.action = fmt::format(
      "look at it every {} until it is cold and wet: stir it, feel it, log cold "
      "and wet",
      hours_words(hours(every)));
  return made;
}

// Found cold and wet too soon to trust: the look that was asked for then, until it is made. Left
// for as long again, it is urgent.
model::Told once_more(const model::Rules& rules, double since_quench, double found_after) {
  const Days settle = rules(limits::ember_settle);
  const bool late = since_quench > 2 * hours(settle);
  model::Told made = ember(late ? Urgency::kNow : Urgency::kToday, limits::ember_settle, rules);
  made.value =
      model::Measured{"time since the quench", measure::value_of(Days{since_quench / 24}), ""};
  if (since_quench < hours(settle)) {
    made.words.says = fmt::format("cold and wet, but quenched only {} ago: embers inside can take {}",
                            hours_words(since_quench), hours_words(hours(settle)));
    made.words.action = fmt::format("stir it and feel it once more in {}",
                              hours_words(std::ceil(std::max(1.0, hours(settle) - since_quench))));
    return made;
  }
  made.words.says = fmt::format(
      "last found cold and wet {} after the quench, too soon to trust: embers inside can take {}",
      hours_words(found_after), hours_words(hours(settle)));
  made.words.action = "stir it to the bottom, feel it once more now, and log cold and wet";
  return made;
}

model::Told not_wet(const model::Rules& rules) {
  model::Told made = ember(Urgency::kToday, limits::ember_settle, rules);
  made.words.says = "found cold, but nobody has logged that it is wet";
  made.words.why = "dry char can glow on unseen and takes fire from one spark";
  made.words.action = "wet it through, stir it and log wet";
  return made;
}

// Where char went before it was out: the watch has to follow it.
std::string gone_words(const model::History& history, const Course& course) {
  std::vector<std::string> places;
  for (const model::Movement& out : history.out) {
    if (!is_char(out) || out.at < *course.quenched) continue;
    const std::string place = out.to.empty() ? "elsewhere" : out.to;
    if (std::find(places.begin(), places.end(), place) == places.end()) places.push_back(place);
  }
  if (places.empty()) return "";
  return fmt::format("char of it went to {} all the same: look at it there too",
                     measure::listed(places, "and"));
}

}  // namespace

void judge_fire(const model::History& history, const model::Rules& rules, const Course& course,
                model::Assessment& into) {
  if (!course.lit || course.quenched) return;
  const double burning = hours_between(*course.lit, history.now);
  const Days limit = rules(limits::lit_hours);
  const bool overdue = burning > hours(limit);
  model::Told made = finding("burn.lit", Urgency::kNow, limits::lit_hours, rules);
  made.value = model::Measured{"time since lit", measure::value_of(Days{burning / 24}), ""};
  made.words.says = fmt::format("lit {} ago and no quench is logged", hours_words(burning));
  made.words.action = overdue ? "go and look; quench what still burns and log quenched"
                        : "stay with it until it is quenched, then log quenched";
  made.old_caution = kFireCaution;
  into.findings.push_back(std::move(made));
}

std::optional<Objection> objects_to_taking(const model::Movement& load,
                                           const model::History& history,
                                           const model::Rules& rules) {
  const Course course = course_of(history);
  if (!is_char(load) || (!course.lit && !course.quenched)) return std::nullopt;
  const auto refused = [&](const std::string& why) {
    return Objection{true, "burn.ember",
                     why +
                         "; char that looks out can flare up again for a day or more, so keep it "
                         "outdoors on bare ground, away from buildings",
                     rules.in_force(*limits::ember_settle.info).source};
  };
  if (!course.quenched) {
    return refused(fmt::format("{} was lit {} ago and no quench is logged", history.batch.code,
                               hours_words(hours_between(*course.lit, history.now))));
  }
  const Days settle = rules(limits::ember_settle);
  const auto looks = looks_since_quench(history, course, rules(limits::ember_cold));
  if (embers_by(looks, *course.quenched, settle).out) return std::nullopt;
  return refused(
      fmt::format("{} was quenched {} ago and is not found cold and wet {} or more after "
                  "that: stir it, feel it, and 'log {} cold wet' first",
                  history.batch.code, hours_words(hours_between(*course.quenched, history.now)),
                  hours_words(hours(settle)), history.batch.code));
}

std::optional<model::Instant> judge_embers(const model::History& history, const model::Rules& rules,
                                           const Course& course, model::Assessment& into) {
  if (!course.quenched) return std::nullopt;
  const Days settle = rules(limits::ember_settle);
  const auto looks = looks_since_quench(history, course, rules(limits::ember_cold));
  const Embers embers = embers_by(looks, *course.quenched, settle);
  if (embers.out) return embers.out;
  const double since_quench = hours_between(*course.quenched, history.now);
  if (history.batch.ended) return std::nullopt;
  const double since_look =
      looks.empty() ? since_quench : hours_between(looks.back().at, history.now);
  into.progress.push_back(
      progress("cold and wet", since_quench, hours(settle),
               fmt::format("{} since the quench; out when found cold and wet from {} on",
                           hours_words(since_quench), hours_words(hours(settle)))));
  if (embers.hot != nullptr) {
    into.findings.push_back(still_hot(history, rules, *embers.hot));
  } else if (embers.cold) {
    into.findings.push_back(not_wet(rules));
  } else if (embers.cold_early && embers.wet) {
    into.findings.push_back(once_more(rules, since_quench, since_quench - since_look));
  } else {
    into.findings.push_back(unseen(rules, since_quench, since_look));
  }
  if (const std::string gone = gone_words(history, course); !gone.empty()) {
    std::string& why = into.findings.back().words.why;
    why += (why.empty() ? "" : "; ") + gone;
  }
  return std::nullopt;
}

}  // namespace kinds::burn
