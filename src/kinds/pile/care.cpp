#include "kinds/pile/care.h"

#include <algorithm>

#include "kinds/finding.h"
#include "kinds/pile/vocabulary.h"
#include "kinds/thresholds.h"

namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using measure::Celsius;
using model::Urgency;
using By = model::Ending::By;

double days_since(const model::History& history, model::Instant at) {
  return elapsed_days(at, history.now);
}

// Whether it was turned after a reading, and its core or the pile as such read since: by then what
// was in one place is in another.
bool is_mixed_since(const model::Series& read, const model::History& history) {
  const model::Deed* turned = history.last_deed(kTurned);
  if (turned == nullptr || turned->at < read.last->at) return false;
  const auto all = history.all(kTemperature);
  return std::any_of(all.begin(), all.end(), [&](const model::Series* one) {
    return (one->position.empty() || one->position == kCore) && one->last->at > turned->at;
  });
}

// The positions whose latest reading is above a limit, the hottest first. One at which a pile can
// catch fire stands until that very place is read.
std::vector<const model::Series*> hotter_than(Celsius limit, const Study& study) {
  const Celsius fire = study.rules()(limits::hot_fire);
  std::vector<const model::Series*> hot;
  for (const model::Series* series : study.history().all(kTemperature)) {
    if (series->last->value <= limit.value + kSameKelvins) continue;
    if (series->last->value < fire.value && is_mixed_since(*series, study.history())) continue;
    hot.push_back(series);
  }
  std::stable_sort(hot.begin(), hot.end(),
                   [](const auto* a, const auto* b) { return a->last->value > b->last->value; });
  return hot;
}

// The first of the days up to the last on all of which it was last read above.
model::Day above_since(const model::Series& series, Celsius limit) {
  model::Day since = series.days.back().day;
  for (auto day = series.days.rbegin(); day != series.days.rend(); ++day) {
    if (day->last <= limit.value + kSameKelvins) break;
    since = day->day;
  }
  return since;
}

}  // namespace

Found judge_hot(const Study& study) {
  const model::Rules& rules = study.rules();
  const Celsius limit = rules(limits::hot_above);
  const auto hot = hotter_than(limit, study);
  if (hot.empty()) return std::nullopt;
  const model::Series& hottest = *hot.front();
  const Celsius now{hottest.last->value};
  const bool fire = near_fire(study) && now >= rules(limits::hot_fire);
  const bool severe = now >= rules(limits::hot_severe);
  const model::Deed* turned = study.history().last_deed(kTurned);
  const bool is_turned = !fire && turned != nullptr && turned->at >= hottest.last->at;
  model::Finding made = measured(kRuleHot, is_turned && !severe ? Urgency::kToday : Urgency::kNow,
                                 fire ? limits::hot_fire : limits::hot_above, study, kTemperature);
  set_value(made, kTemperature, measure::value_of(now));
  made.case_of = fire ? kCaseFire : is_turned ? kCaseTurned : kCaseTooHot;
  made.job = fire ? kJobStandBack : is_turned ? kJobRead : kJobTurn;
  made.since = above_since(hottest, limit);
  made.facts.set(kHottest, now);
  made.facts.set(kPosition, hottest.position);
  made.facts.set(kLimit, limit);
  made.facts.set(kFireLimit, rules(limits::hot_fire));
  made.facts.set(kReadOn, hottest.days.back().day);
  made.facts.set(kSevere, severe);
  const double age = days_since(study.history(), hottest.last->at);
  if (age > rules(limits::hot_fresh).value) made.facts.set(kDaysAgo, static_cast<int>(age));
  std::vector<model::Part> others;
  for (auto other = hot.begin() + 1; other != hot.end(); ++other) {
    others.push_back({(*other)->position, measure::value_of(Celsius{(*other)->last->value})});
  }
  if (!others.empty()) made.facts.set(kAlsoHot, std::move(others));
  made.ends = {{By::kReading, std::string(kTemperature), hottest.position}};
  if (is_turned) made.ends.push_back({By::kReading, std::string(kTemperature)});
  return made;
}

bool near_fire(const Study& study) {
  const auto all = study.history().all(kTemperature);
  const Celsius fire = std::max(study.rules()(limits::hot_fire), study.rules()(limits::hot_above));
  return std::any_of(all.begin(), all.end(), [&](const model::Series* series) {
    return Celsius{series->last->value} >= fire;
  });
}

