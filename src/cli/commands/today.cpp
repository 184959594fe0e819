#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "cli/desk/answer.h"
#include "cli/shell/commands.h"
#include "cli/desk/desk.h"
#include "render/json.h"
#include "render/text.h"

namespace cli {
namespace {

struct Morning {
  std::vector<model::Told> findings;  // most urgent first
  std::vector<std::string> well;         // the batches with nothing to do, a clause each
  std::size_t looked_at = 0;
};

Morning look_round(const Desk& desk) {
  Morning morning;
  for (const model::Batch& batch : desk.open_batches()) {
    const Studied study = desk.study(batch);
    const auto told = study->told();
    ++morning.looked_at;
    if (told.empty()) {
      const std::string well = study->well();
      morning.well.push_back(well.empty() ? batch.code : batch.code + " " + well);
    }
    morning.findings.insert(morning.findings.end(), told.begin(), told.end());
  }
  // Within an urgency the walking order stays.
  std::stable_sort(morning.findings.begin(), morning.findings.end(),
                   [](const auto& a, const auto& b) { return a.urgency < b.urgency; });
  return morning;
}

std::string heading(model::Urgency urgency) {
  switch (urgency) {
    case model::Urgency::kNow:
      return "NOW";
    case model::Urgency::kToday:
      return "TODAY";
    case model::Urgency::kSoon:
      return "SOON";
    case model::Urgency::kReady:
      return "READY";
  }
  return "TODAY";
}

void print(Context& context, const Desk& desk, const Morning& morning) {
  std::ostream& out = context.out;
  const auto width = static_cast<std::size_t>(context.width);
  out << fmt::format("{}, {}\n", desk.site().name, measure::full_day_words(desk.today()));
  std::optional<model::Urgency> group;
  CautionOnce once;
  for (const model::Told& finding : morning.findings) {
    if (group != finding.urgency) {
      group = finding.urgency;
      const std::string title = heading(finding.urgency);
      out << '\n' << (context.color ? fmt::format("\x1b[1m{}\x1b[0m", title) : title) << '\n';
    }
    model::Told shown = once.said(finding);
    if (!shown.words.why_briefly.empty()) shown.words.why = shown.words.why_briefly;
    out << finding_text(shown, desk, fmt::format("  {}: ", finding.batch), width, 4) << '\n';
    const std::string rule = finding.source.empty()
                                 ? finding.rule
                                 : fmt::format("{} · {}", finding.rule, finding.source);
    out << "    " << render::cut("[" + rule, width - 5) << "]\n";
  }
  if (morning.looked_at == 0) {
    out << "\nNo batch is open. 'roundbook start pile heap-1' begins one.\n";
    return;
  }
  std::string end =
      fmt::format("{} batch{} looked at", morning.looked_at, morning.looked_at == 1 ? "" : "es");
  for (std::size_t i = 0; i < morning.well.size(); ++i) {
    end += (i == 0 ? "; well: " : "; ") + morning.well[i];
  }
  out << '\n' << render::wrapped(end + ".", width, 2) << '\n';
}

}  // namespace

Outcome run_today(Context& context, const Arguments& arguments) {
  if (!arguments.words.empty()) {
    return measure::Mistake{"", "today takes no words; 'roundbook show CODE' looks at one batch"};
  }
  const book::View view(*context.book);
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  const Morning morning = look_round(*desk);
  if (context.json) {
    render::Json json{{"as_of", desk->site().zone.iso(desk->now())},
                      {"site", desk->site().name},
                      {"findings", render::Json::array()},
                      {"looked_at", morning.looked_at},
                      {"well", morning.well}};
    for (const auto& one : morning.findings) {
      json["findings"].push_back(render::json_of(one, desk->print()));
    }
    context.out << render::dumped(json);
  } else {
    print(context, *desk, morning);
  }
  const bool hands =
      std::any_of(morning.findings.begin(), morning.findings.end(),
                  [](const auto& one) { return one.urgency == model::Urgency::kNow; });
  return arguments.flag("check") && hands ? kHandsNeeded : kDone;
}

}  // namespace cli
