#include "book/import/time.h"

#include <array>
#include <charconv>

#include "book/import/number.h"
#include "measure/text.h"

namespace book {
namespace {

constexpr std::int64_t kMinute = 60, kHour = 3600, kDay = 86400;
constexpr std::array<std::string_view, 12> kMonths{"jan", "feb", "mar", "apr", "may", "jun",
                                                   "jul", "aug", "sep", "oct", "nov", "dec"};

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

// The number in exactly `count` digits at `at`; -1 where they are not all digits.
int digits(std::string_view text, std::size_t at, std::size_t count) {
  if (at + count > text.size()) return -1;
  int number = 0;
  for (std::size_t i = at; i < at + count; ++i) {
    if (!is_digit(text[i])) return -1;
    number = number * 10 + (text[i] - '0');
  }
  return number;
}

// Takes one or more digits (at most `most`) off the front; -1 where there is none.
int take_number(std::string_view& text, std::size_t most) {
  std::size_t count = 0;
  while (count < most && count < text.size() && is_digit(text[count])) ++count;
  if (count == 0) return -1;
  const int number = digits(text, 0, count);
  text.remove_prefix(count);
  return number;
}

std::optional<std::int64_t> day_number(int year, int month, int day) {
  if (year < 1970 || year > 2199 || month < 1 || month > 12 || day < 1 || day > 31) {
    return std::nullopt;
  }
  const date::year_month_day ymd{date::year{year}, date::month{static_cast<unsigned>(month)},
                                 date::day{static_cast<unsigned>(day)}};
  if (!ymd.ok()) return std::nullopt;
  return date::sys_days{ymd}.time_since_epoch().count();
}

// 1 to 12 where a month's name, whole or its first three letters, stands at the front; it is taken
// off.
int take_month(std::string_view& text) {
  std::size_t letters = 0;
  while (letters < text.size() && is_letter(text[letters])) ++letters;
  if (letters < 3) return -1;
  const std::string name = measure::folded(text.substr(0, 3));
  for (std::size_t i = 0; i < kMonths.size(); ++i) {
    if (kMonths[i] != name) continue;
    text.remove_prefix(letters);
    return static_cast<int>(i) + 1;
  }
  return -1;
}

void skip(std::string_view& text, std::string_view any_of) {
  while (!text.empty() && any_of.find(text[0]) != std::string_view::npos) text.remove_prefix(1);
}

int whole_year(int year, std::size_t digits_of_it) {
  return digits_of_it <= 2 ? 2000 + year : year;
}

// "May 3, 2027"; the month's name is off already.
std::optional<std::int64_t> take_date_after_month(std::string_view& text, int month) {
  skip(text, " -.");
  const int day = take_number(text, 2);
  skip(text, " ,-.");
  const std::size_t was = text.size();
  const int year = take_number(text, 4);
  if (day < 0 || year < 0) return std::nullopt;
  return day_number(whole_year(year, was - text.size()), month, day);
}

// Takes a date off the front.
std::optional<std::int64_t> take_date(std::string_view& text, TimeOrder order) {
  if (const int month = take_month(text); month > 0) return take_date_after_month(text, month);
  if (digits(text, 0, 8) >= 0 && (text.size() == 8 || !is_digit(text[8]))) {  // 20270503
    const auto day = day_number(digits(text, 0, 4), digits(text, 4, 2), digits(text, 6, 2));
    text.remove_prefix(8);
    return day;
  }
  const std::size_t was = text.size();
  const int first = take_number(text, 4);
  const std::size_t first_digits = was - text.size();
  if (first < 0 || text.empty()) return std::nullopt;
  const char between = text[0];
  if (between != '-' && between != '/' && between != '.' && between != ' ') return std::nullopt;
  text.remove_prefix(1);
  if (const int month = take_month(text); month > 0) {  // 3-May-2027
    skip(text, " -./");
    const std::size_t before = text.size();
    const int year = take_number(text, 4);
    if (year < 0 || first_digits > 2) return std::nullopt;
    return day_number(whole_year(year, before - text.size()), month, first);
  }
  if (between == ' ') return std::nullopt;
  const int second = take_number(text, 2);
  if (second < 0 || text.empty() || text[0] != between) return std::nullopt;
  text.remove_prefix(1);
  const std::size_t before = text.size();
  const int third = take_number(text, 4);
  if (third < 0) return std::nullopt;
  const std::size_t third_digits = before - text.size();
  if (first_digits == 4) return third_digits <= 2 ? day_number(first, second, third) : std::nullopt;
  if (first_digits > 2 || third_digits == 1 || third_digits == 3) return std::nullopt;
  const int year = whole_year(third, third_digits);
  switch (order) {
    case TimeOrder::kDayFirst:
      return day_number(year, second, first);
    case TimeOrder::kMonthFirst:
      return day_number(year, first, second);
    case TimeOrder::kYearFirst:
    case TimeOrder::kSeconds:
    case TimeOrder::kMilliseconds:
      return std::nullopt;
  }
  return std::nullopt;
}

bool is_half(std::string_view text, char first) {
  // "am", "a.m.", "AM"
  std::string letters;
  for (const char c : text) {
    if (is_letter(c)) letters += static_cast<char>(c | 0x20);
  }
  return letters.size() == 2 && letters[0] == first && letters[1] == 'm';
}

// Takes a time of day off the front, as seconds since its midnight.
std::optional<std::int64_t> take_clock(std::string_view& text) {
  int hours, minutes, seconds = 0;
  if (digits(text, 0, 4) >= 0 && (text.size() == 4 || !is_digit(text[4]))) {  // 0715
    hours = digits(text, 0, 2);
    minutes = digits(text, 2, 2);
    text.remove_prefix(4);
  } else {
    hours = take_number(text, 2);
    if (hours < 0 || text.empty()) return std::nullopt;
    if (text[0] == ':' || text[0] == 'h' || text[0] == '.') {
      const char between = text[0];
      text.remove_prefix(1);
      minutes = digits(text, 0, 2);
      if (minutes < 0) return std::nullopt;
      text.remove_prefix(2);
      if (text.size() > 1 && (text[0] == between || text[0] == ':') && is_digit(text[1])) {
        text.remove_prefix(1);
        seconds = digits(text, 0, 2);
        if (seconds < 0) return std::nullopt;
        text.remove_prefix(2);
        if (text.size() > 1 && (text[0] == '.' || text[0] == ',') && is_digit(text[1])) {
          text.remove_prefix(1);
          while (!text.empty() && is_digit(text[0])) text.remove_prefix(1);
        }
      }
    } else {
      minutes = 0;  // "7 PM"
      if (text.find_first_of("mM") == std::string_view::npos) return std::nullopt;
    }
  }
  const std::string_view rest = trimmed(text);
  std::size_t half = 0;
  while (half < rest.size() && (is_letter(rest[half]) || rest[half] == '.')) ++half;
  const bool morning = is_half(rest.substr(0, half), 'a');
  const bool afternoon = is_half(rest.substr(0, half), 'p');
  if (morning || afternoon) {
    if (hours < 1 || hours > 12) return std::nullopt;
    hours = hours % 12 + (afternoon ? 12 : 0);
    text = rest.substr(half);
  }
  if (minutes > 59 || seconds > 59 || hours > 24) return std::nullopt;
  if (hours == 24 && (minutes > 0 || seconds > 0)) return std::nullopt;
  return hours * kHour + minutes * kMinute + seconds;
}

// The offset that is all of `text`: nothing, "Z", "UTC", "GMT", "+02:00", "-0700", "UTC+2". In
// seconds; none inside: no offset was said.
std::optional<std::optional<std::int64_t>> offset(std::string_view text) {
  text = trimmed(text);
  if (text.empty()) return std::optional<std::int64_t>{};
  if (text == "Z" || text == "z") return std::optional<std::int64_t>{0};
  if (text.starts_with("UTC") || text.starts_with("GMT")) {
    text.remove_prefix(3);
    if (text.empty()) return std::optional<std::int64_t>{0};
  }
  if (text[0] != '+' && text[0] != '-') return std::nullopt;
  const bool west = text[0] == '-';
  text.remove_prefix(1);
  const int hours = digits(text, 0, 2) >= 0 ? digits(text, 0, 2) : digits(text, 0, 1);
  if (hours < 0 || hours > 14) return std::nullopt;
  text.remove_prefix(digits(text, 0, 2) >= 0 ? 2 : 1);
  int minutes = 0;
  if (!text.empty()) {
    if (text[0] == ':') text.remove_prefix(1);
    minutes = digits(text, 0, 2);
    if (minutes < 0 || minutes > 59 || text.size() != 2) return std::nullopt;
  }
  const std::int64_t ahead = hours * kHour + minutes * kMinute;
  return std::optional<std::int64_t>{west ? -ahead : ahead};
}

std::optional<ReadTime> read_count(std::string_view field, TimeOrder order) {
  const auto number = read_number(field, '.');
  if (!number || *number < 0) return std::nullopt;
  const double seconds = order == TimeOrder::kMilliseconds ? *number / 1000 : *number;
  if (seconds >= 7258118400.0) return std::nullopt;  // the year 2200
  return ReadTime{static_cast<std::int64_t>(seconds), true};
}

// The form that nearly all machines write, "2027-05-03T07:15:00Z": told by its fixed places.
std::optional<ReadTime> read_fixed_form(std::string_view field) {
  if (field.size() < 16 || field[4] != '-' || field[7] != '-' || field[13] != ':' ||
      (field[10] != 'T' && field[10] != ' ')) {
    return std::nullopt;
  }
  const int hours = digits(field, 11, 2), minutes = digits(field, 14, 2);
  if (hours < 0 || hours > 23 || minutes < 0 || minutes > 59) return std::nullopt;
  int seconds = 0;
  std::size_t end = 16;
  if (field.size() > 16 && field[16] == ':') {
    seconds = digits(field, 17, 2);
    if (seconds < 0 || seconds > 59) return std::nullopt;
    end = 19;
  }
  const bool is_utc = field.size() == end + 1 && field[end] == 'Z';
  if (field.size() != end && !is_utc) return std::nullopt;
  const int year = digits(field, 0, 4), month = digits(field, 5, 2), day = digits(field, 8, 2);
  const auto days = day_number(year, month, day);
  if (!days) return std::nullopt;
  return ReadTime{*days * kDay + hours * kHour + minutes * kMinute + seconds, is_utc};
}

}  // namespace

std::optional<ReadTime> read_moment(std::string_view field, TimeOrder order) {
  if (order == TimeOrder::kSeconds || order == TimeOrder::kMilliseconds) {
    return read_count(field, order);
  }
  field = trimmed(field);
  if (const auto fixed = read_fixed_form(field)) return fixed;
  const auto day = take_date(field, order);
  if (!day || field.empty()) return std::nullopt;
  if (field[0] == 'T') {
    field.remove_prefix(1);
  } else {
    const std::size_t was = field.size();
    skip(field, " ,");
    if (field.size() == was) return std::nullopt;
  }
  const auto clock = take_clock(field);
  if (!clock) return std::nullopt;
  const auto ahead = offset(field);
  if (!ahead) return std::nullopt;
  return ReadTime{*day * kDay + *clock - ahead->value_or(0), ahead->has_value()};
}

std::optional<std::int64_t> read_date(std::string_view field, TimeOrder order) {
  field = trimmed(field);
  const auto day = take_date(field, order);
  if (!day) return std::nullopt;
  // A spreadsheet may write a midnight behind a date that has no time of its own.
  const std::string_view rest = trimmed(field);
  const bool midnight =
      rest == "0:00" || rest == "00:00" || rest == "00:00:00" || rest == "0:00:00";
  return rest.empty() || midnight ? day : std::nullopt;
}

std::optional<std::int64_t> read_clock(std::string_view field) {
  field = trimmed(field);
  if (field.find_first_of(":hHmM.") == std::string_view::npos && field.size() != 4) {
    return std::nullopt;
  }
  const auto clock = take_clock(field);
  return clock && trimmed(field).empty() ? clock : std::nullopt;
}

std::optional<std::int64_t> LocalTimes::instant_of(std::int64_t local,
                                                   std::optional<std::int64_t> before,
                                                   std::optional<std::int64_t> same_series_before) {
  if (local >= from_ && local < until_) return local - offset_;
  const auto found = zone_.instant_of(date::local_seconds{std::chrono::seconds{local}});
  if (!found) return std::nullopt;
  const std::int64_t first = found->at.time_since_epoch().count();
  if (!found->twice) {
    // Far enough inside the offset's span that no time near either end was shown twice or skipped.
    const auto span = zone_.span_at(found->at);
    offset_ = span.offset.count();
    from_ = span.begin.time_since_epoch().count() + offset_ + kDay;
    until_ = span.end.time_since_epoch().count() + offset_ - kDay;
    return first;
  }
  const std::int64_t second = found->second.time_since_epoch().count();
  const std::int64_t twice = second - first;  // how long the clock went over the same times
  if (backward_) {
    const bool went_up = before && *before<second&& * before> first - twice;
    return went_up || same_series_before == second ? first : second;
  }
  const bool went_back = before && *before > first && *before < second + twice;
  return went_back || same_series_before == first ? second : first;
}

}  // namespace book
