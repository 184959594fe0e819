#pragma once

#include "cli/desk/desk.h"
#include "season/morning.h"

namespace cli {

// The jobs of the open batches as of now, with those that were put off left out.
season::Morning look_round(const Desk& desk);

// What is said of a batch and rule in a folded line: its tag, else the end of the rule's name.
std::string tag_of(const model::Told& finding);

}  // namespace cli
