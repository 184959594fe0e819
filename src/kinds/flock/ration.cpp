#include "kinds/flock/ration.h"

#include <algorithm>
#include <array>

#include "kinds/finding.h"
#include "kinds/flock/days.h"
#include "kinds/flock/facts.h"
#include "kinds/flock/study.h"
#include "kinds/thresholds.h"
#include "model/material_groups.h"
#include "science/animals/hens.h"

namespace kinds::flock {
namespace {

namespace limits = thresholds::flock;
using measure::Fraction;
using measure::Kilograms;
using measure::Number;
using model::Finding;
using model::Urgency;
namespace group = model::group;

constexpr std::array kNotFeed{group::kBedding, group::kBrown, group::kWood,   group::kPaper,
                              group::kChar,    group::kWater, group::kManure, group::kCompost};

bool is_among(const auto& groups, const model::Material& material) {
  return std::find(groups.begin(), groups.end(), material.group) != groups.end();
}

void add_larvae(const model::Movement& movement, Kilograms mass, const model::Rules& rules,
                Ration& into) {
  const Fraction water = movement.material.moisture().value_or(rules(limits::larvae_moisture));
  const Kilograms dry = mass * (1 - water.value);
  into.larvae += mass;
  into.larvae_dry += dry;
  const auto protein = movement.material.share(model::Property::kProtein);
  if (protein) into.larvae_protein += dry * protein->value;
}

// What a hen gets of a part of the dry matter: added, or noted as not known.
void add_part(const model::Movement& movement, Kilograms mass, model::Property part,
              const model::Rules& rules, Kilograms& sum, std::set<std::string>& unknown) {
  const model::Material& material = movement.material;
  auto water = material.moisture();
  if (!water && material.group == group::kLarvae) water = rules(limits::larvae_moisture);
  const auto share = material.share(part);
  if (!water || !share) {
    unknown.insert(material.name);
  } else {
    sum += mass * ((1 - water->value) * share->value);
  }
}

void add_movement(const model::Movement& movement, const model::Rules& rules, Ration& into) {
  const model::Material& material = movement.material;
  if (is_among(kNotFeed, material)) return;
  const bool shell = material.group == group::kMineral;  // shell and grit: calcium, no ration
  if (shell && !material.share(model::Property::kCalcium)) return;
  const bool larvae = material.group == group::kLarvae;
  if (!larvae && !shell) ++into.entries;
  const auto mass = movement.mass();
  if (!mass) {
    (shell ? into.no_calcium : into.no_weight).insert(material.name);
    return;
  }
  add_part(movement, *mass, model::Property::kCalcium, rules, into.calcium, into.no_calcium);
  if (shell) return;
  into.fed += *mass;
  add_part(movement, *mass, model::Property::kProtein, rules, into.protein, into.no_protein);
  if (larvae) {
    add_larvae(movement, *mass, rules, into);
    return;
  }
  if (movement.from.empty() && material.group == group::kFeed) into.bought += *mass;
  if (const auto water = material.moisture()) {
    into.other_dry += *mass * (1 - water->value);
  } else {
    into.no_water.insert(material.name);
  }
}

// Dry matter of the ration a day without the larvae, and how it is known.
struct Other {
  Kilograms dry;
  Kilograms most_larvae;    // dry, a day, at the limit
  std::optional<int> days;  // of recorded feed; none: by the usual ration
};

std::optional<Other> other_feed(const Study& study, Kilograms larvae_dry_a_day) {
  const model::Rules& rules = study.rules();
  const double limit = rules(limits::share_above).value;
  const FeedSpan& span = study.fed();
  if (span.reliable && span.ration.no_water.empty()) {
    const Kilograms dry = span.ration.other_dry / span.days;
    return Other{dry, dry * (limit / (1 - limit)), span.days};
  }
  const auto birds = birds_on(study.history(), study.history().today);
  if (!birds || *birds <= Number{0}) return std::nullopt;
  const double each = rules(limits::need_feed).value;
  const Kilograms all{birds->value * each / 1000 * (1 - rules(limits::feed_moisture).value)};
  return Other{std::max(all - larvae_dry_a_day, Kilograms{}), all * limit, std::nullopt};
}

Kilograms grams(double value) {
  return Kilograms{value / 1000};
}

Number in_grams(Kilograms mass) {
  return Number{mass.value * 1000};
}

}  // namespace

Ration ration_between(const model::History& history, const model::Rules& rules, model::Day from,
                      model::Day to) {
  Ration ration;
  for (const model::Movement& movement : history.in) {
    if (movement.day >= from && movement.day <= to) add_movement(movement, rules, ration);
  }
  return ration;
}

FeedSpan feed_span(const model::History& history, const model::Rules& rules) {
  const int wanted = static_cast<int>(rules(limits::ration_days).value);
  FeedSpan span{std::max(history.batch.started_day, history.today - date::days{wanted}),
                history.today - date::days{1},
                0,
                {},
                false};
  span.days = days_between(span.from, span.to) + 1;
  span.ration = ration_between(history, rules, span.from, span.to);
  span.reliable = span.days >= rules(limits::ration_least_days).value &&
                  span.ration.entries >= rules(limits::ration_entries).value &&
                  span.ration.no_weight.empty();
  return span;
}

std::optional<LarvaeShare> larvae_share(const Study& study) {
  const model::History& history = study.history();
  const model::Rules& rules = study.rules();
  const int wanted = static_cast<int>(rules(limits::share_days).value);
  const model::Day from =
      std::max(history.batch.started_day, history.today - date::days{wanted - 1});
  LarvaeShare made{.days = days_between(from, history.today) + 1, .share = std::nullopt};
  const Ration ration = ration_between(history, rules, from, history.today);
  if (ration.larvae <= Kilograms{0}) return std::nullopt;
  const Kilograms dry = ration.larvae_dry / made.days;
  const auto other = other_feed(study, dry);
  if (!other) return made;
  const auto share = science::larvae_share_of_ration(dry, other->dry, rules(limits::share_above));
  if (!share) return std::nullopt;
  made.share = share->share;
  made.above = share->above_limit;
  made.feed_days = other->days;
  made.ration = Number{rules(limits::need_feed).value};
  made.most_as_fed = other->most_larvae * (ration.larvae / ration.larvae_dry);
  return made;
}

std::optional<Finding> judge_share(const Study& study) {
  const auto& larvae = study.larvae();
  if (!larvae || !larvae->above) return std::nullopt;
  const model::Rules& rules = study.rules();
  Finding made = finding(kRuleShare, Urgency::kToday, limits::share_above, rules);
  made.job = kJobFeed;
  made.value = model::Measured{"share of larvae", measure::value_of(*larvae->share), ""};
  made.facts.set(kLarvaeShare, *larvae->share);
  made.facts.set(kMostShare, rules(limits::share_above));
  made.facts.set(kDays, larvae->days);
  made.facts.set(kMostLarvae, larvae->most_as_fed);
  made.facts.set(kRationEach, larvae->ration);
  if (larvae->feed_days) made.facts.set(kFeedDays, *larvae->feed_days);
  made.ends = {{.by = model::Ending::By::kAdding, .name = std::string(group::kFeed)}};
  return made;
}

std::string_view name_of(Part part) {
  switch (part) {
    case Part::kFeed:
      return "feed";
    case Part::kProtein:
      return "protein";
    case Part::kCalcium:
      return "calcium";
  }
  return "";
}

std::vector<std::string> Wants::names() const {
  std::vector<std::string> names;
  for (const Want& one : all) names.emplace_back(name_of(one.part));
  return names;
}

Wants wants_of(const Study& study) {
  const FeedSpan& span = study.fed();
  const model::Rules& rules = study.rules();
  const auto days = hen_days(study.history(), span.from, span.to);
  Wants wants;
  if (!span.reliable || !days) return wants;
  const Fraction enough = rules(limits::short_below);
  const Kilograms feed_need = grams(rules(limits::need_feed).value);
  const Kilograms calcium_need = grams(rules(limits::need_calcium).value);
  const auto fed = science::nutrient_intake(span.ration.fed, *days, feed_need);
  const auto judge = [&](Part part, Kilograms eaten, Kilograms need) {
    const auto intake = science::nutrient_intake(eaten, *days, need);
    if (!intake || intake->of_need >= enough) return;
    wants.all.push_back({part, in_grams(intake->per_hen_day), in_grams(need), {}, {}});
    if (fed) wants.all.back().fed = in_grams(fed->per_hen_day);
    if (part == Part::kCalcium && fed) {
      wants.all.back().content = science::content_needed(need, fed->per_hen_day);
    }
  };
  judge(Part::kFeed, span.ration.fed, feed_need);
  if (span.ration.no_protein.empty()) {
    judge(Part::kProtein, span.ration.protein, grams(rules(limits::need_protein).value));
  }
  if (span.ration.no_calcium.empty()) judge(Part::kCalcium, span.ration.calcium, calcium_need);
  wants.unknown = span.ration.no_protein;
  wants.unknown.insert(span.ration.no_calcium.begin(), span.ration.no_calcium.end());
  return wants;
}

void judge_wants(const Study& study, std::vector<Finding>& into) {
  const auto add = [&](const Want& want, std::string_view rule, auto need) {
    Finding made = finding(rule, Urgency::kToday, need, study.rules());
    made.job = kJobFeed;
    made.value = model::Measured{std::string(name_of(want.part)),
                                 {measure::Dimension::kNumber, want.grams.value},
                                 "g/hen/d"};
    made.facts.set(kIntake, want.grams);
    made.facts.set(kNeed, want.need);
    made.facts.set(kDays, study.fed().days);
    if (want.fed) made.facts.set(kFedEach, *want.fed);
    if (want.content) made.facts.set(kContent, *want.content);
    made.ends = {
        {.by = model::Ending::By::kAdding,
         .name = std::string(want.part == Part::kCalcium ? group::kMineral : group::kFeed)}};
    into.push_back(std::move(made));
  };
  for (const Want& want : study.wants().all) {
    if (want.part == Part::kFeed) add(want, kRuleFeed, limits::need_feed);
    if (want.part == Part::kProtein) add(want, kRuleProtein, limits::need_protein);
    if (want.part == Part::kCalcium) add(want, kRuleCalcium, limits::need_calcium);
  }
}

}  // namespace kinds::flock
