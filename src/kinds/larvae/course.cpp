#include "kinds/larvae/course.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "kinds/thresholds.h"
#include "measure/printer.h"
#include "science/animals/larvae.h"

namespace kinds::larvae {
namespace {

namespace limits = thresholds::larvae;
using measure::Days;
using measure::Kilograms;
using measure::Number;

constexpr std::string_view kEggs = "bsf eggs";

constexpr std::array<std::string_view, 12> kNotFeed{"larvae",  "paper", "brown",   "wood",
                                                    "bedding", "char",  "compost", "mineral",
                                                    "water",   "frass", "gas",     "brew"};

bool is_eggs(const model::Movement& movement) {
  return movement.material.name == kEggs;
}

std::vector<model::Day> seeding_days(const model::History& history) {
  std::vector<model::Day> days;
  for (const model::Deed& deed : history.deeds) {
    if (deed.word == "seeded") days.push_back(deed.day);
  }
  if (!days.empty()) return days;
  for (const model::Movement& movement : history.in) {
    if (is_larvae(movement)) days.push_back(movement.day);
  }
  return days;
}

void find_seeding(const model::History& history, Course& course) {
  const std::vector<model::Day> days = seeding_days(history);
  const auto told = measure::parse_iso_date(history.batch.text("seed_date", ""));
  course.seeded = told ? *told : days.empty() ? history.batch.started_day : days.front();
  const bool begun_with = history.batch.number("seeded") || history.batch.number("young") ||
                          history.batch.number("eggs");
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
  course.count_basis =
      fmt::format("{} larvae by their mass, {} each{}",
                  course.count ? measure::print_number(course.count->value, 0) : "?",
                  larva_words(mean), sample ? "" : " (not weighed)");
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
  course.count_basis =
      fmt::format("{} larvae from the eggs", measure::print_number(hatched->value, 0));
}

void find_count(const model::History& history, const model::Rules& rules,
                const std::vector<Weighing>& weighings, Course& course) {
  const Seed larvae = seed_of(history, "young", false);
  const Seed eggs = seed_of(history, "eggs", true);
  const auto told = history.batch.number("seeded");
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
  } else if (const auto age = history.batch.number("age")) {
    course.age = Days{age->si};
    if (*course.age < nursery) course.nursery_until += days(nursery - *course.age);
  }
}

}  // namespace

Diet diet_of(const model::Batch& batch) {
  const std::string told = batch.text("diet", "");
  if (told == "plain") {
    return {"plain", true, limits::harvest_plain, limits::harvest_plain_error,
            limits::harvest_plain_from};
  }
  return {"rich", !told.empty(), limits::harvest_rich, limits::harvest_rich_error,
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
  return movement.material.group == "larvae";
}

bool is_feed(const model::Movement& movement) {
  return std::find(kNotFeed.begin(), kNotFeed.end(), movement.material.group) == kNotFeed.end();
}

model::Day last_day(const model::History& history) {
  return history.batch.ended_day.value_or(history.today);
}

}  // namespace kinds::larvae
