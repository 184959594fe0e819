#pragma once

#include "measure/dimension.h"
#include "model/facts.h"

// Rules, jobs, reasons and facts of a flock, by which its findings are asked for.
namespace kinds::flock {

inline constexpr std::string_view kRuleFeed = "flock.feed", kRuleProtein = "flock.protein",
                                  kRuleCalcium = "flock.calcium", kRuleShare = "flock.share",
                                  kRuleLaying = "flock.laying", kRuleRecord = "flock.record",
                                  kRuleAiling = "flock.ailing", kRuleDead = "flock.dead";
// Of flock.dead: several within the days that count together.
inline constexpr std::string_view kCaseOne = "one", kCaseSeveral = "several";

inline constexpr std::string_view kJobFeed = "feed", kJobLook = "look", kJobCount = "count",
                                  kJobIll = "ill", kJobVet = "vet";

// Why hens lay less.
inline constexpr std::string_view kReasonShort = "too_little_fed", kReasonSeen = "seen";

using Amount = model::Fact<measure::Number>;
using Days = model::Fact<int>;
using Share = model::Fact<measure::Fraction>;

inline constexpr Days kDays{"days"}, kDaysBefore{"days_before"};
inline constexpr Amount kIntake{"intake_g"}, kNeed{"need_g"};  // a hen a day
inline constexpr Amount kFedEach{"fed_g"};                     // feed a hen a day
inline constexpr Share kContent{"content_needed"};
inline constexpr Share kLarvaeShare{"larvae_share"}, kMostShare{"most_share"};
// The feed beside which the share stands: that of so many days, else of a usual ration.
inline constexpr Days kFeedDays{"feed_days"};
inline constexpr Amount kRationEach{"ration_g"};
inline constexpr model::Fact<measure::Kilograms> kMostLarvae{"most_larvae"};
inline constexpr Share kRate{"rate"}, kRateBefore{"rate_before"}, kFall{"fall"};
inline constexpr Amount kLaid{"eggs"}, kHenCount{"hens"};
inline constexpr model::Fact<std::vector<std::string>> kShortOf{"short_of"};
inline constexpr model::Fact<std::string> kSeen{"condition"};
inline constexpr model::Fact<measure::Day> kSeenOn{"seen_on"};
inline constexpr Amount kDeadCount{"dead"};

}  // namespace kinds::flock
