#pragma once

#include <array>
#include <string_view>

#include "kinds/vocabulary.h"

// What the weather did, as it is jotted down beside any batch: kept with its day, and nothing is
// worked out from it.
namespace kinds::weather {

inline constexpr std::string_view kWeather = "weather";  // the sense

inline constexpr std::array kWords{
    Word{"frost", "frosty frosted froze frozen", kWeather, "there was a frost"},
    Word{"rain", "rained rainy raining", kWeather, "it rained"},
    Word{"snow", "snowed snowy snowing", kWeather, "it snowed"},
    Word{"hail", "hailed hailing", kWeather, "it hailed"},
    Word{"wind", "windy stormy storm gale", kWeather, "the wind was strong"},
    Word{"fog", "foggy misty mist", kWeather, "there was fog"},
    Word{"heatwave", "scorching heat", kWeather, "it was very hot"},
    Word{"thunder", "thunderstorm lightning", kWeather, "there was a thunderstorm"},
};

}  // namespace kinds::weather
