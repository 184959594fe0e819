#pragma once

#include "cli/desk/desk.h"
#include "season/morning.h"

namespace cli {

// The jobs of the open batches as of now, with those that were put off left out.
season::Morning look_round(const Desk& desk);

// What was put off and has not come back yet.
std::vector<season::PutOff> put_off_now(const Desk& desk);

// Its line for the morning, or all that is said where it has none.
std::string line_of(const model::Told& finding);

// What is said of a batch and rule in a folded line: its tag, else the end of the rule's name.
std::string tag_of(const model::Told& finding);

}  // namespace cli
