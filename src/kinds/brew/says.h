#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "kinds/brew/contents.h"
#include "kinds/brew/taking.h"
#include "kinds/brew/use.h"
#include "model/assessment.h"

// The sentences of a brew: says.cpp has findings, progress and objections, says_use.cpp how it is
// used and what the figures rest on.
namespace kinds::brew {

struct Clock;
struct ReadyDays;

model::Words words_of(const model::Finding& finding, const Study& study);

// "11.2 of 21 days at 68 °F, about 10 days to go"
std::string how_far_words(const Study& study);
// The same with what it is counted from and rests on.
// The same after an entry: "about 14 days to go".
std::string left_words(const Study& study);
std::string brewing_words(const Study& study);
std::string foreseen_words(const ReadyDays& days, const Study& study);
std::string ready_line();  // of the days to come
// What the days' temperatures rest on.
std::string source_words(const Study& study);

// Why it counts as raw manure, where no load that went in tells.
std::string because_words(const Raw& raw);
std::string on_leaves_words(const Study& study);  // of one that must not be sprayed
std::string ending_words();
std::string adding_words(BadIn bad, const model::Material& material);
std::string taking_words(NotFit unfit, const Study& study);

// "1 part of brew to 10 parts of water (usual for plant brew)"
std::string dilution_words(const Study& study);
// How to pour it, how much for a bed, and how salty it is: what a ready brew's user wants to know.
std::vector<model::Progress> use_lines(const Study& study);
// The same for a load that is poured now, in short: how far to thin it, and how salty that is.
std::vector<std::string> pouring_lines(const model::Movement& out, const Study& study);
// N-P-K estimated from what went in, beside the laboratory's.
model::Progress nutrient_line(const Study& study);

// Names and grounds of figures.
inline constexpr const char* kAnalysisBasis = "the latest analysis, taken for all that was made";
std::string estimated_words(std::string_view nutrient);
std::string analysed_words(std::string_view nutrient);
std::string estimate_basis(const Nutrients& nutrients);
std::string load_basis(bool analysed);
std::string liquid_basis(const Contents& contents);
std::string days_basis(const Clock& clock);

}  // namespace kinds::brew
