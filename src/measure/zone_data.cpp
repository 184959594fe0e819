#include "measure/zone_data.h"

#include <date/date.h>

#include <algorithm>
#include <limits>
#include <utility>

namespace measure {
namespace {

using Yearly = ZoneData::Yearly;

constexpr std::int64_t kFirst = std::numeric_limits<std::int64_t>::min();
constexpr std::int64_t kLast = std::numeric_limits<std::int64_t>::max();
constexpr std::int64_t kYear10000 = 253'402'300'800;

// Takes big-endian numbers off the front. Past the end it fails, and gives zeros.
class Bytes {
 public:
  explicit Bytes(std::string_view bytes) : rest_(bytes) {}

  bool failed() const { return failed_; }
  std::string_view rest() const { return rest_; }

  std::string_view take(std::size_t count) {
    if (count > rest_.size()) {
      failed_ = true;
      return {};
    }
    const std::string_view taken = rest_.substr(0, count);
    rest_.remove_prefix(count);
    return taken;
  }
  std::int64_t number(std::size_t size) {
    const std::string_view taken = take(size);
    if (taken.empty()) return 0;
    std::uint64_t value = (taken[0] & 0x80) != 0 ? ~std::uint64_t{0} : 0;
    for (const char c : taken) value = value << 8 | static_cast<unsigned char>(c);
    return static_cast<std::int64_t>(value);
  }

 private:
  std::string_view rest_;
  bool failed_ = false;
};

// The header's counts (RFC 8536, 3.1).
struct Counts {
  char version;
  std::size_t utc, standard, leaps, changes, types, letters;

  std::size_t block(std::size_t time_size) const {
    return changes * (time_size + 1) + types * 6 + letters + leaps * (time_size + 4) + standard +
           utc;
  }
};

std::optional<Counts> header(Bytes& bytes) {
  if (bytes.take(4) != "TZif") return std::nullopt;
  const std::string_view version = bytes.take(1);
  bytes.take(15);
  const auto count = [&] { return static_cast<std::size_t>(bytes.number(4) & 0xffffffff); };
  Counts counts{version.empty() ? '\0' : version[0], 0, 0, 0, 0, 0, 0};
  for (std::size_t* one : {&counts.utc, &counts.standard, &counts.leaps, &counts.changes,
                           &counts.types, &counts.letters}) {
    *one = count();
  }
  if (bytes.failed() || counts.types == 0 || counts.leaps != 0) return std::nullopt;
  return counts;
}

// A POSIX TZ string, as RFC 8536 (3.3) extends it: hours up to 167, either way.
class Footer {
 public:
  explicit Footer(std::string_view text) : text_(text) {}

  std::optional<Yearly> read() {
    Yearly yearly;
    if (!name()) return std::nullopt;
    const auto usual = time();
    if (!usual) return std::nullopt;
    yearly.usual = -*usual;
    if (text_.empty()) return yearly;
    if (!name()) return std::nullopt;
    yearly.summer = yearly.usual + 3600;
    if (!text_.empty() && text_[0] != ',') {
      const auto summer = time();
      if (!summer) return std::nullopt;
      yearly.summer = -*summer;
    }
    const auto from = date();
    const auto to = from ? date() : std::nullopt;
    if (!to || !text_.empty()) return std::nullopt;
    yearly.within = {*from, *to};
    return yearly;
  }

