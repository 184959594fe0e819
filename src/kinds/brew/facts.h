#pragma once

#include <string>
#include <string_view>

#include "measure/scalar.h"
#include "model/facts.h"

// The names of what is found of a drum.
namespace kinds::brew {

inline constexpr std::string_view kRuleReady = "brew.ready";
inline constexpr std::string_view kRuleVent = "brew.vent";
inline constexpr std::string_view kRuleStir = "brew.stir";
inline constexpr std::string_view kRuleOpen = "brew.open";
inline constexpr std::string_view kRuleOld = "brew.old";
inline constexpr std::string_view kRuleSmell = "brew.smell";
inline constexpr std::string_view kRuleAlkaline = "brew.alkaline";
inline constexpr std::string_view kRuleManure = "brew.manure";
// Of what is carried in or out.
inline constexpr std::string_view kRuleBanned = "brew.banned", kRuleEarly = "brew.early",
                                  kRuleLeaves = "brew.on_leaves";

// Of brew.ready: what its user has to mind.
inline constexpr std::string_view kCaseRaw = "raw", kCaseSugar = "sugar",
                                  kCaseRawAndSugar = "raw_and_sugar";
// Of brew.open and brew.smell.
inline constexpr std::string_view kCaseNoAir = "no_air", kCaseLidOff = "lid_off",
                                  kCaseAmmonia = "ammonia", kCaseRotten = "rotten";
// Of brew.manure.
inline constexpr std::string_view kCaseLeaf = "leaf", kCaseMisnamed = "misnamed";

// A drum that is opened to be stirred is vented too.
inline constexpr std::string_view kJobTend = "tend", kJobAir = "air", kJobClose = "close",
                                  kJobUse = "use", kJobWait = "wait", kJobCorrect = "correct",
                                  kJobKeepOff = "keep_off";

// Circumstances of an entry (kinds/caution.h).
inline constexpr std::string_view kWhenSealed = "sealed", kWhenAerated = "aerated",
                                  kWhenRaw = "raw";

inline constexpr model::Fact<int> kDays{"days"};  // since what the rule counts from
inline constexpr model::Fact<measure::Days> kWithoutAir{
    "without_air"};                                     // since the last that was logged
inline constexpr model::Fact<int> kLongest{"longest"};  // the days that the rule allows
inline constexpr model::Fact<std::string> kSmelt{"smelt"};
inline constexpr model::Fact<measure::Ph> kPhNow{"ph"};
inline constexpr model::Fact<bool> kFull{"full"};   // its time is
inline constexpr model::Fact<int> kLoads{"loads"};  // carried out under a wrong name
inline constexpr model::Fact<measure::Day> kFullOn{"full_on"};
inline constexpr model::Fact<int> kTook{"took"};  // days until its time was up
inline constexpr model::Fact<std::string> kRestartBy{"restart_by"};
inline constexpr model::Fact<bool> kStillLively{"still_lively"};
inline constexpr model::Fact<bool> kToStrain{"to_strain"};
inline constexpr model::Fact<measure::Number> kWaterParts{"water_parts"};  // to one of brew
inline constexpr model::Fact<std::string> kRawMatter{"raw_matter"};        // the material

}  // namespace kinds::brew
