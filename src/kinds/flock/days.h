#pragma once

#include <optional>

#include "model/history.h"
#include "model/rules.h"

// A flock's birds and eggs, day by day.
namespace kinds::flock {

// Birds on a day: the last count up to it, else the number told at the start, less those found dead
// since; none: neither.
std::optional<measure::Number> birds_on(const model::History& history, model::Day day);

// Each day's birds added up, both ends counted; none where a day's number is not known.
std::optional<measure::Number> hen_days(const model::History& history, model::Day from,
                                        model::Day to);

// Birds found dead from one day to another, both counted.
measure::Number dead_between(const model::History& history, model::Day from, model::Day to);

// What an egg weighs: the mean of those weighed, else the usual one.
struct MeanEgg {
  measure::Kilograms mass;
  bool weighed;
};
MeanEgg mean_egg(const model::History& history, const model::Rules& rules);

struct Eggs {
  measure::Number laid{};
  int days = 0;                             // with a count, or on which some went out
  int span = 0;                             // days from first to last, where what went out stands
  std::optional<measure::Number> hen_days;  // of the days that the eggs belong to
  bool by_movements = false;                // what went out stands for what was laid
  bool by_mass = false;                     // some went out by weight: counted by the usual egg
};

// Eggs laid from one day to another, both counted. The eggs that go out are those of the nests
// again, so that one of the two records stands for the span: the counts in the nests, unless eggs
// went out on more days than they were counted. A day without a count is not taken as a day without
// eggs.
Eggs eggs_between(const model::History& history, const model::Rules& rules, model::Day from,
                  model::Day to);

// The last day that belongs to the flock: today, or the day it ended.
model::Day last_day(const model::History& history);

}  // namespace kinds::flock
