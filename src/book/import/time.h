#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include "measure/moment.h"

// Moments as loggers and spreadsheets write them.
namespace book {

// What order the numbers of a date stand in, or that a moment is a count since 1970-01-01T00:00Z. A
// date that begins with its year, or that names its month, is read in every order.
enum class TimeOrder { kYearFirst, kDayFirst, kMonthFirst, kSeconds, kMilliseconds };

// Seconds since 1970-01-01T00:00: UTC where the text said so, else on whatever clock the file was
// written by. Fractions of a second are cut off.
struct ReadTime {
  std::int64_t seconds;
  bool is_utc;
};

// "2027-05-03T07:15:00Z", "2027-05-03 07:15", "20270503 0715" with or without an offset; "3.5.2027
// 7:15", "05/03/27 7:15:00 PM", "3-May-2027 07:15", "May 3, 2027 7:15 am"; 24:00 is the next
// midnight. A year of two digits is of this century. None where it is not a real moment.
std::optional<ReadTime> read_moment(std::string_view field, TimeOrder order);

// A date alone, as days since 1970-01-01; none where more stands there than a date.
std::optional<std::int64_t> read_date(std::string_view field, TimeOrder order);

// A time of day alone, as seconds: "7:15", "07:15:30.250", "7:15 PM", "07h15".
std::optional<std::int64_t> read_clock(std::string_view field);

// Turns the local times of one file, in its order, into instants. Where the zone's clock showed a
// time twice (autumn), the order tells them apart: in a file that goes forward, a time that is not
// after the one before it is of the second pass. Lookups in the zone are kept between calls.
class LocalTimes {
 public:
  // `backward`: the file has its newest row first.
  LocalTimes(const measure::Zone& zone, bool backward) : zone_(zone), backward_(backward) {}

  // `before`: the instant of the row before, if any; `same_series_before`: of the row before in the
  // same series. None: the clock skipped that time (spring).
  std::optional<std::int64_t> instant_of(std::int64_t local, std::optional<std::int64_t> before,
                                         std::optional<std::int64_t> same_series_before);

 private:
  measure::Zone zone_;
  bool backward_;
  // Local times from `from_` until `until_` are `offset_` seconds ahead of UTC, each shown once.
  std::int64_t from_ = 0, until_ = 0, offset_ = 0;
};

}  // namespace book
