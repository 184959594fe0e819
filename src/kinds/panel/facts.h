#pragma once

#include <string_view>

#include "model/facts.h"

// The names of what is found of a set of panels.
namespace kinds::panel {

inline constexpr std::string_view kRuleWeak = "panel.weak";
inline constexpr std::string_view kRuleLow = "panel.low";
inline constexpr std::string_view kRuleOver = "panel.over";
inline constexpr std::string_view kRuleSun = "panel.sun";

inline constexpr std::string_view kJobClean = "clean", kJobSpare = "spare", kJobCorrect = "correct";

// Cases of panel.low, and circumstances of an entry. A battery of which nobody told the chemistry
// counts as lead-acid: that one gasses.
inline constexpr std::string_view kWhenBattery = "battery";
inline constexpr std::string_view kWhenLeadAcid = "lead_acid", kWhenLithium = "lithium";

// Of panel.weak: what a day made of late, and what the days before let expect.
inline constexpr model::Fact<measure::Fraction> kFall{"fall"};
inline constexpr model::Fact<measure::KilowattHours> kRecent{"recent_a_day"};
inline constexpr model::Fact<measure::KilowattHours> kExpected{"expected_a_day"};
inline constexpr model::Fact<int> kRecentDays{"recent_days"}, kBeforeDays{"before_days"};
inline constexpr model::Fact<int> kWindow{"window_days"};
inline constexpr model::Fact<bool> kBestDays{"best_days"};  // the sky was never logged
inline constexpr model::Fact<bool> kBySun{"by_height_of_sun"};

// Of panel.low.
inline constexpr model::Fact<measure::Fraction> kNow{"charge"}, kFloor{"floor"};

// Of panel.over.
inline constexpr model::Fact<measure::Day> kDay{"day"};
inline constexpr model::Fact<measure::KilowattHours> kMade{"made"}, kMost{"most"};
inline constexpr model::Fact<measure::Watts> kRated{"rated"};

// Of panel.sun.
inline constexpr model::Fact<int> kMonth{"month"};
inline constexpr model::Fact<measure::Number> kHoursTold{"hours_told"}, kHoursMost{"hours_most"};

}  // namespace kinds::panel
