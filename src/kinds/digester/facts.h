#pragma once

#include <string>
#include <string_view>

#include "measure/scalar.h"
#include "model/facts.h"

// The names of what is found of a digester.
namespace kinds::digester {

enum class Ban;
enum class Followed;

inline constexpr std::string_view kRuleLeak = "digester.leak", kRuleCold = "digester.cold",
                                  kRuleWinter = "digester.winter", kRuleSwing = "digester.swing",
                                  kRuleSour = "digester.sour", kRuleAmmonia = "digester.ammonia",
                                  kRuleBanned = "digester.banned",
                                  kRuleOverfed = "digester.overfed", kRuleShort = "digester.short",
                                  kRuleLowGas = "digester.lowgas", kRuleTrend = "digester.trend",
                                  kRuleStart = "digester.start",
                                  kRuleFirstGas = "digester.firstgas",
                                  kRuleRestart = "digester.restart", kRuleCheck = "digester.check",
                                  kRuleTrap = "digester.trap", kRuleScrubber = "digester.scrubber",
                                  kRuleNitrogen = "digester.nitrogen",
                                  kRuleSulfide = "digester.sulfide";
// Of its end.
inline constexpr std::string_view kRuleGasInIt = "digester.holds_gas";

// Of digester.leak: logged as such, or told of by a remark.
inline constexpr std::string_view kCaseLogged = "logged", kCaseRemarked = "remarked";
// Of digester.cold: a spell that mends by itself, one that does not, a winter.
inline constexpr std::string_view kCaseSpell = "spell", kCaseStays = "stays",
                                  kCaseWinter = "winter";
// Of digester.swing.
inline constexpr std::string_view kCaseHour = "hour", kCaseDay = "day";
// Of digester.sour: feeding stops, or is halved.
inline constexpr std::string_view kCaseSour = "sour", kCaseTurning = "turning";
// Of digester.ammonia.
inline constexpr std::string_view kCaseFree = "free", kCaseTotal = "total", kCaseSmell = "smell";
// Of digester.sulfide.
inline constexpr std::string_view kCaseDeadly = "deadly", kCaseAbove = "above",
                                  kCaseOldReading = "old_reading", kCaseNotCleared = "not_cleared";
// Of digester.overfed: for the cold alone.
inline constexpr std::string_view kCaseCold = "cold", kCaseRich = "rich";
// Of digester.banned: what never goes in, and too much of what is limited.
inline constexpr std::string_view kCaseNever = "never", kCaseTooMuch = "too_much";
// Of digester.lowgas.
inline constexpr std::string_view kCaseBelowDue = "below_due", kCaseFell = "fell",
                                  kCaseNoFlame = "no_flame", kCaseWeak = "weak";
// Of digester.trend: what goes to its limit.
inline constexpr std::string_view kCasePair = "pair", kCasePh = "ph", kCaseAcids = "acids",
                                  kCaseFreeAmmonia = "free_ammonia", kCaseLoading = "loading",
                                  kCaseRetention = "retention";
// Of digester.start: late for the cold alone, late, not filled as it should be.
inline constexpr std::string_view kCaseOnlyCold = "only_cold", kCaseLate = "late", kCaseOff = "off",
                                  kCaseUnknown = "unknown";

inline constexpr std::string_view kJobLeak = "leak", kJobWarm = "warm", kJobFeed = "feed",
                                  kJobGas = "gas", kJobStart = "start", kJobVent = "vent",
                                  kJobCheck = "check", kJobDrain = "drain", kJobRenew = "renew";

// Why something may be so.
inline constexpr std::string_view kReasonSour = "sour", kReasonCold = "cold",
                                  kReasonUnread = "temperature_not_read",
                                  kReasonUnderfed = "fed_little", kReasonLeak = "leak_or_meter",
                                  kReasonNoMicrobes = "no_microbes", kReasonMix = "mix",
                                  kReasonOtherFeed = "other_feed",
                                  kReasonChecked = "checked_not_mended";

// Circumstances of an entry (kinds/caution.h). Routine work is minded after a month without.
inline constexpr std::string_view kWhenGlass = "glass", kWhenLetOff = "let_off",
                                  kWhenBurnsAnew = "burns_anew", kWhenStirsAnew = "stirs_anew",
                                  kWhenChecksAnew = "checks_anew", kWhenBuried = "buried",
                                  kWhenHolder = "holder", kWhenFeedsAnew = "feeds_anew";

inline constexpr model::Fact<measure::Day> kDay{"day"};  // of what the finding is about
inline constexpr model::Fact<measure::Day> kUntil{"until"};
inline constexpr model::Fact<int> kDays{"days"};
inline constexpr model::Fact<int> kJudgedDays{"judged_days"};  // of them, days read enough
inline constexpr model::Fact<measure::Celsius> kMean{"mean"};
inline constexpr model::Fact<bool> kRunning{"running"};
inline constexpr model::Fact<bool> kColdSlurry{"cold_slurry"};
inline constexpr model::Fact<measure::Kelvins> kChange{"change"};
inline constexpr model::Fact<measure::Fraction> kPace{"pace"};  // of digestion at the limit
inline constexpr model::Fact<measure::Ph> kPhNow{"ph"};
inline constexpr model::Fact<measure::Number> kRatio{"acids_to_alkalinity"};
inline constexpr model::Fact<bool> kTitrated{"titrated"};
inline constexpr model::Fact<measure::Number> kAcidsNow{"volatile_acids"};  // mg/L
inline constexpr model::Fact<bool> kSmellsSour{"smells_sour"};
inline constexpr model::Fact<measure::Number> kFreeAmmoniaNow{"free_ammonia"};  // mg/L as nitrogen
inline constexpr model::Fact<measure::Number> kTotalNow{"total_ammonia"};       // mg/L as nitrogen
inline constexpr model::Fact<measure::Number> kFeedRatio{"feed_c_to_n"};
inline constexpr model::Fact<measure::Fraction> kSulfideNow{"h2s"};
inline constexpr model::Fact<int> kLowDays{"low_days"}, kWanted{"low_days_wanted"};
inline constexpr model::Fact<measure::Number> kWarmLimit{"warm_loading_limit"};  // at cold.below
inline constexpr model::Fact<std::string> kMaterial{"material"};
inline constexpr model::Fact<Ban> kBan{"ban"};
inline constexpr model::Fact<measure::Fraction> kShare{"share"};
inline constexpr model::Fact<measure::Number> kLoadingNow{"loading"};  // kg VS/m3/d
inline constexpr model::Fact<measure::Number> kLoadingLimit{"loading_limit"};
inline constexpr model::Fact<measure::Celsius> kAt{"at"};  // the temperature of that limit
inline constexpr model::Fact<bool> kAssumedWarm{"assumed_warm"};
inline constexpr model::Fact<measure::Days> kStay{"stay"};
inline constexpr model::Fact<measure::Litres> kMostADay{"most_a_day"};
inline constexpr model::Fact<measure::Litres> kGasADay{"gas_a_day"};  // at 0 degC, dry
inline constexpr model::Fact<measure::Litres> kGasDue{"gas_due"};     // the same
inline constexpr model::Fact<measure::Litres> kGasBefore{"gas_before"};
inline constexpr model::Fact<int> kDaysBefore{"days_before"};
inline constexpr model::Fact<bool> kEnoughGas{"enough_gas"};
inline constexpr model::Fact<bool> kPhUnread{"ph_unread"};
inline constexpr model::Fact<measure::Days> kAhead{"ahead"};  // until it is at its limit
inline constexpr model::Fact<Followed> kFollowed{"followed"};
inline constexpr model::Fact<measure::Number> kTrendLimit{"trend_limit"};
inline constexpr model::Fact<bool> kWatched{"watched"};  // digester.sour tells of it too
inline constexpr model::Fact<bool> kUnderGlass{"glass"};
// What mends the mix of a filling.
inline constexpr model::Fact<measure::Number> kParts{"water_to_manure"};
inline constexpr model::Fact<bool> kThin{"thin"};  // else it is thick
inline constexpr model::Fact<measure::Litres> kAdd{"add"}, kRoom{"room"};
inline constexpr model::Fact<measure::Litres> kDrawOff{"draw_off"}, kAddAfter{"add_after"};
inline constexpr model::Fact<bool> kSomeFits{"some_fits"};  // what there is room for is enough

}  // namespace kinds::digester
