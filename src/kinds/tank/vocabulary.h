#pragma once

#include <array>

#include "kinds/vocabulary.h"

// What can be read, done, seen and told of a tank.
namespace kinds::tank {

// Water is spoken of in gallons or litres, whatever the size.
inline constexpr measure::ShownIn kWater{"gal", "L"};
inline constexpr measure::ShownIn kRainDepth{"in", "mm"};

inline constexpr Quantity kRain{
    "rain",     "gauge", measure::Dimension::kLength,
    0,          0.5,     "rain since the gauge was last emptied; several of a day add up",
    kRainDepth, 0,       false,
    false,      true};
inline constexpr Quantity kLevel{
    "level", "full", measure::Dimension::kFraction,
    0,       1,      "how full it is: a share, or a volume where its capacity was told"};
inline constexpr Quantity kHeld{
    "held", "volume", measure::Dimension::kVolume, 0, 1e6, "how much it holds", kWater};
inline constexpr Quantity kDepth{
    "depth", "", measure::Dimension::kLength,
    0,       10, "depth of its water, in a tank with upright walls whose height was told"};
inline constexpr std::array kQuantities{kRain, kLevel, kHeld, kDepth};

inline constexpr std::string_view kWaterLooks = "water";  // the sense: what its water is like

inline constexpr Word kCleaned{"cleaned", "", "",
                               "gutters, screens and lid were cleaned and looked at"};
inline constexpr Word kFlushed{"flushed", "", "", "the first-flush pipe was emptied"};
inline constexpr Word kEmptied{"emptied", "drained", "", "the tank was run empty"};
inline constexpr Word kMended{"mended", "repaired", "", "a leak or a part was mended"};
inline constexpr Word kClear{"clear", "", kWaterLooks, "its water is clear"};
inline constexpr Word kCloudy{"cloudy", "murky", kWaterLooks, "its water is cloudy"};
inline constexpr Word kGreen{"green", "", kWaterLooks, "its water is green"};
inline constexpr Word kFoul{"foul", "smelly stinks smells", kWaterLooks, "its water smells"};
inline constexpr Word kWrigglers{"wrigglers", "mosquitoes", kWaterLooks,
                                 "mosquito larvae are in it"};
inline constexpr std::array kWords{kCleaned, kFlushed, kEmptied, kMended,   kClear,
                                   kCloudy,  kGreen,   kFoul,    kWrigglers};

// The surfaces of a roof. A green one is as green as the water may be.
inline constexpr std::string_view kMetal = "metal", kTile = "tile", kShingle = "shingle",
                                  kFlat = "flat", kGravel = "gravel", kGreenRoof = "green";

inline constexpr SettingSpec kRoof{"roof", measure::Dimension::kArea,
                                   "",     "the roof's outline on the ground, not its slope",
                                   {},     {0.1, 1e5}};
inline constexpr SettingSpec kSurface{"surface", measure::Dimension::kNumber,
                                      "metal tile shingle flat gravel green", "of the roof",
                                      "any of them, with the range wide"};
inline constexpr SettingSpec kRunoff{"runoff",
                                     measure::Dimension::kFraction,
                                     "",
                                     "the share that runs off, where it is known",
                                     "by the surface",
                                     {0.01, 1}};
inline constexpr SettingSpec kCapacity{
    "capacity", measure::Dimension::kVolume, "", "what the tank holds", {}, {1, 1e7}};
inline constexpr SettingSpec kHeight{
    "height", measure::Dimension::kLength, "", "inside, up to the overflow", {}, {0.05, 20}};
inline constexpr SettingSpec kFlush{
    "flush", measure::Dimension::kVolume, "", "what the first-flush pipe holds", {}, {0.01, 1e4}};
inline constexpr SettingSpec kUses{"uses", measure::Dimension::kNumber, "text",
                                   "what it is to give a day: 'beds 40gal, hens 3gal'"};
inline constexpr std::array kSettings{kRoof, kSurface, kRunoff, kCapacity, kHeight, kFlush, kUses};

// Figures that are drawn beside each other.
inline constexpr std::array<std::string_view, 3> kBeside{"tank.caught", "tank.drawn", "tank.spilt"};

}  // namespace kinds::tank
