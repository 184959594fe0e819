#pragma once

#include <string>

#include "kinds/burn/charge.h"
#include "kinds/burn/study.h"
#include "model/finding.h"

// The sentences of a burn.
namespace kinds::burn {

model::Words words_of(const model::Finding& finding, const Study& study);

std::string well_words(const Study& study);
// How far the embers are: "3 hours since the quench; out when found cold and wet from 12 hours on".
std::string ember_progress(const Study& study);
// Of a stack that is neither too wet nor dry enough by a reading that still stands.
std::string moisture_progress(const Study& study);
std::string charging_words(int days, measure::Days wanted, const Study& study);
std::string elsewhere_words(const Elsewhere& one, const Study& study);
std::string charged_on_words(model::Day ready, const Study& study);
std::string charged_line();  // of the days to come
// "26 lb of dry char, 22 % of the dry feedstock"
std::string yield_words(const Study& study);
// What it keeps out of the air net of methane.
std::string balance_words(const Balance& balance, const Study& study);

// Against taking char that is not known to be cold and wet, and against closing such a burn.
std::string not_out_words(const Study& study);
std::string ending_words(const Study& study);
// Against burning what is foul, and against carrying its char anywhere.
std::string foul_words(const std::string& material);
std::string foul_char_words(const std::string& material);
std::string no_fire_words(const Study& study);

}  // namespace kinds::burn
