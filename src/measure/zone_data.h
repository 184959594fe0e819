#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

// A time zone's offsets from UTC, as a file of the IANA database has them (TZif, RFC 8536).
namespace measure {

class ZoneData {
 public:
  // None where the bytes are no whole TZif file, or one that counts leap seconds.
  static std::optional<ZoneData> parsed(std::string_view bytes);

  // From `begin` on and before `end`, in seconds since 1970-01-01T00:00:00Z, the clock stands
  // `offset` seconds ahead of UTC.
  struct Span {
    std::int64_t begin, end;
    std::int64_t offset;
  };
  Span span_at(std::int64_t instant) const;

  // What comes after the last change that the file names (its footer, a POSIX TZ string): the
  // usual offset, and the summer's between two moments of each year.
  struct Yearly {
    struct Date {
      enum class Form { kMonthWeek, kJulian, kDayOfYear } form{};
      int month{}, week{}, day{};  // kMonthWeek: week 5 is the last; else: the day of the year
      std::int64_t seconds{};      // after that day's midnight, on the clock that stands then
    };
    std::int64_t usual{}, summer{};
    std::optional<std::pair<Date, Date>> within;  // summer from, to; none: no summer time
  };

 private:
  Span span_of_year(std::int64_t instant, std::int64_t since) const;

  std::vector<std::int64_t> changes_;  // ascending
  std::vector<std::int64_t> offsets_;  // before the first change, then from each on
  std::optional<Yearly> after_;
};

}  // namespace measure
