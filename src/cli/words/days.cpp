#include "cli/words/days.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "measure/text.h"
#include "measure/when.h"

namespace cli {
namespace {

using measure::Day;
using measure::Mistake;

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

// "10-01": a day of some year.
bool is_month_and_day(std::string_view text) {
  return text.size() == 5 && text[2] == '-' && is_digit(text[0]) && is_digit(text[1]) &&
         is_digit(text[3]) && is_digit(text[4]);
}

date::year year_of(Day day) {
  return date::year_month_day(day).year();
}

std::optional<Day> in_year(date::year year, std::string_view month_and_day) {
  return measure::parse_iso_date(fmt::format("{:04}-{}", static_cast<int>(year), month_and_day));
}

class DayReader {
 public:
  DayReader(measure::Instant now, const measure::Zone& zone)
      : now_(now), zone_(zone), today_(zone.day_of(now)) {}

  Day today() const { return today_; }

  measure::Result<Day> day(std::string_view text) const {
    if (is_month_and_day(text)) return last(text);
    if (text.find(':') != std::string_view::npos) {
      return Mistake{std::string(text),
                     fmt::format("{} is a time; history takes whole days", measure::quoted(text))};
    }
    const auto when = measure::parse_when(text, now_, zone_, measure::DayMeans::kItsEnd);
    if (!when) return when.mistake();
    return zone_.day_of(when->at);
  }

  // The end of a span: "05-10" after 04-20 is of the same year, though it is still to come.
  measure::Result<Day> end(std::string_view text, Day from) const {
    if (const auto exact = measure::parse_iso_date(text)) return std::min(*exact, today_);
    const auto found = day(text);
    if (!found || *found >= from || !is_month_and_day(text)) return found;
    const auto later = in_year(year_of(*found) + date::years{1}, text);
    return later ? std::min(*later, today_) : *found;
  }

 private:
  // The last such day up to today. 29 February was in one of the last eight years.
  measure::Result<Day> last(std::string_view text) const {
    for (int back = 0; back <= 8; ++back) {
      const auto found = in_year(year_of(today_) - date::years{back}, text);
      if (found && *found <= today_) return *found;
    }
    return Mistake{
        std::string(text),
        fmt::format("{} is no day; month and day are written like 10-01", measure::quoted(text))};
  }

  measure::Instant now_;
  const measure::Zone& zone_;
  Day today_;
};

}  // namespace

measure::Result<season::Span> read_days(std::string_view text, measure::Instant now,
                                        const measure::Zone& zone) {
  const DayReader read(now, zone);
  const std::size_t dots = text.find("..");
  if (dots == std::string_view::npos) {
    if (text.size() == 4 && std::all_of(text.begin(), text.end(), is_digit)) {
      return season::parse_span(text, read.today());
    }
    const auto day = read.day(text);
    if (!day) return day.mistake();
    return season::Span{*day, *day};
  }
  const std::string_view first = text.substr(0, dots), second = text.substr(dots + 2);
  season::Span span{Day{date::year{1900} / 1 / 1}, read.today()};
  if (!first.empty()) {
    const auto from = read.day(first);
    if (!from) return from.mistake();
    span.from = *from;
  }
  if (!second.empty()) {
    const auto to = read.end(second, span.from);
    if (!to) return to.mistake();
    span.to = *to;
  }
  if (span.to < span.from) {
    return Mistake{std::string(text), fmt::format("{} goes backwards", measure::quoted(text))};
  }
  return span;
}

bool looks_like_days(std::string_view text) {
  constexpr std::array<std::string_view, 9> kWords{"today", "yesterday", "mon", "tue", "wed",
                                                   "thu",   "fri",       "sat", "sun"};
  const std::string plain = measure::folded(text.substr(0, text.find("..")));
  return text.starts_with("..") || text.starts_with('-') || (!text.empty() && is_digit(text[0])) ||
         std::find(kWords.begin(), kWords.end(), plain) != kWords.end();
}

}  // namespace cli
