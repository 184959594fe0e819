#pragma once

#include <algorithm>
#include <optional>
#include <string>

#include "kinds/brew/contents.h"
#include "model/history.h"
#include "model/rules.h"

// How far along a brew is, in days at a reference temperature.
namespace kinds::brew {

// What the days' temperatures rest on.
enum class Thermometer { kDrum, kAirBeside, kNone };

struct Clock {
  model::Day from;         // the days are counted from here
  std::string restart_by;  // the material whose adding began the count anew; empty: not begun anew
  const model::ThresholdInfo* rule{};  // of the time it needs
  measure::Days wanted, equivalent;
  int days{};                                 // of the calendar, whole ones
  int measured{}, interpolated{}, carried{};  // of those that counted
  Thermometer thermometer = Thermometer::kNone;
  std::optional<model::Day> full_on;  // the day on which the time was full
  measure::Celsius expected;          // of the coming days
  std::optional<measure::Days> left;  // calendar days to go at that; none: never at that

  bool full() const { return equivalent >= wanted; }
  // An aerated brew is a matter of hours.
  bool in_hours() const { return wanted < measure::Days{3}; }
  // That day; where no time at all is asked for, the first.
  model::Day full_day() const { return full_on.value_or(from); }
  // The days that counted: up to today, or to the day on which the time was full.
  int counted() const { return full_on ? std::clamp((*full_on - from).count(), 0, days) : days; }
};

Clock clock_of(const model::History& history, const model::Rules& rules, const Contents& contents);

// The day on which a brew that still bubbles lively, though its time is full, waits no longer;
// none: it does not wait.
std::optional<model::Day> waits_until(const model::History& history, const model::Rules& rules,
                                      const Clock& clock);

// Whether it was seen to bubble lively in the last days.
bool was_lively(const model::History& history, const model::Rules& rules);

// The day it will be ready, from how warm the last days were; none where it is, or never will be.
struct ReadyDays {
  std::optional<model::Day> earliest, likely, latest;
};
std::optional<ReadyDays> foresee_ready(const model::History& history, const model::Rules& rules,
                                       const Clock& clock);

}  // namespace kinds::brew
