#include "kinds/larvae/care.h"

#include <algorithm>
#include <cmath>

#include "kinds/finding.h"
#include "kinds/larvae/facts.h"
#include "kinds/larvae/study.h"
#include "kinds/larvae/vocabulary.h"
#include "kinds/thresholds.h"
#include "model/material_groups.h"

namespace kinds::larvae {
namespace {

namespace limits = thresholds::larvae;
using measure::Days;
using measure::Fraction;
using model::Ending;
using model::Finding;
using model::Urgency;

bool is_lately(model::Instant at, const model::History& history, Days limit) {
  return history.now - at <= std::chrono::duration<double, date::days::period>(limit.value);
}

// The latest word on its moisture: a meter's or a hand's.
struct Moisture {
  std::optional<Fraction> read;
  std::string felt;
};

Moisture moisture_now(const model::History& history, const model::Rules& rules) {
  const Days limit = rules(limits::sensed_days);
  const model::Reading* read = nullptr;
  for (const model::Series* series : history.all(kMoisture)) {
    if (read == nullptr || series->last->at > read->at) read = &*series->last;
  }
  if (read != nullptr && !is_lately(read->at, history, limit)) read = nullptr;
  const model::Sensed* felt = history.last_sensed(kFelt);
  if (felt != nullptr && !is_lately(felt->at, history, limit)) felt = nullptr;
  if (felt != nullptr && (read == nullptr || felt->at > read->at))
    return {std::nullopt, felt->word};
  if (read == nullptr) return {};
  return {Fraction{read->value}, ""};
}

Finding moisture_finding(std::string_view rule, std::string_view case_of, Urgency urgency,
                         model::Threshold<Fraction> threshold, const model::Rules& rules,
                         const Moisture& moisture) {
  Finding made = finding(rule, urgency, threshold, rules);
  made.case_of = case_of;
  made.job = rule == kRuleDry ? kJobWater : kJobDry;
  if (moisture.read) {
    made.value = model::Measured{"moisture", measure::value_of(*moisture.read), ""};
    made.facts.set(kMoist, *moisture.read);
  } else {
    made.facts.set(kByHand, moisture.felt);
  }
  made.facts.set(kMoistLimit, rules(threshold));
  made.ends = {{.by = Ending::By::kReading, .name = std::string(kMoisture)},
               {.by = Ending::By::kJudgement, .name = std::string(kFelt)}};
  return made;
}

std::optional<Finding> judge_dry(const model::Rules& rules, const Moisture& moisture) {
  const bool stops = moisture.read && *moisture.read <= rules(limits::dry_stops);
  const bool dry =
      moisture.read ? *moisture.read < rules(limits::dry_below) : moisture.felt == kDry.word;
  if (!dry) return std::nullopt;
  return stops
             ? moisture_finding(kRuleDry, kCaseStops, Urgency::kNow, limits::dry_stops, rules,
                                moisture)
             : moisture_finding(kRuleDry, "", Urgency::kToday, limits::dry_below, rules, moisture);
}

std::optional<Finding> judge_wet(const model::Rules& rules, const Moisture& moisture,
                                 bool near_harvest) {
  const auto threshold = near_harvest ? limits::wet_sieve : limits::wet_above;
  const bool wet = moisture.read ? *moisture.read > rules(threshold) : moisture.felt == kWet.word;
  if (!wet) return std::nullopt;
  return moisture_finding(kRuleWet, near_harvest ? kCaseSieve : "", Urgency::kToday, threshold,
                          rules, moisture);
}

std::optional<Finding> judge_smell(const model::History& history, const model::Rules& rules) {
  const model::Sensed* smell = history.last_sensed(kSmell);
  if (smell == nullptr || smell->word == kEarthy.word ||
      !is_lately(smell->at, history, rules(limits::sensed_days))) {
    return std::nullopt;
  }
  Finding made = finding(kRuleSmell, Urgency::kToday, "common practice");
  made.job = kJobAir;
  made.since = smell->day;
  made.facts.set(kSmelt, smell->word);
  made.ends = {{.by = Ending::By::kJudgement, .name = std::string(kSmell)},
               {.by = Ending::By::kDay,
                .day = smell->day + date::days{full_days(rules(limits::sensed_days)) + 1}}};
  return made;
}

std::optional<Finding> judge_flies(const model::History& history, const model::Rules& rules) {
  const model::Series* flies = history.find(kFlies);
  if (flies == nullptr || !flies->last ||
      !is_lately(flies->last->at, history, rules(limits::sensed_days))) {
    return std::nullopt;
  }
  if (flies->last->value <= rules(limits::flies_above).value) return std::nullopt;
  Finding made = finding(kRuleFlies, Urgency::kToday, limits::flies_above, rules);
  made.job = kJobCover;
  made.value = model::Measured{"flies", {measure::Dimension::kCount, flies->last->value}, ""};
  made.facts.set(kCounted, measure::Number{flies->last->value});
  made.facts.set(kCountLimit, rules(limits::flies_above));
  made.ends = {{.by = Ending::By::kReading, .name = std::string(kFlies)}};
  return made;
}

// The last day on which something was renewed: a deed, what went in, or the day told at the start.
std::optional<model::Day> renewed(const model::History& history, std::string_view deed,
                                  std::string_view material, std::string_view setting) {
  std::optional<model::Day> last;
  if (!setting.empty()) last = measure::parse_iso_date(history.batch.text(setting, ""));
  if (const model::Deed* done = history.last_deed(deed))
    last = std::max(last.value_or(done->day), done->day);
  for (const model::Movement& movement : history.in) {
    if (movement.material.name == material || movement.material.group == material) {
      last = std::max(last.value_or(movement.day), movement.day);
    }
  }
  return last;
}

std::optional<Finding> judge_renewal(const Study& study, std::string_view rule,
                                     std::string_view deed, std::string_view material,
                                     std::string_view setting, model::Threshold<Days> threshold) {
  const model::History& history = study.history();
  const auto last = renewed(history, deed, material, setting);
  const int limit = static_cast<int>(std::ceil(study.rules()(threshold).value));
  if (!last || days_between(*last, history.today) < limit) return std::nullopt;
  const int age = days_between(*last, history.today);
  Finding made = finding(rule, Urgency::kSoon, threshold, study.rules());
  made.job = kJobRenew;
  made.value = model::Measured{"age", measure::value_of(Days{1.0 * age}), ""};
  made.since = made.due = *last + date::days{limit};
  made.facts.set(kDays, age);
  made.facts.set(kLongest, limit);
  made.ends = {{.by = Ending::By::kDeed, .name = std::string(deed)},
               {.by = Ending::By::kAdding, .name = std::string(material)}};
  return made;
}

// Days on end, of days with a reading, on which the meter said one and the same.
std::optional<Finding> judge_meter(const model::History& history, const model::Rules& rules) {
  const auto rolls = model::pooled_days(history.all(kMoisture));
  if (rolls.empty() || !is_lately(rolls.back().last_at, history, rules(limits::sensed_days))) {
    return std::nullopt;
  }
  int same = 0;
  for (auto roll = rolls.rbegin(); roll != rolls.rend(); ++roll) {
    if (std::fabs(roll->mean() - rolls.back().mean()) > 1e-9) break;
    ++same;
  }
  if (same < rules(limits::moisture_repeats).value) return std::nullopt;
  Finding made = finding(kRuleMeter, Urgency::kSoon, limits::moisture_repeats, rules);
  made.job = kJobLook;
  made.value = model::Measured{"days alike", measure::value_of(Days{1.0 * same}), ""};
  made.facts.set(kMoist, Fraction{rolls.back().mean()});
  made.facts.set(kDays, same);
  made.ends = {{.by = Ending::By::kReading, .name = std::string(kMoisture)}};
  return made;
}

}  // namespace

void judge_renewals(const Study& study, std::vector<Finding>& into) {
  const auto add = [&](std::optional<Finding> one) {
    if (one) into.push_back(std::move(*one));
  };
  add(judge_renewal(study, kRuleBedding, kBedded, model::group::kBedding, kBeddingDate,
                    limits::bedding_days));
  add(judge_renewal(study, kRuleCardboard, kCarded, kCardboard, "", limits::cardboard_days));
}

void judge_care(const Study& study, std::vector<Finding>& into) {
  const model::History& history = study.history();
  const model::Rules& rules = study.rules();
  const bool near_harvest =
      study.readiness().ready() || study.warmth().share() >= rules(limits::wet_near).value;
  const Moisture moisture = moisture_now(history, rules);
  const auto add = [&](std::optional<Finding> one) {
    if (one) into.push_back(std::move(*one));
  };
  if (!near_harvest) add(judge_dry(rules, moisture));
  add(judge_wet(rules, moisture, near_harvest));
  add(judge_meter(history, rules));
  add(judge_smell(history, rules));
  add(judge_flies(history, rules));
  judge_renewals(study, into);
}

}  // namespace kinds::larvae
