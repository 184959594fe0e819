#pragma once

#include <string>
#include <vector>

#include "cli/command.h"
#include "cli/desk.h"
#include "model/assessment.h"

// What a command that records answers: first what was recorded, then what it means for the batch.
namespace cli {

struct Answer {
  model::Batch batch;
  std::string recorded;              // "core 148 °F, up 9 °F since yesterday 07:05"
  std::vector<std::string> remarks;  // cautions and oddities, a line each
};

// "heap-3 · day 12 · hot", what was recorded, what counts towards its goals, what is to be done.
void print_answer(Context& context, const Desk& desk, const Answer& answer);

// A finding as the person reads it: `lead`, what is the case, what to do; wrapped to the width, the
// second line and on indented.
std::string finding_text(const model::Finding& finding, const Desk& desk, std::string_view lead,
                         std::size_t width, std::size_t indent);

}  // namespace cli
