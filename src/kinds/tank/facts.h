#pragma once

#include "model/facts.h"

// The names of what is found of a tank. They are printed in JSON: stable.
namespace kinds::tank {

inline constexpr std::string_view kRuleLevel = "tank.level", kRuleLow = "tank.low",
                                  kRuleFull = "tank.full", kRuleClean = "tank.clean",
                                  kRuleFlush = "tank.flush", kRuleFoul = "tank.foul",
                                  kRuleDrink = "tank.drink", kRuleBanned = "tank.banned";

// Of tank.level: below the least that can be, after rain that hardly came, after rain that came in
// part, or without any; and above the most.
inline constexpr std::string_view kCaseNoRainCame = "no_rain_came",
                                  kCaseRainCameShort = "rain_came_short", kCaseLost = "lost",
                                  kCaseTooHigh = "too_high";
// Of tank.drink: by a load, by the uses given. Those of tank.foul are the words that were logged.
inline constexpr std::string_view kCaseTaken = "taken", kCaseTold = "told";

inline constexpr std::string_view kJobLevel = "level", kJobClean = "clean", kJobWater = "water",
                                  kJobDrink = "drink", kJobUse = "use";

// Under which circumstances hands are put to it: water carried to the ground of a bed.
inline constexpr std::string_view kToGround = "to_ground";

// Why a level is not what it should be.
inline constexpr std::string_view kReasonBlocked = "gutter_blocked",
                                  kReasonRunsOver = "gutter_runs_over", kReasonLeak = "leak",
                                  kReasonOpenTap = "open_tap",
                                  kReasonDrawUnlogged = "draw_not_logged",
                                  kReasonWaterUnlogged = "water_not_logged",
                                  kReasonMisread = "level_misread";

inline constexpr model::Fact<measure::Litres> kFactHeld{"held"}, kFactCapacity{"capacity"},
    kFactExpected{"expected"}, kFactDrawn{"drawn"}, kFactDrawADay{"draw_a_day"};
inline constexpr model::Fact<measure::Metres> kFactRain{"rain"};
inline constexpr model::Fact<measure::Day> kFactReadOn{"read_on"}, kFactReadBefore{"read_before"},
    kFactSeenOn{"seen_on"}, kFactTakenOn{"taken_on"};
inline constexpr model::Fact<bool> kFactCarriedOn{
    "carried_on"};  // by rain and draws since it was read
inline constexpr model::Fact<int> kFactDays{"days"}, kFactDraws{"draws"},
    kFactDrawDays{"draw_days"}, kFactDrawBasis{"draw_basis"}, kFactLeastDays{"least_days"};
inline constexpr model::Fact<std::string> kFactWater{"water"}, kFactTaken{"taken"},
    kFactPurpose{"purpose"}, kFactUses{"uses"};

}  // namespace kinds::tank
