#pragma once

#include <algorithm>
#include <optional>
#include <string>

#include "kinds/brew/contents.h"
#include "model/assessment.h"
#include "model/history.h"
#include "model/rules.h"

// How far along a brew is, in days at a reference temperature.
namespace kinds::brew {

// What the days' temperatures rest on.
enum class Thermometer { kDrum, kAir, kNone };

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
  // That day; where no time at all is asked for, the first.
  model::Day full_day() const { return full_on.value_or(from); }
  // The days that counted: up to today, or to the day on which the time was full.
  int counted() const { return full_on ? std::clamp((*full_on - from).count(), 0, days) : days; }
};

Clock clock_of(const model::History& history, const model::Rules& rules, const Contents& contents);

// The time is full, but it still bubbles lively: it waits, for a while.
bool waits_for_bubbling(const model::History& history, const model::Rules& rules,
                        const Clock& clock);

// "11.2 of 21 days at 68 °F, about 10 days to go; ..."
model::Progress progress_of(const model::History& history, const model::Rules& rules,
                            const Clock& clock);

// `brew.ready`, where it is.
std::optional<model::Told> judge_ready(const model::History& history, const model::Rules& rules,
                                          const Contents& contents, const Clock& clock);

// The day it will be ready, from how warm the last days were; none where it is, or never will be.
std::optional<model::Forecast> foresee_ready(const model::History& history,
                                             const model::Rules& rules, const Clock& clock);

}  // namespace kinds::brew
