#include "kinds/larvae/harvest.h"

#include <algorithm>

#include "kinds/finding.h"
#include "kinds/larvae/facts.h"
#include "kinds/larvae/study.h"
#include "kinds/larvae/vocabulary.h"
#include "kinds/thresholds.h"

namespace kinds::larvae {
namespace {

namespace limits = thresholds::larvae;
using measure::Fraction;
using model::Ending;
using model::Finding;
using model::Urgency;

bool is_late(const Study& study) {
  const model::Rules& rules = study.rules();
  const auto& dark = study.dark().last;
  if (dark && Fraction{dark->value} >= rules(limits::harvest_dark_late)) return true;
  const Diet& diet = study.diet();
  return study.readiness().by_warmth &&
         study.warmth().total >= rules(diet.constant) + rules(diet.error);
}

std::vector<Ending> by_harvest() {
  return {{.by = Ending::By::kTaking, .name = std::string(kLiveLarvae)},
          {.by = Ending::By::kEndOfBatch}};
}

Finding ready(const Study& study) {
  const Readiness& readiness = study.readiness();
  const bool dark_first = readiness.since() == readiness.by_dark;
  // A handful taken before is no harvest: most larvae are still in there.
  const auto begun = first_harvest(study.history(), *readiness.since());
  const Urgency urgency = !begun && is_late(study) ? Urgency::kToday : Urgency::kReady;
  Finding made = dark_first ? finding(kRuleHarvest, urgency, limits::harvest_dark, study.rules())
                            : finding(kRuleHarvest, urgency, study.diet().constant, study.rules());
  made.case_of = dark_first ? kCaseByDark : kCaseByWarmth;
  made.job = kJobHarvest;
  made.since = readiness.since();
  made.value =
      dark_first
          ? model::Measured{"dark", {measure::Dimension::kFraction, study.dark().last->value}, ""}
          : model::Measured{"warmth", measure::value_of(study.warmth().total), ""};
  if (begun) made.facts.set(kHarvestSince, *begun);
  made.facts.set(kLate, is_late(study));
  made.facts.set(kMayBeDead, study.ordeal().has_value());
  if (auto feeds = study.kept_from_animals(); !feeds.empty()) made.facts.set(kFeeds, feeds);
  made.ends = by_harvest();
  return made;
}

// Nothing was read of it: time alone asks for a look.
std::optional<Finding> unread(const Study& study) {
  const int days = days_between(study.course().seeded, study.history().today);
  if (study.warmth().days || study.dark().last ||
      days < study.rules()(limits::harvest_look).value) {
    return std::nullopt;
  }
  Finding made = finding(kRuleHarvest, Urgency::kToday, limits::harvest_look, study.rules());
  made.case_of = kCaseUnread;
  made.job = kJobLook;
  made.value =
      model::Measured{"time since seeding", measure::value_of(measure::Days{1.0 * days}), ""};
  made.facts.set(kDays, days);
  made.ends = {{.by = Ending::By::kReading, .name = std::string(kDark)},
               {.by = Ending::By::kReading, .name = std::string(kTemperature)}};
  return made;
}

std::optional<Finding> near(const Study& study) {
  const auto& foreseen = study.foreseen();
  if (!foreseen || !foreseen->likely) return std::nullopt;
  if (days_between(study.history().today, *foreseen->likely) >
      study.rules()(limits::harvest_soon).value) {
    return std::nullopt;
  }
  Finding made = finding(kRuleHarvest, Urgency::kSoon, study.diet().constant, study.rules());
  made.case_of = kCaseNear;
  made.job = kJobHarvest;
  made.value = model::Measured{"warmth", measure::value_of(study.warmth().total), ""};
  made.due = foreseen->likely;
  made.ends = by_harvest();
  return made;
}

}  // namespace

DarkShare dark_share_of(const model::History& history, const model::Rules& rules) {
  DarkShare dark;
  const model::Day seeded = seeding_day(history);
  for (const model::DayRoll& roll : model::pooled_days(history.all(kDark))) {
    if (roll.day < seeded) continue;
    dark.last = model::Reading{roll.last_at, roll.last};
    dark.last_day = roll.day;
    if (!dark.reached && Fraction{roll.last} >= rules(limits::harvest_dark))
      dark.reached = roll.day;
  }
  dark.stands = dark.last && Fraction{dark.last->value} >= rules(limits::harvest_dark);
  return dark;
}

std::optional<model::Day> first_harvest(const model::History& history, model::Day from) {
  for (const model::Movement& movement : history.out) {
    if (is_larvae(movement) && movement.day >= from) return movement.day;
  }
  return std::nullopt;
}

std::optional<Finding> judge_harvest(const Study& study) {
  if (study.readiness().ready()) return ready(study);
  if (auto look = unread(study)) return look;
  return near(study);
}

}  // namespace kinds::larvae
