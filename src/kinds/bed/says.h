#pragma once

#include <string>
#include <vector>

#include "kinds/bed/study.h"
#include "model/finding.h"

// All sentences about a bed, written from what its study found.
namespace kinds::bed {

// What stands in a trail of manure for what stock left in place, and why it counts as raw.
inline constexpr std::string_view kDroppings = "droppings";
inline constexpr std::string_view kLeftInPlace = "droppings left in place are raw manure";

model::Words words_of(const model::Finding& finding, const Study& study);

std::string stage_words(const Study& study);
std::string well_words(const Study& study);
std::string marked_words(const Study& study);  // harvests taken inside their interval
std::string interval_words(int since, int days);
std::string safe_then_words(const Wait& wait);
std::string for_crop_words(const std::vector<Given>& given, const measure::Printer& print);
std::string need_words(const Need& need, const Study& study);
// "straw (P, K)": what is not known of which; empty: all is known.
std::string gaps_words(const std::vector<Given>& given, std::string_view between = ", ");
// Of a load that is forbidden, whatever the days.
std::string never_for_food_words(const std::string& bed);
std::string poisoned_words(const std::string& material, const std::string& bed);
model::Words poison_words(const model::Finding& finding, const Study& study);
// Of settings that lift or shorten a wait.
std::string not_eaten_doubt_words(const std::string& crop);
std::string off_soil_doubt_words(const std::string& crop);
std::string banned_words(const model::Material& material, bool refused);
std::string not_yet_words(const model::Material& material, const Wait& wait,
                          const std::string& bed);

// Of a load at the moment when it is carried to a bed, which is without it yet (says_load.cpp).
// Nutrients that it brings; empty where nothing of it is known.
std::string brings_words(const model::Movement& load, const Study& bed);
// What the crop still wanted before that load, and how much of it that would be by each nutrient
// alone; what of that the load covers, and what is left to give.
std::string rate_words(const model::Movement& load, const Study& bed);
std::string raw_words(const Wait& wait, const std::string& bed);
std::string ask_statement_words();
// `next`: the first day on which a crop for people that follows it there may be picked.
std::string not_eaten_words(const model::ManureTrail& trail, const std::string& bed,
                            model::Day next);
std::string not_on_leaves_words(int days);
std::string carryover_words(const std::string& material, const std::string& bed);
std::string statement_words(const std::string& statement);
std::string by_maker_words();
std::string no_manure_words();

}  // namespace kinds::bed
