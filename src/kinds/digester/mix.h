#pragma once

#include <optional>
#include <set>
#include <string>

#include "kinds/digester/feed.h"

// What feed and water make together.
namespace kinds::digester {

// Of feed and water of the last days, or of the filling while it is filled.
struct FeedMix {
  std::optional<measure::Fraction> solids;  // total solids of all of it, with its water
  std::optional<measure::Number> c_to_n;  // of the carbon and nitrogen together, no mean of ratios
  std::set<std::string> no_solids, no_c_to_n;  // materials that are left out
};
FeedMix feed_mix_of(const model::History& history, const Feed& feed, const Startup& startup);

}  // namespace kinds::digester
