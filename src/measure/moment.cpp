#include "measure/moment.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <array>

#include "measure/zone_data.h"

namespace measure {
namespace {

constexpr std::array<std::string_view, 12> kMonths{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                   "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
constexpr std::array<std::string_view, 7> kWeekdays{"Sun", "Mon", "Tue", "Wed",
                                                    "Thu", "Fri", "Sat"};

std::optional<int> digits(std::string_view text) {
  int number = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    number = number * 10 + (c - '0');
  }
  return number;
}

// As IANA writes its names: words with a capital, joined by "/". The other files among the zones
// (zone.tab, leapseconds, posix/...) are not written so.
bool is_zone_name(std::string_view name) {
  bool begins = true;
  for (const char c : name) {
    const bool capital = c >= 'A' && c <= 'Z';
    const bool other = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_' || c == '-' ||
                       c == '+' || c == '/';
    if (begins ? !capital : !capital && !other) return false;
    begins = c == '/';
  }
  return !begins && name != "Factory";
}

// Of the system's time zone database, the one thing outside that this layer reads.
std::optional<std::string> file_of(const std::string& zone) {
  const int handle = ::open(("/usr/share/zoneinfo/" + zone).c_str(), O_RDONLY | O_CLOEXEC);
  if (handle < 0) return std::nullopt;
  std::string bytes;
  std::array<char, 4096> part{};
  ssize_t count = 0;
  while ((count = ::read(handle, part.data(), part.size())) > 0) {
    bytes.append(part.data(), static_cast<std::size_t>(count));
  }
  ::close(handle);
  return count == 0 ? std::optional(std::move(bytes)) : std::nullopt;
}

}  // namespace

Zone::Zone(std::string name, ZoneData data)
    : name_(std::move(name)), data_(std::make_shared<const ZoneData>(std::move(data))) {}

// The zone's own file is read, and no other: the date library would list all 600 zones first, which
// takes as long as all else that a command does before it begins.
std::optional<Zone> Zone::named(const std::string& name) {
  if (!is_zone_name(name)) return std::nullopt;
  const auto bytes = file_of(name);
  auto data = bytes ? ZoneData::parsed(*bytes) : std::nullopt;
  if (!data) return std::nullopt;
  return Zone(name, std::move(*data));
}

Zone::Span Zone::span_at(Instant instant) const {
  const auto span = data_->span_at(instant.time_since_epoch().count());
  return {Instant{std::chrono::seconds{span.begin}}, Instant{std::chrono::seconds{span.end}},
          std::chrono::seconds{span.offset}};
}

date::local_seconds Zone::local(Instant instant) const {
  return date::local_seconds{instant.time_since_epoch() + span_at(instant).offset};
}

Day Zone::day_of(Instant instant) const {
  return date::floor<date::days>(local(instant));
}

std::optional<Zone::Found> Zone::instant_of(date::local_seconds local) const {
  // No zone has ever been further from UTC than a day.
  const Instant about{local.time_since_epoch()};
  std::optional<Found> found;
  for (Span span = span_at(about - date::days{1});; span = span_at(span.end)) {
    const Instant at = about - span.offset;
    if (at >= span.begin && at < span.end) {
      if (found) return Found{found->at, true, at};
      found = Found{at, false, at};
    }
    if (span.end > about + date::days{1}) return found;
  }
}

Instant Zone::start_of(Day day) const {
  const date::local_seconds midnight{day};
  if (const auto found = instant_of(midnight)) return found->at;
  // The clock skipped it: the day begins with the change.
  const Instant about{midnight.time_since_epoch()};
  Span span = span_at(about - date::days{1});
  while (about - span.offset >= span.end && about - span_at(span.end).offset >= span.end) {
    span = span_at(span.end);
  }
  return span.end;
}

std::string Zone::iso(Instant instant) const {
  const date::local_seconds shown = local(instant);
  const Day day = date::floor<date::days>(shown);
  const date::hh_mm_ss time{shown - day};
  const auto offset = std::chrono::duration_cast<std::chrono::minutes>(shown.time_since_epoch() -
                                                                       instant.time_since_epoch());
  const auto minutes = offset.count() < 0 ? -offset.count() : offset.count();
  return fmt::format("{}T{:02}:{:02}:{:02}{}{:02}:{:02}", iso_date(day), time.hours().count(),
                     time.minutes().count(), time.seconds().count(), offset.count() < 0 ? '-' : '+',
                     minutes / 60, minutes % 60);
}

std::string iso_date(Day day) {
  const date::year_month_day ymd{day};
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(ymd.year()),
                     static_cast<unsigned>(ymd.month()), static_cast<unsigned>(ymd.day()));
}

std::string full_day_words(Day day) {
  const date::year_month_day ymd{day};
  return fmt::format("{} {} {} {}", kWeekdays[date::weekday{day}.c_encoding()],
                     static_cast<unsigned>(ymd.day()),
                     kMonths[static_cast<unsigned>(ymd.month()) - 1], static_cast<int>(ymd.year()));
}

std::string month_words(Day day) {
  const date::year_month_day ymd{day};
  return fmt::format("{} {}", kMonths[static_cast<unsigned>(ymd.month()) - 1],
                     static_cast<int>(ymd.year()));
}

std::string day_words(Day day, Day today) {
  const std::string text = full_day_words(day);
  const bool this_year = date::year_month_day{day}.year() == date::year_month_day{today}.year();
  return this_year ? text.substr(0, text.rfind(' ')) : text;
}

std::string moment_words(Instant instant, Instant now, const Zone& zone) {
  const date::local_seconds shown = zone.local(instant);
  const Day day = date::floor<date::days>(shown);
  const Day today = zone.day_of(now);
  const date::hh_mm_ss time{shown - day};
  const std::string name = day == today                   ? "today"
                           : day == today - date::days{1} ? "yesterday"
                                                          : day_words(day, today);
  return fmt::format("{} {:02}:{:02}", name, time.hours().count(), time.minutes().count());
}

std::optional<Day> parse_iso_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto year = digits(text.substr(0, 4));
  const auto month = digits(text.substr(5, 2));
  const auto day = digits(text.substr(8, 2));
  if (!year || !month || !day || *year < 1900 || *year > 2199) return std::nullopt;
  const date::year_month_day ymd{date::year{*year}, date::month{static_cast<unsigned>(*month)},
                                 date::day{static_cast<unsigned>(*day)}};
  if (!ymd.ok()) return std::nullopt;
  return Day{ymd};
}

}  // namespace measure