 private:
  bool eat(char c) {
    if (text_.empty() || text_[0] != c) return false;
    text_.remove_prefix(1);
    return true;
  }
  // "PST" or "<-03>".
  bool name() {
    const bool bracketed = eat('<');
    std::size_t length = 0;
    const auto is_of_name = [&](char c) {
      return bracketed ? c != '>' : (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
    };
    while (length < text_.size() && is_of_name(text_[length])) ++length;
    text_.remove_prefix(length);
    return length > 0 && (!bracketed || eat('>'));
  }
  std::optional<int> number() {
    std::size_t length = 0;
    int value = 0;
    while (length < text_.size() && length < 3 && text_[length] >= '0' && text_[length] <= '9') {
      value = value * 10 + (text_[length++] - '0');
    }
    text_.remove_prefix(length);
    return length == 0 ? std::nullopt : std::optional(value);
  }
  // "8", "-2", "3:30", "24:00:00", in seconds.
  std::optional<std::int64_t> time() {
    const bool before = eat('-');
    if (!before) eat('+');
    std::int64_t seconds = 0, unit = 3600;
    do {
      const auto part = number();
      if (!part || unit == 0) return std::nullopt;
      seconds += *part * unit;
      unit /= 60;
    } while (eat(':'));
    return before ? -seconds : seconds;
  }
  // ",M3.2.0/2", ",J60" or ",365/23".
  std::optional<Yearly::Date> date() {
    using Form = Yearly::Date::Form;
    Yearly::Date made;
    if (!eat(',')) return std::nullopt;
    made.form = eat('M') ? Form::kMonthWeek : eat('J') ? Form::kJulian : Form::kDayOfYear;
    const auto first = number();
    if (!first) return std::nullopt;
    made.day = *first;
    if (made.form == Form::kMonthWeek) {
      made.month = *first;
      const auto week = eat('.') ? number() : std::nullopt;
      const auto day = eat('.') ? number() : std::nullopt;
      if (!week || !day) return std::nullopt;
      made.week = *week;
      made.day = *day;
      if (made.month < 1 || made.month > 12 || made.week < 1 || made.week > 5 || made.day > 6) {
        return std::nullopt;
      }
    }
    made.seconds = std::int64_t{2} * 3600;
    if (eat('/')) {
      const auto at = time();
      if (!at) return std::nullopt;
      made.seconds = *at;
    }
    return made;
  }

  std::string_view text_;
};

// Seconds from 1970 to that moment of the year, as the clock shows it.
std::int64_t shown(const Yearly::Date& when, date::year year) {
  using Form = Yearly::Date::Form;
  date::sys_days day = date::sys_days{year / 1 / 1};
  switch (when.form) {
    case Form::kMonthWeek: {
      const date::month month{static_cast<unsigned>(when.month)};
      const date::weekday weekday{static_cast<unsigned>(when.day)};
      day = when.week == 5
                ? date::sys_days{year / month / weekday[date::last]}
                : date::sys_days{year / month / weekday[static_cast<unsigned>(when.week)]};
      break;
    }
    case Form::kJulian:  // 1 to 365: the 29th of February is never counted
      day += date::days{when.day - 1 + (year.is_leap() && when.day > 59 ? 1 : 0)};
      break;
    case Form::kDayOfYear:
      day += date::days{when.day};
      break;
  }
  return std::chrono::seconds{day.time_since_epoch()}.count() + when.seconds;
}

}  // namespace

std::optional<ZoneData> ZoneData::parsed(std::string_view all) {
  Bytes bytes(all);
  auto counts = header(bytes);
  if (!counts) return std::nullopt;
  std::size_t time_size = 4;
  if (counts->version >= '2') {  // the same once more, with times of 64 bits
    bytes.take(counts->block(time_size));
    counts = header(bytes);
    if (!counts) return std::nullopt;
    time_size = 8;
  }
  if (counts->block(time_size) > bytes.rest().size()) return std::nullopt;
  ZoneData data;
  for (std::size_t i = 0; i < counts->changes; ++i)
    data.changes_.push_back(bytes.number(time_size));
  const std::string_view types = bytes.take(counts->changes);
  std::vector<std::int64_t> offset_of;
  for (std::size_t i = 0; i < counts->types; ++i) {
    offset_of.push_back(bytes.number(4));
    bytes.take(2);
  }
  data.offsets_.push_back(offset_of[0]);
  for (const char type : types) {
    const auto index = static_cast<unsigned char>(type);
    if (index >= offset_of.size()) return std::nullopt;
    data.offsets_.push_back(offset_of[index]);
  }
  bytes.take(counts->letters + counts->standard + counts->utc);
  if (!std::is_sorted(data.changes_.begin(), data.changes_.end())) return std::nullopt;
  if (time_size == 8) {
    const std::string_view footer = bytes.rest();
    if (footer.size() < 2 || footer.front() != '\n' || footer.back() != '\n') return std::nullopt;
    if (footer.size() > 2) {
      data.after_ = Footer(footer.substr(1, footer.size() - 2)).read();
      if (!data.after_) return std::nullopt;
    }
  }
  return data;
}

ZoneData::Span ZoneData::span_at(std::int64_t instant) const {
  const auto next = std::upper_bound(changes_.begin(), changes_.end(), instant);
  const auto at = static_cast<std::size_t>(next - changes_.begin());
  const std::int64_t begin = at == 0 ? kFirst : changes_[at - 1];
  if (next == changes_.end() && after_) return span_of_year(instant, begin);
  return {begin, next == changes_.end() ? kLast : *next, offsets_[at]};
}

// After the file's last change, `since`.
ZoneData::Span ZoneData::span_of_year(std::int64_t instant, std::int64_t since) const {
  if (!after_->within) return {since, kLast, after_->usual};
  if (instant >= kYear10000) return {std::max(since, kYear10000), kLast, after_->usual};
  const date::year_month_day day{
      date::floor<date::days>(date::sys_seconds{std::chrono::seconds{instant}})};
  struct Change {
    std::int64_t at, offset;
  };
  std::vector<Change> changes;
  for (int i = -1; i <= 1; ++i) {
    const date::year year = day.year() + date::years{i};
    changes.push_back({shown(after_->within->first, year) - after_->usual, after_->summer});
    changes.push_back({shown(after_->within->second, year) - after_->summer, after_->usual});
  }
  std::stable_sort(changes.begin(), changes.end(),
                   [](const Change& a, const Change& b) { return a.at < b.at; });
  const auto next = std::upper_bound(changes.begin(), changes.end(), instant,
                                     [](std::int64_t t, const Change& one) { return t < one.at; });
  // The year before and the year after hold one on either side.
  return {std::max(since, std::prev(next)->at), next->at, std::prev(next)->offset};
}

}  // namespace measure
