#include "kinds/flock/days.h"

#include <algorithm>
#include <set>

#include "kinds/finding.h"
#include "kinds/flock/vocabulary.h"
#include "kinds/thresholds.h"
#include "model/material_groups.h"

namespace kinds::flock {
namespace {

using measure::Number;

void count_in_nest(const model::History& history, const model::Series& counts, model::Day from,
                   model::Day to, Eggs& eggs) {
  Number days{};
  bool known = true;
  for (const model::DayRoll& roll : counts.days) {
    if (roll.day < from || roll.day > to) continue;
    eggs.laid += Number{roll.total};  // several collections of a day add up
    ++eggs.days;
    const auto birds = birds_on(history, roll.day);
    known = known && birds.has_value();
    days += birds.value_or(Number{});
  }
  if (known) eggs.hen_days = days;
}

void count_out(const model::History& history, const model::Rules& rules, model::Day from,
               model::Day to, Eggs& eggs) {
  std::set<model::Day> days;
  for (const model::Movement& movement : history.out) {
    if (movement.material.group != model::group::kEgg || movement.day < from || movement.day > to)
      continue;
    days.insert(movement.day);
    if (movement.amount.dimension == measure::Dimension::kCount) {
      eggs.laid += Number{movement.amount.si};
    } else if (const auto mass = movement.mass()) {
      const double grams = rules(thresholds::flock::egg_mass).value;
      eggs.laid += Number{mass->value * 1000 / grams};
      eggs.by_mass = true;
    }
  }
  eggs.days = static_cast<int>(days.size());
  eggs.span = std::max(days_between(from, to) + 1, 0);
  eggs.by_movements = true;
  eggs.hen_days = hen_days(history, from, to);
}

}  // namespace

std::optional<Number> birds_on(const model::History& history, model::Day day) {
  std::optional<Number> birds;
  if (const auto told = history.batch.number(kHens)) birds = Number{told->si};
  model::Instant counted_at = history.batch.started;
  if (const model::Series* counts = history.find(kBirds)) {
    for (const model::DayRoll& roll : counts->days) {
      // Before the first count, that count is the best there is.
      if (roll.day > day && birds) break;
      birds = Number{roll.last};
      counted_at = roll.last_at;
      if (roll.day > day) break;
    }
  }
  const model::Series* dead = history.find(kDead);
  if (!birds || dead == nullptr) return birds;
  for (const model::DayRoll& roll : dead->days) {
    if (roll.day <= day && roll.last_at > counted_at)
      birds = Number{std::max(birds->value - roll.total, 0.0)};
  }
  return birds;
}

Number dead_between(const model::History& history, model::Day from, model::Day to) {
  Number sum{};
  const model::Series* dead = history.find(kDead);
  if (dead == nullptr) return sum;
  for (const model::DayRoll& roll : dead->days) {
    if (roll.day >= from && roll.day <= to) sum += Number{roll.total};
  }
  return sum;
}

MeanEgg mean_egg(const model::History& history, const model::Rules& rules) {
  const model::Series* weighed = history.find(kEggMass);
  if (weighed == nullptr || weighed->days.empty()) {
    return {measure::Kilograms{rules(thresholds::flock::egg_mass).value / 1000}, false};
  }
  double sum = 0;
  for (const model::DayRoll& roll : weighed->days) sum += roll.mean();
  return {measure::Kilograms{sum / static_cast<double>(weighed->days.size())}, true};
}

std::optional<Number> hen_days(const model::History& history, model::Day from, model::Day to) {
  Number sum{};
  for (model::Day day = from; day <= to; day += date::days{1}) {
    const auto birds = birds_on(history, day);
    if (!birds) return std::nullopt;
    sum += *birds;
  }
  return sum;
}

Eggs eggs_between(const model::History& history, const model::Rules& rules, model::Day from,
                  model::Day to) {
  Eggs counted, out;
  if (const model::Series* counts = history.find(kEggs)) {
    count_in_nest(history, *counts, from, to, counted);
  }
  count_out(history, rules, from, to, out);
  return counted.days > 0 && counted.days >= out.days ? counted : out;
}

model::Day last_day(const model::History& history) {
  return history.batch.ended_day.value_or(history.today);
}

}  // namespace kinds::flock
