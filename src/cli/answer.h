#pragma once

#include <string>
#include <utility>
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

// "hen manure is refused: ... (digester.banned; common practice)".
std::string objection_text(const kinds::Objection& objection);

// A caution is said in full once in an answer; a finding whose caution begins with what was said
// already has "as above."
class CautionOnce {
 public:
  explicit CautionOnce(std::string said = "") : said_(std::move(said)) {}

  model::Finding said(model::Finding finding) {
    if (finding.caution.empty()) return finding;
    const std::string first = finding.caution.substr(0, finding.caution.find(". "));
    if (said_.find(first) != std::string::npos) {
      finding.caution = "as above.";
    } else {
      said_ += finding.caution;
    }
    return finding;
  }

 private:
  std::string said_;
};

}  // namespace cli
