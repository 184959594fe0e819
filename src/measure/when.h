#pragma once

#include <optional>
#include <string_view>

#include "measure/moment.h"
#include "measure/result.h"

namespace measure {

struct When {
  Instant at;
  bool whole_day = false;  // no time of day was said
  bool twice = false;      // the clock showed it twice; `at` is the first
};

// What a day without a time of day means: noon of it for something that was done, its last second
// for "all that had happened by then". Never later than `now`.
enum class DayMeans { kNoon, kItsEnd };

// Reads a moment as a person types it, in the site's zone:
// now · 7:15 · 7:15pm · today · yesterday · yesterday 7:15 · mon [7:15] (the last one before today)
// · -2d, -3h, -1w (before now) · 2027-05-03 · 2027-05-03 07:15 · ISO 8601 with an offset or Z. A
// moment after `now`, or one that the clock skipped, is a mistake.
Result<When> parse_when(std::string_view text, Instant now, const Zone& zone,
                        DayMeans day_means = DayMeans::kNoon);

// Whether `next` goes on the moment that `begun` begins, for words that stand apart: a time of day
// behind a day ("yesterday" "7:15"), or "am" or "pm" behind a time ("7:15" "pm").
bool goes_on_a_moment(std::string_view begun, std::string_view next);

// A moment of ISO 8601 with its offset or Z, past or future: "2027-05-03T07:15:00-07:00". None: the
// text is anything else.
std::optional<Instant> parse_iso_moment(std::string_view text);

// A day still to come, as a person types it: tomorrow · mon ... sun (the next one after today) ·
// 3d, 2w, "3 days", "2 weeks" (from today) · a date. Today or before is a mistake.
Result<Day> parse_coming_day(std::string_view text, Day today);

// A calendar day, past or future: a date, or one of today, yesterday, tomorrow, mon ... sun.
Result<Day> parse_day(std::string_view text, Day today);

}  // namespace measure