std::optional<Damp> damp(const model::History& history, const model::Rules& rules) {
  const double fresh = rules(limits::sensed_days).value;
  std::optional<Damp> found;
  model::Instant at{};
  for (const model::Series* series : history.all(kMoisture)) {
    if (days_since(history, series->last->at) > fresh || series->last->at < at) continue;
    at = series->last->at;
    const measure::Fraction moisture{series->last->value};
    Damp::Is is = Damp::Is::kFine;
    if (moisture < rules(limits::dry_below)) is = Damp::Is::kTooLow;
    if (moisture > rules(limits::soggy_above)) is = Damp::Is::kTooHigh;
    found = Damp{is, series->days.back().day, moisture};
  }
  const model::Sensed* felt = history.last_sensed(kSenseMoisture);
  if (felt != nullptr && felt->at > at && days_since(history, felt->at) <= fresh) {
    at = felt->at;
    found = Damp{kDry.word == felt->word     ? Damp::Is::kTooLow
                 : kSoggy.word == felt->word ? Damp::Is::kTooHigh
                                             : Damp::Is::kFine,
                 felt->day};
  }
  // A hand's word of wetness holds until it is turned: then it wants another squeeze.
  const model::Deed* turned = history.last_deed(kTurned);
  if (found && found->is == Damp::Is::kTooHigh && !found->measured && turned != nullptr &&
      turned->at > at) {
    return std::nullopt;
  }
  const model::Deed* watered = history.last_deed(kWatered);
  if (found && found->is == Damp::Is::kTooLow && watered != nullptr && watered->at >= at) {
    return std::nullopt;
  }
  return found;
}

Found judge_moisture(const Study& study) {
  const auto found = damp(study.history(), study.rules());
  if (!found || found->is == Damp::Is::kFine) return std::nullopt;
  // Cured compost may be drier: it is to be sieved and kept.
  const Stage stage = study.at().stage;
  const bool dry = found->is == Damp::Is::kTooLow;
  if (dry && (stage == Stage::kReady || stage == Stage::kCuring)) return std::nullopt;
  model::Finding made =
      dry ? measured(kRuleDry, Urgency::kToday, limits::dry_below, study, kMoisture)
          : measured(kRuleSoggy, Urgency::kToday, limits::soggy_above, study, kMoisture);
  made.case_of = found->measured ? kCaseMeasured : kCaseFelt;
  made.job = kJobTurn;
  made.since = found->day;
  made.ends = {{By::kReading, std::string(kMoisture)}, {By::kJudgement, std::string(kDamp)}};
  if (dry) {
    made.ends.push_back({By::kDeed, std::string(kWatered)});
  } else if (!found->measured) {
    made.ends.push_back({By::kDeed, std::string(kTurned)});
  }
  if (found->measured) {
    set_value(made, kMoisture, measure::value_of(*found->measured));
    made.facts.set(kMoistureRead, *found->measured);
    made.facts.set(kMoistureLimit, study.rules()(dry ? limits::dry_below : limits::soggy_above));
  }
  return made;
}

Found judge_smell(const Study& study) {
  const model::History& history = study.history();
  const model::Sensed* smell = history.last_sensed(kSenseSmell);
  if (smell == nullptr || kEarthy.word == smell->word ||
      days_since(history, smell->at) > study.rules()(limits::sensed_days).value) {
    return std::nullopt;
  }
  const model::Deed* turned = history.last_deed(kTurned);
  if (turned != nullptr && turned->at > smell->at) return std::nullopt;
  model::Finding made = finding(kRuleSmell, Urgency::kToday, "common practice");
  made.since = smell->day;
  made.ends = {{By::kDeed, std::string(kTurned)}, {By::kJudgement, std::string(kEarthy)}};
  if (kAmmonia.word == smell->word) {
    made.case_of = kCaseAmmonia;
    made.job = kJobMix;
    if (study.ratio().value) made.facts.set(kRatio, *study.ratio().value);
  } else {
    made.case_of = kSour.word == smell->word ? kCaseSour : kCaseRotten;
    made.job = kJobTurn;
  }
  return made;
}

Found judge_ready(const Study& study) {
  const Standing& at = study.at();
  if (at.stage != Stage::kReady) return std::nullopt;
  const bool cold = study.method() == Method::kCold && !at.last_hot;
  model::Finding made =
      finding(kRuleReady, Urgency::kReady, cold ? limits::ready_cold_days : limits::ready_curing,
              study.rules());
  made.case_of = cold ? kCaseCold : kCaseCured;
  made.job = kJobSieve;
  set_value(made, "curing", measure::value_of(measure::Days{static_cast<double>(at.curing_days)}));
  made.limit->quantity = "curing";
  made.facts.set(kCuringDays, at.curing_days);
  made.ends = {{By::kTaking}, {By::kEndOfBatch}};
  if (cold) return made;
  if (at.air) {
    made.facts.set(kNow, Celsius{at.peak_now});
    made.facts.set(kAirNow, *at.air);
  }
  for (const Treatment& one : study.treatments()) {
    if (one.outcome == Outcome::kShown) continue;
    made.facts.set(kNotShown, std::string(one.name));
    break;
  }
  return made;
}

Found judge_standards(const Study& study) {
  std::vector<std::string> unknown;
  standards_of(study.history().batch, &unknown);
  if (unknown.empty()) return std::nullopt;
  model::Finding made = finding(kRuleStandard, Urgency::kToday, "");
  made.job = kJobSettings;
  made.facts.set(kUnknown, std::move(unknown));
  made.ends = {{By::kSetting, std::string(kStandard)}};
  return made;
}

}  // namespace kinds::pile
