#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "kinds/pile/study.h"

// What a pile is on its way to.
namespace kinds::pile {

// What a forecast of the day on which a pile can be used is called.
inline constexpr std::string_view kForeseenReady = "ready";

// How long the site's finished piles stayed hot, in days; none where there are none.
struct HotSpell {
  double days = 0;
  int piles = 0;
};

// Temperature for the next seven days, the day 160 °F would be crossed, the days on which it will
// have cooled and will be ready, and the earliest day of each treatment, each with its interval.
std::vector<model::Forecast> foretell(const Study& study);

// `pile.heating`: not too hot yet, but what is foreseen or the last readings of a position lead
// past the limit within pile.heating.days. Readings from before a turning say nothing of it.
std::optional<model::Finding> judge_heating(const Study& study);

}  // namespace kinds::pile
