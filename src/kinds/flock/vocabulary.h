#pragma once

#include <array>
#include <string_view>

#include "kinds/feed_law.h"
#include "kinds/vocabulary.h"

// What is typed of a flock, and the names of materials that it knows.
namespace kinds::flock {

using measure::Dimension;

inline constexpr Quantity kBirds{"birds", "hens", Dimension::kCount, 0, 1e5, "hens counted"};
inline constexpr Quantity kEggs{
    "eggs", "",  Dimension::kCount,
    0,      1e5, "eggs found in the nests; several collections of a day add up",
    {},     0,   false,
    false,  true};
inline constexpr Quantity kEggMass{"egg_mass",       "egg",      Dimension::kMass, 0.02, 0.12,
                                   "mass of an egg", {"oz", "g"}};
inline constexpr Quantity kDead{"dead",
                                "died deaths lost killed",
                                Dimension::kCount,
                                0,
                                1e5,
                                "birds found dead or lost; several finds of a day add up",
                                {},
                                0,
                                false,
                                false,
                                true};
inline constexpr std::array kQuantities{kBirds, kEggs, kEggMass, kDead};

inline constexpr std::string_view kCondition = "condition";  // a sense

inline constexpr Word kCleaned{"cleaned", "mucked mucked-out cleaned-out", "",
                               "the house was cleaned out"};
inline constexpr Word kBedded{"bedded", "bedding", "", "fresh bedding was put down"};
inline constexpr Word kWatered{"watered", "", "", "water was filled up"};
inline constexpr Word kWell{"well",
                            "bright ok okay fine good healthy happy all-good all-well all-fine",
                            kCondition, "the hens look well"};
inline constexpr Word kMoulting{"moulting", "molting", kCondition, "hens are losing feathers"};
inline constexpr Word kBroody{"broody", "", kCondition, "hens sit and will not leave the nest"};
inline constexpr Word kAiling{"ailing", "sick dull", kCondition, "hens look ill"};
inline constexpr std::string_view kSmell = "smell";  // a sense
inline constexpr Word kAmmonia{"ammonia", "", kSmell, "the house's air stings of ammonia"};
inline constexpr Word kWithdrawalOver{"withdrawal-over", "withdrawn", "",
                                      "the days that a medicine holds eggs back are over"};
inline constexpr std::array kWords{kCleaned, kBedded, kWatered, kWell,          kMoulting,
                                   kBroody,  kAiling, kAmmonia, kWithdrawalOver};

inline constexpr SettingSpec kHens =
    told_anew({"hens", Dimension::kCount, "", "how many there are at the start", {}, {1, 1e5}});
inline constexpr SettingSpec kBreed{"breed", Dimension::kNumber, "text", "which breed"};
inline constexpr SettingSpec kLaw{"law", Dimension::kNumber, kLawChoices,
                                  "whose rules on feed hold", "none"};
inline constexpr std::array kSettings{kHens, kBreed, kLaw};

// Flags and names of materials.
inline constexpr std::string_view kFlagForbidden = "forbidden", kFlagSynthetic = "synthetic",
                                  kFlagManure = "manure", kFlagSalty = "salty";
inline constexpr std::string_view kAvocado = "avocado waste", kPotatoes = "cull potatoes";

// Figures that are drawn beside each other.
inline constexpr std::array<std::string_view, 2> kBeside{"flock.hen_days", "flock.eggs"};

}  // namespace kinds::flock
