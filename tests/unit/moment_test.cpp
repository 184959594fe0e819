#include "measure/moment.h"

#include <doctest/doctest.h>

#include <tuple>

namespace moment_test {

using measure::Day;
using measure::Instant;
using measure::Zone;
using std::chrono::seconds;

// Every number of seconds below was computed with CPython 3.11's zoneinfo and read once more with
// GNU date (TZ=... date -d @N -Is), both over the IANA time zone database 2026f.
namespace {

Instant at(long long count) {
  return Instant{seconds{count}};
}
long long count(Instant instant) {
  return instant.time_since_epoch().count();
}
Day day(int year, unsigned month, unsigned of_month) {
  return Day{date::year{year} / date::month{month} / date::day{of_month}};
}
Zone zone(const char* name) {
  const auto found = Zone::named(name);
  REQUIRE_MESSAGE(found, name);
  return *found;
}
const char* const kSite = "America/Los_Angeles";

}  // namespace

TEST_CASE("zones by their IANA names") {
  CHECK(zone(kSite).name() == kSite);
  CHECK(zone("Etc/UTC").iso(at(0)) == "1970-01-01T00:00:00+00:00");
  for (const char* none : {"", "America/Corvallis", "Mars/Olympus", "../etc/passwd", "PDT7",
                           // What else lies among the zones' files.
                           "America", "America/", "/UTC", "zone.tab", "tzdata.zi", "leapseconds",
                           "posix/America/Los_Angeles", "right/UTC", "Factory", "Europe/../UTC"}) {
    CHECK_FALSE(Zone::named(none));
  }
}

TEST_CASE("a day lasts as long as the clock had it") {
  for (const auto& [of, start, hours] : {std::tuple{day(2026, 3, 8), 1772956800LL, 23},
                                         {day(2026, 7, 4), 1783148400LL, 24},
                                         {day(2026, 11, 1), 1793516400LL, 25},
                                         {day(2027, 3, 14), 1805011200LL, 23},
                                         {day(2027, 11, 7), 1825570800LL, 25}}) {
    const Zone here = zone(kSite);
    CAPTURE(measure::iso_date(of));
    CHECK(count(here.start_of(of)) == start);
    CHECK(here.start_of(of + date::days{1}) - here.start_of(of) == std::chrono::hours{hours});
    CHECK(here.day_of(here.start_of(of)) == of);
    CHECK(here.day_of(here.start_of(of) - seconds{1}) == of - date::days{1});
    CHECK(here.day_of(here.start_of(of + date::days{1}) - seconds{1}) == of);
  }
}

TEST_CASE("the hour that the clock skips has no instant") {
  const Zone here = zone(kSite);
  const auto of = [&](int hours, int minutes, int second = 0) {
    return here.instant_of(date::local_seconds{day(2026, 3, 8)} + std::chrono::hours{hours} +
                           std::chrono::minutes{minutes} + seconds{second});
  };
  CHECK(count(of(1, 59, 59)->at) == 1772963999);
  CHECK_FALSE(of(2, 0));
  CHECK_FALSE(of(2, 59, 59));
  CHECK(count(of(3, 0)->at) == 1772964000);
  CHECK_FALSE(of(3, 0)->twice);
}

TEST_CASE("the hour that the clock shows twice is taken as the first") {
  const Zone here = zone(kSite);
  const auto of = [&](int hours, int minutes) {
    return *here.instant_of(date::local_seconds{day(2026, 11, 1)} + std::chrono::hours{hours} +
                            std::chrono::minutes{minutes});
  };
  CHECK(count(of(0, 59).at) == 1793519999 - 59);
  CHECK_FALSE(of(0, 59).twice);
  CHECK(count(of(1, 30).at) == 1793521800);
  CHECK(of(1, 30).twice);
  CHECK(count(of(2, 0).at) == 1793527200);
  CHECK_FALSE(of(2, 0).twice);
  // Lord Howe Island turns its clock by half an hour.
  const auto half =
      zone("Australia/Lord_Howe")
          .instant_of(date::local_seconds{day(2018, 4, 1)} + std::chrono::minutes{105});
  CHECK(count(half->at) == 1522507500);
  CHECK(half->twice);
}

TEST_CASE("days that do not begin at midnight, or begin twice") {
  // São Paulo and Beirut began daylight saving at midnight: the day's first instant is 01:00.
  CHECK(count(zone("America/Sao_Paulo").start_of(day(2018, 11, 4))) == 1541300400);
  CHECK(zone("America/Sao_Paulo").iso(at(1541300400)) == "2018-11-04T01:00:00-02:00");
  CHECK(zone("America/Sao_Paulo").day_of(at(1541300399)) == day(2018, 11, 3));
  CHECK(count(zone("Asia/Beirut").start_of(day(2024, 3, 31))) == 1711836000);
  // And ended it at midnight: the last hour of the day before comes twice.
  CHECK(count(zone("America/Sao_Paulo").start_of(day(2018, 2, 18))) == 1518922800);
  CHECK(count(zone("America/Sao_Paulo").start_of(day(2018, 2, 17))) == 1518832800);
  CHECK(zone("America/Sao_Paulo").day_of(at(1518922799)) == day(2018, 2, 17));
  // Havana's midnight of 2018-11-04 came twice; the first is the day's start.
  CHECK(count(zone("America/Havana").start_of(day(2018, 11, 4))) == 1541304000);
  CHECK(count(zone("America/Havana").start_of(day(2018, 11, 5))) == 1541394000);
  // Samoa left out 2011-12-30: it has no instant of its own, and the days on both sides touch.
  const Zone apia = zone("Pacific/Apia");
  CHECK(count(apia.start_of(day(2011, 12, 31))) == 1325239200);
  CHECK(count(apia.start_of(day(2011, 12, 30))) == 1325239200);
  CHECK(apia.day_of(at(1325239199)) == day(2011, 12, 29));
}

TEST_CASE("instants as ISO 8601 with their offset") {
  const Zone here = zone(kSite);
  CHECK(here.iso(at(1809353700)) == "2027-05-03T07:15:00-07:00");
  CHECK(here.iso(at(1793521800)) == "2026-11-01T01:30:00-07:00");
  CHECK(here.iso(at(1793525400)) == "2026-11-01T01:30:00-08:00");
  CHECK(here.iso(at(1772963999)) == "2026-03-08T01:59:59-08:00");
  CHECK(here.iso(at(1772964000)) == "2026-03-08T03:00:00-07:00");
  CHECK(zone("Asia/Kathmandu").iso(at(1767204900)) == "2026-01-01T00:00:00+05:45");
}

TEST_CASE("days of the Gregorian calendar") {
  CHECK(measure::parse_iso_date("2027-05-03") == day(2027, 5, 3));
  CHECK(measure::iso_date(day(2027, 5, 3)) == "2027-05-03");
  CHECK(measure::parse_iso_date("1970-01-01")->time_since_epoch().count() == 0);
  // Leap days: every fourth year, no century but each fourth (Inter gravissimas, 1582).
  CHECK(measure::parse_iso_date("2028-02-29"));
  CHECK(measure::parse_iso_date("2000-02-29"));
  CHECK_FALSE(measure::parse_iso_date("2026-02-29"));
  CHECK_FALSE(measure::parse_iso_date("2100-02-29"));
  CHECK_FALSE(measure::parse_iso_date("1900-02-29"));
  for (const std::string_view none :
       {"",           "2027",       "2027-5-3",    "2027-05-3",   "27-05-03",   "2027/05/03",
        "2027-00-01", "2027-13-01", "2027-01-00",  "2027-01-32",  "2027-04-31", "2027-02-30",
        "1899-12-31", "2200-01-01", "2027-05-03 ", " 2027-05-03", "20270503",   "-027-05-03",
        "2027-+5-03", "2027-05-0x", "٢٠٢٧-٠٥"}) {
    CAPTURE(none);
    CHECK_FALSE(measure::parse_iso_date(none));
  }
}

TEST_CASE("days and moments in words") {
  const Day monday = day(2027, 5, 3);  // a Monday, after the calendar of GNU date
  CHECK(measure::full_day_words(monday) == "Mon 3 May 2027");
  CHECK(measure::day_words(monday, day(2027, 1, 1)) == "Mon 3 May");
  CHECK(measure::day_words(monday, day(2028, 1, 1)) == "Mon 3 May 2027");
  CHECK(measure::full_day_words(day(2028, 2, 29)) == "Tue 29 Feb 2028");
  const Zone here = zone(kSite);
  const Instant now = at(1809353700);  // 2027-05-03 07:15
  CHECK(measure::moment_words(now, now, here) == "today 07:15");
  CHECK(measure::moment_words(now - date::days{1}, now, here) == "yesterday 07:15");
  CHECK(measure::moment_words(now - date::days{2}, now, here) == "Sat 1 May 07:15");
  CHECK(measure::moment_words(at(1793521800), now, here) == "Sun 1 Nov 2026 01:30");
  CHECK(measure::moment_words(now + date::days{1}, now, here) == "Tue 4 May 07:15");
}

}  // namespace moment_test
