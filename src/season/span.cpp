#include "season/span.h"

#include <algorithm>

#include "measure/text.h"

namespace season {
namespace {

measure::Mistake not_a_span(std::string_view text) {
  return {std::string(text), measure::quoted(text) +
                                 " is not a span of days; write it like 2026 or "
                                 "2026-03-01..2026-10-31"};
}

measure::Day first_of(int year) {
  return measure::Day{date::year{year} / date::month{1} / date::day{1}};
}

}  // namespace

measure::Result<Span> parse_span(std::string_view text, measure::Day today) {
  const std::string plain = measure::folded(text);
  const int this_year = static_cast<int>(date::year_month_day{today}.year());
  Span span{first_of(this_year), today};
  if (plain.size() == 4 && plain.find_first_not_of("0123456789") == std::string::npos) {
    const int year = std::stoi(plain);
    if (year < 1900) return not_a_span(text);
    span = {first_of(year), first_of(year + 1) - date::days{1}};
  } else if (!plain.empty()) {
    const std::size_t dots = plain.find("..");
    if (dots == std::string::npos) return not_a_span(text);
    const std::string from = plain.substr(0, dots), to = plain.substr(dots + 2);
    const auto first = from.empty() ? std::optional(span.from) : measure::parse_iso_date(from);
    const auto last = to.empty() ? std::optional(today) : measure::parse_iso_date(to);
    if (!first || !last || plain == "..") return not_a_span(text);
    span = {*first, *last};
  }
  if (span.from > today) {
    return measure::Mistake{std::string(text), measure::quoted(text) + " has not begun yet"};
  }
  if (span.from > span.to) {
    return measure::Mistake{std::string(text), measure::quoted(text) + " ends before it begins"};
  }
  span.to = std::min(span.to, today);
  return span;
}

Span span_before(const Span& span) {
  const date::year_month_day first{span.from}, last{span.to};
  const bool a_year =
      first.month() == date::January && first.day() == date::day{1} && last.year() == first.year();
  if (!a_year) return {span.from - date::days{span.days()}, span.from - date::days{1}};
  const date::year year = first.year() - date::years{1};
  // 29 February has no day of its own the year before.
  const date::year_month_day same{year, last.month(), last.day()};
  const measure::Day to =
      same.ok() ? measure::Day{same} : measure::Day{year / last.month() / date::last};
  return {measure::Day{year / date::January / date::day{1}}, to};
}

}  // namespace season
