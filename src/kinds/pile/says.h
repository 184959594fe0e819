#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/pile/foresight.h"
#include "kinds/pile/mix.h"
#include "kinds/pile/study.h"
#include "kinds/pile/use.h"
#include "model/finding.h"

// All sentences about a pile, written from what its study found.
namespace kinds::pile {

model::Words words_of(const model::Finding& finding, const Study& study);

// "hot at 148 °F, 5 of 15 days at 131 to 170 °F for NOP".
std::string well_words(const Study& study);

// Of a treatment (says_treatment.cpp).
std::string progress_words(const Treatment& one, const Study& study);
// The same after an entry: "10 of 15 days, 3 of 5 turnings".
std::string brief_progress_words(const Treatment& one, const Study& study);
std::string_view outcome_words(Outcome outcome);
std::string reason_words(const Treatment& one, const Study& study);  // why it is not shown
std::string asks_words(const Treatment& one, const Study& study);
std::string other_reading_words(const Treatment& one);  // one that has another reading
// "9 of 15 days at 131 to 170 °F, 3 of 5 turnings".
std::string count_words(const Treatment& one, const measure::Printer& print);
// "131 to 170 °F", "at least 131 °F", "above 104 °F".
std::string rule_words(const DayRule& rule, const measure::Printer& print);
std::string ratio_unknown_words(const StartRatio& ratio);
// With the digits that decide beside a limit: "40.04" beside 40.
std::string ratio_words(measure::Number ratio, std::optional<measure::Number> limit = {});
// "a turned pile", "a static pile", "a vessel", "a cold pile".
std::string method_words(const Study& study);
// "21 days of curing, 5 to go".
std::string curing_words(const Study& study);
// What a curing pile still wants before it is ready: "a turning, ...".
std::string wanting_words(const Standing& at, const Study& study);

// Of compost that goes to a bed, as of that moment (says_use.cpp).
std::string use_words(const Lack& lack, const Study& study);
model::Words unready_words(const model::Finding& finding, const Study& study);

// Of what is about to go in, or to leave (says_use.cpp).
// `kept`: so many of its days would still count.
std::string adding_words(const Treatment& one, int kept, const Study& study);
std::string raw_leaves_words(const model::Material& raw, const Study& study);
// Of closing it while it is too hot.
std::string ending_hot_words(const model::Finding& hot, const Study& study);
std::string herbicide_words(const std::vector<std::string>& of, bool failed);

// Why raw manure that went in still counts as raw.
std::string still_raw_words(const Treatment& nop, const Study& study);

// Of a setting.
std::string unknown_standard_words(const std::string& typed);

// Of what is foreseen (says_foresight.cpp).
std::string week_words(const std::vector<HeatForecast::Day>& next, const Leaning& leaning,
                       const Study& study);
std::string too_hot_words(const model::Forecast& hot, const Study& study);
// Of the days to come, each in a few words.
std::string too_hot_line(const Study& study);
std::string ready_line();
std::string met_line(const Treatment& one);
std::string cooled_words(const model::Forecast& cooled, const HotSpell& spell, const Study& study);
std::string cured_then_words(const model::Forecast& ready, const Study& study);
std::string cures_until_words(model::Day over, const Study& study);
std::string met_words(const Treatment& one, std::optional<model::Day> cooler, const Study& study);
model::Words cold_words(const model::Finding& finding, const Study& study);  // says_cold.cpp
model::Words mix_words(const model::Finding& finding, const Study& study);   // says_mix.cpp
model::Words heating_words(const model::Finding& finding, const Study& study);

// Of what is about to go in.
enum class Banned {
  kForbidden,
  kSynthetic,
  kPetWaste,
  kHumanWaste,
  kCarcass,
  kAnimal,
  kFat,
  kLargeWood,
  kDiseased
};
std::string banned_words(const model::Material& material, Banned why);

// "its core" or, where no position was said, "the pile".
std::string place_words(const std::string& position);
// Whole degrees: "148 °F".
std::string degrees(measure::Celsius temperature, const measure::Printer& print);

}  // namespace kinds::pile
