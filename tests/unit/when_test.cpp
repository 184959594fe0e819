#include "measure/when.h"

#include <doctest/doctest.h>

#include "measure/text.h"

namespace when_test {

using measure::Day;
using measure::DayMeans;
using measure::Instant;
using measure::parse_day;
using measure::parse_when;
using measure::Zone;
using std::chrono::hours;
using std::chrono::seconds;

// Every number of seconds below was computed with CPython 3.11's zoneinfo over the IANA time zone
// database 2026f, and read once more with GNU date (TZ=America/Los_Angeles date -d @N -Is).
namespace {

constexpr long long kMayMorning = 1809448200;  // Tue 2027-05-04 09:30 PDT

Instant at(long long count) {
  return Instant{seconds{count}};
}

const Zone& site() {
  static const Zone kZone = *Zone::named("America/Los_Angeles");
  return kZone;
}

measure::When read(std::string_view text, long long now = kMayMorning,
                   DayMeans day_means = DayMeans::kNoon) {
  const auto when = parse_when(text, at(now), site(), day_means);
  REQUIRE_MESSAGE(when.ok(), text);
  return *when;
}

long long seconds_of(std::string_view text, long long now = kMayMorning,
                     DayMeans day_means = DayMeans::kNoon) {
  return read(text, now, day_means).at.time_since_epoch().count();
}

std::string refusal(std::string_view text, long long now = kMayMorning) {
  const auto when = parse_when(text, at(now), site());
  REQUIRE_FALSE_MESSAGE(when.ok(), text);
  CHECK(measure::is_clean_text(when.mistake().why));
  CHECK(when.mistake().why.size() < 300);
  return when.mistake().why;
}

Day day(const char* iso) {
  return *measure::parse_iso_date(iso);
}

}  // namespace

TEST_CASE("a moment on the site's clock") {
  CHECK(seconds_of("now") == kMayMorning);
  CHECK(seconds_of("9:30") == kMayMorning);
  CHECK(seconds_of("09:30:00") == kMayMorning);
  CHECK(seconds_of("9:30am") == kMayMorning);
  CHECK(seconds_of("9:30 AM") == kMayMorning);
  CHECK(seconds_of("9am") == kMayMorning - 1800);
  CHECK(seconds_of("12am") == kMayMorning - 34200);  // midnight
  CHECK(seconds_of("0:00") == kMayMorning - 34200);
  CHECK(seconds_of("yesterday 12pm") == 1809370800);  // noon
  CHECK(seconds_of("yesterday 7:15") == 1809353700);
  CHECK(seconds_of("mon 7:15") == 1809353700);
  CHECK(seconds_of("Monday 07:15") == 1809353700);
  CHECK(seconds_of("2027-05-03 07:15") == 1809353700);
  CHECK(seconds_of("2027-05-03 7:15am") == 1809353700);
  CHECK(seconds_of("2027-05-03T07:15") == 1809353700);
  CHECK(seconds_of("2026-07-04 7:15:00") == 1783174500);
  CHECK_FALSE(read("9:30").whole_day);
  CHECK_FALSE(read("9:30").twice);
}

TEST_CASE("a moment with an offset, after ISO 8601") {
  for (const std::string_view text :
       {"2027-05-03T07:15:00-07:00", "2027-05-03T14:15:00Z", "2027-05-03t14:15z",
        "2027-05-03 07:15-0700", "2027-05-03T16:15:00+02:00", "2027-05-03T19:45+05:30",
        "2027-05-04T04:15+14:00", "2027-05-03T16:15+02"}) {
    CAPTURE(text);
    CHECK(seconds_of(text) == 1809353700);
    CHECK_FALSE(read(text).twice);
  }
  // Both of the times that the clock shows twice can be said.
  CHECK(seconds_of("2026-11-01T01:30-07:00") == 1793521800);
  CHECK(seconds_of("2026-11-01T01:30-08:00") == 1793525400);
  for (const std::string_view text :
       {"2027-05-03T07:15+", "2027-05-03T07:15+7", "2027-05-03T07:15+07:0",
        "2027-05-03T07:15+15:00", "2027-05-03T07:15+07:60", "2027-05-03T07:15Zulu",
        "2027-05-03T25:15Z", "yesterday 7:15Z", "2027-05-03TZ", "2027-05-03T07:15+07:00:00",
        "2027-05-03T07:15+-7:00"}) {
    CAPTURE(text);
    CHECK(refusal(text).find("is not a moment roundbook reads") != std::string::npos);
  }
}

TEST_CASE("a day means its noon, and never more than now") {
  CHECK(seconds_of("yesterday") == 1809370800);
  CHECK(seconds_of("2027-05-03") == 1809370800);
  CHECK(seconds_of("mon") == 1809370800);
  CHECK(seconds_of("today") == kMayMorning);  // noon has not come yet
  CHECK(seconds_of("today", kMayMorning + 4 * 3600) == kMayMorning + 9000);
  CHECK(read("yesterday").whole_day);
  CHECK(read("today").whole_day);
  CHECK(seconds_of("2026-03-08") == 1772996400);
  CHECK(seconds_of("2026-11-01") == 1793563200);
}

TEST_CASE("asked for its end, a day means its last second") {
  CHECK(seconds_of("2026-03-08", kMayMorning, DayMeans::kItsEnd) == 1773039599);
  CHECK(seconds_of("2026-11-01", kMayMorning, DayMeans::kItsEnd) == 1793606399);
  CHECK(seconds_of("today", kMayMorning, DayMeans::kItsEnd) == kMayMorning);
  CHECK(seconds_of("9:00", kMayMorning, DayMeans::kItsEnd) == kMayMorning - 1800);
}

TEST_CASE("a day of the week is the last one before today") {
  CHECK(seconds_of("tue") == 1809370800 - 6 * 86400);  // today is a Tuesday: a week ago
  CHECK(seconds_of("wednesday") == 1809370800 - 5 * 86400);
  CHECK(seconds_of("sun") == 1809370800 - 86400);
  CHECK(seconds_of("SAT") == 1809370800 - 2 * 86400);
}

TEST_CASE("days and weeks back go by the clock on the wall, hours by the stopwatch") {
  CHECK(seconds_of("-2d") == kMayMorning - 2 * 86400);
  CHECK(seconds_of("-1w") == kMayMorning - 7 * 86400);
  CHECK(seconds_of("-3h") == kMayMorning - 3 * 3600);
  CHECK(seconds_of("-0d") == kMayMorning);
  const long long november = 1793725200;                       // 2026-11-03 09:00 PST
  CHECK(seconds_of("-3d", november) == november - 73 * 3600);  // across a day of 25 hours
  CHECK(seconds_of("-72h", november) == november - 72 * 3600);
  const long long march = 1773082800;             // 2026-03-09 12:00 PDT
  CHECK(seconds_of("-2d", march) == 1772913600);  // 47 hours
  CHECK(seconds_of("-1w", march) == march - 167 * 3600);
  for (const std::string_view text : {"-d", "-2", "-2m", "-x2d", "--2d", "-2.5d", "-100001d",
                                      "-99999999999d", "- 2d", "2d", "+2d", "-2d 7:15"}) {
    CAPTURE(text);
    refusal(text);
  }
}

TEST_CASE("the skipped hour is refused in both springs") {
  for (const std::string_view text : {"2026-03-08 02:00", "2026-03-08 02:30", "2026-03-08 2:59:59",
                                      "2027-03-14 02:30", "2027-03-14 2:30am"}) {
    CAPTURE(text);
    CHECK(refusal(text).find("the clock skipped that day when daylight saving began") !=
          std::string::npos);
  }
  CHECK(seconds_of("2026-03-08 01:59:59") == 1772963999);
  CHECK(seconds_of("2026-03-08 03:00") == 1772964000);
  CHECK(seconds_of("2027-03-14 03:00") == 1805018400);
  // The same hour of the morning on the other day's clock.
  CHECK(refusal("2:30", 1772964000 + 3600).find("skipped") != std::string::npos);
}

TEST_CASE("the doubled hour is the first, and that is said, in both autumns") {
  CHECK(seconds_of("2026-11-01 01:30") == 1793521800);
  CHECK(read("2026-11-01 01:30").twice);
  CHECK(seconds_of("2026-11-01 02:00") == 1793527200);
  CHECK_FALSE(read("2026-11-01 02:00").twice);
  CHECK_FALSE(read("2026-11-01 00:59").twice);
  const long long winter = 1830326399;  // 2027-12-31 23:59:59
  CHECK(seconds_of("2027-11-07 01:30", winter) == 1825576200);
  CHECK(read("2027-11-07 01:30", winter).twice);
  // Said of a moment counted back, too.
  const long long two_days_on = 1793698200;  // 2026-11-03 01:30
  CHECK(seconds_of("-2d", two_days_on) == 1793521800);
  CHECK(read("-2d", two_days_on).twice);
  CHECK_FALSE(read("-1d", two_days_on).twice);
}

TEST_CASE("a day counted back into the skipped hour stays a day of 24 hours") {
  const long long march = 1773048600;  // 2026-03-09 02:30 PDT
  CHECK(seconds_of("-1d", march) == march - 86400);
}

TEST_CASE("what has not come yet is refused") {
  CHECK(refusal("9:31") == "'9:31' is today 09:31, which has not come yet; it is now today 09:30");
  CHECK(refusal("2027-05-05") == "'2027-05-05' is a day that has not come yet");
  refusal("2027-05-04 09:30:01");
  refusal("2027-05-04T16:30:01Z");
  refusal("2028-02-29 07:00");
  refusal("tomorrow");
  CHECK(seconds_of("2027-05-04T16:30:00Z") == kMayMorning);
  // While the clock shows an hour for the first time, its second showing has not come.
  CHECK(refusal("2026-11-01T01:30-08:00", 1793521800).find("has not come yet") !=
        std::string::npos);
}

TEST_CASE("leap days, and dates that do not exist") {
  const long long later = 1867017600;  // 2029-03-01 00:00 UTC
  CHECK(seconds_of("2028-02-29", later) == 1835467200);
  for (const std::string_view text : {"2027-02-29", "2027-02-30", "2027-04-31 07:15", "2027-13-01",
                                      "2027-00-10T07:15Z", "2026-02-29 7:15"}) {
    CAPTURE(text);
    CHECK(refusal(text).find("holds a date that does not exist") != std::string::npos);
  }
}

TEST_CASE("what is no moment is refused") {
  using namespace std::string_literals;
  for (const std::string& text : {""s,
                                  " "s,
                                  "soon"s,
                                  "7"s,
                                  "7:5"s,
                                  "7:"s,
                                  ":15"s,
                                  "24:00"s,
                                  "7:60"s,
                                  "7:15:60"s,
                                  "13:00pm"s,
                                  "0am"s,
                                  "13am"s,
                                  "007:15"s,
                                  "7:15xm"s,
                                  "7:15:00:00"s,
                                  "yesterday today"s,
                                  "yesterday 7"s,
                                  "2027-05-03 7"s,
                                  "2027-05-03  "s + "7:5"s,
                                  "7:15 yesterday"s,
                                  "2027-5-3"s,
                                  "5/3/2027"s,
                                  "2027-05-03T"s,
                                  "now now"s,
                                  "-"s,
                                  "mond"s,
                                  "7.15"s,
                                  "7:15\x1b[2J"s,
                                  "\xFF"s,
                                  std::string(10'000, '7'),
                                  "2027-05-03 "s + std::string(10'000, '7'),
                                  "7:15\0"s}) {
    CAPTURE(measure::quoted(text));
    refusal(text);
  }
}

TEST_CASE("a calendar day, past or future") {
  const Day today = day("2027-05-04");
  CHECK(*parse_day("today", today) == today);
  CHECK(*parse_day("Tomorrow", today) == day("2027-05-05"));
  CHECK(*parse_day("yesterday", today) == day("2027-05-03"));
  CHECK(*parse_day("mon", today) == day("2027-05-03"));
  CHECK(*parse_day("2028-02-29", today) == day("2028-02-29"));
  CHECK(parse_day("2027-02-29", today).mistake().why ==
        "'2027-02-29' is a date that does not exist");
  for (const std::string_view text :
       {"", "next week", "05-03", "7:15", "\xFF\xFF", "2027-05-03 7:15"}) {
    CAPTURE(text);
    const auto read_day = parse_day(text, today);
    REQUIRE_FALSE(read_day.ok());
    CHECK(measure::is_clean_text(read_day.mistake().why));
  }
}

}  // namespace when_test
