#pragma once

#include <string>
#include <vector>

#include "cli/desk/desk.h"
#include "measure/result.h"
#include "season/ahead.h"

namespace cli {

// The days that the words ask for: none (the next seven), "14d" or "2w" (so many), "sat" (until
// then), "sat..sun" or two dates. A mistake: a day that is over, or one too far off to say anything
// of.
measure::Result<season::DaysAhead> days_asked(const std::vector<std::string>& words,
                                              measure::Day today);

// What these days bring of all open batches; a forecast only where the site's own batches do not
// show that it is worth nothing.
season::Ahead look_ahead(const Desk& desk, const season::DaysAhead& days);

// "compost ready: about Sat 5 Dec, a week either way; untried here"
std::string foretold_words(const season::Foretold& one, measure::Day today);

}  // namespace cli
