#pragma once

#include <optional>
#include <string>

#include "kinds/flock/study.h"
#include "kinds/study.h"

// All sentences about a flock, written from what its study found.
namespace kinds::flock {

model::Words words_of(const model::Finding& finding, const Study& study);

std::string laying_words(const Laying& laying);
std::string no_count_words();
std::string larvae_words(const LarvaeShare& larvae, const Study& study);
std::string unknown_words(const std::set<std::string>& feeds);
// "at 2.05 oz an egg, none was weighed", "at 54 g an egg, as weighed"
std::string egg_words(const MeanEgg& egg, const measure::Printer& print);
std::string stage_words(const Eggs& eggs);
// More eggs than hens can lay in a day; `before`: logged that day already.
std::string doubt_words(measure::Number birds, double before);

// More dead than there are.
std::string more_than_hens_words(measure::Number birds);

// Of what is about to be fed.
enum class Banned { kNever, kManure, kOnManure, kKitchenWaste, kPoisons, kSalty };
std::string banned_words(const model::Material& material, Banned why);

}  // namespace kinds::flock
