#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/tank/water.h"
#include "model/assessment.h"
#include "model/finding.h"

// What is said of a tank: all its sentences but those of its size's record (says_sizing.h).
namespace kinds::tank {

class Study;

inline constexpr std::string_view kNotForDrinking = "tank.drinking";  // a row of the cautions

model::Words words_of(const model::Finding& finding, const Study& study);

std::vector<model::Progress> progress_of(const Study& study);
std::vector<model::Forecast> forecasts_of(const Study& study);
std::string well_words(const Study& study);

// "more than falls in a day but in the rarest storm"; `gap`: days without an entry of rain.
std::string much_rain_words(std::optional<int> gap, const Study& study);

// "by 12 draws in 28 days", "by the uses given, as none was drawn lately"
std::string draw_words(DrawBasis basis, int draws, int days);
// "kale is nothing that a tank gives"
std::string not_of_a_tank_words(const std::string& material);
// A volume of water: "165 gal", however much it is.
std::string water_words(measure::Litres water, const measure::Printer& print);

}  // namespace kinds::tank
