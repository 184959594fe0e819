#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/moment.h"

// Days for a calendar program, as RFC 5545 (iCalendar) has them.
namespace render {

struct CalendarEntry {
  // Stays the same for the same matter, so that bringing it in again moves the entry.
  std::string uid;
  std::string summary;
  std::string description;  // lines; empty: none
  measure::Day day;         // it takes the whole of this day
  // Then again every so many days, `times` times in all; 0: once.
  int every = 0;
  int times = 1;
  std::optional<measure::Instant> at{};  // instead of the whole day: from then on, a quarter hour
  // It makes itself heard: at its moment, or at seven in the morning of its day.
  bool alarm = false;
};

// The whole file. `stamp` is the moment at which it was made; of two files the later one holds.
std::string calendar(std::string_view name, const measure::Zone& zone, measure::Instant stamp,
                     const std::vector<CalendarEntry>& entries);

// A text as the value of a property: RFC 5545, 3.3.11.
std::string calendar_text(std::string_view text);
// A content line with its line end, in lines of at most 75 octets that part no character: 3.1.
std::string calendar_line(std::string_view line);

}  // namespace render
