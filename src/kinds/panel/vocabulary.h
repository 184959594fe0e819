#pragma once

#include <array>
#include <string_view>

#include "kinds/vocabulary.h"

// What is typed of a set of panels.
namespace kinds::panel {

using measure::Dimension;

inline constexpr Quantity kEnergy{.name = "energy",
                                  .aliases = "",
                                  .dimension = Dimension::kEnergy,
                                  .least = 0,
                                  .greatest = 1000,
                                  .meaning = "made on the day; several of a day add up",
                                  .adds_up = true};
inline constexpr Quantity kMeter{.name = "meter",
                                 .aliases = "",
                                 .dimension = Dimension::kEnergy,
                                 .least = 0,
                                 .greatest = 1e7,
                                 .meaning = "the running total on the meter",
                                 .counter = true};
inline constexpr Quantity kCharge{"charge", "battery", Dimension::kFraction,
                                  0,        1,         "how full the battery is"};
inline constexpr std::array kQuantities{kEnergy, kMeter, kCharge};

inline constexpr std::string_view kDaily = "meter energy";  // what a bare number can be

inline constexpr std::string_view kSky = "sky";  // a sense

inline constexpr Word kCleaned{"cleaned", "wiped", "", "the panels were wiped clean"};
inline constexpr Word kChecked{"checked", "", "", "mounts, cables and connectors were looked at"};
inline constexpr Word kClear{"clear", "sunny", kSky, "clear sky all day"};
inline constexpr std::array kWords{
    kCleaned,
    kChecked,
    kClear,
    Word{"mixed", "", kSky, "sun and clouds"},
    Word{"overcast", "dull cloudy", kSky, "no sun to speak of"},
    Word{"snow", "", kSky, "snow on the panels"},
};

inline constexpr std::string_view kOfLithium = "lithium";  // a choice of kChemistry

inline constexpr SettingSpec kWatts{
    "watts", Dimension::kPower, "", "what all panels together are rated", {}, {1, 1e6}};
inline constexpr SettingSpec kTilt{"tilt", Dimension::kNumber, "text",
                                   "degrees from level, 0 lying flat", "facing the sun"};
inline constexpr SettingSpec kSun{"sun", Dimension::kNumber, "text",
                                  "twelve peak sun hours a day, January first"};
inline constexpr SettingSpec kLosses{"losses", Dimension::kNumber, "text",
                                     "what is lost: 'soiling 3%, wiring 2%'",
                                     "the rule panel.loss.unsaid"};
inline constexpr SettingSpec kBattery{"battery", Dimension::kEnergy, "", "what the battery holds",
                                      {},        {1e-3, 1e4}};
inline constexpr SettingSpec kChemistry{"chemistry", Dimension::kNumber, "lead-acid lithium",
                                        "of the battery", "lead-acid"};
inline constexpr SettingSpec kUses{"uses", Dimension::kNumber, "text",
                                   "what hangs on it: 'pump 60W, lamp 10W'"};
inline constexpr std::array kSettings{kWatts, kTilt, kSun, kLosses, kBattery, kChemistry, kUses};

// Figures that are drawn beside each other.
inline constexpr std::array<std::string_view, 2> kBeside{"panel.made", "panel.expected"};

}  // namespace kinds::panel
