#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/result.h"
#include "model/history.h"
#include "model/rules.h"

// What a set of panels made, and what the sun could have given.
namespace kinds::panel {

// Energy by day: what was logged for the day, or what its running meter rose by. A rise over
// several days is shared out over them and marked.
struct Made {
  measure::KilowattHours energy{};
  bool shared = false;  // over several days: no day by itself
};
std::map<model::Day, Made> made_by_day(const model::History& history);

// Twelve peak sun hours a day, January first. The mistake says what would be understood.
measure::Result<std::vector<double>> read_sun(std::string_view text);

// No day can give more: the sun above the air on a level panel where tilt=0 was told, else on one
// that faces it all day; 24 hours of full sun where the site's latitude is not known.
double most_sun_hours(model::Day day, const model::History& history);

// The sun above the air on level ground, to set days of different seasons beside each other; 1
// where the latitude is not known.
double height_of_sun(model::Day day, const model::History& history);

}  // namespace kinds::panel
