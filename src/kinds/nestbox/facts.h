#pragma once

#include <string_view>

#include "model/facts.h"

// The names of what is found of a nest box.
namespace kinds::nestbox {

inline constexpr std::string_view kRuleCheck = "nestbox.check";
inline constexpr std::string_view kRuleLeave = "nestbox.leave";
inline constexpr std::string_view kRuleFledged = "nestbox.fledged";
inline constexpr std::string_view kRuleCold = "nestbox.cold";
inline constexpr std::string_view kRuleClean = "nestbox.clean";

// Looking in answers all that it is needed for.
inline constexpr std::string_view kJobLook = "look", kJobLeave = "leave", kJobClean = "clean";

inline constexpr model::Fact<int> kDays{"days"};  // since what the rule counts from
inline constexpr model::Fact<bool> kNeverLooked{"never_looked"};
inline constexpr model::Fact<measure::Day> kLeftOn{"left_on"};  // when the last brood was over

}  // namespace kinds::nestbox
