#include "book/read/rolls.h"

#include <doctest/doctest.h>

#include "site_book.h"

namespace rolls_test {

using book::Pen;
using measure::Instant;
using std::chrono::hours;
using std::chrono::minutes;

namespace {

void read(SiteBook& site, std::int64_t batch, Instant at, double value) {
  site.entry("log", [&](Pen& pen) { pen.add_reading({batch, "temperature", "", at, value}); });
}

std::vector<model::DayRoll> days(const SiteBook& site, Instant now) {
  const auto history = site.history("heap-1", now);
  const model::Series* series = history.find("temperature");
  return series == nullptr ? std::vector<model::DayRoll>{} : series->days;
}

Instant local(const SiteBook& site, const char* day, int hour, int minute = 0) {
  return site.logbook.site()
      .zone.instant_of(date::local_seconds{build::day(day)} + hours{hour} + minutes{minute})
      ->at;
}

}  // namespace

TEST_CASE("a day's roll, by hand") {
  SiteBook site;
  const auto heap = site.start("heap-1", local(site, "2026-04-06", 7));
  // Not in the order of the day: one was remembered later.
  read(site, heap, local(site, "2026-04-06", 8), 60);
  read(site, heap, local(site, "2026-04-06", 18), 64.5);
  read(site, heap, local(site, "2026-04-06", 12), -2.25);
  read(site, heap, local(site, "2026-04-08", 0), 70);
  const auto rolls = days(site, local(site, "2026-04-09", 0));
  REQUIRE(rolls.size() == 2);  // no roll for the day without a reading
  CHECK(rolls[0].day == build::day("2026-04-06"));
  CHECK(rolls[0].count == 3);
  CHECK(rolls[0].least == -2.25);
  CHECK(rolls[0].greatest == 64.5);
  CHECK(rolls[0].total == 122.25);
  CHECK(rolls[0].mean() == 40.75);
  CHECK(rolls[0].last == 64.5);  // by the clock, not by the order of typing
  CHECK(rolls[0].last_at == local(site, "2026-04-06", 18));
  CHECK(rolls[1].day == build::day("2026-04-08"));
  CHECK(rolls[1].count == 1);
}

TEST_CASE("a day is the site's day, across both changes of the clock") {
  SiteBook site;
  const auto heap = site.start("heap-1", local(site, "2026-01-01", 7));
  for (const char* day : {"2026-03-08", "2026-11-01", "2026-07-04"}) {
    const Instant start = site.logbook.site().zone.start_of(build::day(day));
    const Instant next = site.logbook.site().zone.start_of(build::day(day) + date::days{1});
    read(site, heap, start - std::chrono::seconds{1}, 1);
    int of_the_day = 0;
    for (Instant at = start; at < next; at += hours{1}, ++of_the_day) read(site, heap, at, 2);
    read(site, heap, next, 3);
    const auto rolls = days(site, next + hours{1});
    REQUIRE(rolls.size() >= 3);
    CHECK(rolls.end()[-3].count == 1);
    CHECK(rolls.end()[-2].day == build::day(day));
    CHECK(rolls.end()[-2].count == of_the_day);  // 23, 25 and 24
    CHECK(rolls.end()[-2].least == 2);
    CHECK(rolls.end()[-2].greatest == 2);
    CHECK(rolls.end()[-1].count == 1);
  }
}

TEST_CASE("on a day whose midnight was skipped") {
  SiteBook site("America/Sao_Paulo");
  // 2018-11-04 began at 01:00, 1541300400 (IANA time zone database; GNU date).
  const Instant first{std::chrono::seconds{1541300400}};
  const auto heap = site.start("heap-1", first - hours{48});
  read(site, heap, first - std::chrono::seconds{1}, 1);
  read(site, heap, first, 2);
  read(site, heap, first + hours{23} - std::chrono::seconds{1}, 3);
  read(site, heap, first + hours{23}, 4);
  const auto rolls = days(site, first + hours{48});
  REQUIRE(rolls.size() == 3);
  CHECK(rolls[0].day == build::day("2018-11-03"));
  CHECK(rolls[1].day == build::day("2018-11-04"));
  CHECK(rolls[1].count == 2);
  CHECK(rolls[1].total == 5);
  CHECK(rolls[2].day == build::day("2018-11-05"));
  // Made anew from the readings, it is the same.
  const auto again = book::rolled(site.logbook, 1, build::day("2018-11-04"), Instant::max());
  REQUIRE(again);
  CHECK(again->count == 2);
  CHECK(again->last_at == rolls[1].last_at);
}

TEST_CASE("a roll up to a moment, and none of an empty day") {
  SiteBook site;
  const auto heap = site.start("heap-1", local(site, "2026-04-06", 0));
  for (int hour = 6; hour < 12; ++hour) read(site, heap, local(site, "2026-04-06", hour), hour);
  const auto part =
      book::rolled(site.logbook, 1, build::day("2026-04-06"), local(site, "2026-04-06", 8));
  REQUIRE(part);
  CHECK(part->count == 3);  // that moment is in
  CHECK(part->total == 21);
  CHECK(part->last == 8);
  CHECK_FALSE(
      book::rolled(site.logbook, 1, build::day("2026-04-06"), local(site, "2026-04-06", 5)));
  CHECK_FALSE(book::rolled(site.logbook, 1, build::day("2026-04-07"), Instant::max()));
}

}  // namespace rolls_test
