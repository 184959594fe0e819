#pragma once

#include "season/loop.h"

namespace season {

// The greenhouse account of a span: landfill avoided, what composting, digestion and burning let
// go, char that lasts, fuel replaced.
Greenhouse greenhouse_of(const std::vector<model::Movement>& movements,
                         const std::vector<Judged>& batches, const model::Rules& rules);

// Kitchen, shop and paper waste that came from outside unpaid and went into a batch: without the
// site it would have gone to a landfill.
bool is_kept_from_landfill(const model::Movement& load);

// Of all batches together, the part of a measure that belongs to the span.
double in_span(const std::vector<Judged>& batches, std::string_view key);
// What that lies between; both ends are the value where the measure is known as well as printed.
model::Measure::Range range_in_span(const std::vector<Judged>& batches, std::string_view key);

}  // namespace season
