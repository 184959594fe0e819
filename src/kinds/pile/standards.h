#pragma once

#include "kinds/pile/treatment.h"

// The texts of the standards one by one: what each asks of which method, and the conditions that
// only one of them has.
namespace kinds::pile {

std::optional<Standard> standard_named(std::string_view word);
std::string_view setting_word(Standard standard);  // "nop"

// The treatment with its text, day rule and requirement; nothing judged.
Treatment asked_by(Standard standard, Method method, const model::Rules& rules);

// PSRP: within the days, four hours above 55 °C. Shown by two days next to each other, or by one
// day read at least hourly, with every reading above: a single reading is a moment, not four hours.
void judge_four_hours(Treatment& treatment, const Evidence& evidence);

// Vector attraction: days in a row above 40 °C whose average is above 45 °C. The average is that of
// the coldest position's daily means.
void judge_average(Treatment& treatment, const Evidence& evidence);

// Where a text can be read in two ways, how the other one comes out.
std::optional<OtherReading> other_reading(const Treatment& treatment, const Evidence& evidence,
                                          Method method);

}  // namespace kinds::pile
