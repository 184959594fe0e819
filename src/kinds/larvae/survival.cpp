#include "kinds/larvae/survival.h"

#include <algorithm>

#include "kinds/finding.h"
#include "kinds/larvae/facts.h"
#include "kinds/larvae/study.h"
#include "kinds/larvae/vocabulary.h"
#include "kinds/thresholds.h"

namespace kinds::larvae {
namespace {

namespace limits = thresholds::larvae;
using measure::Celsius;
using model::Ending;
using model::Urgency;

// The day on which somebody last saw that they live: weighed some, looked how many are dark, took
// some out or put in others.
model::Day last_seen(const model::History& history, const Course& course) {
  model::Day seen = course.seeded_again.value_or(course.seeded);
  for (const std::string_view quantity : {kSample.name, kDark.name}) {
    for (const model::DayRoll& roll : model::pooled_days(history.all(quantity))) {
      if (roll.greatest > 0) seen = std::max(seen, roll.day);
    }
  }
  for (const model::Movement& out : history.out) {
    if (is_larvae(out)) seen = std::max(seen, out.day);
  }
  return seen;
}

auto limit_of(Ordeal::Of of) {
  switch (of) {
    case Ordeal::Of::kDeadly:
      return limits::hot_lethal;
    case Ordeal::Of::kFled:
      return limits::hot_above;
    case Ordeal::Of::kFrost:
      return limits::cold_harm;
  }
  return limits::hot_lethal;
}

void note(std::optional<Ordeal>& worst, Ordeal::Of of, const model::DayRoll& roll, Celsius value) {
  if (worst && worst->of < of) return;
  if (!worst || of < worst->of) worst = Ordeal{of, roll.day, 0, value};
  worst->day = roll.day;
  ++worst->days;
  worst->worst =
      of == Ordeal::Of::kFrost ? std::min(worst->worst, value) : std::max(worst->worst, value);
}

}  // namespace

std::optional<Ordeal> ordeal_of(const model::History& history, const model::Rules& rules,
                                const Course& course) {
  const model::Day seen = last_seen(history, course);
  std::optional<Ordeal> worst;
  for (const model::DayRoll& roll : model::pooled_days(history.all(kTemperature))) {
    if (roll.day < seen || roll.day > last_day(history)) continue;
    const Celsius high{roll.greatest}, mean{roll.mean()};
    if (high >= rules(limits::hot_lethal)) {
      note(worst, Ordeal::Of::kDeadly, roll, high);
    } else if (mean > rules(limits::hot_above)) {
      note(worst, Ordeal::Of::kFled, roll, high);
    } else if (mean <= rules(limits::cold_harm) && roll.day < course.nursery_until) {
      note(worst, Ordeal::Of::kFrost, roll, mean);
    }
  }
  return worst;
}

std::optional<model::Finding> judge_survival(const Study& study) {
  const auto& ordeal = study.ordeal();
  const Comfort comfort = study.comfort();
  const bool lasts =
      comfort == Comfort::kHot || comfort == Comfort::kSlow || comfort == Comfort::kDormant;
  if (!ordeal || lasts) return std::nullopt;
  model::Finding made =
      finding(kRuleSurvival, Urgency::kToday, limit_of(ordeal->of), study.rules());
  made.case_of = ordeal->of == Ordeal::Of::kDeadly ? kCaseDeadly
                 : ordeal->of == Ordeal::Of::kFled ? kCaseFled
                                                   : kCaseFrost;
  made.job = kJobLook;
  made.since = ordeal->day;
  made.limit->quantity = "temperature";
  made.value = model::Measured{"temperature", measure::value_of(ordeal->worst), ""};
  using By = Ending::By;
  made.ends = {{.by = By::kReading, .name = std::string(kSample)},
               {.by = By::kReading, .name = std::string(kDark)},
               {.by = By::kTaking, .name = std::string(kLiveLarvae)},
               {.by = By::kDeed, .name = std::string(kSeeded)},
               {.by = By::kEndOfBatch}};
  return made;
}

}  // namespace kinds::larvae
