#include "measure/moment.h"

#include <fmt/format.h>

#include <array>
#include <stdexcept>

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

}  // namespace

std::optional<Zone> Zone::named(const std::string& name) {
  try {
    return Zone(date::locate_zone(name));
  } catch (const std::runtime_error&) {  // date's answer to an unknown name
    return std::nullopt;
  }
}

date::local_seconds Zone::local(Instant instant) const {
  return zone_->to_local(instant);
}

Day Zone::day_of(Instant instant) const {
  return date::floor<date::days>(local(instant));
}

std::optional<Zone::Found> Zone::instant_of(date::local_seconds local) const {
  const date::local_info info = zone_->get_info(local);
  if (info.result == date::local_info::nonexistent) return std::nullopt;
  const bool twice = info.result == date::local_info::ambiguous;
  return Found{Instant{local.time_since_epoch() - info.first.offset}, twice,
               Instant{local.time_since_epoch() - (twice ? info.second : info.first).offset}};
}

Zone::Span Zone::span_at(Instant instant) const {
  const date::sys_info info = zone_->get_info(instant);
  return {date::floor<std::chrono::seconds>(info.begin),
          date::floor<std::chrono::seconds>(info.end), info.offset};
}

Instant Zone::start_of(Day day) const {
  const date::local_seconds midnight{day};
  if (const auto found = instant_of(midnight)) return found->at;
  return date::floor<std::chrono::seconds>(zone_->get_info(midnight).first.end);
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
