#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "cli/desk/morning.h"
#include "cli/shell/commands.h"
#include "measure/text.h"
#include "render/json.h"
#include "render/text.h"

namespace cli {
namespace {

using season::Job;

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

std::string ends_words(const model::Told& finding, measure::Day today) {
  std::vector<std::string> words;
  for (const model::Ending& one : finding.ends) words.push_back(ending_words(one, finding, today));
  return measure::listed(words, "or");
}

void print_finding(Context& context, const Desk& desk, const model::Told& finding) {
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

bool is_number(const std::string& word) {
  return !word.empty() &&
         std::all_of(word.begin(), word.end(), [](char c) { return c >= '0' && c <= '9'; });
}

// The findings that the words ask for.
measure::Result<std::vector<model::Told>> asked_for(const Arguments& arguments, const Desk& desk) {
  std::vector<model::Told> found;
  if (arguments.words.empty()) {
    const season::Morning morning = look_round(desk);
    for (const Job& job : morning.jobs) {
      found.insert(found.end(), job.findings.begin(), job.findings.end());
    }
    return found;
  }
  const std::string& word = arguments.words[0];
  if (is_number(word) && !desk.batch(word)) {
    const season::Morning morning = look_round(desk);
    const auto job = std::find_if(morning.jobs.begin(), morning.jobs.end(), [&](const Job& one) {
      return one.number > 0 && fmt::format("{}", one.number) == word;
    });
    if (job == morning.jobs.end()) {
      return measure::Mistake{
          word,
          fmt::format("there is no job {} this morning; 'roundbook today' numbers them", word)};
    }
    return job->findings;
  }
  const auto batch = desk.batch(word);
  if (!batch) return batch.mistake();
  const std::string rule = arguments.words.size() > 1 ? measure::folded(arguments.words[1]) : "";
  std::vector<std::string> rules;
  for (const model::Told& one : desk.study(*batch)->told()) {
    rules.push_back(one.rule);
    if (rule.empty() || one.rule == rule || one.rule == batch->kind + "." + rule)
      found.push_back(one);
  }
  if (!rule.empty() && found.empty()) {
    return measure::Mistake{rule, rules.empty()
                                      ? fmt::format("{} wants nothing now", batch->code)
                                      : fmt::format("{} has no {} now; it has {}", batch->code,
                                                    rule, measure::joined(rules, ", "))};
  }
  return found;
}

}  // namespace

Outcome run_why(Context& context, const Arguments& arguments) {
  if (arguments.words.size() > 2) {
    return measure::Mistake{"",
                            "why takes a job's number, or a batch and one of its rules, like 'why "
                            "3' or 'why heap-4 pile.hot'"};
  }
  const book::View view(*context.book);
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  const auto found = asked_for(arguments, *desk);
  if (!found) return found.mistake();
  if (context.json) {
    render::Json json{{"as_of", desk->site().zone.iso(desk->now())},
                      {"findings", render::Json::array()}};
    for (const model::Told& one : *found) {
      render::Json row = render::json_of(one, desk->print());
      row["ends_by"] = ends_words(one, desk->today());
      json["findings"].push_back(row);
    }
    context.out << render::dumped(json);
    return kDone;
  }
  for (std::size_t i = 0; i < found->size(); ++i) {
    if (i > 0) context.out << '\n';
    print_finding(context, *desk, (*found)[i]);
  }
  if (!found->empty()) return kDone;
  if (arguments.words.empty()) {
    context.out << "Nothing waits.\n";
    return kDone;
  }
  const auto batch = desk->batch(arguments.words[0]);
  const std::string well = desk->study(*batch)->well();
  context.out << render::wrapped(
                     fmt::format("{} is fine{}{}", batch->code, well.empty() ? "" : ": ", well),
                     static_cast<std::size_t>(context.width), 2)
              << '\n';
  return kDone;
}

}  // namespace cli
