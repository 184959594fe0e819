#pragma once

#include <string_view>

#include "measure/moment.h"
#include "measure/result.h"
#include "season/span.h"

// Days gone by, as a person asks for them.
namespace cli {

// mon (the last one), yesterday, -2d, 2027-05-03, 10-01 (the last 1 October), 2027 (a year), or two
// of them as A..B, either left out: from the first, or to today. Both ends are included; an end
// after today is today. A day still to come, or a span that goes backwards, is a mistake.
measure::Result<season::Span> read_days(std::string_view text, measure::Instant now,
                                        const measure::Zone& zone);

// Whether the text looks like days rather than a batch's code: it begins with a digit, a dash or
// dots, or is a word for a day.
bool looks_like_days(std::string_view text);

}  // namespace cli
