#pragma once

#include <string_view>

#include "model/facts.h"

// The names of what is found of a burn.
namespace kinds::burn {

inline constexpr std::string_view kRuleLit = "burn.lit";
inline constexpr std::string_view kRuleEmber = "burn.ember";
inline constexpr std::string_view kRuleWet = "burn.wet";
inline constexpr std::string_view kRuleReady = "burn.ready";
inline constexpr std::string_view kRuleRaw = "burn.raw";
inline constexpr std::string_view kRuleCharged = "burn.charged";
inline constexpr std::string_view kRuleDry = "burn.dry";
inline constexpr std::string_view kRuleBanned = "burn.banned";
inline constexpr std::string_view kRuleIndoors = "burn.indoors";

inline constexpr std::string_view kJobQuench = "quench", kJobLook = "look", kJobDry = "dry",
                                  kJobLight = "light", kJobFeed = "feed", kJobSpread = "spread",
                                  kJobWater = "water", kJobMove = "move", kJobFoul = "foul";

// Cases of burn.banned: it lies, it burns, its char is there.
inline constexpr std::string_view kCaseLaid = "laid", kCaseAlight = "alight", kCaseChar = "char";
// Cases of burn.lit.
inline constexpr std::string_view kCaseBurning = "burning", kCaseOverdue = "overdue";
// Of burn.ember: hot or smoking; nobody has looked of late, or nobody at all; cold, but not logged
// as wet; cold and wet, but too soon to trust.
inline constexpr std::string_view kCaseHot = "hot", kCaseUnseen = "unseen", kCaseNotWet = "not_wet",
                                  kCaseTooSoon = "too_soon";
// Of burn.wet.
inline constexpr std::string_view kCaseFelt = "felt", kCaseRead = "read";
// Of burn.charged: here, here in raw manure, in another batch.
inline constexpr std::string_view kCaseHere = "here", kCaseRawManure = "raw",
                                  kCaseElsewhere = "elsewhere";

// Circumstances of an entry.
inline constexpr std::string_view kWhenNotOut = "not_out";  // embers may live
inline constexpr std::string_view kWhenClosed = "closed";   // a closed kiln, or nobody said
inline constexpr std::string_view kWhenRaw = kCaseRawManure;
inline constexpr std::string_view kWhenIndoors = "indoors";

inline constexpr model::Fact<std::string> kFoul{"foul"};  // the material, as it was named
inline constexpr model::Fact<std::string> kWhere{"where"};

// Whole or broken hours.
inline constexpr model::Fact<measure::Number> kSinceLit{"hours_since_lit"};
inline constexpr model::Fact<measure::Number> kSinceQuench{"hours_since_quench"};
inline constexpr model::Fact<measure::Number> kSinceLook{"hours_since_look"};
inline constexpr model::Fact<measure::Number> kFoundAfter{"found_hours_after_quench"};
inline constexpr model::Fact<measure::Number> kSettle{"settle_hours"}, kEvery{"look_every_hours"};
inline constexpr model::Fact<bool> kOverdue{"overdue"};
inline constexpr model::Fact<bool> kNoQuench{"no_quench_logged"};  // it was opened all the same
inline constexpr model::Fact<measure::Celsius> kHottest{"hottest"}, kColdBelow{"cold_below"};
inline constexpr model::Fact<std::vector<std::string>> kGoneTo{"gone_to"};

inline constexpr model::Fact<measure::Fraction> kMoistureNow{"moisture"};
inline constexpr model::Fact<measure::Fraction> kMoistureMost{"moisture_most"};
inline constexpr model::Fact<measure::Fraction> kMoistureLeast{"moisture_least"};
inline constexpr model::Fact<measure::Fraction> kMoistureBest{"moisture_best"};
inline constexpr model::Fact<measure::Fraction> kMuchMethane{"much_methane_above"};

inline constexpr model::Fact<int> kDays{"days"};
inline constexpr model::Fact<measure::Days> kWanted{"days_wanted"};
inline constexpr model::Fact<std::string> kPlace{"place"};  // the bed or batch that got char
inline constexpr model::Fact<measure::Day> kCarriedOn{"carried_on"};
inline constexpr model::Fact<std::string> kChargedWith{"charged_with"};
inline constexpr model::Fact<bool> kNoneLeft{"none_left"};
inline constexpr model::Fact<measure::SquareMetres> kBedLeast{"bed_least"}, kBedMost{"bed_most"};

}  // namespace kinds::burn
