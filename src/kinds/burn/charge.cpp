#include "kinds/burn/charge.h"

#include <algorithm>

#include "kinds/burn/facts.h"
#include "kinds/burn/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"

namespace kinds::burn {
namespace {

namespace limits = thresholds::burn;
using measure::Days;
using measure::Fraction;
using model::Ending;
using model::Finding;
using model::Urgency;

// The kinds that char is carried to, where its rules differ.
constexpr std::string_view kToBed = "bed", kToPile = "pile", kToBrew = "brew";

Ending charge_end(Ending::By by, std::string_view name) {
  return {.by = by, .name = std::string(name)};
}

// Whether a load reached a bed before it was charged. The word of who took it as charged char
// stands unless the records hold a charging that was too short.
bool went_raw(const model::Movement& movement, const Course& course, const model::Rules& rules) {
  const auto days = days_charged(course, movement.day);
  if (!days) return movement.material.name != kChargedChar;
  return Days{static_cast<double>(*days)} < rules(limits::charged_days);
}

// What was last known of the moisture of charging char: by a reading, by hand or by watering.
struct Moistness {
  std::optional<model::Instant> at;
  bool dry = false;
  std::optional<Fraction> read;
};

Moistness moistness(const model::History& history, model::Instant since, Fraction least) {
  Moistness last;
  const auto take = [&](model::Instant at, bool dry, std::optional<Fraction> read) {
    if (at < since || (last.at && at < *last.at)) return;
    last = {at, dry, read};
  };
  if (const model::DayRoll* read = latest_day(history, kCharMoisture)) {
    take(read->last_at, Fraction{read->last} < least, Fraction{read->last});
  }
  if (const model::Sensed* felt = history.last_sensed(kWetness)) {
    take(felt->at, felt->word == kDry.word, std::nullopt);
  }
  if (const model::Deed* watered = history.last_deed(kWatered)) {
    take(watered->at, false, std::nullopt);
  }
  return last;
}

Finding charged(std::string_view case_of, model::Threshold<Days> threshold, int days,
                const Study& study) {
  Finding made = finding(kRuleCharged, Urgency::kReady, threshold, study.rules());
  made.case_of = case_of;
  made.job = kJobSpread;
  const Days done{static_cast<double>(days)}, wanted = study.rules()(threshold);
  made.since = study.history().today - date::days{days - full_days(wanted)};
  made.value = model::Measured{"days charged", measure::value_of(done), ""};
  made.facts.set(kDays, days);
  made.facts.set(kWanted, wanted);
  made.ends = {charge_end(Ending::By::kTaking, kChargedChar)};
  return made;
}

}  // namespace

std::vector<Elsewhere> charging_elsewhere(const Study& study) {
  const model::History& history = study.history();
  std::vector<Elsewhere> all;
  for (auto at = history.out.rbegin(); at != history.out.rend(); ++at) {
    const model::Movement& movement = *at;
    const bool pile = movement.to_kind == kToPile;
    if (!is_char(movement) || (!pile && movement.to_kind != kToBrew)) continue;
    if (std::any_of(all.begin(), all.end(),
                    [&](const Elsewhere& one) { return one.load->to == movement.to; })) {
      continue;
    }
    const model::Movement* back = came_back(history, movement);
    all.push_back({&movement, pile ? limits::charged_pile : limits::charged_days, back,
                   days_between(movement.day, back != nullptr ? back->day : history.today)});
  }
  return all;
}

void judge_raw(const Study& study, std::vector<Finding>& into) {
  const model::History& history = study.history();
  const model::Rules& rules = study.rules();
  std::vector<std::string> told;
  for (auto at = history.out.rbegin(); at != history.out.rend(); ++at) {
    const model::Movement& movement = *at;
    const int days = days_between(movement.day, history.today);
    if (!is_char(movement) || movement.to_kind != kToBed) continue;
    if (Days{static_cast<double>(days)} > rules(limits::told_days)) continue;
    if (!went_raw(movement, study.course(), rules)) continue;
    if (std::find(told.begin(), told.end(), movement.to) != told.end()) continue;
    told.push_back(movement.to);
    const int charged = days_charged(study.course(), movement.day).value_or(0);
    Finding made = finding(kRuleRaw, Urgency::kToday, limits::charged_days, rules);
    made.job = kJobFeed;
    made.since = movement.day;
    made.value =
        model::Measured{"days charged", measure::value_of(Days{static_cast<double>(charged)}), ""};
    made.facts.set(kPlace, movement.to);
    made.facts.set(kCarriedOn, movement.day);
    made.facts.set(kDays, charged);
    made.facts.set(kWanted, rules(limits::charged_days));
    made.ends = {{.by = Ending::By::kDay,
                  .day = movement.day + date::days{full_days(rules(limits::told_days)) + 1}}};
    into.push_back(std::move(made));
  }
}

std::optional<Finding> judge_charged_here(const Study& study) {
  const auto days = study.days_charged();
  if (!days || study.account().all_gone()) return std::nullopt;
  if (Days{static_cast<double>(*days)} < study.rules()(limits::charged_days)) return std::nullopt;
  const Course& course = study.course();
  Finding made =
      charged(course.raw_manure ? kCaseRawManure : kCaseHere, limits::charged_days, *days, study);
  made.facts.set(kChargedWith, course.charge->with);
  if (const auto bed = bed_for(study)) {
    made.facts.set(kBedLeast, bed->least);
    made.facts.set(kBedMost, bed->most);
  }
  return made;
}

void judge_charged_elsewhere(const Study& study, std::vector<Finding>& into) {
  for (const Elsewhere& one : charging_elsewhere(study)) {
    const Days wanted = study.rules()(one.needs), done{static_cast<double>(one.days)};
    if (done < wanted || one.back != nullptr) continue;
    const bool gone = study.account().all_gone();
    if (done > wanted + study.rules()(limits::told_days) && !gone) continue;
    Finding made = charged(kCaseElsewhere, one.needs, one.days, study);
    made.facts.set(kPlace, one.load->to);
    made.facts.set(kNoneLeft, gone);
    if (gone) made.ends.push_back({.by = Ending::By::kEndOfBatch});
    into.push_back(std::move(made));
  }
}

std::optional<Finding> judge_dry(const Study& study) {
  const Course& course = study.course();
  if (!course.charge || study.account().all_gone()) return std::nullopt;
  const Fraction least = study.rules()(limits::dry_below);
  const Moistness last = moistness(study.history(), course.charge->at, least);
  if (!last.dry) return std::nullopt;
  Finding made = finding(kRuleDry, Urgency::kToday, limits::dry_below, study.rules());
  made.job = kJobWater;
  made.facts.set(kMoistureLeast, least);
  if (last.read) {
    made.value = model::Measured{kCharMoisture.name.data(), measure::value_of(*last.read), ""};
    made.facts.set(kMoistureNow, *last.read);
  }
  made.ends = {charge_end(Ending::By::kDeed, kWatered),
               charge_end(Ending::By::kReading, kCharMoisture)};
  return made;
}

}  // namespace kinds::burn
