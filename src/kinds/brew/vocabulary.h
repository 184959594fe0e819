#pragma once

#include <array>
#include <string_view>

#include "kinds/vocabulary.h"

// What is typed of a drum, and the names of materials that a brew knows.
namespace kinds::brew {

using measure::Dimension;

inline constexpr Quantity kTemperature =
    standing_still({"temperature", "temp", Dimension::kTemperature, -10, 60, "of the brew", {}, 5});
inline constexpr Quantity kAir{"air", "ambient", Dimension::kTemperature,
                               -40,   50,        "of the air beside the drum"};
inline constexpr Quantity kPh{"ph", "", Dimension::kAcidity, 2.5, 14, "of the brew"};
inline constexpr Quantity kEc{
    "ec", "conductivity", Dimension::kConductivity, 0, 60, "of the brew, undiluted, at 25 °C"};
inline constexpr Quantity kNitrogen{"nitrogen", "n",   Dimension::kNumber,
                                    0,          20000, "total N by a laboratory, mg/L undiluted"};
inline constexpr Quantity kPhosphorus{
    "phosphorus", "p", Dimension::kNumber, 0, 10000, "P by a laboratory, mg/L undiluted"};
inline constexpr Quantity kPotassium{"potassium", "k",   Dimension::kNumber,
                                     0,           30000, "K by a laboratory, mg/L undiluted"};
inline constexpr std::array kQuantities{kTemperature, kAir,        kPh,       kEc,
                                        kNitrogen,    kPhosphorus, kPotassium};

inline constexpr std::string_view kBubbling = "bubbling", kSmell = "smell";  // senses

inline constexpr Word kStirred{"stirred", "stir", "", "stirred to the bottom"};
inline constexpr Word kVented{"vented", "vent burped", "", "the gas was let out"};
inline constexpr Word kStrained{"strained", "strain filtered", "", "the solids were strained out"};
inline constexpr Word kAerated{"aerated", "aired", "", "air was bubbled through"};
inline constexpr Word kTopped{"topped", "topped-up", "", "topped up with water"};
inline constexpr Word kOpened{"opened", "", "", "the lid was taken off and left off"};
inline constexpr Word kClosed{"closed", "sealed", "", "the lid was put on"};
inline constexpr Word kLively{"lively", "bubbling fizzing", kBubbling,
                              "it bubbles by itself all the time"};
inline constexpr Word kSlow{"slow", "", kBubbling, "a bubble now and then, or when stirred"};
inline constexpr Word kStill{"still", "quiet", kBubbling, "no bubbles, even when stirred"};
inline constexpr Word kEarthy{"earthy", "sweet", kSmell, "like a forest floor"};
inline constexpr Word kSour{"sour", "", kSmell, "like vinegar or silage"};
inline constexpr Word kAmmonia{"ammonia", "", kSmell, "sharp, of ammonia"};
inline constexpr Word kRotten{"rotten", "putrid", kSmell, "of rotten eggs or worse"};
inline constexpr std::array kWords{kStirred, kVented, kStrained, kAerated, kTopped,
                                   kOpened,  kClosed, kLively,   kSlow,    kStill,
                                   kEarthy,  kSour,   kAmmonia,  kRotten};

// The choices that something is worked out from; contents.h reads them.
inline constexpr std::string_view kWithAir = "aerated", kForLeaf = "leaf", kLidAirlock = "airlock",
                                  kLidLoose = "loose";

inline constexpr SettingSpec kMethod{"method", Dimension::kNumber, "anaerobic aerated",
                                     "without air, or with air bubbled in", "anaerobic"};
inline constexpr SettingSpec kVolume{"volume", Dimension::kVolume, "", "of the drum",
                                     {},       {0.5, 1e5}};
inline constexpr SettingSpec kMadeFor{"made_for", Dimension::kNumber, "soil leaf",
                                      "where it is to go", "soil"};
inline constexpr SettingSpec kBase{"base", Dimension::kNumber, "plant manure fish frass effluent",
                                   "what it is made of", "by what goes in"};
inline constexpr SettingSpec kLid{"lid", Dimension::kNumber, "sealed airlock loose",
                                  "what the gas has to pass",
                                  "sealed; loose where air is bubbled in"};
inline constexpr std::array kSettings{kMethod, kVolume, kMadeFor, kBase, kLid};

inline constexpr std::array kVague{Vague{
    "stinks", "stink smells smelly reeks smells-bad smells-off stinks-bad", "rotten ammonia sour"}};

// Flags and names of materials.
inline constexpr std::string_view kFlagManure = "manure", kFlagTreated = "treated",
                                  kFlagUnproven = "unproven", kFlagAnimal = "animal",
                                  kFlagFish = "fish", kFlagOil = "oil", kFlagSalty = "salty",
                                  kFlagLiquid = "liquid", kFlagDiseased = "diseased",
                                  kFlagForbidden = "forbidden", kFlagSynthetic = "synthetic";
inline constexpr std::string_view kSugar = "sugar", kMolasses = "molasses",
                                  kPlantBrew = "plant brew", kManureBrew = "manure brew",
                                  kAnimalBrew = "animal brew";

}  // namespace kinds::brew
