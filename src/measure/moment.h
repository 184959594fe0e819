#pragma once

#include <date/date.h>

#include <memory>
#include <optional>
#include <string>
#include <string_view>

// Instants and the practitioner's days. An instant is UTC seconds; a day is the civil day that the
// site's own clock showed, so that "a day" stays a day across both daylight-saving changes.
namespace measure {

using Instant = date::sys_seconds;
using Day = date::local_days;

class ZoneData;

// The site's time zone, from the system's IANA data.
class Zone {
 public:
  // None where the system knows no zone of that name.
  static std::optional<Zone> named(const std::string& name);

  const std::string& name() const { return name_; }

  date::local_seconds local(Instant instant) const;
  Day day_of(Instant instant) const;

  // Where the clock showed `local` twice (autumn), the first time, and `twice` is set, with the
  // second time in `second`; where it skipped it (spring), none.
  struct Found {
    Instant at;
    bool twice;
    Instant second = {};
  };
  std::optional<Found> instant_of(date::local_seconds local) const;

  // From `begin` on and before `end` the clock stands `offset` ahead of UTC.
  struct Span {
    Instant begin, end;
    std::chrono::seconds offset;
  };
  Span span_at(Instant instant) const;

  // The first instant of a day: midnight, or the first the clock showed where it skipped midnight.
  Instant start_of(Day day) const;

  // "2027-05-03T07:15:00-07:00" (ISO 8601 with the zone's offset then).
  std::string iso(Instant instant) const;

 private:
  Zone(std::string name, ZoneData data);

  std::string name_;
  std::shared_ptr<const ZoneData> data_;
};

std::string iso_date(Day day);  // "2027-05-03"

// "Mon 3 May", with the year where it is not that of `today`.
std::string day_words(Day day, Day today);
// "Mon 3 May 2027".
std::string full_day_words(Day day);
// "May 2027".
std::string month_words(Day day);
// "Mon 3 May 07:15", "today 07:15", "yesterday 07:15".
std::string moment_words(Instant instant, Instant now, const Zone& zone);

// "2027-05-03", a real day of the Gregorian calendar, years 1900 to 2199; else none.
std::optional<Day> parse_iso_date(std::string_view text);

}  // namespace measure
