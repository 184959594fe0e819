#include "cli/desk/whole.h"

#include <fmt/format.h>

#include <ostream>

#include "measure/text.h"
#include "render/text.h"

namespace cli {
namespace {

std::string ending_words(const model::Ending& ending, const model::Told& finding,
                         measure::Day today) {
  using By = model::Ending::By;
  const std::string at = ending.position.empty() ? "" : ending.position + " ";
  switch (ending.by) {
    case By::kReading:
      return fmt::format("a new {}{} reading of it", at, ending.name);
    case By::kAnyEntry:
      return fmt::format("'log {}' with what you see", finding.batch);
    case By::kDeed:
    case By::kJudgement:
      return fmt::format("'log {} {}'", finding.batch, ending.name);
    case By::kAdding:
      return fmt::format("'add {} AMOUNT {}'", finding.batch,
                         ending.name.empty() ? "MATERIAL" : ending.name);
    case By::kTaking:
      return fmt::format("'take {} AMOUNT{}{}'", finding.batch, ending.name.empty() ? "" : " ",
                         ending.name);
    case By::kSetting:
      return fmt::format("its setting {}", ending.name);
    case By::kEndOfBatch:
      return fmt::format("'end {}'", finding.batch);
    case By::kDay:
      return ending.day ? measure::day_words(*ending.day, today) : "time";
  }
  return "";
}

}  // namespace

std::string ends_words(const model::Told& finding, measure::Day today) {
  std::vector<std::string> words;
  for (const model::Ending& one : finding.ends) words.push_back(ending_words(one, finding, today));
  return measure::listed(words, "or");
}

void print_whole(Context& context, const Desk& desk, const model::Told& finding) {
  std::ostream& out = context.out;
  const auto width = static_cast<std::size_t>(context.width);
  const auto say = [&](std::string_view name, const std::string& text) {
    if (text.empty()) return;
    out << render::wrapped(fmt::format("  {:<9} {}", name, text), width, 12) << '\n';
  };
  out << render::wrapped(fmt::format("{} · {}", finding.batch, finding.words.says), width, 2)
      << '\n';
  say("why", finding.words.why);
  say("do", finding.words.action);
  for (const model::Caution* one : finding.cautions) say("caution", std::string(one->full));
  say("caution", finding.words.caution);
  if (finding.since) say("since", measure::day_words(*finding.since, desk.today()));
  if (finding.due) say("due", measure::day_words(*finding.due, desk.today()));
  say("ends by", ends_words(finding, desk.today()));
  std::string rule = finding.rule;
  if (!finding.threshold.empty() && finding.limit) {
    rule += fmt::format(", limit {} ({})", model::shown(*finding.limit, desk.print()),
                        finding.threshold);
  }
  say("rule", rule);
  say("source", finding.source);
}

}  // namespace cli
