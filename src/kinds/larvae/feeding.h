#pragma once

#include <map>
#include <optional>
#include <vector>

#include "kinds/larvae/course.h"
#include "model/finding.h"

// How much the larvae were given, and how much they can eat.
namespace kinds::larvae {

class Study;

struct Feeding {
  std::map<model::Day, measure::Kilograms> by_day;  // what was weighed
  measure::Kilograms window{};                      // of the last days
  int in_window = 0, unweighed_in_window = 0;
  std::optional<measure::Kilograms> appetite;  // today's
  // What still lies in the bin if they ate by the rule, and for how many days from today on it
  // lasts: whole ones, their appetite grows with them.
  measure::Kilograms lying{};
  int days_lying = 0;
};
Feeding feeding_of(const model::History& history, const model::Rules& rules, const Course& course);

// What is to be fed today, and why not.
enum class Advice {
  kHarvestFirst,
  kTooCold,
  kTooHot,
  kNotSeeded,
  kNotHatched,
  kUnknown,
  kLookFirst,  // feeds of unknown weight
  kLiesThere,
  kFeed,
};
Advice advice_of(const Study& study);

// `larvae.underfed`, `larvae.empty` and `larvae.overfed`. Nothing is wanted of a bin that is ready
// or too cold or hot to eat, nor of one in which by the same reckoning a day's feed still lies.
void judge_feeding(const Study& study, std::vector<model::Finding>& into);

}  // namespace kinds::larvae
