#include "cli/words/days.h"

#include <doctest/doctest.h>

namespace days_test {

using namespace date::literals;

// Monday, 3 May 2027, in the morning.
struct Days {
  measure::Zone zone = *measure::Zone::named("America/Los_Angeles");
  measure::Instant now = date::sys_days{2027_y / 5 / 3} + std::chrono::hours{15};

  std::string operator()(std::string_view text) const {
    const auto span = cli::read_days(text, now, zone);
    if (!span) return "";
    return measure::iso_date(span->from) + " " + measure::iso_date(span->to);
  }
};

TEST_CASE("days gone by, as a person asks for them") {
  const Days days;
  CHECK(days("today") == "2027-05-03 2027-05-03");
  CHECK(days("yesterday") == "2027-05-02 2027-05-02");
  CHECK(days("mon") == "2027-04-26 2027-04-26");  // the last one before today
  CHECK(days("-2d") == "2027-05-01 2027-05-01");
  CHECK(days("10-01") == "2026-10-01 2026-10-01");
  CHECK(days("05-03") == "2027-05-03 2027-05-03");
  CHECK(days("02-29") == "2024-02-29 2024-02-29");
  CHECK(days("2026") == "2026-01-01 2026-12-31");
}

TEST_CASE("spans, over a year's end and open ones") {
  const Days days;
  CHECK(days("10-01..10-07") == "2026-10-01 2026-10-07");
  CHECK(days("12-20..01-10") == "2026-12-20 2027-01-10");
  CHECK(days("04-20..05-10") == "2027-04-20 2027-05-03");  // an end to come is today
  CHECK(days("2027-04-01..2027-06-30") == "2027-04-01 2027-05-03");
  CHECK(days("mon..") == "2027-04-26 2027-05-03");
  CHECK(days("..yesterday") == "1900-01-01 2027-05-02");
}

TEST_CASE("what is no day that has been") {
  const Days days;
  for (const auto* text : {"2027-06-01", "02-30", "7:15", "7:15..8:15", "yesterday 7:15", "soon",
                           "2027-05-02..2027-05-01", "13-01", "10-1", "..soon", "soon.."}) {
    CHECK_MESSAGE(days(text).empty(), text);
  }
}

TEST_CASE("what looks like days is read as days") {
  for (const auto* text : {"10-01", "2027-05-03", "-2d", "..mon", "mon..", "Tue", "yesterday"}) {
    CHECK_MESSAGE(cli::looks_like_days(text), text);
  }
  for (const auto* text : {"heap-3", "monday-heap", "sunny", ""}) {
    CHECK_FALSE_MESSAGE(cli::looks_like_days(text), text);
  }
}

}  // namespace days_test
