#include <algorithm>
#include <array>

#include "kinds/feed_law.h"
#include "kinds/finding.h"
#include "kinds/flock/days.h"
#include "kinds/flock/facts.h"
#include "kinds/flock/measures.h"
#include "kinds/flock/says.h"
#include "kinds/flock/study.h"
#include "kinds/flock/vocabulary.h"
#include "kinds/registry.h"
#include "kinds/thresholds.h"
#include "model/material_groups.h"
#include "model/purpose.h"

// A flock of laying hens.
namespace kinds::flock {
namespace {

namespace limits = thresholds::flock;
using model::Ending;
using model::Finding;
using model::Urgency;

// Counted, so that their mass is the flock's own to tell.
bool are_eggs(const model::Movement& load) {
  return load.material.group == model::group::kEgg &&
         load.amount.dimension == measure::Dimension::kCount;
}

// A weighing goes for all eggs, those laid before it too.
Knows knows(const model::Movement& out) {
  return are_eggs(out) ? Knows::kAllAlong : Knows::kNothing;
}

std::optional<Objection> objects_to_feed(const model::Material& material, const model::Batch& batch,
                                         const model::Rules&) {
  const auto objection = [&](bool refuses, Banned why, const char* source = "common practice") {
    return Objection{refuses, refuses ? "flock.banned" : "flock.care", banned_words(material, why),
                     source};
  };
  if (material.is(kFlagForbidden) || material.is(kFlagSynthetic)) {
    return objection(true, Banned::kNever);
  }
  if (material.is(kFlagManure) && material.group != model::group::kBedding) {
    const bool larvae = material.group == model::group::kLarvae;
    return objection(true, larvae ? Banned::kOnManure : Banned::kManure);
  }
  if (law_of(batch, kLaw) == Law::kEu && is_kitchen_waste(material)) {
    return objection(true, Banned::kKitchenWaste, "(EC) 1069/2009 art. 11");
  }
  if (material.name == kAvocado || material.name == kPotatoes) {
    return objection(false, Banned::kPoisons);
  }
  if (material.is(kFlagSalty) && material.group != model::group::kMineral) {
    return objection(false, Banned::kSalty);
  }
  return std::nullopt;
}

std::optional<Finding> judge_health(const Study& study) {
  const model::Sensed* condition = condition_of(study.history(), study.rules());
  if (condition == nullptr || condition->word != kAiling.word) return std::nullopt;
  Finding made = finding(kRuleAiling, Urgency::kNow, "common practice");
  made.job = kJobIll;
  made.since = condition->day;
  made.facts.set(kSeenOn, condition->day);
  made.ends = {
      {.by = Ending::By::kJudgement, .name = std::string(kWell)},
      {.by = Ending::By::kDay,
       .day = condition->day + date::days{full_days(study.rules()(limits::told_days)) + 1}}};
  return made;
}

std::optional<Finding> judge_dead(const Study& study) {
  const model::History& history = study.history();
  const int span = full_days(study.rules()(limits::dead_days));
  const measure::Number dead =
      dead_between(history, history.today - date::days{span - 1}, history.today);
  if (dead <= measure::Number{0}) return std::nullopt;
  const bool several = dead >= study.rules()(limits::dead_several);
  Finding made = finding(kRuleDead, several ? Urgency::kNow : Urgency::kToday, limits::dead_several,
                         study.rules());
  made.case_of = several ? kCaseSeveral : kCaseOne;
  // Not one job with "set ill hens apart": that eggs are held back must stand there.
  made.job = several ? kJobVet : kJobIll;
  if (several) made.forbids = model::Forbids::kProduct;
  made.value = model::Measured{"dead", {measure::Dimension::kCount, dead.value}, ""};
  made.facts.set(kDeadCount, dead);
  made.facts.set(kDays, span);
  made.ends = {{.by = Ending::By::kDay}};
  const model::Series* counts = history.find(kDead);
  for (const model::DayRoll& roll : counts->days) {
    if (roll.total > 0) made.ends.front().day = roll.day + date::days{span};
  }
  return made;
}

}  // namespace

const FeedSpan& Study::fed() const {
  if (!fed_) fed_ = feed_span(history_, rules_);
  return *fed_;
}

const Wants& Study::wants() const {
  if (!wants_) wants_ = wants_of(*this);
  return *wants_;
}

const std::optional<LarvaeShare>& Study::larvae() const {
  if (!larvae_) larvae_ = larvae_share(*this);
  return *larvae_;
}

const Laying& Study::laying() const {
  if (!laying_) laying_ = laying_of(history_, rules_);
  return *laying_;
}

std::string Study::stage() const {
  const int days = full_days(rules_(limits::laying_days));
  return stage_words(eggs_between(
      history_, rules_, std::max(history_.batch.started_day, history_.today - date::days{days}),
      history_.today));
}

std::vector<Finding> Study::findings() const {
  std::vector<Finding> found;
  judge_wants(*this, found);
  for (auto* judge : {judge_laying, judge_share, judge_counts, judge_health, judge_dead}) {
    if (auto made = judge(*this)) found.push_back(std::move(*made));
  }
  return found;
}

model::Words Study::words(const Finding& finding) const {
  return words_of(finding, *this);
}

std::string Study::well() const {
  return laying().now.days > 0 ? laying_words(laying()) : stage();
}

std::vector<model::Progress> Study::progress() const {
  std::vector<model::Progress> made;
  if (!wants().unknown.empty()) {
    made.push_back({"needs", unknown_words(wants().unknown), std::nullopt});
  }
  if (laying().now.days > 0) {
    const auto& rate = laying().rate;
    made.push_back(
        {"laying", laying_words(laying()), rate ? std::optional(rate->value) : std::nullopt});
  }
  if (larvae()) {
    const auto& share = larvae()->share;
    made.push_back({"larvae in the ration", larvae_words(*larvae(), *this),
                    share ? std::optional(share->value) : std::nullopt});
  }
  if (!birds_on(history_, history_.today)) made.push_back({"hens", no_count_words(), std::nullopt});
  return made;
}

std::vector<model::Measure> Study::figures() const {
  std::vector<model::Measure> made;
  measure_laying(history_, rules_, made);
  measure_manure(history_, made);
  return made;
}

// Eggs and meat; not litter or manure, nor the dead.
bool Study::is_meant(model::Forbids what, const model::Movement& load) const {
  return what == model::Forbids::kProduct &&
         (load.material.group == model::group::kEgg ||
          model::purpose_of(load.purpose) == model::Purpose::kEating);
}

// Eggs go out by number: one weighs what those of this flock were found to, else the usual one.
std::optional<model::Load> Study::holds(const model::Movement& load) const {
  const auto moisture = load.material.moisture();
  if (!are_eggs(load) || !moisture) return std::nullopt;
  const MeanEgg egg = mean_egg(history_, rules_);
  model::Load held;
  held.mass = egg.mass * load.amount.si;
  const measure::Kilograms dry = *held.mass * (1 - moisture->value);
  const auto part = [&](const std::optional<measure::Fraction>& share) {
    return share ? std::optional(dry * share->value) : std::nullopt;
  };
  held.carbon = part(load.material.carbon());
  held.nitrogen = part(load.material.nitrogen());
  held.phosphorus = part(load.material.share(model::Property::kPhosphorus));
  held.potassium = part(load.material.share(model::Property::kPotassium));
  held.basis = egg_words(egg, print());
  return held;
}

// A hen lays one egg a day, hardly ever two.
std::optional<std::string> Study::doubts(const Quantity& quantity, double si) const {
  if (quantity.name == kDead.name) {
    const auto left = birds_on(history_, history_.today);
    return left && si > left->value ? std::optional(more_than_hens_words(*left)) : std::nullopt;
  }
  if (quantity.name != kEggs.name) return std::nullopt;
  const auto birds = birds_on(history_, history_.today);
  const model::Series* counts = history_.find(kEggs);
  const double before = counts != nullptr ? counts->total_on(history_.today) : 0;
  if (!birds || si + before <= birds->value) return std::nullopt;
  return doubt_words(*birds, before);
}

}  // namespace kinds::flock

