#pragma once

#include <string>

#include "cli/desk/desk.h"

// The whole of a finding, for whoever asks why.
namespace cli {

// What is the case, why, what to do, the cautions in full, what ends it, rule and source.
void print_whole(Context& context, const Desk& desk, const model::Told& finding);

// "a new core temperature reading of it or 'log heap-3 turned'"
std::string ends_words(const model::Told& finding, measure::Day today);

}  // namespace cli
