#pragma once

#include <optional>
#include <set>
#include <string>

#include "kinds/digester/feed.h"
#include "kinds/digester/slurry.h"

// What feed and water make together, and what the slurry's chemistry says even where it is well.
namespace kinds::digester {

// Of feed and water of the last days, or of the filling while it is filled.
struct FeedMix {
  std::optional<measure::Fraction> solids;  // total solids of all of it, with its water
  std::optional<measure::Number> c_to_n;  // of the carbon and nitrogen together, no mean of ratios
  std::set<std::string> no_solids, no_c_to_n;  // materials that are left out
};
FeedMix feed_mix_of(const model::History& history, const Feed& feed, const Startup& startup);

// "8 % solids with its water (4 % to 10 % is right), 24:1 carbon to nitrogen (20 to 30)".
std::optional<model::Progress> mix_line(const model::Rules& rules, const FeedMix& mix,
                                        bool at_leisure);

// "acids to alkalinity 0.28 by titration (watched above 0.4), 0.24 on Mon; free ammonia ...".
std::optional<model::Progress> chemistry_line(const model::History& history,
                                              const model::Rules& rules, const Slurry& slurry);

void measure_mix(const FeedMix& mix, const Slurry& slurry, model::Assessment& into);

}  // namespace kinds::digester
