#include "kinds/larvae/course.h"

#include <algorithm>
#include <array>
#include <cmath>

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

constexpr std::array kBulking{model::group::kPaper, model::group::kBrown, model::group::kWood,
                              model::group::kBedding, model::group::kChar};
constexpr std::array kNeither{model::group::kLarvae, model::group::kCompost, model::group::kMineral,
                              model::group::kWater,  model::group::kFrass,   model::group::kGas,
                              model::group::kBrew};

bool is_among(const auto& groups, const model::Movement& movement) {
  return std::find(groups.begin(), groups.end(), movement.material.group) != groups.end();
}

bool is_eggs(const model::Movement& movement) {
  return movement.material.name == kEggsOfFlies;
}

std::vector<model::Day> seeding_days(const model::History& history) {
  std::vector<model::Day> days;
  for (const model::Deed& deed : history.deeds) {
    if (deed.word == kSeeded.word) days.push_back(deed.day);
  }
  if (!days.empty()) return days;
  for (const model::Movement& movement : history.in) {
    if (is_larvae(movement)) days.push_back(movement.day);
  }
  return days;
}

void find_seeding(const model::History& history, Course& course) {
  const std::vector<model::Day> days = seeding_days(history);
  const auto told = measure::parse_iso_date(history.batch.text(kSeedDate, ""));
  course.seeded = told ? *told : days.empty() ? history.batch.started_day : days.front();
  const bool begun_with = history.batch.number(kSeedCount) || history.batch.number(kYoung) ||
                          history.batch.number(kEggs);
  course.seeding_told = told || !days.empty() || begun_with;
  if (!days.empty() && days.back() > course.seeded) course.seeded_again = days.back();
}

// What was seeded, of one sort (eggs or larvae): the setting, else what the movements add up to.
struct Seed {
  std::optional<Kilograms> mass;
  double counted = 0;
};

Seed seed_of(const model::History& history, std::string_view setting, bool eggs) {
  Seed seed;
  if (const auto told = history.batch.number(setting)) {
    seed.mass = Kilograms{told->si};
    return seed;
  }
  for (const model::Movement& movement : history.in) {
    if (!is_larvae(movement) || is_eggs(movement) != eggs) continue;
    if (movement.amount.dimension == measure::Dimension::kCount) {
      seed.counted += movement.amount.si;
    } else if (const auto mass = movement.mass()) {
      seed.mass = seed.mass.value_or(Kilograms{}) + *mass;
    }
  }
  return seed;
}

void count_from_mass(const Seed& larvae, const std::optional<Weighing>& sample,
                     const model::Rules& rules, Course& course) {
  const Kilograms mean =
      sample ? sample->mass : Kilograms{rules(limits::seed_young).value / kMilligrams};
  course.count = science::larvae_from_mass(*larvae.mass, mean);
  if (course.count && larvae.counted > 0) *course.count += Number{larvae.counted};
  course.counted_by = Course::CountedBy::kMass;
  course.each = mean;
  course.each_weighed = sample.has_value();
}

void count_from_eggs(const Seed& eggs, const model::Rules& rules, Course& course) {
  const measure::Fraction hatch = rules(limits::seed_hatch);
  std::optional<Number> hatched;
  if (eggs.mass) {
    hatched = science::larvae_from_eggs(*eggs.mass, rules(limits::seed_eggs_per_gram), hatch);
  }
  if (eggs.counted > 0) {
    hatched = hatched.value_or(Number{0}) + Number{eggs.counted * hatch.value};
  }
  if (!hatched) return;
  course.count = hatched;
  course.counted_by = Course::CountedBy::kEggs;
}

void find_count(const model::History& history, const model::Rules& rules,
                const std::vector<Weighing>& weighings, Course& course) {
  const Seed larvae = seed_of(history, kYoung, false);
  const Seed eggs = seed_of(history, kEggs, true);
  const auto told = history.batch.number(kSeedCount);
  course.from_eggs =
      !told && !larvae.mass && larvae.counted <= 0 && (eggs.mass.has_value() || eggs.counted > 0);
  const auto sample = first_sound(weighings, course.seeded + date::days{1});
  course.mass_in = course.from_eggs ? eggs.mass : larvae.mass;
  if (told) {
    course.count = Number{told->si};
  } else if (larvae.mass) {
    count_from_mass(larvae, sample, rules, course);
  } else if (larvae.counted > 0) {
    course.count = Number{larvae.counted};
  } else {
    count_from_eggs(eggs, rules, course);
  }
  if (course.count && *course.count <= Number{0}) course.count.reset();
  if (!course.mass_in && course.count && sample && !course.from_eggs) {
    course.mass_in = sample->mass * course.count->value;
  }
}

void find_age(const model::History& history, const model::Rules& rules, Course& course) {
  const auto days = [](Days length) {
    return date::days{static_cast<int>(std::ceil(length.value))};
  };
  course.counts_from = course.seeded;
  course.nursery_until = course.seeded;
  const Days nursery = rules(limits::seed_nursery_days);
  if (course.from_eggs) {
    course.counts_from += days(rules(limits::seed_hatch_days));
    course.nursery_until = course.counts_from + days(nursery);
  } else if (const auto age = history.batch.number(kAge)) {
    course.age = Days{age->si};
    if (*course.age < nursery) course.nursery_until += days(nursery - *course.age);
  }
}

}  // namespace

Diet diet_of(const model::Batch& batch) {
  const std::string told = batch.text(kDiet, "");
  if (told == kPlain) {
    return {kPlain, true, limits::harvest_plain, limits::harvest_plain_error,
            limits::harvest_plain_from};
  }
  return {kRich, !told.empty(), limits::harvest_rich, limits::harvest_rich_error,
          limits::harvest_rich_from};
}

science::DegreeDayLimits limits_of(const Diet& diet, const model::Rules& rules) {
  return {rules(diet.from), rules(limits::harvest_upto), rules(limits::hot_lethal)};
}

Course course_of(const model::History& history, const model::Rules& rules,
                 const std::vector<Weighing>& weighings) {
  Course course;
  find_seeding(history, course);
  find_count(history, rules, weighings, course);
  find_age(history, rules, course);
  return course;
}

model::Day seeding_day(const model::History& history) {
  Course course;
  find_seeding(history, course);
  return course.seeded;
}

measure::DegreeDays head_start(const Course& course, const Diet& diet, const model::Rules& rules) {
  if (!course.age) return measure::DegreeDays{0};
  return science::degree_days_from_mean(rules(limits::seed_nursery), limits_of(diet, rules)) *
         course.age->value;
}

bool is_larvae(const model::Movement& movement) {
  return movement.material.group == model::group::kLarvae;
}

bool is_feed(const model::Movement& movement) {
  return !is_among(kBulking, movement) && !is_among(kNeither, movement);
}

bool is_bulking(const model::Movement& movement) {
  return is_among(kBulking, movement) && movement.material.name != kCardboard;
}

model::Day last_day(const model::History& history) {
  return history.batch.ended_day.value_or(history.today);
}

}  // namespace kinds::larvae
