#pragma once

#include <array>
#include <string_view>

#include "kinds/vocabulary.h"

// What is typed of a bed, and the names of materials that it knows.
namespace kinds::bed {

using measure::Dimension;

inline constexpr Quantity kTemperature =
    standing_still({"temperature", "temp", Dimension::kTemperature, -20, 60, "of the soil", {}, 8});
inline constexpr Quantity kWetness{"moisture", "", Dimension::kFraction, 0, 0.9, "of the soil"};
inline constexpr Quantity kPh{"ph", "", Dimension::kAcidity, 3, 10, "of the soil"};
// Of a trial's plots, beside their harvest.
inline constexpr Quantity kHeight{
    "height", "tall", Dimension::kLength, 0, 10, "of the plants, from the soil", {"in", "cm"}};
inline constexpr Quantity kEmerged{
    "emerged", "up seedlings", Dimension::kCount, 0, 1e6, "plants that have come up"};
inline constexpr Quantity kPlants{"plants", "counted", Dimension::kCount,
                                  0,        1e6,       "plants that stand on it"};
inline constexpr Quantity kScore{
    "score", "rating", Dimension::kNumber,
    0,       100,      "by eye, on a scale of your own that is the same for every plot"};
inline constexpr std::array kQuantities{kTemperature, kWetness, kPh,   kHeight,
                                        kEmerged,     kPlants,  kScore};

inline constexpr std::string_view kMoisture = "moisture";  // senses
inline constexpr std::string_view kSenseBioassay = "bioassay";

inline constexpr Word kPlanted{"planted", "sown sowed transplanted seeded", "",
                               "the crop was sown or planted out"};
inline constexpr Word kWeeded{"weeded", "hoed", "", "weeds were taken out"};
inline constexpr Word kMulched{"mulched", "", "", "the soil was covered"};
inline constexpr Word kWatered{"watered", "irrigated", "", "it was watered"};
inline constexpr Word kDug{"dug", "incorporated tilled forked", "",
                           "what lay on it was worked into the soil"};
inline constexpr Word kCleared{"cleared", "", "", "the crop was taken off"};
inline constexpr Word kGrazed{"grazed", "hens-in hens", "",
                              "hens or other stock were on it that day"};
inline constexpr Word kDry{"dry", "", kMoisture, "the soil is dry a finger deep"};
inline constexpr Word kDamp{"damp", "moist", kMoisture, "it holds together and does not stick"};
inline constexpr Word kSoggy{"soggy", "wet", kMoisture, "it sticks, or water stands on it"};
inline constexpr Word kBioassayPassed{"bioassay-passed", "peas-grew", kSenseBioassay,
                                      "peas or beans sown in it grew on straight"};
inline constexpr Word kBioassayFailed{"bioassay-failed", "peas-twisted", kSenseBioassay,
                                      "peas or beans sown in it cupped or twisted"};
inline constexpr std::array kWords{kPlanted, kWeeded,  kMulched,        kWatered,
                                   kDug,     kCleared, kGrazed,         kDry,
                                   kDamp,    kSoggy,   kBioassayPassed, kBioassayFailed};

inline constexpr SettingSpec kArea{"area", Dimension::kArea, "", "of the bed", {}, {0.01, 1e5}};
inline constexpr SettingSpec kCrop =
    told_anew({"crop", Dimension::kNumber, "text", "what grows on it"});
inline constexpr SettingSpec kTouchesSoil{"touches_soil", Dimension::kNumber, "yes no",
                                          "whether the part that is eaten touches soil", "yes"};
inline constexpr SettingSpec kEaten{"eaten", Dimension::kNumber, "yes no",
                                    "whether people eat the crop", "yes"};
inline constexpr SettingSpec kDaysToHarvest = told_anew({"days_to_harvest",
                                                         Dimension::kDuration,
                                                         "",
                                                         "from planting to the first harvest",
                                                         {},
                                                         {1, 2000}});
inline constexpr SettingSpec kExpected = told_anew({"expected",
                                                    Dimension::kMass,
                                                    "",
                                                    "the harvest that is expected of it, fresh",
                                                    {},
                                                    {0.01, 1e5}});
inline constexpr SettingSpec kNeeds{"needs", Dimension::kNumber, "text",
                                    "what a soil test asks for: 'N 160, P2O5 50, K2O 75 lb/acre'"};
inline constexpr std::string_view kWateringDrip = "drip";
inline constexpr SettingSpec kWatering{"watering", Dimension::kNumber, "drip can overhead",
                                       "how it is watered: only drip keeps leaves dry"};
inline constexpr std::array kSettings{kArea,          kCrop,     kTouchesSoil, kEaten,
                                      kDaysToHarvest, kExpected, kNeeds,       kWatering};
inline constexpr std::string_view kYes = "yes", kNo = "no";

// Crops of the catalogue whose eaten part lies on the soil, grows in it or is splashed by it
// (common practice).
inline constexpr std::array<std::string_view, 35> kOnSoil{
    "lettuce",     "spinach",        "arugula",  "chard",     "bok choy",  "cabbage",
    "potatoes",    "carrots",        "beets",    "turnips",   "rutabagas", "radishes",
    "parsnips",    "sweet potatoes", "garlic",   "onions",    "shallots",  "scallions",
    "leeks",       "squash",         "zucchini", "pumpkins",  "cucumbers", "melons",
    "watermelons", "celery",         "celeriac", "asparagus", "rhubarb",   "strawberries",
    "sunchokes",   "parsley",        "cilantro", "basil",     "mint"};

// Flags and names of materials.
inline constexpr std::string_view kFlagForbidden = "forbidden", kFlagSynthetic = "synthetic",
                                  kFlagTreated = "treated", kFlagUnproven = "unproven",
                                  kFlagEdible = "edible-crop", kFlagCarryover = "carryover";

}  // namespace kinds::bed
