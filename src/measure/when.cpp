#include "measure/when.h"

#include <array>
#include <charconv>
#include <optional>

#include "measure/text.h"

namespace measure {
namespace {

constexpr std::string_view kUnderstood =
    "write it like 7:15, yesterday 7:15, mon, -2d, 2027-05-03 or 2027-05-03 07:15";
constexpr std::array<std::string_view, 7> kTypedWeekdays{"sun", "mon", "tue", "wed",
                                                         "thu", "fri", "sat"};
constexpr std::array<std::string_view, 7> kFullWeekdays{
    "sunday", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday"};

Mistake not_a_moment(std::string_view text) {
  return {std::string(text),
          quoted(text) + " is not a moment roundbook reads; " + std::string(kUnderstood)};
}

std::optional<int> whole_number(std::string_view text) {
  int number{};
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (text.empty() || text[0] == '-' || error != std::errc{} || end != text.data() + text.size()) {
    return std::nullopt;
  }
  return number;
}

// "7:15", "07:15", "07:15:30", "7:15pm", "7pm".
std::optional<std::chrono::seconds> time_of_day(std::string_view text) {
  const bool morning = text.ends_with("am");
  const bool afternoon = text.ends_with("pm");
  const bool twelve_hours = morning || afternoon;
  if (twelve_hours) text.remove_suffix(2);
  if (text.ends_with(' ')) text.remove_suffix(1);
  const std::vector<std::string> parts = split(text, ':');
  if (parts.empty() || parts.size() > 3 || (parts.size() == 1 && !twelve_hours)) {
    return std::nullopt;
  }
  std::array<int, 3> fields{};
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const auto number = whole_number(parts[i]);
    if (!number || parts[i].size() > 2 || (i > 0 && parts[i].size() != 2)) return std::nullopt;
    fields[i] = *number;
  }
  auto [hours, minutes, seconds] = fields;
  if (twelve_hours) {
    if (hours < 1 || hours > 12) return std::nullopt;
    hours = hours % 12 + (afternoon ? 12 : 0);
  }
  if (hours > 23 || minutes > 59 || seconds > 59) return std::nullopt;
  return std::chrono::hours{hours} + std::chrono::minutes{minutes} + std::chrono::seconds{seconds};
}

std::optional<Day> last_weekday(std::string_view word, Day today) {
  for (unsigned i = 0; i < kTypedWeekdays.size(); ++i) {
    if (word != kTypedWeekdays[i] && word != kFullWeekdays[i]) continue;
    const date::days back = date::weekday{today} - date::weekday{i};
    return today - (back == date::days{0} ? date::days{7} : back);
  }
  return std::nullopt;
}

std::optional<Day> past_day(std::string_view word, Day today) {
  if (word == "today") return today;
  if (word == "yesterday") return today - date::days{1};
  if (const auto day = last_weekday(word, today)) return day;
  return parse_iso_date(word);
}

bool looks_like_date(std::string_view text) {
  return text.size() >= 10 && text[4] == '-' && text[7] == '-';
}

// "+02:00", "-0700", "+02", "z" at the end of an ISO 8601 moment.
std::optional<std::chrono::minutes> offset(std::string_view text) {
  if (text == "z") return std::chrono::minutes{0};
  if (text.size() < 3 || (text[0] != '+' && text[0] != '-')) return std::nullopt;
  std::string_view minutes_text = text.size() == 3 ? "00" : text.substr(3);
  if (text.size() == 6) {
    if (text[3] != ':') return std::nullopt;
    minutes_text = text.substr(4);
  }
  const auto hours = whole_number(text.substr(1, 2));
  const auto minutes = whole_number(minutes_text);
  if (!hours || !minutes || minutes_text.size() != 2 || *hours > 14 || *minutes > 59) {
    return std::nullopt;
  }
  const auto size = std::chrono::hours{*hours} + std::chrono::minutes{*minutes};
  return text[0] == '-' ? -size : size;
}

// Where a time of day and the offset after it part in "07:15:00-07:00", or npos.
std::size_t offset_start(std::string_view text) {
  return text.find_first_of("+-z");
}

Result<When> refused_if_future(When when, Instant now, std::string_view text, const Zone& zone) {
  if (when.at <= now) return when;
  return Mistake{std::string(text), quoted(text) + " is " + moment_words(when.at, now, zone) +
                                        ", which has not come yet; it is now " +
                                        moment_words(now, now, zone)};
}

Result<When> at_local(Day day, std::chrono::seconds time, Instant now, const Zone& zone,
                      std::string_view text) {
  const auto found = zone.instant_of(date::local_seconds{day} + time);
  if (!found) {
    return Mistake{std::string(text),
                   quoted(text) +
                       " is a time that the clock skipped that day when daylight saving "
                       "began; take one an hour later"};
  }
  return refused_if_future({found->at, false, found->twice}, now, text, zone);
}

Result<When> whole_day(Day day, Instant now, const Zone& zone, DayMeans day_means,
                       std::string_view text) {
  if (day > zone.day_of(now)) {
    return Mistake{std::string(text), quoted(text) + " is a day that has not come yet"};
  }
  const Instant at = day_means == DayMeans::kItsEnd
                         ? zone.start_of(day + date::days{1}) - std::chrono::seconds{1}
                         : zone.instant_of(date::local_seconds{day} + std::chrono::hours{12})
                               .value_or(Zone::Found{zone.start_of(day), false})
                               .at;
  return When{std::min(at, now), true, false};
}

// Days and weeks go by the clock on the wall ("-2d" at 7:15 is 7:15), hours by the stopwatch.
std::optional<When> before_now(std::string_view text, Instant now, const Zone& zone) {
  if (text.size() < 3 || text[0] != '-') return std::nullopt;
  const auto count = whole_number(text.substr(1, text.size() - 2));
  if (!count || *count > 100000) return std::nullopt;
  const char unit = text.back();
  if (unit == 'h') return When{now - std::chrono::hours{*count}};
  if (unit != 'd' && unit != 'w') return std::nullopt;
  const date::days back{unit == 'd' ? *count : *count * 7};
  const auto found = zone.instant_of(zone.local(now) - back);
  return found ? When{found->at, false, found->twice} : When{now - back};
}

}  // namespace

Result<When> parse_when(std::string_view text, Instant now, const Zone& zone, DayMeans day_means) {
  std::string plain = folded(text);
  if (plain == "now") return When{now};
  if (const auto when = before_now(plain, now, zone)) return *when;
  const Day today = zone.day_of(now);
  if (const auto time = time_of_day(plain)) return at_local(today, *time, now, zone, text);
  if (const auto day = past_day(plain, today)) return whole_day(*day, now, zone, day_means, text);
  if (looks_like_date(plain) && plain.size() > 10 && plain[10] == 't') plain[10] = ' ';
  const std::size_t space = plain.find(' ');
  const std::string_view day_word = std::string_view(plain).substr(0, space);
  const auto day = past_day(day_word, today);
  if (!day && looks_like_date(day_word)) {
    return Mistake{std::string(text), quoted(text) + " holds a date that does not exist"};
  }
  if (!day || space == std::string::npos) return not_a_moment(text);
  const std::string_view time_text = std::string_view(plain).substr(space + 1);
  if (const auto time = time_of_day(time_text)) return at_local(*day, *time, now, zone, text);
  const std::size_t parts_at = offset_start(time_text);
  if (parts_at == std::string_view::npos) return not_a_moment(text);
  const auto time = time_of_day(time_text.substr(0, parts_at));
  const auto shift = offset(time_text.substr(parts_at));
  if (!time || !shift || !looks_like_date(day_word)) return not_a_moment(text);
  const Instant at{(date::local_seconds{*day} + *time - *shift).time_since_epoch()};
  return refused_if_future({at}, now, text, zone);
}

bool goes_on_a_moment(std::string_view begun, std::string_view next) {
  const std::string before = folded(begun.substr(begun.find('=') + 1)), after = folded(next);
  const std::string last = before.substr(before.rfind(' ') + 1);
  const bool is_day = past_day(before, Day{date::days{400000}}).has_value();
  if (is_day) {
    // "7 pm" stands apart too; a lone number is a reading.
    return time_of_day(after).has_value();
  }
  return (after == "am" || after == "pm") && time_of_day(last + after).has_value();
}

std::optional<Instant> parse_iso_moment(std::string_view text) {
  const std::string plain = folded(text);
  const bool parts =
      looks_like_date(plain) && plain.size() > 11 && (plain[10] == 't' || plain[10] == ' ');
  if (!parts) return std::nullopt;
  const std::string_view clock = std::string_view(plain).substr(11);
  const std::size_t parts_at = offset_start(clock);
  if (parts_at == std::string_view::npos) return std::nullopt;
  const auto day = parse_iso_date(std::string_view(plain).substr(0, 10));
  const auto time = time_of_day(clock.substr(0, parts_at));
  const auto shift = offset(clock.substr(parts_at));
  if (!day || !time || !shift) return std::nullopt;
  return Instant{(date::local_seconds{*day} + *time - *shift).time_since_epoch()};
}

Result<Day> parse_coming_day(std::string_view text, Day today) {
  const std::string plain = folded(text);
  const auto not_a_day = [&] {
    return Mistake{
        std::string(text),
        quoted(text) + " is no day to come; write it like sat, tomorrow, 3d or 2027-05-03"};
  };
  if (plain == "tomorrow") return today + date::days{1};
  if (const auto last = last_weekday(plain, today))
    return *last + date::days{7 + (*last + date::days{7} <= today ? 7 : 0)};
  if (const auto day = parse_iso_date(plain)) {
    if (*day <= today) return not_a_day();
    return *day;
  }
  const std::size_t letters = plain.find_first_not_of("0123456789");
  if (letters == 0 || letters == std::string::npos) return not_a_day();
  const auto count = whole_number(plain.substr(0, letters));
  std::string unit = plain.substr(letters);
  unit.erase(0, unit.find_first_not_of(' '));
  const bool weeks = unit == "w" || unit == "week" || unit == "weeks";
  if (!count || *count < 1 || *count > 3650 ||
      !(weeks || unit == "d" || unit == "day" || unit == "days"))
    return not_a_day();
  return today + date::days{weeks ? *count * 7 : *count};
}

Result<Day> parse_day(std::string_view text, Day today) {
  const std::string plain = folded(text);
  if (plain == "tomorrow") return today + date::days{1};
  if (const auto day = past_day(plain, today)) return *day;
  if (looks_like_date(plain)) {
    return Mistake{std::string(text), quoted(text) + " is a date that does not exist"};
  }
  return Mistake{std::string(text),
                 quoted(text) + " is not a day roundbook reads; write it like 2027-05-03"};
}

}  // namespace measure
