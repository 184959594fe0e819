#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "kinds/vocabulary.h"
#include "model/history.h"
#include "model/purpose.h"

// What is read, done, felt and told of a digester, and what a material is to it.
namespace kinds::digester {

using measure::Dimension;

inline constexpr measure::ShownIn kGasVolume{"ft3", "L"};
inline constexpr measure::ShownIn kMillilitres{"mL", "mL"};

inline constexpr Quantity kTemperature = standing_still(
    {"temperature", "temp slurry", Dimension::kTemperature, -5, 65, "of the slurry", {}, 3});
inline constexpr Quantity kAir{"air", "ambient", Dimension::kTemperature,
                               -40,   60,        "of the air beside it"};
inline constexpr Quantity kAcidity{"ph", "", Dimension::kAcidity, 3.5, 9.5, "of the slurry"};
inline constexpr Quantity kGas{"gas",      "",  Dimension::kVolume,
                               0,          1e5, "gas made since the reading before, as measured",
                               kGasVolume, 0,   true};
inline constexpr Quantity kMeter{
    "meter", "",  Dimension::kVolume, 0, 1e9, "what the gas meter's counter shows", kGasVolume, 0,
    false,   true};
inline constexpr Quantity kGasTemperature{
    "gas-temperature", "gas_temperature", Dimension::kTemperature, -30, 60, "of the gas measured"};
// Holders and bags stand at a few mbar, a fixed dome at up to a metre of water (common practice,
// from memory): 1013 mbar is the air's own pressure, 20 bar a slip.
inline constexpr Quantity kGasPressure{"gas-pressure",
                                       "gas_pressure pressure",
                                       Dimension::kPressure,
                                       0,
                                       10,
                                       "of the gas, above the air outside",
                                       {"inH2O", "mbar"}};
// Fat alone gives 72 % (VDI 4630, from memory); more is a slip or gas that was cleaned.
inline constexpr Quantity kMethane{"methane", "ch4", Dimension::kFraction, 0, 0.85, "of the gas"};
inline constexpr Quantity kCooking{"cooking",
                                   "burned",
                                   Dimension::kDuration,
                                   0,
                                   2,
                                   "hours a flame burned since the entry before",
                                   {"hours", "hours"},
                                   0,
                                   true};
inline constexpr Quantity kAcids{
    "vfa", "acids fos", Dimension::kNumber,
    0,     60000,       "volatile acids by a laboratory, mg/L as acetic acid"};
inline constexpr Quantity kAlkalinity{
    "alkalinity", "tac", Dimension::kNumber,
    100,          60000, "by a laboratory, mg/L as calcium carbonate"};
inline constexpr Quantity kTotalAmmonia{
    "tan", "", Dimension::kNumber, 0, 20000, "total ammonia nitrogen by a laboratory, mg/L"};
inline constexpr Quantity kFirstAcid{
    "first-acid", "",  Dimension::kVolume,
    1e-4,         0.5, "titration: 0.1 N sulfuric acid down to pH 5.0",
    kMillilitres};
inline constexpr Quantity kSecondAcid{
    "second-acid", "", Dimension::kVolume, 0, 0.2, "titration: further acid down to pH 4.4",
    kMillilitres};
inline constexpr Quantity kSample{"sample",    "",  Dimension::kVolume,
                                  1e-3,        0.5, "titration: slurry taken, 20 mL where not said",
                                  kMillilitres};
// Of the air that people breathe beside it, not of the gas: a meter on the belt shows up to some
// hundred. 1 ppm of it is 1.40 mg/m3 (NIOSH Pocket Guide).
inline constexpr Quantity kSulfide{"h2s",
                                   "hydrogen-sulfide",
                                   Dimension::kFraction,
                                   0,
                                   2e-3,
                                   "hydrogen sulfide in the air beside it",
                                   {"ppm", "ppm"},
                                   0,
                                   false,
                                   false,
                                   false,
                                   false,
                                   1e-6 / 1.40};
inline constexpr Quantity kBarometer{
    "barometer",   "air-pressure", Dimension::kPressure, 60, 110, "of the air, as read there",
    {"kPa", "kPa"}};
inline constexpr std::array kQuantities{
    kTemperature, kAir,        kAcidity, kGas,     kMeter,      kGasTemperature,
    kGasPressure, kMethane,    kCooking, kAcids,   kAlkalinity, kTotalAmmonia,
    kFirstAcid,   kSecondAcid, kSample,  kSulfide, kBarometer};

inline constexpr std::string_view kSenseLeak = "leak", kSenseFlame = "flame", kSenseSmell = "smell";

inline constexpr Word kFilled{"filled", "", "",
                              "filled to its working level: the wait for gas begins"};
inline constexpr Word kStirred{"stirred", "stir", "", "stirred, or its crust broken"};
inline constexpr Word kVented{"vented", "vent", "", "gas was let off unused"};
inline constexpr Word kDrained{"drained", "", "", "the water trap was drained"};
inline constexpr Word kRenewed{"renewed", "", "", "the scrubber's filling was renewed"};
inline constexpr Word kChecked{"checked",
                               "leaks-checked leak-checked checked-leaks checked-for-leaks", "",
                               "joints and hoses were checked for leaks"};
inline constexpr Word kLeaking{
    "leaking",
    "leak leaks it-leaks it-smells-of-gas smells-of-gas smell-of-gas smells-gas gas-smell "
    "smell-gas i-smell-gas smells-like-gas smelled-gas smelt-gas gas-smells gas-leak gas-leaks "
    "rotten-eggs hissing",
    kSenseLeak, "it smells of gas, or gas escapes"};
inline constexpr Word kMended{
    "mended", "leak-mended leaks-mended mended-leak leak-fixed repaired tight no-leak no-leaks",
    kSenseLeak, "the leak is mended, or none was found"};
inline constexpr Word kCovered{"covered", "", "", "a cover was put over it"};
inline constexpr Word kUncovered{"uncovered", "", "", "the cover was taken off"};
inline constexpr Word kRested{"rested", "", "", "shut down for the winter in good order"};
inline constexpr Word kCleaned{"cleaned", "emptied desludged cleaned-out", "",
                               "emptied and cleaned out"};
inline constexpr Word kNoFlame{"none", "unlit no-flame", kSenseFlame, "the gas does not burn"};
inline constexpr Word kWeak{"weak", "yellow weak-flame burns-weak burns-yellow", kSenseFlame,
                            "it burns small, yellow or goes out"};
inline constexpr Word kStrong{"strong", "blue blue-flame burns-blue burns-well burns-strong",
                              kSenseFlame, "it burns blue and steady"};
inline constexpr Word kEarthy{"earthy", "tarry", kSenseSmell, "the slurry smells mild"};
inline constexpr Word kSourSmell{"sour", "", kSenseSmell,
                                 "the slurry smells like vinegar or silage"};
inline constexpr Word kAmmonia{"ammonia", "", kSenseSmell, "the slurry smells sharp, of ammonia"};
inline constexpr std::array kWords{kFilled,  kStirred, kVented,  kDrained,   kRenewed,   kChecked,
                                   kLeaking, kMended,  kCovered, kUncovered, kRested,    kCleaned,
                                   kNoFlame, kWeak,    kStrong,  kEarthy,    kSourSmell, kAmmonia};

inline constexpr SettingSpec kVolume{"volume",
                                     Dimension::kVolume,
                                     "",
                                     "working volume, the slurry's room",
                                     "what it was filled with",
                                     {5, 1e6}};
inline constexpr SettingSpec kSite{"site", Dimension::kNumber, "glass heated open buried",
                                   "where it stands"};
inline constexpr SettingSpec kHolder{"holder", Dimension::kVolume, "", "of the gas holder", {},
                                     {1, 1e6}};
inline constexpr SettingSpec kAltitude{"altitude",  Dimension::kLength,
                                       "",          "above the sea, for the gas pressure",
                                       "sea level", {0, 6000}};
inline constexpr SettingSpec kBurner{"burner",
                                     Dimension::kVolume,
                                     "",
                                     "gas its burner takes in an hour",
                                     "the rule digester.gas.burner",
                                     {1, 1e5}};
inline constexpr SettingSpec kTakesPoultry{"poultry", Dimension::kNumber, "no yes",
                                           "whether it takes poultry manure", "no"};
inline constexpr std::array kSettings{kVolume, kSite, kHolder, kAltitude, kBurner, kTakesPoultry};

// Gas comes first: a smell of it is no matter of the slurry.
inline constexpr std::array kVague{
    Vague{"stinks", "stink smells smelly reeks smells-bad smells-off stinks-bad",
          "leaking sour ammonia"},
    Vague{"works", "working burns burning lights running cooks", "strong weak none"}};

enum class Site { kUnknown, kGlass, kHeated, kOpen, kBuried };
inline Site site_of(const model::Batch& batch) {
  constexpr std::array<std::pair<std::string_view, Site>, 4> kChoices{{{"glass", Site::kGlass},
                                                                       {"heated", Site::kHeated},
                                                                       {"open", Site::kOpen},
                                                                       {"buried", Site::kBuried}}};
  const std::string said = batch.text(kSite, "");
  for (const auto& [word, site] : kChoices) {
    if (said == word) return site;
  }
  return Site::kUnknown;
}

inline bool takes_poultry(const model::Batch& batch) {
  constexpr std::string_view kYes = "yes";
  return batch.text(kTakesPoultry, "") == kYes;
}

inline constexpr std::string_view kEffluent = "effluent";  // a material, and its group
inline constexpr std::string_view kGroupWater = "water", kGroupGas = "gas",
                                  kGroupMineral = "mineral", kGroupManure = "manure",
                                  kGroupWood = "wood", kGroupChar = "char";
// Their gas comes as fast as that of food.
inline constexpr std::array<std::string_view, 4> kQuickGroups{"food", "dairy", "brewery", "feed"};
inline constexpr std::string_view kFlagManure = "manure", kFlagLiquid = "liquid",
                                  kFlagHoofed = "hoofed", kFlagPoultry = "poultry",
                                  kFlagOil = "oil", kFlagCitrus = "citrus",
                                  kFlagForbidden = "forbidden", kFlagSynthetic = "synthetic",
                                  kFlagWoody = "woody-large", kFlagGlossy = "glossy",
                                  kFlagAnimal = "animal";
// Materials whose sulfur its microbes turn to hydrogen sulfide.
inline constexpr std::array<std::string_view, 4> kSulfurous{"gypsum", "sulfur", "epsom salt",
                                                            "gypsum board"};
inline constexpr std::array<std::string_view, 3> kSettlingOut{"soil", "sand", "clay"};  // materials
inline constexpr std::string_view kOfPigs = "pig ";  // how the names of their manure begin

inline bool is_water(const model::Material& material) {
  return material.group == kGroupWater;
}
// Slurry of a working digester: a starter, hardly a feed.
inline bool is_inoculum(const model::Material& material) {
  return material.group == kEffluent;
}
inline bool is_gas(const model::Material& material) {
  return material.group == kGroupGas;
}
inline bool is_manure(const model::Material& material) {
  return material.is(kFlagManure) || material.group == kGroupManure;
}
inline bool is_feed(const model::Material& material) {
  return !is_water(material) && !is_inoculum(material) && !is_gas(material) &&
         material.group != kGroupMineral;
}
// Oil, grease and citrus: in small amounts only.
inline bool is_limited(const model::Material& material) {
  return material.is(kFlagOil) || material.is(kFlagCitrus);
}
// Gas that went out unused.
inline bool is_let_off(const model::Movement& movement) {
  return is_gas(movement.material) &&
         model::purpose_of(movement.purpose) == model::Purpose::kVenting;
}
inline bool is_burned(const model::Movement& movement) {
  return is_gas(movement.material) && !is_let_off(movement);
}

}  // namespace kinds::digester
