#pragma once

#include <array>
#include <string_view>

#include "kinds/vocabulary.h"

// What is typed of a biochar burn.
namespace kinds::burn {

using measure::Dimension;

inline constexpr Quantity kTemperature{
    "temperature", "temp", Dimension::kTemperature,
    -40,           1400,   "in the kiln while it burns, in the char after the quench"};
inline constexpr Quantity kMoisture{"moisture", "",  Dimension::kFraction,
                                    0,          0.8, "of the feedstock, of its mass as it lies"};
inline constexpr Quantity kCharVolume{
    "char-volume", "", Dimension::kVolume, 0, 1e5, "of all the char that the burn gave"};
inline constexpr Quantity kCharMass{
    "char-mass", "", Dimension::kMass, 0, 1e5, "of all the char that the burn gave, wet or dry"};
inline constexpr Quantity kCharMoisture{
    "char-moisture", "", Dimension::kFraction, 0, 0.95, "of the char, of its mass as it lies"};
inline constexpr Quantity kCarbon{"carbon", "corg", Dimension::kFraction,
                                  0.05,     1,      "organic, of dry char, by a laboratory"};
inline constexpr Quantity kHydrogen{"hydrogen", "",   Dimension::kFraction,
                                    0,          0.15, "of dry char, by a laboratory"};
inline constexpr Quantity kOxygen{"oxygen", "",  Dimension::kFraction,
                                  0,        0.6, "of dry char, by a laboratory"};
inline constexpr Quantity kHydrogenRatio{
    "hc", "h:c h/c", Dimension::kNumber,
    0,    2,         "hydrogen to organic carbon in moles, by a laboratory"};
inline constexpr std::array kQuantities{kTemperature, kMoisture,     kCharVolume,
                                        kCharMass,    kCharMoisture, kCarbon,
                                        kHydrogen,    kOxygen,       kHydrogenRatio};

inline constexpr std::string_view kHeat = "heat", kWetness = "moisture";  // senses

inline constexpr Word kLit{"lit", "light lighted ignited", "", "the fire was lit"};
inline constexpr Word kQuenched{"quenched", "quench doused snuffed", "",
                                "the fire was put out, with water or a lid"};
inline constexpr Word kOpened{"opened", "open emptied", "", "the kiln was opened"};
inline constexpr Word kCrushed{"crushed", "crush", "", "the char was crushed"};
inline constexpr Word kCharged{"charged", "charge soaked inoculated", "",
                               "the char was put into liquid feed or compost"};
inline constexpr Word kWatered{"watered", "wetted", "", "water was put on the char"};
inline constexpr Word kCold{"cold", "", kHeat, "the char is cold to the hand, to the bottom"};
inline constexpr Word kWarm{"warm", "hot", kHeat, "the char is warm to the hand"};
inline constexpr Word kSmoking{"smoking", "glowing smoke", kHeat, "the char smokes or glows"};
inline constexpr Word kDry{"dry", "", kWetness, "the feedstock snaps; the char dusts"};
inline constexpr Word kDamp{"damp", "moist", kWetness, "it holds water and gives none"};
inline constexpr Word kWet{"wet", "soggy", kWetness, "it drips, or the feedstock is green"};
inline constexpr std::array kWords{kLit,  kQuenched, kOpened,  kCrushed, kCharged, kWatered,
                                   kCold, kWarm,     kSmoking, kDry,     kDamp,    kWet};

inline constexpr SettingSpec kMethod{
    "method", Dimension::kNumber, "pit cone drum retort mound gasifier",
    "how it is burnt: an open pit, cone or drum from the top, a closed retort, an earth mound, a "
    "gasifier stove"};
inline constexpr SettingSpec kKiln{"kiln", Dimension::kNumber, "text", "which kiln"};
inline constexpr SettingSpec kFeedstock = told_anew(
    {"feedstock", Dimension::kNumber, "text", "what is burnt, where no load of it is logged"});
inline constexpr SettingSpec kBucket{"bucket", Dimension::kVolume,
                                     "",       "what the bucket holds that char is measured with",
                                     {},       {0.1, 1000}};
inline constexpr SettingSpec kDryWeight =
    told_anew({"dry_weight",
               Dimension::kMass,
               "",
               "of one such bucketful of this char, dried and weighed",
               {},
               {0.01, 1000}});
inline constexpr std::array kSettings{kMethod, kKiln, kFeedstock, kBucket, kDryWeight};

inline constexpr std::string_view kOfRetort = "retort", kOfMound = "mound",
                                  kOfGasifier = "gasifier";  // choices of kMethod

// Words in a place's name that say that it has a roof or walls.
inline constexpr std::array<std::string_view, 21> kRoofed{
    "shed",       "garage",     "barn",      "tent",    "house",   "indoors",  "inside",
    "home",       "basement",   "cellar",    "porch",   "kitchen", "workshop", "greenhouse",
    "glasshouse", "polytunnel", "hoophouse", "carport", "stable",  "coop",     "room"};

// Flags and names of materials.
inline constexpr std::string_view kFlagManure = "manure", kFlagTreated = "treated",
                                  kFlagForbidden = "forbidden", kFlagSynthetic = "synthetic";
inline constexpr std::string_view kChar = "char", kChargedChar = "charged char";

}  // namespace kinds::burn
