#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "kinds/pile/stage.h"
#include "measure/dimension.h"
#include "model/facts.h"

// What a pile's findings are called and rest on. The names go into JSON and stay.
namespace kinds::pile {

using model::Fact;

inline constexpr std::string_view kRuleHot = "pile.hot", kRuleHeating = "pile.heating",
                                  kRuleCold = "pile.cold", kRuleStopped = "pile.stopped",
                                  kRuleTurn = "pile.turn", kRuleEdge = "pile.edge",
                                  kRuleDry = "pile.dry", kRuleSoggy = "pile.soggy",
                                  kRuleSmell = "pile.smell", kRuleMix = "pile.mix",
                                  kRuleReady = "pile.ready", kRuleUnready = "pile.unready",
                                  kRuleStandard = "pile.standard", kRuleBanned = "pile.banned",
                                  kRuleRawLeaves = "pile.raw_leaves";

// What one pair of hands does at once: what is mixed in is turned in.
inline constexpr std::string_view kJobTurn = "turn", kJobStandBack = "stand_back",
                                  kJobRead = "read", kJobMix = "turn", kJobCover = "cover",
                                  kJobWait = "wait", kJobSieve = "sieve", kJobBed = "bed",
                                  kJobSettings = "settings";

// pile.hot
inline constexpr std::string_view kCaseFire = "fire", kCaseTooHot = "too_hot",
                                  kCaseTurned = "turned";
inline constexpr Fact<measure::Celsius> kHottest{"hottest"}, kLimit{"limit"},
    kFireLimit{"fire_limit"};
inline constexpr Fact<std::string> kPosition{"position"};  // empty: none was said
inline constexpr Fact<int> kDaysAgo{"days_ago"};           // where the reading is stale
inline constexpr Fact<measure::Day> kReadOn{"read_on"};
inline constexpr Fact<std::vector<model::Part>> kAlsoHot{"also_hot"};
inline constexpr Fact<bool> kSevere{"severe"};

// pile.edge
inline constexpr Fact<measure::Celsius> kOuter{"outer"};
inline constexpr Fact<int> kDaysHeld{"days_held_back"};

// pile.heating
inline constexpr Fact<measure::Celsius> kNow{"now"}, kForeseen{"foreseen"},
    kForeseenLow{"foreseen_low"}, kForeseenHigh{"foreseen_high"};
inline constexpr Fact<bool> kByTrend{"by_trend"}, kByModel{"by_model"};

// pile.cold, pile.stopped
inline constexpr std::string_view kCaseNeverHeated = "never_heated",
                                  kCaseNotShown = "treatment_not_shown",
                                  kCaseBroken = "days_broken", kCaseNoDay = "no_day_yet";
inline constexpr Fact<int> kDaysOld{"days_old"};
inline constexpr Fact<std::string> kTreatment{"treatment"};  // "NOP"
inline constexpr Fact<int> kTreatmentDays{"treatment_days"}, kTreatmentWanted{"treatment_wanted"};
inline constexpr std::string_view kTooDry = "too_dry", kTooWet = "too_wet",
                                  kShortOfOxygen = "short_of_oxygen", kFrost = "frost",
                                  kLittleNitrogen = "little_nitrogen", kTooSmall = "too_small",
                                  kSpent = "food_spent", kJustTurned = "just_turned",
                                  kNotTurned = "not_turned";
inline constexpr Fact<measure::Fraction> kMoistureRead{"moisture"}, kOxygenRead{"oxygen"};
inline constexpr Fact<measure::Celsius> kAirNow{"air"};
inline constexpr Fact<measure::Number> kRatio{"c_to_n"};
inline constexpr Fact<measure::Litres> kSize{"size"};
inline constexpr Fact<int> kHotDays{"hot_days"};
inline constexpr Fact<bool> kAllShown{"treatments_shown"};

// pile.turn
inline constexpr std::string_view kCaseTurnings = "turnings", kCaseFallen = "fallen",
                                  kCaseLong = "long";
inline constexpr Fact<int> kDaysSince{"days_since"};
inline constexpr Fact<bool> kEverTurned{"ever_turned"};
inline constexpr Fact<int> kTurnings{"turnings"}, kTurningsWanted{"turnings_wanted"};
inline constexpr Fact<measure::Kelvins> kFallen{"fallen"};

// pile.dry, pile.soggy; pile.smell
inline constexpr std::string_view kCaseMeasured = "measured", kCaseFelt = "felt";
inline constexpr std::string_view kCaseAmmonia = "ammonia", kCaseSour = "sour",
                                  kCaseRotten = "rotten";

// pile.mix
inline constexpr Fact<measure::Number> kRatioLimit{"c_to_n_limit"}, kRatioThen{"c_to_n_then"};
inline constexpr Fact<measure::Fraction> kMoistureOfMix{"moisture_of_mix"},
    kMoistureLimit{"moisture_limit"}, kMoistureThen{"moisture_then"};
inline constexpr Fact<std::vector<model::Part>> kAddition{"addition"};
inline constexpr Fact<std::vector<std::string>> kUnusedHere{"unused_here"};

// pile.ready
inline constexpr std::string_view kCaseCold = "cold", kCaseCured = "cured";
inline constexpr Fact<int> kCuringDays{"curing_days"};
inline constexpr Fact<std::string> kNotShown{"not_shown"};  // the treatment

// pile.unready
inline constexpr std::string_view kCaseUnfinished = "unfinished", kCaseUntreated = "untreated";
inline constexpr Fact<std::string> kMaterial{"material"}, kBed{"bed"};
inline constexpr Fact<measure::Day> kCarried{"carried"};
// The pile's standing as it was then.
inline constexpr Fact<Stage> kStageThen{"stage"};
inline constexpr Fact<Wanting::What> kWants{"wants"};
inline constexpr Fact<int> kWantsDays{"wants_days"};
inline constexpr Fact<measure::Kelvins> kAboveAir{"above_air"};
inline constexpr Fact<bool> kJustDipped{"just_turned"};

// pile.standard
inline constexpr Fact<std::vector<std::string>> kUnknown{"unknown"};

}  // namespace kinds::pile
