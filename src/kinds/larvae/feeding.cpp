#include "kinds/larvae/feeding.h"

#include <algorithm>
#include <cmath>

#include "kinds/finding.h"
#include "kinds/larvae/facts.h"
#include "kinds/larvae/study.h"
#include "kinds/larvae/vocabulary.h"
#include "kinds/thresholds.h"
#include "model/material_groups.h"
#include "science/animals/larvae.h"

namespace kinds::larvae {
namespace {

namespace limits = thresholds::larvae;
using measure::Days;
using measure::Kilograms;
using measure::Number;
using model::Ending;
using model::Finding;
using model::Urgency;

// Sums of what was typed in pounds must not fall short of a day by their last digit.
constexpr double kOfPounds = 1e-9;

// What the larvae eat in a day by the rule, at their age on that day; none where neither their
// number nor the area is known.
std::optional<Kilograms> appetite(const model::History& history, const model::Rules& rules,
                                  const Course& course, model::Day day) {
  if (course.count) {
    const bool young = day < course.nursery_until;
    const Number each = young ? rules(limits::feed_nursery) : rules(limits::feed_a_day);
    return Kilograms{each.value * course.count->value / kMilligrams};
  }
  if (const auto area = history.batch.number(kArea)) {
    return Kilograms{rules(limits::feed_area).value * area->si};
  }
  return std::nullopt;
}

// What still lies in the bin this morning, with what was given today.
Kilograms uneaten(const model::History& history, const model::Rules& rules, const Course& course,
                  const Feeding& feeding) {
  Kilograms lying;
  for (const auto& [day, mass] : feeding.by_day) {
    if (day < course.seeded) lying += mass;
  }
  for (model::Day day = course.seeded; day < history.today; day += date::days{1}) {
    const auto given = feeding.by_day.find(day);
    if (given != feeding.by_day.end()) lying += given->second;
    const auto eaten = appetite(history, rules, course, day).value_or(Kilograms{});
    lying = std::max(lying - eaten, Kilograms{});
  }
  const auto today = feeding.by_day.find(history.today);
  return today == feeding.by_day.end() ? lying : lying + today->second;
}

// Whole days for which it lasts, from today on.
int days_of(Kilograms lying, const model::History& history, const model::Rules& rules,
            const Course& course) {
  constexpr int kLongest = 365;
  int days = 0;
  for (; days < kLongest; ++days) {
    const auto eaten = appetite(history, rules, course, history.today + date::days{days});
    if (!eaten || *eaten <= Kilograms{0} || lying.value + kOfPounds < eaten->value) break;
    lying = lying - *eaten;
  }
  return days;
}

std::vector<Ending> by_feeding() {
  return {{.by = Ending::By::kAdding, .name = std::string(model::group::kFeed)}};
}

// What was fed is reckoned eaten, and nobody has fed since: sooner told of than the mean of a week.
std::optional<Finding> judge_empty(const Study& study) {
  const Feeding& feeding = study.feeding();
  if (feeding.by_day.empty() || feeding.lying > Kilograms{0}) return std::nullopt;
  const model::Day last = feeding.by_day.rbegin()->first;
  const int days = days_between(last, study.history().today);
  if (days < study.rules()(limits::empty_after).value) return std::nullopt;
  Finding made = finding(kRuleEmpty, Urgency::kToday, limits::empty_after, study.rules());
  made.job = kJobFeed;
  made.value = model::Measured{"time since it was fed", measure::value_of(Days{1.0 * days}), ""};
  made.facts.set(kOn, last);
  made.facts.set(kAppetite, *feeding.appetite);
  made.ends = by_feeding();
  return made;
}

// Without a number only an empty plate can be told from a full one.
std::optional<Finding> judge_plate(const Study& study, int since) {
  const Days window = study.rules()(limits::feed_window);
  if (study.feeding().in_window > 0 || since < window.value) return std::nullopt;
  Finding made = finding(kRuleUnderfed, Urgency::kToday, limits::feed_window, study.rules());
  made.case_of = kCaseNoFeed;
  made.job = kJobFeed;
  made.facts.set(kDays, full_days(window));
  made.ends = by_feeding();
  return made;
}

std::optional<Finding> judge_hunger(const Study& study) {
  const Course& course = study.course();
  const Feeding& feeding = study.feeding();
  const model::Day today = study.history().today;
  const int since = days_between(std::max(course.nursery_until, course.counts_from), today);
  if (since < study.rules()(limits::underfed_after).value || feeding.unweighed_in_window > 0)
    return std::nullopt;
  if (!course.count) return judge_plate(study, since);
  // A heavy feed after lean days: hungry they were, but they have enough now.
  if (feeding.days_lying > 0) return std::nullopt;
  const Days span{std::min(1.0 * days_between(course.seeded, today) + 1,
                           study.rules()(limits::feed_window).value)};
  const double each = feeding.window.value * kMilligrams / (course.count->value * span.value);
  if (each >= study.rules()(limits::underfed_below).value) return judge_empty(study);
  Finding made = finding(kRuleUnderfed, Urgency::kToday, limits::underfed_below, study.rules());
  made.case_of = kCaseByLarva;
  made.job = kJobFeed;
  made.value = model::Measured{"feed", {measure::Dimension::kNumber, each}, "mg/larva/d"};
  made.facts.set(kGiven, feeding.window);
  made.facts.set(kDays, full_days(span));
  made.facts.set(kEach, Number{each});
  made.facts.set(kEachLimit, study.rules()(limits::underfed_below));
  made.facts.set(kAppetite, *feeding.appetite);
  made.ends = by_feeding();
  return made;
}

std::optional<Finding> judge_excess(const Study& study) {
  const model::Rules& rules = study.rules();
  const Course& course = study.course();
  // Always over the whole window: what was given on the first day is meant for the days after it.
  const Days window = rules(limits::feed_window);
  science::LarvaeRun run{
      .feed = study.feeding().window, .duration = window, .larvae_count = course.count};
  if (const auto area = study.history().batch.number(kArea))
    run.area = measure::SquareMetres{area->si};
  const auto metrics = science::metrics_as_weighed(run);
  const auto& each = metrics.feed_mg_per_larva_day;
  const auto& area = metrics.feed_kg_per_m2_day;
  const bool by_larva =
      each && *each > rules(limits::overfed_above) && study.history().today >= course.nursery_until;
  const bool by_area = area && *area > rules(limits::overfed_area);
  if (!by_larva && !by_area) return std::nullopt;
  Finding made = by_larva ? finding(kRuleOverfed, Urgency::kToday, limits::overfed_above, rules)
                          : finding(kRuleOverfed, Urgency::kToday, limits::overfed_area, rules);
  made.case_of = by_larva ? kCaseByLarva : kCaseByArea;
  made.job = kJobFeed;
  made.facts.set(kGiven, *run.feed);
  made.facts.set(kDays, full_days(window));
  if (by_larva) {
    made.value = model::Measured{"feed", measure::value_of(*each), "mg/larva/d"};
    made.facts.set(kEach, *each);
    made.facts.set(kEachLimit, rules(limits::overfed_above));
  } else {
    made.value = model::Measured{"feed", measure::value_of(*area), "kg/m2/d"};
    made.facts.set(kOnArea, *run.area);
    made.facts.set(kMost, Kilograms{rules(limits::overfed_area).value * run.area->value});
  }
  made.ends = {{.by = Ending::By::kDay}};
  return made;
}

}  // namespace

Feeding feeding_of(const model::History& history, const model::Rules& rules, const Course& course) {
  Feeding feeding;
  const double window = rules(limits::feed_window).value;
  for (const model::Movement& movement : history.in) {
    if (!is_feed(movement)) continue;
    const auto mass = movement.mass();
    if (mass) feeding.by_day[movement.day] += *mass;
    if (days_between(movement.day, history.today) >= window) continue;
    ++feeding.in_window;
    if (mass) {
      feeding.window += *mass;
    } else {
      ++feeding.unweighed_in_window;
    }
  }
  feeding.appetite = appetite(history, rules, course, history.today);
  feeding.lying = uneaten(history, rules, course, feeding);
  feeding.days_lying = days_of(feeding.lying, history, rules, course);
  return feeding;
}

Advice advice_of(const Study& study) {
  const model::Day today = study.history().today;
  const Feeding& feeding = study.feeding();
  if (study.readiness().ready()) return Advice::kHarvestFirst;
  if (study.comfort() == Comfort::kDormant) return Advice::kTooCold;
  if (study.comfort() == Comfort::kHot) return Advice::kTooHot;
  if (today < study.course().seeded) return Advice::kNotSeeded;
  if (today < study.course().counts_from) return Advice::kNotHatched;
  if (!feeding.appetite) return Advice::kUnknown;
  if (feeding.unweighed_in_window > 0) return Advice::kLookFirst;
  return feeding.days_lying > 0 ? Advice::kLiesThere : Advice::kFeed;
}

void judge_feeding(const Study& study, std::vector<Finding>& into) {
  if (auto over = judge_excess(study)) into.push_back(std::move(*over));
  const Comfort comfort = study.comfort();
  const bool wants_feed = !study.readiness().ready() && comfort != Comfort::kDormant &&
                          comfort != Comfort::kSlow && comfort != Comfort::kHot;
  if (!wants_feed) return;
  if (auto hungry = judge_hunger(study)) into.push_back(std::move(*hungry));
}

}  // namespace kinds::larvae
