#include <doctest/doctest.h>

#include "book/import/time.h"

namespace import_time_test {

// Expected seconds are GNU date's: `date -u -d '2027-05-03 07:15' +%s` is 1809328500.

using book::read_clock;
using book::read_date;
using book::read_moment;
using book::TimeOrder;

namespace {

constexpr std::int64_t kMorning = 1809328500;  // 2027-05-03T07:15:00Z

std::int64_t seconds(const char* text, TimeOrder order = TimeOrder::kYearFirst) {
  CAPTURE(text);
  const auto moment = read_moment(text, order);
  REQUIRE(moment);
  return moment->seconds;
}

}  // namespace

TEST_CASE("import: every form of a moment") {
  for (const char* text :
       {"2027-05-03T07:15:00Z", "2027-05-03 07:15", "2027-05-03T07:15", "2027-05-03 07:15:00.250",
        "2027/05/03 07:15", "2027.5.3 7:15", "20270503 0715"}) {
    CHECK(seconds(text) == kMorning);
  }
  CHECK(seconds("2027-05-03T00:15:00-07:00") == kMorning);
  CHECK(seconds("2027-05-03T09:15:00+0200") == kMorning);
  CHECK(seconds("2027-05-03 09:15 UTC+2") == kMorning);
  CHECK(seconds("3.5.2027 7:15", TimeOrder::kDayFirst) == kMorning);
  CHECK(seconds("03/05/27 07:15:00 AM", TimeOrder::kDayFirst) == kMorning);
  CHECK(seconds("05/03/2027 7:15 a.m.", TimeOrder::kMonthFirst) == kMorning);
  CHECK(seconds("05-03-2027, 7:15 pm", TimeOrder::kMonthFirst) == kMorning + 12 * 3600);
  CHECK(seconds("3-May-2027 07:15") == kMorning);
  CHECK(seconds("May 3, 2027 7:15 am") == kMorning);
  CHECK(seconds("2027-05-03 24:00") == 1809388800);
  CHECK(seconds("12/31/2026 12:00 AM", TimeOrder::kMonthFirst) == 1798675200);
  CHECK(seconds("1809328500", TimeOrder::kSeconds) == kMorning);
  CHECK(seconds("1809328500999", TimeOrder::kMilliseconds) == kMorning);
  CHECK(read_moment("2027-05-03T07:15:00Z", TimeOrder::kYearFirst)->is_utc);
  CHECK_FALSE(read_moment("2027-05-03 07:15", TimeOrder::kYearFirst)->is_utc);
}

TEST_CASE("import: what is no moment") {
  for (const char* text : {"", "2027-02-30 07:15", "2027-05-03 25:00", "2027-05-03 07:61",
                           "2027-05-03", "07:15", "2027-05-03 07:15 x", "2027-05-03 13:15 PM",
                           "3/5/2027 7:15", "2027-05-03T07:15:00+25:00", "24:30"}) {
    CAPTURE(text);
    CHECK_FALSE(read_moment(text, TimeOrder::kYearFirst));
  }
  CHECK_FALSE(read_moment("13/05/2027 07:15", TimeOrder::kMonthFirst));
  CHECK_FALSE(read_moment("05/13/2027 07:15", TimeOrder::kDayFirst));
  CHECK_FALSE(read_moment("29/02/2027 07:15", TimeOrder::kDayFirst));
}

TEST_CASE("import: a date and a time of day in two columns") {
  CHECK(read_date("2027-05-03", TimeOrder::kYearFirst) == kMorning / 86400);
  CHECK(read_date("5/3/2027 0:00", TimeOrder::kMonthFirst) == kMorning / 86400);
  CHECK_FALSE(read_date("5/3/2027 7:15", TimeOrder::kMonthFirst));
  CHECK(read_clock("7:15") == 7 * 3600 + 15 * 60);
  CHECK(read_clock("12:15 AM") == 15 * 60);
  CHECK(read_clock("12:15 PM") == 12 * 3600 + 15 * 60);
  CHECK_FALSE(read_clock("64"));
}

TEST_CASE("import: the doubled hour is told apart by the order of the rows") {
  // Los Angeles, 2026-11-01: 01:00 to 02:00 was shown twice, at 08:00Z and at 09:00Z.
  const auto zone = *measure::Zone::named("America/Los_Angeles");
  const std::int64_t midnight = 1793491200;  // 2026-11-01T00:00 as if UTC
  const std::int64_t first = midnight + 8 * 3600;
  SUBCASE("forward") {
    book::LocalTimes times(zone, false);
    std::optional<std::int64_t> before;
    for (const auto& [minutes, expected] : {std::pair{30, 7 * 60 + 30},
                                            {60, 8 * 60},
                                            {90, 8 * 60 + 30},
                                            {60, 9 * 60},
                                            {90, 9 * 60 + 30},
                                            {120, 10 * 60}}) {
      before = times.instant_of(midnight + minutes * 60, before, before);
      CHECK(*before == midnight + expected * 60);
    }
  }
  SUBCASE("backward") {
    book::LocalTimes times(zone, true);
    std::optional<std::int64_t> before;
    for (const auto& [minutes, expected] : {std::pair{120, 10 * 60},
                                            {90, 9 * 60 + 30},
                                            {60, 9 * 60},
                                            {90, 8 * 60 + 30},
                                            {60, 8 * 60}}) {
      before = times.instant_of(midnight + minutes * 60, before, before);
      CHECK(*before == midnight + expected * 60);
    }
  }
  SUBCASE("hourly, the same time twice in one series; not so in two") {
    book::LocalTimes times(zone, false);
    CHECK(*times.instant_of(midnight + 3600, first, first) == first + 3600);
    CHECK(*times.instant_of(midnight + 3600, first, std::nullopt) == first);
  }
  SUBCASE("spring skipped it") {
    book::LocalTimes times(zone, false);
    CHECK_FALSE(times.instant_of(1804991400, std::nullopt, std::nullopt));  // 2027-03-14 02:30
    CHECK(times.instant_of(1804987800, std::nullopt, std::nullopt) == 1804987800 + 8 * 3600);
  }
}

}  // namespace import_time_test
