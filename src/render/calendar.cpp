#include "render/calendar.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>

namespace render {
namespace {

using measure::Day;
using measure::Instant;

constexpr std::size_t kMostOctets = 75;
constexpr std::string_view kLineEnd = "\r\n";

bool goes_on_a_character(char octet) {
  return (static_cast<unsigned char>(octet) & 0xC0U) == 0x80U;
}

std::string date_text(Day day) {
  std::string text = measure::iso_date(day);
  std::erase(text, '-');
  return text;
}

// "20261019T080000"
std::string local_text(date::local_seconds at) {
  const auto day = date::floor<date::days>(at);
  const date::hh_mm_ss clock(at - day);
  return fmt::format("{}T{:02}{:02}{:02}", date_text(Day{day}), clock.hours().count(),
                     clock.minutes().count(), clock.seconds().count());
}

std::string utc_text(Instant at) {
  return local_text(date::local_seconds{at.time_since_epoch()}) + "Z";
}

// "-0700"
std::string offset_text(std::chrono::seconds offset) {
  const auto minutes = std::chrono::duration_cast<std::chrono::minutes>(offset).count();
  const auto size = minutes < 0 ? -minutes : minutes;
  return fmt::format("{}{:02}{:02}", minutes < 0 ? '-' : '+', size / 60, size % 60);
}

class File {
 public:
  void put(std::string_view line) { text_ += calendar_line(line); }
  void put(std::string_view property, std::string_view value) {
    put(fmt::format("{}:{}", property, calendar_text(value)));
  }
  std::string text() && { return std::move(text_); }

 private:
  std::string text_;
};

// What the zone's clock does from `from` until `to`, each change by itself, and the one before:
// there are readers that cannot do without both a standard and a daylight time.
void put_zone(const measure::Zone& zone, Instant from, Instant to, File& into) {
  std::vector<measure::Zone::Span> spans{zone.span_at(from)};
  if (spans.front().begin >= from - date::years{1})
    spans.insert(spans.begin(), zone.span_at(spans.front().begin - std::chrono::seconds{1}));
  while (spans.back().end <= to) spans.push_back(zone.span_at(spans.back().end));
  into.put("BEGIN:VTIMEZONE");
  into.put("TZID:" + zone.name());
  for (const auto& span : spans) {
    // Of a zone that never changes: long before all that is told.
    const bool is_first_known = span.begin < from - date::years{1};
    const Instant begin = is_first_known ? from - date::years{1} : span.begin;
    const auto before =
        is_first_known ? span.offset : zone.span_at(begin - std::chrono::seconds{1}).offset;
    const std::string_view part = span.offset > before ? "DAYLIGHT" : "STANDARD";
    into.put(fmt::format("BEGIN:{}", part));
    into.put("DTSTART:" + local_text(date::local_seconds{begin.time_since_epoch() + before}));
    into.put("TZOFFSETFROM:" + offset_text(before));
    into.put("TZOFFSETTO:" + offset_text(span.offset));
    into.put(fmt::format("END:{}", part));
  }
  into.put("END:VTIMEZONE");
}

void put_entry(const CalendarEntry& entry, const measure::Zone& zone, Instant stamp, File& into) {
  into.put("BEGIN:VEVENT");
  into.put("UID", entry.uid);
  into.put("DTSTAMP:" + utc_text(stamp));
  // Grows from file to file.
  into.put(fmt::format(
      "SEQUENCE:{}",
      std::chrono::duration_cast<std::chrono::minutes>(stamp.time_since_epoch()).count()));
  if (entry.at) {
    into.put(fmt::format("DTSTART;TZID={}:{}", zone.name(), local_text(zone.local(*entry.at))));
    into.put("DURATION:PT15M");
  } else {
    into.put("DTSTART;VALUE=DATE:" + date_text(entry.day));
    into.put("DTEND;VALUE=DATE:" + date_text(entry.day + date::days{1}));
    into.put("TRANSP:TRANSPARENT");  // nobody is away for it
  }
  if (entry.every > 0 && entry.times > 1)
    into.put(fmt::format("RRULE:FREQ=DAILY;INTERVAL={};COUNT={}", entry.every, entry.times));
  into.put("SUMMARY", entry.summary);
  if (!entry.description.empty()) into.put("DESCRIPTION", entry.description);
  if (entry.alarm) {
    into.put("BEGIN:VALARM");
    into.put("ACTION:DISPLAY");
    into.put("DESCRIPTION", entry.summary);
    into.put(entry.at ? "TRIGGER:PT0S" : "TRIGGER:PT7H");
    into.put("END:VALARM");
  }
  into.put("END:VEVENT");
}

}  // namespace

std::string calendar_text(std::string_view text) {
  std::string value;
  for (const char c : text) {
    if (c == '\n') {
      value += "\\n";
      continue;
    }
    if (c == '\\' || c == ';' || c == ',') value += '\\';
    value += c;
  }
  return value;
}

std::string calendar_line(std::string_view line) {
  std::string folded;
  std::size_t room = kMostOctets;
  while (line.size() > room) {
    std::size_t at = room;
    while (at > 0 && goes_on_a_character(line[at])) --at;
    if (at == 0) break;  // no character is as long as that: what it is, it is no text
    folded.append(line.substr(0, at)).append(kLineEnd).append(" ");
    line.remove_prefix(at);
    room = kMostOctets - 1;  // the space counts
  }
  return folded.append(line).append(kLineEnd);
}

std::string calendar(std::string_view name, const measure::Zone& zone, Instant stamp,
                     const std::vector<CalendarEntry>& entries) {
  File file;
  file.put("BEGIN:VCALENDAR");
  file.put("VERSION:2.0");
  file.put("PRODID:-//roundbook//roundbook//EN");
  file.put("CALSCALE:GREGORIAN");
  file.put("NAME", name);  // RFC 7986
  Instant from = stamp, to = stamp;
  bool is_timed = false;
  for (const CalendarEntry& entry : entries) {
    if (!entry.at) continue;
    is_timed = true;
    from = std::min(from, *entry.at);
    to = std::max(to, *entry.at);
  }
  if (is_timed) put_zone(zone, from, to, file);
  for (const CalendarEntry& entry : entries) put_entry(entry, zone, stamp, file);
  file.put("END:VCALENDAR");
  return std::move(file).text();
}

}  // namespace render
