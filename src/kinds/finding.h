#pragma once

#include <fmt/format.h>

#include <chrono>
#include <cmath>
#include <optional>
#include <string>

#include "kinds/kind.h"

// What the kinds share when they find something and word it.
namespace kinds {

// A finding with its rule's number: `rule` is "pile.hot", the threshold gives key, limit and
// source.
template <class T>
model::Finding finding(std::string_view rule, model::Urgency urgency, model::Threshold<T> threshold,
                       const model::Rules& rules) {
  model::Finding made;
  made.rule = rule;
  made.urgency = urgency;
  const model::RuleInForce in_force = rules.in_force(*threshold.info);
  made.limit = model::Measured{
      "", {threshold.info->dimension, in_force.si}, std::string(threshold.info->label)};
  made.threshold = threshold.info->key;
  made.source = in_force.source;
  return made;
}

// A finding that rests on no number.
model::Finding finding(std::string_view rule, model::Urgency urgency, std::string_view source);

// "1 day", "12 days".
std::string days_words(int days);

// A count of days, or a plain number, to the nearest; from 0 on.
inline int whole(measure::Days days) {
  return static_cast<int>(std::lround(days.value));
}
inline int whole(measure::Number number) {
  return static_cast<int>(std::lround(number.value));
}
// The days that are over.
inline int full_days(measure::Days days) {
  return static_cast<int>(days.value);
}

// Whole days since a day: 0 on the day itself.
inline int days_between(model::Day from, model::Day to) {
  return (to - from).count();
}

// Days from one moment to a later one, with their fraction.
inline double elapsed_days(model::Instant from, model::Instant to) {
  return std::chrono::duration<double, date::days::period>(to - from).count();
}

// Two remarks as one, "first; second"; an empty one leaves the other.
std::string joined(const std::string& text, const std::string& more);

// "about Mon 3 May (Sat 1 May to Thu 6 May)", of those days that are there.
std::string foreseen_words(const model::Forecast& forecast, model::Day today);

// "core" or, where no position was said, "it".
std::string position_words(const model::Series& series);

// "3 of 15 days": how far, and the share of it.
model::Progress progress(std::string_view goal, double done, double wanted, std::string says);

// What is lost of one stuff where mass, carbon and nitrogen leave for the air; P and K stay.
inline ExpectedLoss loss_of(model::Stuff stuff, ExpectedLoss mass, ExpectedLoss carbon,
                            ExpectedLoss nitrogen) {
  switch (stuff) {
    case model::Stuff::kMass:
      return mass;
    case model::Stuff::kCarbon:
      return carbon;
    case model::Stuff::kNitrogen:
      return nitrogen;
    case model::Stuff::kPhosphorus:
    case model::Stuff::kPotassium:
      return {};
  }
  return {};
}

}  // namespace kinds
