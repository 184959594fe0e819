#pragma once

#include <array>
#include <string_view>

#include "kinds/feed_law.h"
#include "kinds/vocabulary.h"

// What is typed of a bin, and the names of materials that it knows.
namespace kinds::larvae {

using measure::Dimension;

inline constexpr measure::ShownIn kInMilligrams{"mg", "mg"};

inline constexpr Quantity kTemperature{"temperature",
                                       "temp",
                                       Dimension::kTemperature,
                                       -10,
                                       55,
                                       "of the feed the larvae live in, at a probe position",
                                       {},
                                       8};
inline constexpr Quantity kAir{"air", "ambient", Dimension::kTemperature,
                               -40,   50,        "of the air beside it"};
inline constexpr Quantity kMoisture{"moisture", "", Dimension::kFraction,
                                    0,          1,  "of what is in the bin"};
inline constexpr Quantity kDark{"dark", "prepupae", Dimension::kFraction,
                                0,      1,          "share of larvae that have turned dark"};
inline constexpr Quantity kSample{
    "sample",     "larva", Dimension::kMass,
    1e-8,         400e-6,  "mass of one larva: a counted handful, weighed, over its number",
    kInMilligrams};
inline constexpr Quantity kPh{"ph", "", Dimension::kAcidity, 2, 11, "of what is in the bin"};
inline constexpr Quantity kFlies{"flies", "",  Dimension::kCount,
                                 0,       1e5, "other flies counted at it"};
inline constexpr Quantity kFeedMoisture{"feed_moisture",    "", Dimension::kFraction, 0, 1,
                                        "of the feed given"};
inline constexpr Quantity kFrassMoisture{"frass_moisture",        "", Dimension::kFraction, 0, 1,
                                         "of the frass taken out"};
inline constexpr Quantity kLarvaeMoisture{"larvae_moisture",        "", Dimension::kFraction, 0, 1,
                                          "of the larvae taken out"};
inline constexpr Quantity kYoungMoisture{
    "young_moisture", "", Dimension::kFraction, 0, 1, "of the young larvae put in"};
inline constexpr Quantity kLarvaeNitrogen{"larvae_nitrogen",
                                          "",
                                          Dimension::kFraction,
                                          0,
                                          0.2,
                                          "nitrogen in the larvae's dry matter, by a laboratory"};
inline constexpr Quantity kDriedMoisture{"dried_moisture", "", Dimension::kFraction, 0, 1,
                                         "of dried larvae"};
inline constexpr Quantity kFrassHeat{
    "frass_heat", "", Dimension::kTemperature, 0, 200, "that frass was heated to"};
inline constexpr Quantity kFrassHeld{
    "frass_held",      "", Dimension::kDuration, 0, 30, "how long frass was held at that heat",
    {"hours", "hours"}};
inline constexpr Quantity kDeadWeight{
    "dead_weight", "", Dimension::kFraction, 0, 1, "dead insects in frass, by weight"};
inline constexpr Quantity kDeadVolume{
    "dead_volume", "", Dimension::kFraction, 0, 1, "dead insects in frass, by volume"};
inline constexpr std::array kQuantities{
    kTemperature,   kAir,          kMoisture,      kDark,           kSample,        kPh,
    kFlies,         kFeedMoisture, kFrassMoisture, kLarvaeMoisture, kYoungMoisture, kLarvaeNitrogen,
    kDriedMoisture, kFrassHeat,    kFrassHeld,     kDeadWeight,     kDeadVolume};

inline constexpr std::string_view kFelt = "moisture", kSmell = "smell";  // senses

inline constexpr Word kSeeded{"seeded", "stocked", "", "young larvae or eggs were put in"};
inline constexpr Word kStirred{"stirred", "mixed", "", "stirred through, to let heat and wet out"};
inline constexpr Word kBedded{"bedded", "bedding", "", "the bedding was renewed"};
inline constexpr Word kCarded{"carded", "cardboard", "",
                              "the cardboard that flies lay in was renewed"};
inline constexpr Word kCleaned{"cleaned", "", "", "the bin was emptied and cleaned"};
inline constexpr Word kDry{"dry", "", kFelt, "a squeezed handful falls apart"};
inline constexpr Word kDamp{"damp", "moist", kFelt, "a squeezed handful holds and gives a drop"};
inline constexpr Word kWet{"wet", "soggy", kFelt, "water runs from a squeezed handful, or stands"};
inline constexpr Word kEarthy{"earthy", "sweet", kSmell, "like soil or bran"};
inline constexpr Word kSour{"sour", "", kSmell, "like vinegar"};
inline constexpr Word kAmmonia{"ammonia", "", kSmell, "sharp, of ammonia"};
inline constexpr Word kRotten{"rotten", "putrid", kSmell, "of rotten eggs or worse"};
inline constexpr std::array kWords{kSeeded, kStirred, kBedded, kCarded, kCleaned, kDry,
                                   kDamp,   kWet,     kEarthy, kSour,   kAmmonia, kRotten};

inline constexpr SettingSpec kArea{
    "area", Dimension::kArea, "", "of the container, seen from above", {}, {0.01, 1000}};
inline constexpr SettingSpec kBedding{"bedding", Dimension::kNumber, "text",
                                      "what it is bedded with"};
inline constexpr SettingSpec kBeddingDate =
    told_anew({"bedding_date", Dimension::kNumber, "date", "when the bedding was last renewed"});
inline constexpr SettingSpec kSeedCount =
    told_anew({"seeded", Dimension::kCount, "", "how many young larvae were put in", {}, {1, 1e8}});
inline constexpr SettingSpec kYoung =
    told_anew({"young", Dimension::kMass, "", "mass of the young larvae put in", {}, {1e-6, 100}});
inline constexpr SettingSpec kEggs =
    told_anew({"eggs", Dimension::kMass, "", "mass of the eggs put in", {}, {1e-7, 10}});
inline constexpr SettingSpec kAge = told_anew(
    {"age", Dimension::kDuration, "", "how old the young larvae were when put in", {}, {0, 60}});
inline constexpr SettingSpec kSeedDate = told_anew(
    {"seed_date", Dimension::kNumber, "date", "when they were put in", "the day it is started"});
inline constexpr SettingSpec kDiet{
    "diet", Dimension::kNumber, "rich plain",
    "rich (grain with yeast, bread, mixed scraps) or plain (grain, peels, manure)", "rich"};
inline constexpr SettingSpec kLaw{"law", Dimension::kNumber, kLawChoices,
                                  "whose rules on feed hold, where larvae go to animals", "none"};
inline constexpr std::array kSettings{kArea, kBedding, kBeddingDate, kSeedCount, kYoung,
                                      kEggs, kAge,     kSeedDate,    kDiet,      kLaw};

// The choices that something is worked out from.
inline constexpr std::string_view kRich = "rich", kPlain = "plain";

inline constexpr std::array kVague{Vague{
    "stinks", "stink smells smelly reeks smells-bad smells-off stinks-bad", "rotten ammonia sour"}};

// Flags and names of materials.
inline constexpr std::string_view kFlagManure = "manure", kFlagAnimal = "animal",
                                  kFlagFish = "fish", kFlagSalty = "salty", kFlagOil = "oil",
                                  kFlagForbidden = "forbidden", kFlagSynthetic = "synthetic";
inline constexpr std::string_view kLiveLarvae = "larvae", kDarkLarvae = "dark larvae",
                                  kDriedLarvae = "dried larvae", kYoungLarvae = "young larvae",
                                  kEggsOfFlies = "bsf eggs", kCardboard = "cardboard";

}  // namespace kinds::larvae