namespace kinds {
namespace {

constexpr std::array kFlockRemedies{Remedy{model::Danger::kBirdsDying, {}, flock::kRuleDead},
                                    Remedy{model::Danger::kOneDead, {}, flock::kRuleDead},
                                    Remedy{model::Danger::kMedicine, flock::kWithdrawalOver}};

}  // namespace

const Kind kFlock{
    .name = "flock",
    .meaning = "a flock of laying hens",
    .one = "",
    .begun = "hens hens=12 breed='mixed layers'",
    .vocabulary = {.quantities = flock::kQuantities,
                   .words = flock::kWords,
                   .settings = flock::kSettings,
                   .unread_after = &thresholds::flock::unread_days_info,
                   .daily = flock::kEggs},
    .drawing = {.chapter = Chapter::kFeeding, .beside = flock::kBeside},
    .carrying = {.product = "eggs", .objects_to = flock::objects_to_feed, .knows = flock::knows},
    .roles = {.animals = true},
    .study = [](const model::History& history, const model::Rules& rules)
        -> std::unique_ptr<Study> { return std::make_unique<flock::Study>(history, rules); },
    .hazards = {.gas = HazardAnswer::rows(),
                .fire = HazardAnswer::rows(),
                .carbon_monoxide = HazardAnswer::none("nothing of it is meant to burn"),
                .germs = HazardAnswer::rows(),
                .pressure = HazardAnswer::none("nothing of it is shut in"),
                .height = HazardAnswer::none("nobody climbs for it"),
                .bites_and_dust = HazardAnswer::rows(),
                .drinking = HazardAnswer::none("it holds no water for people"),
                .electric = HazardAnswer::none("a lamp's wiring stands with its fire")},
    .remedies = kFlockRemedies,
};

}  // namespace kinds
