#include "season/span.h"

#include <doctest/doctest.h>

#include "build_history.h"
#include "measure/text.h"

namespace span_test {

using build::day;
using season::parse_span;

namespace {

const model::Day kToday = day("2026-10-31");

void check(std::string_view text, const char* from, const char* to) {
  CAPTURE(text);
  const auto span = parse_span(text, kToday);
  REQUIRE(span.ok());
  CHECK(measure::iso_date(span->from) == from);
  CHECK(measure::iso_date(span->to) == to);
}

}  // namespace

TEST_CASE("spans of days") {
  check("", "2026-01-01", "2026-10-31");
  check(" ", "2026-01-01", "2026-10-31");
  check("2025", "2025-01-01", "2025-12-31");
  check("2026", "2026-01-01", "2026-10-31");  // the year is not over
  check("2026-03-01..2026-10-31", "2026-03-01", "2026-10-31");
  check("2026-03-01..2026-12-31", "2026-03-01", "2026-10-31");
  check("2025-11-01..2026-02-28", "2025-11-01", "2026-02-28");
  check("2026-03-01..", "2026-03-01", "2026-10-31");
  check("..2026-03-01", "2026-01-01", "2026-03-01");
  check("2026-10-31..2026-10-31", "2026-10-31", "2026-10-31");
}

TEST_CASE("both ends count") {
  CHECK(parse_span("2026-10-31..2026-10-31", kToday)->days() == 1);
  CHECK(parse_span("2025", kToday)->days() == 365);
  CHECK(parse_span("2024", kToday)->days() == 366);
  CHECK(parse_span("2026-03-07..2026-03-09", kToday)->days() == 3);  // over a day of 23 hours
}

TEST_CASE("what is no span is refused") {
  CHECK(parse_span("2027", kToday).mistake().why == "'2027' has not begun yet");
  CHECK(parse_span("2026-11-01..", kToday).mistake().why == "'2026-11-01..' has not begun yet");
  CHECK(parse_span("2026-05-02..2026-05-01", kToday).mistake().why ==
        "'2026-05-02..2026-05-01' ends before it begins");
  using namespace std::string_literals;
  for (const std::string& text :
       {"season"s, "26"s, "1899"s, "0000"s, "20261"s, ".."s, "2026-02-29.."s,
        "2026-02-30..2026-03-01"s, "2026-03-01-2026-04-01"s, "2026-03-01...2026-04-01"s,
        "2026..2027"s, "2026-03-01"s, "-2026"s, "２０２６"s, "2026\x1b"s,
        std::string(10'000, '2')}) {
    CAPTURE(measure::quoted(text));
    const auto span = parse_span(text, kToday);
    REQUIRE_FALSE(span.ok());
    CHECK(measure::is_clean_text(span.mistake().why));
    CHECK(span.mistake().why.find("is not a span of days") != std::string::npos);
  }
}

}  // namespace span_test
