#include <algorithm>

#include "kinds/finding.h"
#include "kinds/nestbox/facts.h"
#include "kinds/nestbox/says.h"
#include "kinds/nestbox/study.h"
#include "kinds/nestbox/vocabulary.h"
#include "kinds/registry.h"
#include "kinds/thresholds.h"

// A nest box: birds that eat what eats the beds.
namespace kinds::nestbox {
namespace {

namespace limits = thresholds::nestbox;
using model::Ending;
using model::Finding;
using model::Urgency;

date::days whole_days(const model::Rules& rules, model::Threshold<measure::Days> of) {
  return date::days{static_cast<int>(rules(of).value)};
}

Ending ended_by(Ending::By by, std::string_view name) {
  return {.by = by, .name = std::string(name)};
}

// A finding of something that began on a day and holds from the first day beyond the rule's limit.
Finding counted(std::string_view rule, std::string_view job, model::Threshold<measure::Days> limit,
                model::Day from, const model::History& history, const model::Rules& rules) {
  Finding made = finding(rule, Urgency::kSoon, limit, rules);
  made.job = job;
  made.since = from + whole_days(rules, limit) + date::days{1};
  made.facts.set(kDays, days_between(from, history.today));
  return made;
}

std::optional<Finding> judge_check(const model::History& history, const model::Rules& rules) {
  const auto look = last_look(history);
  const model::Day from = look.value_or(history.batch.started_day);
  if (days_between(from, history.today) <= rules(limits::check_days).value) return std::nullopt;
  Finding made = counted(kRuleCheck, kJobLook, limits::check_days, from, history, rules);
  made.facts.set(kNeverLooked, !look);
  made.ends = {ended_by(Ending::By::kReading, kEggs), ended_by(Ending::By::kReading, kYoung),
               ended_by(Ending::By::kDeed, kChecked), ended_by(Ending::By::kJudgement, kEmpty)};
  return made;
}

// Young that are nearly ready to fly, or must have flown.
std::optional<Finding> judge_young(const model::History& history, const model::Rules& rules,
                                   const Brood& brood) {
  if (!brood.young_since) return std::nullopt;
  const int age = days_between(*brood.young_since, history.today);
  if (age < rules(limits::leave_days).value) return std::nullopt;
  const Ending flown = ended_by(Ending::By::kReading, kFledged);
  if (age <= rules(limits::leave_until).value) {
    Finding made =
        counted(kRuleLeave, kJobLeave, limits::leave_days, *brood.young_since, history, rules);
    made.since = *brood.young_since + whole_days(rules, limits::leave_days);
    made.ends = {
        flown,
        {.by = Ending::By::kDay,
         .day = *brood.young_since + whole_days(rules, limits::leave_until) + date::days{1}}};
    return made;
  }
  Finding made =
      counted(kRuleFledged, kJobLook, limits::leave_until, *brood.young_since, history, rules);
  made.ends = {flown};
  return made;
}

std::optional<Finding> judge_eggs(const model::History& history, const model::Rules& rules,
                                  const Brood& brood) {
  if (brood.young_since || !brood.eggs_since) return std::nullopt;
  if (days_between(*brood.eggs_since, history.today) <= rules(limits::cold_days).value)
    return std::nullopt;
  Finding made = counted(kRuleCold, kJobLook, limits::cold_days, *brood.eggs_since, history, rules);
  made.ends = {ended_by(Ending::By::kJudgement, kAbandoned),
               ended_by(Ending::By::kReading, kYoung)};
  return made;
}

std::optional<Finding> judge_cleaning(const model::History& history, const model::Rules& rules,
                                      model::Day since) {
  const model::Deed* cleaned = history.last_deed(kCleaned);
  if (cleaned != nullptr && cleaned->day >= since) return std::nullopt;
  Finding made = finding(kRuleClean, Urgency::kSoon, limits::season_last, rules);
  made.job = kJobClean;
  made.facts.set(kLeftOn, since);
  made.ends = {ended_by(Ending::By::kDeed, kCleaned)};
  return made;
}

// A nest that was built is the one of the brood that has flown since.
bool is_older_than_a_brood(const model::Sensed& nest, const std::vector<Brood>& all) {
  return std::any_of(all.begin(), all.end(),
                     [&](const Brood& brood) { return brood.ended && *brood.ended >= nest.day; });
}

}  // namespace

std::string Study::stage() const {
  if (brood() != nullptr) return brood()->young_since ? "young" : "eggs";
  const model::Sensed* nest = history_.last_sensed(kNest);
  if (nest != nullptr && nest->word == kBuilding.word && !is_older_than_a_brood(*nest, broods_)) {
    return "building";
  }
  return is_season() ? "free" : "resting";
}

std::vector<Finding> Study::findings() const {
  std::vector<Finding> all;
  const auto add = [&](std::optional<Finding> one) {
    if (one) all.push_back(std::move(*one));
  };
  if (brood() != nullptr) {
    add(judge_young(history_, rules_, *brood()));
    add(judge_eggs(history_, rules_, *brood()));
  }
  // What is asked of young that fly or have flown stands above the weekly look.
  const bool is_told = std::any_of(all.begin(), all.end(), [](const Finding& one) {
    return one.rule == kRuleLeave || one.rule == kRuleFledged;
  });
  if (!is_told && (brood() != nullptr || is_season())) add(judge_check(history_, rules_));
  if (brood() == nullptr && !broods_.empty() && !is_season()) {
    add(judge_cleaning(history_, rules_, *broods_.back().ended));
  }
  return all;
}

// Nothing but the calendar and what was seen in it decides.
std::vector<Finding> Study::by_calendar() const {
  return findings();
}

model::Words Study::words(const Finding& finding) const {
  return words_of(finding, history_.today);
}

std::string Study::well() const {
  return brood() == nullptr ? stage() : brood_words(*brood(), history_.today);
}

std::vector<model::Progress> Study::progress() const {
  if (brood() == nullptr) return {};
  return {{"brood", brood_words(*brood(), history_.today), std::nullopt}};
}

std::vector<model::Forecast> Study::forecasts() const {
  if (brood() == nullptr) return {};
  const bool young = brood()->young_since.has_value();
  if (!young && !brood()->eggs_since) return {};
  const model::Day from = young ? *brood()->young_since : *brood()->eggs_since;
  const model::Day first =
      from + whole_days(rules_, young ? limits::fledge_least : limits::hatch_least);
  const model::Day last =
      from + whole_days(rules_, young ? limits::fledge_most : limits::hatch_most);
  if (last < history_.today) return {};
  return {{young ? "fledging" : "hatching",
           first,
           std::nullopt,
           last,
           foreseen_words(from, first, last, history_.today),
           {},
           flying_line(young)}};
}

std::vector<model::Measure> Study::figures() const {
  std::vector<model::Measure> made;
  const auto add = [&](const char* key, const char* name, double value, Dimension dimension,
                       const char* basis) {
    made.push_back({key, name, {"", {dimension, value}, "", {}}, basis});
  };
  double eggs = 0, young = 0, fledged = 0, known = 0, flown = 0;
  for (const Brood& brood : broods_) {
    eggs += brood.eggs;
    young += brood.young;
    fledged += brood.fledged.value_or(0);
    if (brood.ended) ++known;
    if (brood.fledged.value_or(0) > 0) ++flown;
  }
  add("nestbox.broods", "broods", static_cast<double>(broods_.size()), Dimension::kCount, "");
  if (!broods_.empty()) {
    add("nestbox.eggs", "eggs", eggs, Dimension::kCount, "the most counted in each brood");
    add("nestbox.young", "young", young, Dimension::kCount, "the most counted in each brood");
    add("nestbox.fledged", "fledged", fledged, Dimension::kCount,
        "as logged; a brood without it counts 0");
  }
  if (known > 0) {
    add("nestbox.fledged_brood", "fledged a brood", fledged / known, Dimension::kNumber,
        "of broods that are over");
    add("nestbox.success", "broods from which any flew", flown / known, Dimension::kFraction, "");
  }
  add("nestbox.checks", "times looked in",
      history_.deeds_since(kChecked, history_.batch.started_day), Dimension::kCount, "as logged");
  return made;
}

}  // namespace kinds::nestbox

namespace kinds {

const Kind kNestbox{
    .name = "nestbox",
    .meaning = "a nest box",
    .one = "",
    .begun = "box-1 hole=1.5in height=5ft faces=e",
    // Nothing is asked for by silence: `nestbox.check` asks in the season, and nobody need look
    // outside it.
    .vocabulary = {nestbox::kQuantities, nestbox::kWords, nestbox::kSettings},
    .study = [](const model::History& history, const model::Rules& rules)
        -> std::unique_ptr<Study> { return std::make_unique<nestbox::Study>(history, rules); },
    .hazards = {.gas = HazardAnswer::none("nothing in it makes gas"),
                .fire = HazardAnswer::none("nothing in it burns or heats"),
                .carbon_monoxide = HazardAnswer::none("nothing in it burns"),
                .germs = HazardAnswer::rows(),
                .pressure = HazardAnswer::none("it is open"),
                .height = HazardAnswer::rows(),
                .bites_and_dust = HazardAnswer::rows(),
                .drinking = HazardAnswer::none("it holds no water"),
                .electric = HazardAnswer::none("no wire leads to it")},
};

}  // namespace kinds
