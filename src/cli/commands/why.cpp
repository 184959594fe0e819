#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "cli/desk/morning.h"
#include "cli/desk/whole.h"
#include "cli/shell/commands.h"
#include "measure/text.h"
#include "render/json.h"
#include "render/text.h"

namespace cli {
namespace {

using season::Job;

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
    print_whole(context, *desk, (*found)[i]);
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
