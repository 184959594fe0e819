#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "measure/scalar.h"
#include "model/facts.h"

// The names of what is found of a bin.
namespace kinds::larvae {

inline constexpr std::string_view kRuleEaten = "larvae.eaten";  // by people or pets
inline constexpr std::string_view kRuleHarvest = "larvae.harvest", kRuleHot = "larvae.hot",
                                  kRuleHeating = "larvae.heating", kRuleCold = "larvae.cold",
                                  kRuleSurvival = "larvae.survival",
                                  kRuleUnderfed = "larvae.underfed", kRuleEmpty = "larvae.empty",
                                  kRuleOverfed = "larvae.overfed", kRuleDry = "larvae.dry",
                                  kRuleWet = "larvae.wet", kRuleMeter = "larvae.moisture",
                                  kRuleSmell = "larvae.smell", kRuleFlies = "larvae.flies",
                                  kRuleBedding = "larvae.bedding",
                                  kRuleCardboard = "larvae.cardboard",
                                  kRuleSample = "larvae.sample", kRuleRecord = "larvae.record",
                                  kRuleFrass = "larvae.frass", kRuleDried = "larvae.dried",
                                  kRuleBanned = "larvae.banned";
// Of what is fed: not banned, but to be done with care.
inline constexpr std::string_view kRuleCare = "larvae.care";

// Of larvae.harvest.
inline constexpr std::string_view kCaseByDark = "by_dark", kCaseByWarmth = "by_warmth",
                                  kCaseNear = "near", kCaseUnread = "unread";
// Of larvae.hot and larvae.survival.
inline constexpr std::string_view kCaseDeadly = "deadly", kCaseFled = "fled", kCaseFrost = "frost";
// Of larvae.heating.
inline constexpr std::string_view kCaseToday = "today", kCaseTomorrow = "tomorrow";
// Of larvae.cold, beside frost.
inline constexpr std::string_view kCaseStill = "still", kCaseSlow = "slow";
// Of larvae.underfed and larvae.overfed.
inline constexpr std::string_view kCaseNoFeed = "no_feed", kCaseByLarva = "by_larva",
                                  kCaseByArea = "by_area";
// Of larvae.dry and larvae.wet.
inline constexpr std::string_view kCaseStops = "stops", kCaseSieve = "sieve";
// Of larvae.sample.
inline constexpr std::string_view kCaseTooHeavy = "too_heavy", kCaseFarOff = "far_off";
// Of larvae.record.
inline constexpr std::string_view kCaseBeforeSeeding = "before_seeding",
                                  kCaseMoreThanFed = "more_than_fed";
// Of larvae.frass: what was not shown.
inline constexpr std::string_view kCaseNotHeated = "not_heated", kCaseTooCool = "too_cool",
                                  kCaseTooShort = "too_short", kCaseDeadWeight = "dead_weight",
                                  kCaseDeadVolume = "dead_volume";

inline constexpr std::string_view kJobCool = "cool", kJobWarm = "warm", kJobHarvest = "harvest",
                                  kJobLook = "look", kJobFeed = "feed", kJobWater = "water",
                                  kJobDry = "dry", kJobAir = "air", kJobCover = "cover",
                                  kJobRenew = "renew", kJobWeigh = "weigh", kJobCorrect = "correct",
                                  kJobSale = "sale", kJobAsk = "ask";

using Temperature = model::Fact<measure::Celsius>;
using Share = model::Fact<measure::Fraction>;
using Mass = model::Fact<measure::Kilograms>;
using Whole = model::Fact<int>;
using OnDay = model::Fact<measure::Day>;
using Text = model::Fact<std::string>;
using Yes = model::Fact<bool>;

inline constexpr Temperature kRead{"read"}, kLimitAt{"limit"};
inline constexpr Text kPosition{"position"};  // of the probe; empty: none said
inline constexpr Yes kByAir{"by_air"};        // the air's reading, with the offset
inline constexpr Whole kHours{"hours"};
inline constexpr Whole kDays{"days"}, kLongest{"longest"};
inline constexpr OnDay kOn{"on"}, kSeededOn{"seeded_on"}, kHarvestSince{"harvesting_since"};
inline constexpr Yes kLate{"late"};
// Why the larvae may be dead, where that is asked about.
inline constexpr Yes kMayBeDead{"may_be_dead"};

inline constexpr Mass kGiven{"given"}, kAppetite{"a_day"}, kMost{"most"}, kTaken{"taken"};
inline constexpr model::Fact<measure::SquareMetres> kOnArea{"area"};
// Feed, in milligrams a larva a day.
inline constexpr model::Fact<measure::Number> kEach{"each_mg"}, kEachLimit{"each_limit_mg"};

inline constexpr Share kMoist{"moisture"}, kMoistLimit{"moisture_limit"}, kDeadShare{"dead"};
inline constexpr Text kByHand{"felt"};  // the word; absent: a meter read it
inline constexpr Text kSmelt{"smelt"};
inline constexpr model::Fact<measure::Number> kCounted{"counted"}, kCountLimit{"count_limit"};

inline constexpr Mass kWeighed{"weighed"}, kHeaviest{"heaviest"};  // a larva
inline constexpr Text kTyped{"typed"}, kMaterial{"material"}, kTo{"to"}, kLawOf{"law"};
inline constexpr model::Fact<std::vector<std::string>> kFeeds{"feeds"};
inline constexpr model::Fact<measure::Days> kHeld{"held"};

}  // namespace kinds::larvae
