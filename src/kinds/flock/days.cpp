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

namespace {

const std::vector<model::DayRoll> kNoDays;

// Those that died after the day of the last count, which a later count would not have found.
Number died_between(const model::History& history, model::Day counted, model::Day day) {
  Number died{};
  const model::Series* deaths = history.find(kDead);
  if (deaths == nullptr) return died;
  for (const model::DayRoll& roll : deaths->days) {
    if (roll.day > counted && roll.day <= day) died += Number{roll.total};
  }
  return died;
}

}  // namespace

std::optional<Number> birds_on(const model::History& history, model::Day day) {
  std::optional<Number> birds;
  model::Day counted = history.batch.started_day - date::days{1};
  if (const auto told = history.batch.number(kHens)) birds = Number{told->si};
  const model::Series* counts = history.find(kBirds);
  for (const model::DayRoll& roll : counts != nullptr ? counts->days : kNoDays) {
    // Before the first count, that count is the best there is.
    if (roll.day > day && birds) break;
    birds = Number{roll.last};
    counted = roll.day;
    if (roll.day > day) break;
  }
  if (!birds) return birds;
  return std::max(*birds - died_between(history, counted, day), Number{});
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
