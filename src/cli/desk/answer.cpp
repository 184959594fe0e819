#include "cli/desk/answer.h"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "kinds/caution.h"
#include "measure/text.h"
#include "render/json.h"
#include "render/text.h"

namespace cli {
namespace {

// Each caution once, in the table's order.
std::string caution_text(const Answer& answer) {
  const std::string full = model::full_text(answer.cautions);
  return full + (full.empty() || answer.old_caution.empty() ? "" : " ") + answer.old_caution;
}

render::Json json_answer(const Desk& desk, const Answer& answer, const model::History& history,
                         const model::Assessment& assessment) {
  render::Json json{{"batch", history.batch.code},       {"kind", history.batch.kind},
                    {"day", history.day_number()},       {"stage", assessment.stage},
                    {"recorded", answer.recorded},       {"remarks", answer.remarks},
                    {"progress", render::Json::array()}, {"findings", render::Json::array()}};
  const std::string caution = caution_text(answer);
  json["caution"] = caution.empty() ? render::Json() : render::Json(caution);
  for (const auto& one : assessment.progress) json["progress"].push_back(render::json_of(one));
  for (const auto& one : assessment.findings) {
    json["findings"].push_back(render::json_of(one, desk.print()));
  }
  return json;
}

}  // namespace

std::string finding_text(const model::Told& finding, const Desk& desk, std::string_view lead,
                         std::size_t width, std::size_t indent) {
  std::string text = std::string(lead) + finding.words.says;
  if (!finding.words.why.empty()) text += "; " + finding.words.why;
  if (finding.due && *finding.due > desk.today()) {
    text += " (" + measure::day_words(*finding.due, desk.today()) + ")";
  }
  text += ".";
  if (!finding.words.action.empty()) text += " " + measure::capitalised(finding.words.action) + ".";
  std::string out = render::wrapped(text, width, indent);
  const std::string caution = render::caution_of(finding);
  if (!caution.empty()) {
    out += "\n" + std::string(indent, ' ') +
           render::wrapped("Caution: " + caution, width, indent);
  }
  return out;
}

std::string objection_text(const kinds::Objection& objection) {
  return fmt::format("{} ({}; {})", objection.says, objection.rule, objection.source);
}

void add_cautions(const kinds::Handled& handled, const model::Batch& batch, measure::Instant at,
                  const Desk& desk, Answer& answer) {
  const Studied before = desk.study(batch, at);
  for (const model::Caution* one : kinds::cautions_at(handled, *before)) {
    if (std::find(answer.cautions.begin(), answer.cautions.end(), one) == answer.cautions.end())
      answer.cautions.push_back(one);
  }
  const std::string more = before->old_caution(handled);
  if (more != answer.old_caution)
    answer.old_caution += (answer.old_caution.empty() || more.empty() ? "" : " ") + more;
}

void print_answer(Context& context, const Desk& desk, const Answer& answer) {
  const model::History history = desk.history(answer.batch);
  const model::Assessment assessment = desk.assess(history, kinds::Extent::kFindings);
  if (context.json) {
    context.out << render::dumped(json_answer(desk, answer, history, assessment));
    return;
  }
  std::ostream& out = context.out;
  const auto width = static_cast<std::size_t>(context.width);
  out << render::wrapped(
             fmt::format("{} · day {}{}: {}", history.batch.code, history.day_number(),
                         assessment.stage.empty() ? "" : " · " + assessment.stage, answer.recorded),
             width, 2)
      << '\n';
  for (const std::string& remark : answer.remarks) {
    out << "  " << render::wrapped(remark, width - 2, 2) << '\n';
  }
  if (const std::string caution = caution_text(answer); !caution.empty()) {
    out << "  " << render::wrapped("Caution: " + caution, width - 2, 4) << '\n';
  }
  for (const model::Progress& one : assessment.progress) {
    if (one.at_leisure) continue;
    out << "  " << render::wrapped(fmt::format("{}: {}", one.goal, one.says), width - 2, 4) << '\n';
  }
  CautionOnce once(answer);
  for (const model::Told& one : assessment.findings) {
    const std::string lead = "  " + std::string(model::word(one.urgency)) + ": ";
    out << finding_text(once.said(one), desk, lead, width, 4) << '\n';
  }
}

}  // namespace cli
