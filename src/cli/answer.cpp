#include "cli/answer.h"

#include <fmt/format.h>

#include <ostream>

#include "measure/text.h"
#include "render/json.h"
#include "render/text.h"

namespace cli {
namespace {

render::Json json_answer(const Desk& desk, const Answer& answer, const model::History& history,
                         const model::Assessment& assessment) {
  render::Json json{{"batch", history.batch.code},       {"kind", history.batch.kind},
                    {"day", history.day_number()},       {"stage", assessment.stage},
                    {"recorded", answer.recorded},       {"remarks", answer.remarks},
                    {"progress", render::Json::array()}, {"findings", render::Json::array()}};
  json["caution"] = answer.caution.empty() ? render::Json() : render::Json(answer.caution);
  for (const auto& one : assessment.progress) json["progress"].push_back(render::json_of(one));
  for (const auto& one : assessment.findings) {
    json["findings"].push_back(render::json_of(one, desk.print()));
  }
  return json;
}

}  // namespace

std::string finding_text(const model::Finding& finding, const Desk& desk, std::string_view lead,
                         std::size_t width, std::size_t indent) {
  std::string text = std::string(lead) + finding.says;
  if (!finding.why.empty()) text += "; " + finding.why;
  if (finding.due && *finding.due > desk.today()) {
    text += " (" + measure::day_words(*finding.due, desk.today()) + ")";
  }
  text += ".";
  if (!finding.action.empty()) text += " " + measure::capitalised(finding.action) + ".";
  std::string out = render::wrapped(text, width, indent);
  if (!finding.caution.empty()) {
    out += "\n" + std::string(indent, ' ') +
           render::wrapped("Caution: " + finding.caution, width, indent);
  }
  return out;
}

std::string objection_text(const kinds::Objection& objection) {
  return fmt::format("{} ({}; {})", objection.says, objection.rule, objection.source);
}

std::string caution_for(const kinds::Handled& handled, const model::Batch& batch,
                        measure::Instant at, const Desk& desk) {
  const kinds::Kind& kind = desk.kind(batch);
  if (kind.caution_at == nullptr) return "";
  return kind.caution_at(handled, desk.history(batch, at), book::rules(desk.logbook(), batch));
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
  if (!answer.caution.empty()) {
    out << "  " << render::wrapped("Caution: " + answer.caution, width - 2, 4) << '\n';
  }
  for (const model::Progress& one : assessment.progress) {
    if (one.at_leisure) continue;
    out << "  " << render::wrapped(fmt::format("{}: {}", one.goal, one.says), width - 2, 4) << '\n';
  }
  CautionOnce once(answer.caution);
  for (const model::Finding& one : assessment.findings) {
    const std::string lead = "  " + std::string(model::word(one.urgency)) + ": ";
    out << finding_text(once.said(one), desk, lead, width, 4) << '\n';
  }
}

}  // namespace cli
