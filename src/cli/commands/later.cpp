#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "book/write/pen.h"
#include "cli/desk/morning.h"
#include "cli/shell/commands.h"
#include "measure/text.h"
#include "measure/when.h"
#include "render/json.h"

namespace cli {
namespace {

using measure::Mistake;

struct Delay {
  std::string code;
  std::string rule;  // as typed; empty: all
  std::string until;
};

// CODE [RULE] until WHEN
measure::Result<Delay> read_words(const std::vector<std::string>& words) {
  const auto until = std::find_if(words.begin(), words.end(), [](const std::string& word) {
    return measure::folded(word) == "until";
  });
  const auto before = static_cast<std::size_t>(until - words.begin());
  if (until == words.end() || until + 1 == words.end() || before == 0 || before > 2) {
    return Mistake{"",
                   "later takes a batch, one of its rules where only that is meant, and until "
                   "when, like 'later heap-4 until sat' or 'later heap-4 pile.turn until 3d'"};
  }
  return Delay{words[0], before == 2 ? measure::folded(words[1]) : "",
               measure::joined(std::vector<std::string>(until + 1, words.end()), " ")};
}

}  // namespace

Outcome run_later(Context& context, const Arguments& arguments) {
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  const auto wanted = read_words(arguments.words);
  if (!wanted) return wanted.mistake();
  const auto batch = desk->open_batch(wanted->code, desk->now());
  if (!batch) return batch.mistake();
  const auto until = measure::parse_coming_day(wanted->until, desk->today());
  if (!until) return until.mistake();
  std::string rule = wanted->rule;
  const auto told = desk->study(*batch)->told();
  if (!rule.empty()) {
    const auto found = std::find_if(told.begin(), told.end(), [&](const model::Told& one) {
      return one.rule == rule || one.rule == batch->kind + "." + rule;
    });
    if (found == told.end()) {
      std::vector<std::string> rules;
      for (const model::Told& one : told) rules.push_back(one.rule);
      return Mistake{rule, rules.empty() ? fmt::format("{} wants nothing now", batch->code)
                                         : fmt::format("{} has no {} now; it has {}", batch->code,
                                                       rule, measure::joined(rules, ", "))};
    }
    rule = found->rule;
  }
  const auto urgent = std::find_if(told.begin(), told.end(), [&](const model::Told& one) {
    return one.urgency == model::Urgency::kNow && (rule.empty() || one.rule == rule);
  });
  if (urgent != told.end()) {
    return Mistake{urgent->rule, fmt::format("{} does harm if it waits: {}; it cannot be put off",
                                             urgent->rule, urgent->words.says)};
  }
  if (told.empty()) return Mistake{batch->code, fmt::format("{} wants nothing now", batch->code)};
  book::Pen pen(*context.book, {context.who, "later", context.line, context.clock});
  pen.put_off(batch->id, rule, *until);
  pen.commit();
  if (context.json) {
    context.out << render::dumped(
        {{"batch", batch->code},
         {"rule", rule.empty() ? render::Json(nullptr) : render::Json(rule)},
         {"until", measure::iso_date(*until)}});
    return kDone;
  }
  context.out << fmt::format("{} · {} put off until {}\n", batch->code,
                             rule.empty() ? "all it wants" : rule,
                             measure::day_words(*until, desk->today()));
  return kDone;
}

}  // namespace cli
