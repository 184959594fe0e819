#include "render/calendar.h"

#include <doctest/doctest.h>

#include "build_history.h"

namespace calendar_test {

using build::at;
using build::day;
using render::CalendarEntry;

namespace {

const measure::Zone kZone = *measure::Zone::named("America/Los_Angeles");

std::string file(const std::vector<CalendarEntry>& entries) {
  return render::calendar("Tern Hollow", kZone, at(day("2026-10-19"), 15), entries);
}

// A reader after RFC 5545, 3.1: what is folded is unfolded by taking out each CRLF with the blank
// behind it.
std::string unfolded(std::string text) {
  for (std::size_t at = text.find("\r\n "); at != std::string::npos; at = text.find("\r\n ", at))
    text.erase(at, 3);
  return text;
}

}  // namespace

// RFC 5545, 3.3.11: the value that is meant is "Project XYZ Final Review", "Conference Room - 3B"
// and "Come Prepared." on lines of their own.
TEST_CASE("calendar: text is escaped as in the RFC's example") {
  CHECK(render::calendar_text("Project XYZ Final Review\nConference Room - 3B\nCome Prepared.") ==
        "Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared.");
  CHECK(render::calendar_text("a;b,c\\d:e\"f\"") == "a\\;b\\,c\\\\d:e\"f\"");
}

// RFC 5545, 3.1: lines of text SHOULD NOT be longer than 75 octets, excluding the line break; a
// folded line goes on behind CRLF and one blank. Its own example, folded by hand there, unfolds to
// one line.
TEST_CASE("calendar: lines are folded at 75 octets, between characters") {
  const std::string short_line =
      "DESCRIPTION:This is a long description that exists on a long line.";
  CHECK(render::calendar_line(short_line) == short_line + "\r\n");
  CHECK(render::calendar_line(std::string(75, 'x')) == std::string(75, 'x') + "\r\n");
  CHECK(render::calendar_line(std::string(76, 'x')) == std::string(75, 'x') + "\r\n x\r\n");
  CHECK(render::calendar_line(std::string(75 + 74 + 1, 'x')) ==
        std::string(75, 'x') + "\r\n " + std::string(74, 'x') + "\r\n x\r\n");
  // "°" has two octets, "堆" three, a seedling four: none is parted.
  for (const std::string character : {"°", "堆", "🌱"}) {
    std::string line = "SUMMARY:";
    for (int i = 0; i < 60; ++i) line += character;
    const std::string folded = render::calendar_line(line);
    CHECK(unfolded(folded) == line + "\r\n");
    std::size_t from = 0;
    for (std::size_t to = folded.find("\r\n"); to != std::string::npos;
         from = to + 2, to = folded.find("\r\n", from)) {
      CHECK(to - from <= 75);
      const std::size_t first = folded[from] == ' ' ? from + 1 : from;
      CHECK((static_cast<unsigned char>(folded[first]) & 0xC0) != 0x80);
    }
  }
}

// What is no UTF-8 has no place to be parted, and the line stays whole.
TEST_CASE("calendar: octets that are no text end") {
  const std::string line(200, '\x80');
  CHECK(render::calendar_line(line) == line + "\r\n");
}

// RFC 5545, 3.6.1: DTEND is the day after; an all-day entry begins by a DATE.
TEST_CASE("calendar: a whole day, and what comes again") {
  const std::string text = file({{.uid = "a",
                                  .summary = "read",
                                  .description = "",
                                  .day = day("2026-10-31"),
                                  .every = 2,
                                  .times = 4}});
  CHECK(build::contains(text, "DTSTART;VALUE=DATE:20261031\r\nDTEND;VALUE=DATE:20261101\r\n"));
  CHECK(build::contains(text, "RRULE:FREQ=DAILY;INTERVAL=2;COUNT=4\r\n"));
  CHECK_FALSE(build::contains(text, "VALARM"));
  CHECK_FALSE(build::contains(text, "VTIMEZONE"));
  CHECK_FALSE(build::contains(text, "DESCRIPTION"));
}

// The zone's changes are those of the IANA data: in 2026 US clocks went forward on 8 March and go
// back on 1 November, at two in the morning by the clock that holds until then (3.6.5).
TEST_CASE("calendar: a moment is told by the zone's clock, with the changes it lies between") {
  CalendarEntry entry{.uid = "a",
                      .summary = "turn",
                      .description = "",
                      .day = day("2026-10-19"),
                      .at = at(day("2026-10-19"), 15, 15),
                      .alarm = true};
  std::string text = file({entry});
  CHECK(build::contains(text, "DTSTART;TZID=America/Los_Angeles:20261019T081500\r\n"));
  CHECK(build::contains(text,
                        "BEGIN:DAYLIGHT\r\nDTSTART:20260308T020000\r\nTZOFFSETFROM:-0800\r\n"
                        "TZOFFSETTO:-0700\r\nEND:DAYLIGHT\r\n"));
  // Readers want a standard time too: the one before.
  CHECK(build::contains(text, "BEGIN:STANDARD\r\nDTSTART:20251102T020000\r\n"));
  CHECK(build::contains(text, "TRIGGER:PT0S\r\n"));
  entry.at = at(day("2026-11-02"), 16);
  text = file({entry});
  CHECK(build::contains(text, "DTSTART;TZID=America/Los_Angeles:20261102T080000\r\n"));
  CHECK(build::contains(text,
                        "BEGIN:STANDARD\r\nDTSTART:20261101T020000\r\nTZOFFSETFROM:-0700\r\n"
                        "TZOFFSETTO:-0800\r\nEND:STANDARD\r\n"));
}

TEST_CASE("calendar: a zone without changes has one") {
  CalendarEntry entry{.uid = "a",
                      .summary = "turn",
                      .description = "",
                      .day = day("2026-10-19"),
                      .at = at(day("2026-10-19"), 15)};
  const auto utc = *measure::Zone::named("UTC");
  const std::string text = render::calendar("x", utc, at(day("2026-10-19"), 15), {entry});
  CHECK(build::contains(text, "BEGIN:STANDARD\r\nDTSTART:2025"));
  CHECK(build::contains(text, "TZOFFSETFROM:+0000\r\nTZOFFSETTO:+0000\r\n"));
}

// Of two files the later one holds: RFC 5545, 3.8.7.4.
TEST_CASE("calendar: the same matter keeps its name, and its number grows") {
  const CalendarEntry entry{
      .uid = "a", .summary = "x", .description = "", .day = day("2026-10-20")};
  const auto number = [&](int hours) {
    const std::string text = render::calendar("x", kZone, at(day("2026-10-19"), hours), {entry});
    const std::size_t from = text.find("SEQUENCE:") + 9;
    return std::stoll(text.substr(from));
  };
  CHECK(number(16) > number(15));
}

}  // namespace calendar_test
