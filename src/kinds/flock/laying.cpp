#include "kinds/flock/laying.h"

#include <algorithm>

#include "kinds/finding.h"
#include "kinds/flock/facts.h"
#include "kinds/flock/study.h"
#include "kinds/flock/vocabulary.h"
#include "kinds/thresholds.h"
#include "science/animals/hens.h"

namespace kinds::flock {
namespace {

namespace limits = thresholds::flock;
using measure::Fraction;
using model::Ending;
using model::Finding;
using model::Reason;
using model::Support;
using model::Urgency;

Eggs eggs_before(const model::History& history, const model::Rules& rules, int skipped, int days) {
  const model::Day to = history.today - date::days{skipped + 1};
  const model::Day from = std::max(history.batch.started_day, to - date::days{days - 1});
  return eggs_between(history, rules, from, to);
}

std::optional<Fraction> rate_of(const Eggs& eggs) {
  if (!eggs.hen_days) return std::nullopt;
  return science::laying_rate(eggs.laid, *eggs.hen_days);
}

// What the records show that makes hens lay less, that which they support best in front.
std::vector<Reason> reasons(const Study& study) {
  std::vector<Reason> why;
  if (!study.wants().all.empty()) {
    Reason fed{kReasonShort, Support::kRead};
    fed.facts.set(kShortOf, study.wants().names());
    why.push_back(std::move(fed));
  }
  const model::Sensed* condition = condition_of(study.history(), study.rules());
  if (condition != nullptr && condition->word != kWell.word) {
    Reason seen{kReasonSeen, Support::kFelt};
    seen.facts.set(kSeen, condition->word);
    seen.facts.set(kSeenOn, condition->day);
    why.push_back(std::move(seen));
  }
  return why;
}

}  // namespace

Laying laying_of(const model::History& history, const model::Rules& rules) {
  Laying of{full_days(rules(limits::laying_days)),
            full_days(rules(limits::laying_before)),
            {},
            {},
            {},
            {}};
  of.now = eggs_before(history, rules, 0, of.days);
  of.before = eggs_before(history, rules, of.days, of.days_before);
  of.rate = rate_of(of.now);
  of.rate_before = rate_of(of.before);
  return of;
}

const model::Sensed* condition_of(const model::History& history, const model::Rules& rules) {
  const model::Sensed* condition = history.last_sensed(kCondition);
  if (condition == nullptr) return nullptr;
  const bool late = days_between(condition->day, history.today) <= rules(limits::told_days).value;
  return late ? condition : nullptr;
}

std::optional<Finding> judge_laying(const Study& study) {
  const Laying& of = study.laying();
  const model::Rules& rules = study.rules();
  const double least = rules(limits::laying_counted).value;
  if (!of.rate || !of.rate_before || of.now.days < least || of.before.days < least) return {};
  if (*of.rate_before <= Fraction{0}) return {};
  const Fraction fall{1 - *of.rate / *of.rate_before};
  const Fraction rounding{1e-9};
  if (fall + rounding < rules(limits::laying_fall)) return {};
  Finding made = finding(kRuleLaying, Urgency::kToday, limits::laying_fall, rules);
  made.job = kJobLook;
  made.value = model::Measured{"fall", measure::value_of(fall), ""};
  made.facts.set(kFall, fall);
  made.facts.set(kRate, *of.rate);
  made.facts.set(kRateBefore, *of.rate_before);
  made.facts.set(kDays, of.days);
  made.facts.set(kDaysBefore, of.days_before);
  made.reasons = reasons(study);
  made.ends = {{.by = Ending::By::kReading, .name = std::string(kEggs)}};
  return made;
}

std::optional<Finding> judge_counts(const Study& study) {
  const model::History& history = study.history();
  const auto birds = birds_on(history, history.today);
  const Laying& of = study.laying();
  if (!birds || of.now.by_movements || !of.rate || *of.rate <= Fraction{1}) return {};
  Finding made = finding(kRuleRecord, Urgency::kToday, "the records themselves");
  made.job = kJobCount;
  made.value = model::Measured{"laying", measure::value_of(*of.rate), ""};
  made.facts.set(kLaid, of.now.laid);
  made.facts.set(kDays, of.now.days);
  made.facts.set(kHenCount, *birds);
  made.ends = {{.by = Ending::By::kReading, .name = std::string(kBirds)},
               {.by = Ending::By::kReading, .name = std::string(kEggs)}};
  return made;
}

}  // namespace kinds::flock
