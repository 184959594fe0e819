#include "cli/desk/answer.h"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "cli/desk/morning.h"
#include "kinds/caution.h"
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
  // What is to be done first, then what to mind: each caution once, in the table's order.
  std::vector<const model::Caution*> cautions = answer.first;
  cautions.insert(cautions.end(), answer.cautions.begin(), answer.cautions.end());
  const std::string caution = model::full_text(cautions);
  json["caution"] = caution.empty() ? render::Json() : render::Json(caution);
  for (const auto& one : assessment.progress) json["progress"].push_back(render::json_of(one));
  for (const auto& one : assessment.findings) {
    json["findings"].push_back(render::json_of(one, desk.print()));
  }
  return json;
}

// What the entries of the last days said in full already: whoever gathers eggs each morning knows
// by the second what to mind, and is told it in a few words. What hurts at once is said in full
// each day; of gas, which nobody sees, each time.
std::set<const model::Caution*> said_already(const kinds::Study& study) {
  constexpr date::days kRemembered{7};
  const model::History& history = study.history();
  std::set<const model::Caution*> said;
  const auto add = [&](model::Day day, const kinds::Handled& handled) {
    if (day <= history.today - kRemembered) return;
    for (const model::Caution* one : kinds::cautions_at(handled, study)) {
      const bool daily = season::hurts_at_once(one->hazard);
      if (one->hazard != model::Hazard::kGas && (!daily || day == history.today)) said.insert(one);
    }
  };
  add(history.batch.started_day, {.starts = true});
  for (const model::Deed& one : history.deeds) add(one.day, {.logged = {one.word}});
  for (const model::Sensed& one : history.sensed) add(one.day, {.logged = {one.word}});
  for (const model::Movement& one : history.in) add(one.day, {.in = &one});
  for (const model::Movement& one : history.out) add(one.day, {.out = &one});
  return said;
}

void print_recorded(Context& context, const Answer& answer, const model::History& history,
                    const model::Assessment& assessment) {
  std::ostream& out = context.out;
  const auto width = static_cast<std::size_t>(context.width);
  const bool other_stage = !answer.before || answer.before->stage != assessment.stage;
  for (const model::Caution* one : answer.first) {
    out << render::wrapped("FIRST: " + std::string(one->full), width, 2) << '\n';
  }
  out << render::wrapped(
             fmt::format("{} · day {}{}: {}", history.batch.code, history.day_number(),
                         assessment.stage.empty() || !other_stage ? "" : " · " + assessment.stage,
                         answer.recorded),
             width, 2)
      << '\n';
  for (const std::string& remark : answer.remarks) {
    out << "  " << render::wrapped(remark, width - 2, 2) << '\n';
  }
  std::string caution;
  for (const model::Caution* one : answer.cautions) {
    const bool again = answer.said_lately.count(one) > 0;
    if (!caution.empty()) caution += ' ';
    caution += again ? measure::capitalised(std::string(one->brief)) + "." : std::string(one->full);
  }
  if (caution.empty()) return;
  out << "  " << render::wrapped("Caution: " + caution, width - 2, 4) << '\n';
}

// What is said of a goal where an entry moved it.
const std::string& brief(const model::Progress& goal) {
  return goal.briefly.empty() ? goal.says : goal.briefly;
}

void print_changes(Context& context, const Desk& desk, const Answer& answer,
                   const model::Assessment& assessment, bool ended) {
  std::ostream& out = context.out;
  const auto width = static_cast<std::size_t>(context.width);
  const Answer::Stood before = answer.before.value_or(Answer::Stood{});
  CautionOnce once(answer);
  for (const model::Told& one : assessment.findings) {
    // What a batch that was just begun wants by and by is the morning's to say.
    const bool waits =
        one.urgency == model::Urgency::kSoon || one.urgency == model::Urgency::kReady;
    // What can hurt hands now is said with each entry while it lasts: the next deed may be the one.
    const bool lasts =
        one.urgency == model::Urgency::kNow && !ended &&
        std::any_of(one.cautions.begin(), one.cautions.end(),
                    [](const auto* caution) { return season::hurts_at_once(caution->hazard); });
    if ((season::was_there(one, before.told) && !lasts) || (!answer.before && waits)) continue;
    // What a load makes wait is said with the load.
    if (one.hold && !answer.remarks.empty()) continue;
    const model::Told shown = once.said(one);
    if (shown.words.line.empty()) {
      out << finding_text(shown, desk, fmt::format("  {}: ", model::word(one.urgency)), width, 4)
          << '\n';
      continue;
    }
    const std::string minds = model::brief_text(shown.cautions);
    out << render::wrapped(fmt::format("  {}: {}{}{}", model::word(one.urgency), shown.words.line,
                                       minds.empty() ? "" : " ! ", minds),
                           width, 4)
        << '\n';
  }
  // That it was read or logged is plain, and of a batch that is closed nothing is left to do.
  std::vector<std::string> gone;
  for (const model::Told& one : before.told) {
    if (one.silence || ended) continue;
    const bool stays = std::any_of(assessment.findings.begin(), assessment.findings.end(),
                                   [&](const model::Told& now) { return now.rule == one.rule; });
    if (!stays) gone.push_back(tag_of(one));
  }
  if (!gone.empty()) {
    out << render::wrapped("  no longer: " + measure::joined(gone, ", "), width, 4) << '\n';
  }
  if (!answer.before) return;
  for (const model::Progress& one : assessment.progress) {
    const bool moved = std::none_of(
        before.progress.begin(), before.progress.end(),
        [&](const auto& was) { return was.goal == one.goal && brief(was) == brief(one); });
    if (one.at_leisure || !moved) continue;
    out << "  " << render::wrapped(fmt::format("{}: {}", one.goal, brief(one)), width - 2, 4)
        << '\n';
  }
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
  const std::string caution = model::full_text(finding);
  if (!caution.empty()) {
    out += "\n" + std::string(indent, ' ') + render::wrapped("Caution: " + caution, width, indent);
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
  answer.said_lately.merge(said_already(*before));
  if (answer.before || handled.starts || batch.id != answer.batch.id) return;
  const auto stands = [](const kinds::Study& study) {
    return Answer::Stood{study.stage(), study.told(), study.progress()};
  };
  answer.before = at == desk.now() ? stands(*before) : stands(*desk.study(batch));
}

void print_answer(Context& context, const Desk& desk, const Answer& answer) {
  const Studied after = desk.study(answer.batch);
  const model::History& history = after->history();
  const model::Assessment assessment = kinds::assess(*after, kinds::Extent::kFindings);
  if (context.json) {
    context.out << render::dumped(json_answer(desk, answer, history, assessment));
    return;
  }
  print_recorded(context, answer, history, assessment);
  print_changes(context, desk, answer, assessment, history.batch.ended.has_value());
}

void print_answers(Context& context, const Desk& desk, const std::vector<Answer>& answers) {
  if (!context.json || answers.size() == 1) {
    for (const Answer& answer : answers) print_answer(context, desk, answer);
    return;
  }
  render::Json entries = render::Json::array();
  for (const Answer& answer : answers) {
    const Studied after = desk.study(answer.batch);
    entries.push_back(json_answer(desk, answer, after->history(),
                                  kinds::assess(*after, kinds::Extent::kFindings)));
  }
  context.out << render::dumped({{"answers", entries}});
}

}  // namespace cli
