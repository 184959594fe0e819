#pragma once

#include <string_view>

#include "measure/moment.h"
#include "measure/result.h"

namespace season {

// Whole days, both ends included.
struct Span {
  measure::Day from, to;
  int days() const { return (to - from).count() + 1; }
};

// "2026", "2026-03-01..2026-10-31", either end open ("2026-03-01.."); empty: the year of `today`.
// An end after `today` is `today`; a span that begins after it, or backwards, is a mistake.
measure::Result<Span> parse_span(std::string_view text, measure::Day today);

// What a span is compared with: the same days a year earlier for a span that begins on 1 January,
// since a part of a growing year says little of another part; else as many days right before it.
Span span_before(const Span& span);

}  // namespace season
