#pragma once

#include <set>
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
  std::vector<std::string> remarks;  // objections and oddities, a line each
  std::string caution = {};          // what to mind with the work that the entry is about
};

// The kind's caution for what an entry puts hands to, read before it is recorded; empty: none.
std::string caution_for(const kinds::Handled& handled, const model::Batch& batch,
                        measure::Instant at, const Desk& desk);

// "heap-3 · day 12 · hot", what was recorded, what counts towards its goals, what is to be done.
void print_answer(Context& context, const Desk& desk, const Answer& answer);

// A finding as the person reads it: `lead`, what is the case, what to do; wrapped to the width, the
// second line and on indented.
std::string finding_text(const model::Finding& finding, const Desk& desk, std::string_view lead,
                         std::size_t width, std::size_t indent);

// A caution is said in full once in an answer; a finding that repeats it says "as above."
class CautionOnce {
 public:
  model::Finding said(model::Finding finding) {
    const bool repeated = !finding.caution.empty() && !said_.insert(finding.caution).second;
    if (repeated) finding.caution = "as above.";
    return finding;
  }

 private:
  std::set<std::string> said_;
};

}  // namespace cli
