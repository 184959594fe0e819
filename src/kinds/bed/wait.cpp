#include "kinds/bed/wait.h"

#include <algorithm>
#include <cmath>

#include "kinds/bed/facts.h"
#include "kinds/bed/says.h"
#include "kinds/bed/study.h"
#include "kinds/bed/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"

namespace kinds::bed {
namespace {

namespace limits = thresholds::bed;
using model::Ending;
using model::Finding;
using model::Urgency;

model::Threshold<measure::Days> rule_for(const Contact& contact) {
  return contact.touches ? limits::wait_contact : limits::wait_apart;
}

// Droppings that stock left in place, as a load of them.
model::Movement droppings(const model::Deed& deed, const std::string& bed) {
  model::Movement load;
  load.to = bed;
  load.at = deed.at;
  load.day = deed.day;
  load.material.name = kDroppings;
  load.manure.push_back({std::string(kDroppings), {}, std::string(kLeftInPlace)});
  return load;
}

// In this crop's time, and in those of earlier ones.
std::vector<model::Movement> droppings_on(const model::History& history) {
  std::vector<model::Movement> loads;
  for (const auto* deeds : {&history.earlier_deeds, &history.deeds}) {
    for (const model::Deed& deed : *deeds) {
      if (deed.word == kGrazed.word) loads.push_back(droppings(deed, history.batch.code));
    }
  }
  return loads;
}

measure::Value in_days(int days) {
  return measure::value_of(measure::Days{static_cast<double>(days)});
}

Finding of_wait(std::string_view rule, Urgency urgency, const Wait& wait, const Study& study) {
  const Contact contact = contact_of(study.history().batch);
  Finding made = finding(rule, urgency, rule_for(contact), study.rules());
  const int since = days_between(wait.load.day, study.history().today);
  made.job = kJobPick;
  made.value = model::Measured{"days since", in_days(since), ""};
  made.facts.set(kSafe, wait.safe);
  made.facts.set(kDays, wait.days);
  made.facts.set(kDaysSince, since);
  made.facts.set(kMaterial, wait.load.material.name);
  std::vector<std::string> way{wait.trail.material};
  way.insert(way.end(), wait.trail.way.begin(), wait.trail.way.end());
  made.facts.set(kWay, way);
  made.facts.set(kBecause, wait.trail.because);
  made.facts.set(kTouches, contact.touches);
  made.facts.set(kContactSaid, contact.said);
  return made;
}

Finding waiting(const Wait& wait, const Study& study) {
  const auto ripe = ripe_on(study.history());
  const bool conflict = ripe && *ripe < wait.safe;
  const bool ripe_now = conflict && *ripe <= study.history().today;
  Finding made = of_wait(kRuleWait, ripe_now ? Urgency::kToday : Urgency::kSoon, wait, study);
  made.since = wait.load.day;
  made.due = wait.safe;
  made.hold = true;
  if (conflict) {
    made.case_of = kCaseRipeFirst;
    made.facts.set(kRipe, *ripe);
  }
  made.ends = {{.by = Ending::By::kDay, .day = wait.safe}};
  return made;
}

std::optional<Finding> picked_early(const Study& study) {
  if (study.early().empty()) return std::nullopt;
  const model::Movement& last = *study.early().back();
  const int days = days_between(last.day, study.history().today);
  if (days >= study.rules()(limits::early_told).value) return std::nullopt;
  Finding made = finding(kRuleEarly, Urgency::kNow, rule_for(contact_of(study.history().batch)),
                         study.rules());
  made.job = kJobHoldBack;
  made.since = last.day;
  made.value = model::Measured{"days since it was taken", in_days(days), ""};
  made.facts.set(kTyped, last.typed);
  made.facts.set(kMaterial, last.material.name);
  made.facts.set(kTakenOn, last.day);
  made.facts.set(kDaysEarly, days_between(last.day, longest(study.waits(), last.at)->safe));
  made.ends = {{.by = Ending::By::kDay,
                .day = last.day + date::days{whole(study.rules()(limits::early_told))}}};
  return made;
}

}  // namespace

std::optional<model::Day> ripe_on(const model::History& history) {
  const auto days = history.batch.number(kDaysToHarvest);
  const model::Deed* planted = history.last_deed(kPlanted);
  if (!days || planted == nullptr) return std::nullopt;
  return planted->day + date::days{static_cast<int>(std::lround(days->si))};
}

Contact contact_of(const model::Batch& batch) {
  const std::string said = batch.text(kTouchesSoil, "");
  return {said != kNo, !said.empty()};
}

bool is_eaten(const model::Batch& batch) {
  return batch.text(kEaten, std::string(kYes)) == kYes;
}

std::optional<Wait> wait_after(const model::Movement& load, const model::Batch& bed,
                               const model::Rules& rules) {
  if (load.manure.empty() || !is_eaten(bed)) return std::nullopt;
  const auto rule = rule_for(contact_of(bed));
  const int days = static_cast<int>(std::ceil(rules(rule).value));
  return Wait{load.day + date::days{days}, days, rules.in_force(*rule.info).source, load,
              load.manure.front()};
}

std::vector<Wait> waits_of(const model::History& history, const model::Rules& rules) {
  std::vector<Wait> waits;
  const auto add = [&](const model::Movement& load) {
    if (auto wait = wait_after(load, history.batch, rules)) waits.push_back(std::move(*wait));
  };
  for (const auto* loads : {&history.earlier_in, &history.in}) {
    for (const model::Movement& load : *loads) add(load);
  }
  for (const model::Movement& load : droppings_on(history)) add(load);
  return waits;
}

std::vector<RawOnGround> raw_on(const Study& study) {
  const model::History& history = study.history();
  const model::Batch& batch = history.batch;
  const std::string crop = batch.text(kCrop, "");
  const auto rule = rule_for(contact_of(batch));
  const auto days = date::days{static_cast<int>(std::ceil(study.rules()(rule).value))};
  std::vector<RawOnGround> all;
  const auto add = [&](const model::Movement& load, bool earlier) {
    if (load.manure.empty()) return;
    // What an earlier crop got is beside a later one only where it began within the wait.
    if (earlier && batch.started_day >= load.day + days) return;
    const auto wait = wait_after(load, batch, study.rules());
    all.push_back({load, chain_words(load.manure.front(), load.to), crop, earlier,
                   wait ? std::optional(wait->safe) : std::nullopt});
  };
  for (const model::Movement& load : history.earlier_in) add(load, true);
  for (const model::Movement& load : history.in) add(load, false);
  for (const model::Movement& load : droppings_on(history)) add(load, load.at < batch.started);
  std::stable_sort(all.begin(), all.end(),
                   [](const auto& a, const auto& b) { return a.load.at < b.load.at; });
  return all;
}

const Wait* longest(const std::vector<Wait>& waits, model::Instant at) {
  const Wait* found = nullptr;
  for (const Wait& wait : waits) {
    if (wait.load.at > at) continue;
    if (found == nullptr || wait.safe >= found->safe) found = &wait;
  }
  return found;
}

std::optional<Wait> wait_of(const model::History& history, const model::Rules& rules) {
  const std::vector<Wait> waits = waits_of(history, rules);
  const Wait* found = longest(waits, history.now);
  return found == nullptr ? std::nullopt : std::optional(*found);
}

std::vector<const model::Movement*> early_among(const model::History& history,
                                                const std::vector<Wait>& waits) {
  std::vector<const model::Movement*> early;
  for (const model::Movement& out : history.out) {
    if (!out.material.is(kFlagEdible)) continue;
    const Wait* wait = longest(waits, out.at);
    if (wait != nullptr && out.day < wait->safe) early.push_back(&out);
  }
  return early;
}

void judge_wait(const Study& study, std::vector<Finding>& into) {
  if (auto early = picked_early(study)) into.push_back(std::move(*early));
  const Wait* wait = study.wait();
  if (wait == nullptr) return;
  if (study.waits_now()) {
    into.push_back(waiting(*wait, study));
    return;
  }
  const int past = days_between(wait->safe, study.history().today);
  const int told = whole(study.rules()(limits::safe_told));
  if (past >= told || study.history().batch.setting(kCrop) == nullptr) return;
  Finding made = of_wait(kRuleSafe, Urgency::kReady, *wait, study);
  made.since = wait->safe;
  made.ends = {{.by = Ending::By::kDay, .day = wait->safe + date::days{told}}};
  into.push_back(std::move(made));
}

}  // namespace kinds::bed
