#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/larvae/samples.h"
#include "model/history.h"
#include "model/rules.h"
#include "science/animals/degree_days.h"

// What a bin was begun with: its diet, and how many larvae of what age were seeded when.
namespace kinds::larvae {

// The published constants that the diet calls for.
struct Diet {
  std::string_view word;  // "rich"
  bool told;              // else the richer, whose harvest comes sooner
  model::Threshold<measure::DegreeDays> constant, error;
  model::Threshold<measure::Celsius> from;
};
Diet diet_of(const model::Batch& batch);
science::DegreeDayLimits limits_of(const Diet& diet, const model::Rules& rules);

struct Course {
  model::Day seeded;
  bool seeding_told = false;               // else nothing says that the batch's start was one
  std::optional<model::Day> seeded_again;  // the last, where larvae were seeded on several days
  bool from_eggs = false;
  model::Day counts_from;                // warmth counts from here: the hatch, or the seeding
  std::optional<measure::Days> age;      // of the larvae when seeded, where told
  model::Day nursery_until;              // first day on which they eat as grown larvae do
  std::optional<measure::Number> count;  // larvae put in
  // What their number is worked out from, where they were not counted.
  enum class CountedBy { kNumber, kMass, kEggs } counted_by = CountedBy::kNumber;
  std::optional<measure::Kilograms> each{};   // by mass: the mass of one
  bool each_weighed = false;                  // else it is the usual one
  std::optional<measure::Kilograms> mass_in;  // of them together
};
Course course_of(const model::History& history, const model::Rules& rules,
                 const std::vector<Weighing>& weighings);

// The day of seeding alone.
model::Day seeding_day(const model::History& history);

// Warmth that larvae of a told age had before they were seeded.
measure::DegreeDays head_start(const Course& course, const Diet& diet, const model::Rules& rules);

// Larvae or eggs, of any age: what goes in seeds, what comes out is harvest.
bool is_larvae(const model::Movement& movement);
// What larvae are given to eat: not bedding, cardboard, water or lime.
bool is_feed(const model::Movement& movement);
// What is mixed in to dry or loosen the bin and leaves with the frass: coir, sawdust, char. The
// cardboard that flies lay in hangs above it.
bool is_bulking(const model::Movement& movement);

// The last day that belongs to the run: today, or the day it ended.
model::Day last_day(const model::History& history);

}  // namespace kinds::larvae
