#pragma once

#include <set>
#include <string>
#include <utility>
#include <vector>

#include "cli/desk/desk.h"
#include "cli/shell/command.h"
#include "model/assessment.h"

// What a command that records answers: first what was recorded, then what it means for the batch.
namespace cli {

struct Answer {
  model::Batch batch;
  std::string recorded;              // "core 148 °F, up 9 °F since yesterday 07:05"
  std::vector<std::string> remarks;  // objections and oddities, a line each
  // What a remark tells of that cannot wait: said before all else.
  std::vector<const model::Caution*> first = {};
  // What to mind with the work of the entry; and of these, what an entry of the last days said
  // in full.
  std::vector<const model::Caution*> cautions = {};
  std::set<const model::Caution*> said_lately = {};
  // How the batch stood before the entry: only what it changed is answered. None: it was just
  // begun.
  struct Stood {
    std::string stage;
    std::vector<model::Told> told;
    std::vector<model::Progress> progress;
  };
  std::optional<Stood> before = {};
};

// Adds the cautions for what an entry puts hands to, and how its batch stands; before it is
// recorded.
void add_cautions(const kinds::Handled& handled, const model::Batch& batch, measure::Instant at,
                  const Desk& desk, Answer& answer);

// What was recorded; what the person must know of it; the caution; and of the batch only what the
// entry changed: a stage, a job that is new or ended, a goal that moved.
void print_answer(Context& context, const Desk& desk, const Answer& answer);

// Several, each of its batch.
void print_answers(Context& context, const Desk& desk, const std::vector<Answer>& answers);

// A finding as the person reads it: `lead`, what is the case, what to do; wrapped to the width, the
// second line and on indented.
std::string finding_text(const model::Told& finding, const Desk& desk, std::string_view lead,
                         std::size_t width, std::size_t indent);

// "hen manure is refused: ... (digester.banned; common practice)".
std::string objection_text(const kinds::Objection& objection);

// A caution is said in full once in an answer: what was said already is left out.
class CautionOnce {
 public:
  CautionOnce() = default;
  explicit CautionOnce(const Answer& answer)
      : said_(answer.cautions.begin(), answer.cautions.end()) {}

  model::Told said(model::Told finding) {
    const bool had_some = !finding.cautions.empty();
    std::erase_if(finding.cautions,
                  [&](const model::Caution* one) { return !said_.insert(one).second; });
    if (had_some && finding.cautions.empty() && finding.words.caution.empty()) {
      finding.words.caution = "as above.";
    }
    return finding;
  }

 private:
  std::set<const model::Caution*> said_;
};

}  // namespace cli
