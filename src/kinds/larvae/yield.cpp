#include "kinds/larvae/yield.h"

#include <algorithm>
#include <set>

#include "kinds/finding.h"
#include "kinds/larvae/facts.h"
#include "kinds/larvae/study.h"
#include "kinds/larvae/vocabulary.h"
#include "kinds/thresholds.h"
#include "model/material_groups.h"

namespace kinds::larvae {
namespace {

namespace limits = thresholds::larvae;
using measure::Fraction;
using measure::Kilograms;
using model::Ending;
using model::Finding;
using model::Urgency;

// A mass and the dry part of it, where the water of all of it is known.
struct Weight {
  Kilograms wet{};
  std::optional<Kilograms> dry = Kilograms{};

  void add(Kilograms mass, std::optional<Fraction> moisture) {
    wet += mass;
    if (!moisture || !dry) {
      dry.reset();
    } else {
      *dry += mass * (1 - moisture->value);
    }
  }
  std::optional<Fraction> moisture() const {
    if (!dry || wet <= Kilograms{0}) return std::nullopt;
    return Fraction{1 - *dry / wet};
  }
};

std::optional<Fraction> young_larvae_moisture() {
  const model::Material* young = model::in_catalogue(kYoungLarvae);
  return young != nullptr ? young->moisture() : std::nullopt;
}

void add_feed(const model::History& history, Yield& yield) {
  const auto read = read_moisture(history, kFeedMoisture);
  Weight weight;
  std::set<std::string> unweighed;
  for (const model::Movement& movement : history.in) {
    if (!is_feed(movement)) continue;
    ++yield.feeds;
    if (const auto mass = movement.mass()) {
      weight.add(*mass, read ? read : movement.material.moisture());
    } else {
      ++yield.unweighed_feeds;
      unweighed.insert(movement.material.name);
    }
  }
  yield.feed = weight.wet;
  yield.unweighed_materials.assign(unweighed.begin(), unweighed.end());
  if (yield.feeds > 0 && yield.unweighed_feeds == 0) yield.run.feed = weight.wet;
  yield.moistures.feed = weight.moisture();
}

void add_bulking(const model::History& history, Yield& yield) {
  Weight weight;
  bool all_weighed = true;
  for (const model::Movement& movement : history.in) {
    if (!is_bulking(movement)) continue;
    const auto mass = movement.mass();
    all_weighed = all_weighed && mass.has_value();
    if (mass) weight.add(*mass, movement.material.moisture());
  }
  yield.run.bulking = all_weighed ? std::optional(weight.wet) : std::nullopt;
  yield.moistures.bulking = weight.moisture();
}

void add_frass(const model::History& history, const Course& course, Yield& yield) {
  const auto read = read_moisture(history, kFrassMoisture);
  Weight weight;
  bool all_weighed = true;
  for (const model::Movement& movement : history.out) {
    if (movement.material.group != model::group::kFrass || movement.day < course.seeded) continue;
    const auto mass = movement.mass();
    all_weighed = all_weighed && mass.has_value();
    if (mass) weight.add(*mass, read ? read : movement.material.moisture());
  }
  if (all_weighed && weight.wet > Kilograms{0}) yield.run.residue = weight.wet;
  yield.moistures.residue = weight.moisture();
}

void add_harvest(const model::History& history, const model::Rules& rules, const Course& course,
                 const std::vector<Weighing>& weighings, Yield& yield) {
  const auto read = read_moisture(history, kLarvaeMoisture);
  const auto read_dried = read_moisture(history, kDriedMoisture);
  Weight weight;
  std::optional<model::Day> last;
  for (const model::Movement& movement : history.out) {
    if (!is_harvest(movement, course)) continue;
    last = movement.day;
    const auto mass = mass_of(movement, weighings, rules);
    if (!mass) {
      ++yield.unweighed_harvests;
      continue;
    }
    if (movement.amount.dimension == measure::Dimension::kCount) ++yield.counted_harvests;
    const bool is_dried = movement.material.name == kDriedLarvae;
    const auto& own = is_dried ? read_dried : read;
    weight.add(*mass, own ? own : movement.material.moisture());
    (is_dried                                ? yield.dried
     : movement.material.name == kDarkLarvae ? yield.dark
                                             : yield.light) += *mass;
  }
  if (last && yield.unweighed_harvests == 0) yield.run.larvae_out = weight.wet;
  if (last) yield.run.duration = measure::Days{1.0 * days_between(course.seeded, *last)};
  yield.moistures.larvae_out = weight.moisture();
  if (!last) return;
  if (const auto sample = sound_near(weighings, *last, rules(limits::sample_harvest)))
    yield.larva_at_harvest = sample->mass;
}

std::vector<std::string> moistures_read(const model::History& history) {
  std::vector<std::string> read;
  for (const auto& [quantity, name] :
       {std::pair{kFeedMoisture.name, "feed"}, std::pair{kFrassMoisture.name, "frass"},
        std::pair{kLarvaeMoisture.name, "larvae"},
        std::pair{kYoungMoisture.name, "young larvae"}}) {
    if (!history.all(quantity).empty()) read.emplace_back(name);
  }
  return read;
}

}  // namespace

std::optional<Fraction> read_moisture(const model::History& history, std::string_view quantity) {
  double sum = 0;
  int days = 0;
  for (const model::DayRoll& roll : model::pooled_days(history.all(quantity))) {
    sum += roll.mean();
    ++days;
  }
  if (days == 0) return std::nullopt;
  return Fraction{sum / days};
}

std::optional<Kilograms> mass_of(const model::Movement& movement,
                                 const std::vector<Weighing>& weighings,
                                 const model::Rules& rules) {
  if (const auto mass = movement.mass()) return mass;
  if (movement.amount.dimension != measure::Dimension::kCount) return std::nullopt;
  const auto sample = sound_near(weighings, movement.day, rules(limits::sample_harvest));
  if (!sample) return std::nullopt;
  return sample->mass * movement.amount.si;
}

bool is_harvest(const model::Movement& movement, const Course& course) {
  return is_larvae(movement) && movement.day >= course.seeded;
}

Yield yield_of(const model::History& history, const model::Rules& rules, const Course& course,
               const std::vector<Weighing>& weighings) {
  Yield yield;
  add_feed(history, yield);
  add_bulking(history, yield);
  add_frass(history, course, yield);
  add_harvest(history, rules, course, weighings, yield);
  yield.young_weighed = course.mass_in.has_value();
  yield.run.larvae_in = course.mass_in.value_or(Kilograms{0});
  const auto young = read_moisture(history, kYoungMoisture);
  yield.moistures.larvae_in = young ? young : young_larvae_moisture();
  yield.run.larvae_count = course.count;
  if (const auto area = history.batch.number(kArea)) {
    yield.run.area = measure::SquareMetres{area->si};
  }
  yield.moistures_read = moistures_read(history);
  const bool both = yield.run.larvae_out.has_value() && yield.run.residue.has_value();
  yield.complete = both || history.batch.ended.has_value();
  return yield;
}

void judge_records(const Study& study, std::vector<Finding>& into) {
  const auto add = [&](std::string_view case_of, std::vector<Ending> ends) -> Finding& {
    Finding made = finding(kRuleRecord, Urgency::kToday, "the records themselves");
    made.case_of = case_of;
    made.job = kJobCorrect;
    made.ends = std::move(ends);
    return into.emplace_back(std::move(made));
  };
  const Course& course = study.course();
  for (const model::Movement& movement : study.history().out) {
    if (!is_larvae(movement) || movement.day >= course.seeded) continue;
    Finding& made =
        add(kCaseBeforeSeeding, {{.by = Ending::By::kSetting, .name = std::string(kSeedDate)},
                                 {.by = Ending::By::kTaking, .name = movement.material.name}});
    made.since = movement.day;
    made.facts.set(kTyped, movement.typed);
    made.facts.set(kMaterial, movement.material.name);
    made.facts.set(kOn, movement.day);
    made.facts.set(kSeededOn, course.seeded);
    break;
  }
  const science::LarvaeRun& run = study.yield().run;
  const auto metrics = science::metrics_as_weighed(run);
  if (!run.larvae_out || !run.feed || !metrics.gain || *metrics.gain <= *run.feed) return;
  Finding& made =
      add(kCaseMoreThanFed, {{.by = Ending::By::kAdding, .name = std::string(model::group::kFeed)},
                             {.by = Ending::By::kTaking, .name = std::string(kLiveLarvae)}});
  made.facts.set(kTaken, *run.larvae_out);
  made.facts.set(kGiven, *run.feed);
}

}  // namespace kinds::larvae
