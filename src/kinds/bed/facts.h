#pragma once

#include "measure/dimension.h"
#include "model/facts.h"

// Rules, cases, jobs and facts of a bed, by which its findings are asked for.
namespace kinds::bed {

inline constexpr std::string_view kRuleWait = "bed.wait", kRuleEarly = "bed.early",
                                  kRuleSafe = "bed.safe", kRuleShort = "bed.short",
                                  kRuleOver = "bed.over", kRuleBanned = "bed.banned",
                                  kRuleCarryover = "bed.carryover";

// Of bed.wait: the crop is ripe before its day.
inline constexpr std::string_view kCaseRipeFirst = "ripe_first";

inline constexpr std::string_view kJobPick = "pick", kJobHoldBack = "hold_back", kJobFeed = "feed",
                                  kJobPoison = "poison", kJobSow = "sow";

using Day = model::Fact<measure::Day>;
using Days = model::Fact<int>;
using Text = model::Fact<std::string>;
using Mass = model::Fact<measure::Kilograms>;
using Share = model::Fact<measure::Fraction>;

inline constexpr Day kSafe{"safe"}, kRipe{"ripe"}, kTakenOn{"taken_on"};
inline constexpr Days kDays{"days"}, kDaysSince{"days_since"}, kDaysEarly{"days_early"};
inline constexpr Text kMaterial{"material"}, kBecause{"because"}, kTyped{"typed"};
inline constexpr model::Fact<std::vector<std::string>> kWay{
    "way"};  // the manure's, from its source
// Whether the part that is eaten touches soil, and whether anybody said.
inline constexpr model::Fact<bool> kTouches{"touches_soil"}, kContactSaid{"contact_said"};

inline constexpr model::Fact<bool> kFailed{"bioassay_failed"};

inline constexpr Text kNutrient{"nutrient"};  // one of these
inline constexpr std::string_view kNitrogen = "nitrogen", kPhosphorus = "phosphorus";
inline constexpr Mass kGiven{"given"}, kWanted{"wanted"}, kLacking{"lacking"};
inline constexpr Share kShare{"share"};

}  // namespace kinds::bed
