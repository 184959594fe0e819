#include "measure/zone_data.h"

#include <date/date.h>
#include <date/tz.h>
#include <doctest/doctest.h>

#include <string>
#include <tuple>

#include "measure/moment.h"

namespace zone_data_test {

using measure::Zone;
using measure::ZoneData;

namespace {

// A file of one offset and that footer (RFC 8536, 3.1 and 3.3).
std::string file(const std::string& footer, int offset = 0) {
  const auto number = [](unsigned value) {
    std::string bytes;
    for (int shift = 24; shift >= 0; shift -= 8) bytes += static_cast<char>(value >> shift & 255);
    return bytes;
  };
  const std::string head = "TZif2" + std::string(15, '\0') + number(0) + number(0) + number(0) +
                           number(0) + number(1) + number(4);
  const std::string type =
      number(static_cast<unsigned>(offset)) + std::string(2, '\0') + std::string("LMT\0", 4);
  return head + type + head + type + '\n' + footer + '\n';
}

std::int64_t at(int year, unsigned month, unsigned day, int hour = 0) {
  const date::sys_days midnight{date::year{year} / date::month{month} / date::day{day}};
  return std::chrono::seconds{midnight.time_since_epoch()}.count() + hour * 3600;
}

std::int64_t offset(const ZoneData& zone, std::int64_t instant) {
  const auto span = zone.span_at(instant);
  CHECK(span.begin <= instant);
  CHECK(instant < span.end);
  return span.offset;
}

}  // namespace

// The date library, which reads the same files, is the second opinion; up to 2037, since it does
// not know what comes after the last change that a file names.
TEST_CASE("every zone of the database says what the date library says of it") {
  using date::local_info;
  const auto& all = date::get_tzdb().zones;
  REQUIRE(all.size() > 300);
  const date::sys_seconds end{date::sys_days{date::year{2037} / 6 / 1}};
  for (const date::time_zone& one : all) {
    if (one.name() == "localtime") continue;  // another name for a zone, on this computer alone
    CAPTURE(one.name());
    const auto zone = Zone::named(one.name());
    REQUIRE(zone);
    int wrong = 0;
    date::sys_seconds then{date::sys_days{date::year{1870} / 1 / 1}};
    while (then < end) {
      const auto info = one.get_info(then);
      for (const int aside : {-7200, -3600, -1, 0, 1, 1800, 3600, 7200}) {
        const date::sys_seconds near = then + std::chrono::seconds{aside};
        if (one.to_local(near) != zone->local(near)) ++wrong;
        const date::local_seconds shown{near.time_since_epoch() + info.offset};
        const local_info there = one.get_info(shown);
        const auto found = zone->instant_of(shown);
        if (found.has_value() == (there.result == local_info::nonexistent)) ++wrong;
        if (!found) continue;
        const bool twice = there.result == local_info::ambiguous;
        const auto second = twice ? there.second.offset : there.first.offset;
        if (found->twice != twice) ++wrong;
        if (found->at.time_since_epoch() != shown.time_since_epoch() - there.first.offset) ++wrong;
        if (found->second.time_since_epoch() != shown.time_since_epoch() - second) ++wrong;
      }
      // From change to change, and on the way there.
      then = std::min(date::floor<std::chrono::seconds>(info.end), then + date::days{300});
    }
    CHECK(wrong == 0);
  }
}

// The changes of 2043, which no file names: computed with CPython 3.11's zoneinfo over the IANA
// database 2026.
TEST_CASE("zones after the last change that their file names") {
  using Changes = std::vector<std::pair<std::int64_t, std::int64_t>>;
  const std::tuple<const char*, std::int64_t, Changes> kZones[] = {
      {"America/Los_Angeles", -28800, {{2309421600, -25200}, {2329981200, -28800}}},
      {"Europe/Berlin", 3600, {{2311203600, 7200}, {2329347600, 3600}}},
      {"Europe/Dublin", 0, {{2311203600, 3600}, {2329347600, 0}}},  // its winter is the exception
      {"Australia/Sydney", 39600, {{2311776000, 36000}, {2327500800, 39600}}},
      {"Australia/Lord_Howe", 39600, {{2311772400, 37800}, {2327499000, 39600}}},
      {"America/Santiago", -10800, {{2311815600, -14400}, {2325124800, -10800}}},
      {"America/Nuuk", -7200, {{2311203600, -3600}, {2329347600, -7200}}},  // the evening before
      {"Africa/Cairo", 7200, {{2313439200, 10800}, {2329765200, 7200}}},
      {"Asia/Kathmandu", 20700, {}}};
  for (const auto& [name, january, changes] : kZones) {
    CAPTURE(name);
    const auto zone = Zone::named(name);
    REQUIRE(zone);
    std::int64_t before = january, since = at(2043, 1, 1);
    for (const auto& [change, after] : changes) {
      CAPTURE(change);
      const date::sys_seconds then{std::chrono::seconds{change}};
      for (const std::int64_t instant : {since, change - 1}) {
        const auto span = zone->span_at(date::sys_seconds{std::chrono::seconds{instant}});
        CHECK(span.offset.count() == before);
        CHECK(span.end == then);
      }
      CHECK(zone->span_at(then).offset.count() == after);
      CHECK(zone->span_at(then).begin == then);
      before = after;
      since = change;
    }
    CHECK(zone->span_at(date::sys_seconds{date::sys_days{date::year{2043} / 12 / 31}})
              .offset.count() == before);
  }
  const auto here = *Zone::named("America/Los_Angeles");
  CHECK(here.iso(date::sys_seconds{date::sys_days{date::year{2100} / 7 / 1}}) ==
        "2100-06-30T17:00:00-07:00");
}

TEST_CASE("the forms of a footer's dates (RFC 8536, 3.3.1; POSIX, 8.3)") {
  // The 60th day without a leap day is the 1st of March, in every year.
  const auto julian = *ZoneData::parsed(file("EST5EDT,J60,J300"));
  CHECK(offset(julian, at(2043, 3, 1, 6)) == -5 * 3600);
  CHECK(offset(julian, at(2043, 3, 1, 7)) == -4 * 3600);
  CHECK(offset(julian, at(2044, 3, 1, 6)) == -5 * 3600);
  CHECK(offset(julian, at(2044, 3, 1, 7)) == -4 * 3600);
  // Day 59, counted from 0 with the leap day, is the 29th of February where there is one.
  const auto counted = *ZoneData::parsed(file("EST5EDT,59,300"));
  CHECK(offset(counted, at(2043, 3, 1, 6)) == -5 * 3600);
  CHECK(offset(counted, at(2043, 3, 1, 7)) == -4 * 3600);
  CHECK(offset(counted, at(2044, 2, 29, 7)) == -4 * 3600);
  // Summer all the year round (the RFC's own example).
  const auto always = *ZoneData::parsed(file("XXX3EDT4,0/0,J365/23"));
  for (unsigned month = 1; month <= 12; ++month) {
    CHECK(offset(always, at(2043, month, 1)) == -4 * 3600);
    CHECK(offset(always, at(2044, month, 28, 23)) == -4 * 3600);
  }
  CHECK(offset(*ZoneData::parsed(file("<+1245>-12:45:30")), 0) == 12 * 3600 + 45 * 60 + 30);
  // No footer: the last offset stays.
  CHECK(offset(*ZoneData::parsed(file("", 1234)), at(2100, 1, 1)) == 1234);
  // So far away that no calendar counts the year.
  const auto far = ZoneData::parsed(file("EST5EDT,M3.2.0,M11.1.0"))
                       ->span_at(std::numeric_limits<std::int64_t>::max() - 1);
  CHECK(far.offset == -5 * 3600);
}

TEST_CASE("what is no zone's file is none") {
  const std::string good = file("EST5EDT,M3.2.0,M11.1.0/3");
  CHECK(ZoneData::parsed(good));
  for (std::size_t size = 0; size < good.size(); ++size) {
    CAPTURE(size);
    CHECK_FALSE(ZoneData::parsed(std::string_view(good).substr(0, size)));
  }
  std::string other = good;
  other[0] = 'X';
  CHECK_FALSE(ZoneData::parsed(other));
  for (const char* footer : {"5", "EST", "EST5EDT", "EST5EDT,M3.2.0", "EST5EDT,M13.2.0,M11.1.0",
                             "EST5EDT,M3.6.0,M11.1.0", "EST5EDT,M3.2.7,M11.1.0", "EST5:",
                             "EST5EDT,M3.2.0,M11.1.0,", "<EST5", "EST5EDT,M3.2.0/,M11.1.0"}) {
    CAPTURE(footer);
    CHECK_FALSE(ZoneData::parsed(file(footer)));
  }
  // Counts that reach past the end, in either header.
  for (std::size_t i = 20; i < good.size() - 30; ++i) {
    std::string huge = good;
    huge[i] = static_cast<char>(0xff);
    (void)ZoneData::parsed(huge);
  }
}

}  // namespace zone_data_test
