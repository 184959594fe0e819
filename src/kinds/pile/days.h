#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/pile/vocabulary.h"
#include "model/history.h"

// A pile's temperatures day by day and position by position, from the daily rolls: what treatment,
// stage and foresight read. Its cost is days times positions, however often a probe was read.
namespace kinds::pile {

// One position on one day, in degrees Celsius.
struct PositionDay {
  std::string position;  // empty: none was said
  double least{}, greatest{}, mean{}, last{};
  int count{};
  model::Instant last_at{};
};

struct DaySeen {
  model::Day day;
  std::vector<PositionDay> positions;  // at least one

  const PositionDay& coldest() const;  // by its lowest reading
  const PositionDay& hottest() const;  // by its highest reading
  // How warm the pile was: the mean of its warmest position.
  double peak() const;
  // Whether a place outside the core was read.
  bool outside() const;
};

struct Course {
  model::Day start, until;             // until: today, or the day on which it ended
  std::vector<DaySeen> days;           // those with a reading, ascending
  std::vector<model::Day> turnings;    // ascending, one a day
  std::vector<model::DayRoll> air;     // of the air beside it
  std::vector<std::string> positions;  // all that were ever read

  const DaySeen* on(model::Day day) const;
  const DaySeen* last() const { return days.empty() ? nullptr : &days.back(); }
  std::optional<model::Day> last_turning() const;
  int turnings_between(model::Day first, model::Day last) const;  // both included
  // Mean air over the days up to `day`, no further back than `back` days; none where none was read.
  std::optional<measure::Celsius> air_before(model::Day day, int back) const;
};

// Days that air readings speak for the air now.
inline constexpr int kAirDays = 7;

Course course_of(const model::History& history);

// Two readings of one thermometer are the same where they differ by less than this: units that are
// converted leave the last digit of a number open, and 131.0 °F has to be 55 °C exactly.
inline constexpr double kSameKelvins = 1e-6;

}  // namespace kinds::pile
