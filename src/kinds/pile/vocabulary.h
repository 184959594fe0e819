#pragma once

#include <array>
#include <string_view>

#include "kinds/vocabulary.h"
#include "model/history.h"

// What is read, done, felt and told of a pile.
namespace kinds::pile {

using measure::Dimension;

inline constexpr Quantity kTemperature{"temperature",
                                       "temp",
                                       Dimension::kTemperature,
                                       -30,
                                       95,
                                       "in the pile, at a probe position",
                                       {},
                                       15};
inline constexpr Quantity kAir{"air", "ambient", Dimension::kTemperature,
                               -40,   50,        "of the air beside it"};
inline constexpr Quantity kMoisture{"moisture", "", Dimension::kFraction,
                                    0,          1,  "of mass as it lies"};
inline constexpr Quantity kOxygen{"oxygen", "o2", Dimension::kFraction,
                                  0,        0.21, "of the air in the pile"};
inline constexpr Quantity kAcidity{"ph", "", Dimension::kAcidity, 3, 11, "of a slurry of it"};
inline constexpr Quantity kHeight{"height",      "",         Dimension::kLength, 0, 6,
                                  "of the pile", {"ft", "m"}};
inline constexpr Quantity kVolume{"volume", "", Dimension::kVolume, 0, 1e6, "of the pile"};
inline constexpr Quantity kSelfHeating{
    "selfheating",
    "dewar",
    Dimension::kTemperatureDifference,
    0,
    60,
    "the most that a sample in a vacuum flask warmed above the room"};
inline constexpr std::array kQuantities{kTemperature, kAir,    kMoisture, kOxygen,
                                        kAcidity,     kHeight, kVolume,   kSelfHeating};

inline constexpr std::string_view kSenseMoisture = "moisture";
inline constexpr std::string_view kSenseSmell = "smell";
inline constexpr std::string_view kSenseBioassay = "bioassay";

inline constexpr Word kTurned{"turned", "turn tumbled tumble rotated spun flipped forked", "",
                              "mixed through, outside to inside"};
inline constexpr Word kWatered{"watered", "wetted hosed soaked", "", "water was put on"};
inline constexpr Word kCovered{"covered", "", "", "a cover was put on"};
inline constexpr Word kUncovered{"uncovered", "", "", "the cover was taken off"};
inline constexpr Word kAerated{"aerated", "", "", "air was blown or poked in"};
inline constexpr Word kScreened{"screened", "sieved", "", "sieved"};
inline constexpr Word kCapped{"capped", "", "",
                              "a layer of finished compost or chips was put over it"};
inline constexpr Word kDry{"dry", "", kSenseMoisture, "a squeezed handful falls apart"};
inline constexpr Word kDamp{"damp", "moist", kSenseMoisture,
                            "a squeezed handful holds and gives a drop"};
inline constexpr Word kSoggy{"soggy", "wet", kSenseMoisture, "water runs from a squeezed handful"};
inline constexpr Word kEarthy{"earthy", "sweet", kSenseSmell, "like a forest floor"};
inline constexpr Word kSour{"sour", "", kSenseSmell, "like vinegar"};
inline constexpr Word kAmmonia{"ammonia", "", kSenseSmell, "sharp, of ammonia"};
inline constexpr Word kRotten{"rotten", "putrid", kSenseSmell, "of rotten eggs or worse"};
inline constexpr Word kBioassayPassed{"bioassay-passed", "peas-grew", kSenseBioassay,
                                      "peas or beans sown in some of it grew on straight"};
inline constexpr Word kBioassayFailed{"bioassay-failed", "peas-twisted", kSenseBioassay,
                                      "peas or beans sown in some of it cupped or twisted"};
inline constexpr std::array kWords{
    kTurned, kWatered, kCovered, kUncovered, kAerated, kScreened, kCapped,         kDry,
    kDamp,   kSoggy,   kEarthy,  kSour,      kAmmonia, kRotten,   kBioassayPassed, kBioassayFailed};

enum class Method { kByTurning, kStatic, kVessel, kCold };
struct MethodChoice {
  std::string_view word;
  Method method;
};
inline constexpr std::array kMethods{
    MethodChoice{"turned", Method::kByTurning}, MethodChoice{"static", Method::kStatic},
    MethodChoice{"vessel", Method::kVessel}, MethodChoice{"cold", Method::kCold}};

inline constexpr SettingSpec kMethod{"method", Dimension::kNumber, "turned static vessel cold",
                                     "how it is made", kMethods.front().word};
inline constexpr SettingSpec kBuiltVolume{
    "volume", Dimension::kVolume, "", "its volume when it was built", {}, {1, 1e6}};
inline constexpr SettingSpec kStandard{
    "standard", Dimension::kNumber, "text",
    "the treatment to show: nop, fsma, pfrp, psrp, vector or none; several joined by +", "nop"};
inline constexpr std::string_view kStandardNone = "none";
inline constexpr std::string_view kKnownStandards =
    "nop, fsma, pfrp, psrp, vector and none, joined by +";
inline constexpr SettingSpec kStartRatio =
    told_anew({"cn",
               Dimension::kNumber,
               "",
               "carbon to nitrogen at the start, by a laboratory",
               {},
               {1, 1000}});
inline constexpr std::string_view kAerationNone = "none";
inline constexpr SettingSpec kAeration{"aeration", Dimension::kNumber, "none pipes blown",
                                       "what brings air into a static pile", kAerationNone};
inline constexpr std::array kSettings{kMethod, kBuiltVolume, kStandard, kStartRatio, kAeration};

inline constexpr std::array kVague{Vague{
    "stinks", "stink smells smelly reeks smells-bad smells-off stinks-bad", "rotten ammonia sour"}};

// Where a probe is put; all but the core are outer places.
inline constexpr std::string_view kPositions = "core edge top north south east west";
inline constexpr std::string_view kCore = "core";

Method method_of(const model::Batch& batch);

// Groups and flags of materials.
inline constexpr std::string_view kGroupWater = "water", kGroupMineral = "mineral",
                                  kGroupChar = "char", kGroupCompost = "compost";
inline constexpr std::string_view kFlagManure = "manure", kFlagAnimal = "animal",
                                  kFlagUnproven = "unproven", kFlagForbidden = "forbidden",
                                  kFlagSynthetic = "synthetic", kFlagOil = "oil",
                                  kFlagDairy = "dairy", kFlagWoodyLarge = "woody-large",
                                  kFlagDiseased = "diseased", kFlagCarcass = "carcass",
                                  kFlagPetWaste = "pet-waste", kFlagHumanWaste = "human-waste",
                                  kFlagCarryover = "carryover";
inline constexpr std::string_view kWater = "water";  // the material

}  // namespace kinds::pile
