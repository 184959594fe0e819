#include <fmt/format.h>

#include <algorithm>

#include "kinds/finding.h"
#include "kinds/pile/facts.h"
#include "kinds/pile/says.h"
#include "measure/text.h"

// What is said of a pile that is colder than it should be, and of why.
namespace kinds::pile {
namespace {

using measure::Printer;
using model::Facts;
using model::Finding;
using model::Words;

// A reason for the cold: what it is, what helps, and what a line says to do. A remedy that is no
// more than a turning is not told again where another brought one.
struct ReasonWords {
  std::string text, remedy, line;
  bool turns = false, only_turns = false;
};

ReasonWords words_of(const model::Reason& reason, const Printer& print) {
  const Facts& facts = reason.facts;
  if (reason.id == kTooDry || reason.id == kTooWet) {
    const bool dry = reason.id == kTooDry;
    const auto read = facts.get(kMoistureRead);
    const std::string how = dry ? "too dry" : "too wet";
    return {read ? fmt::format("{} ({} moisture)", how, print(*read)) : how + " by feel",
            dry ? "water it as you turn it" : "turn it with dry coarse material, and keep rain off",
            dry ? "water it as you turn it" : "turn in straw or chips", true};
  }
  if (reason.id == kShortOfOxygen) {
    return {fmt::format("too little air ({} oxygen)", print(facts(kOxygenRead))), "turn it",
            "turn it", true, true};
  }
  if (reason.id == kFrost) {
    return {fmt::format("frost ({} in the air)", print(facts(kAirNow))),
            "cover it, with straw or leaves over it", "cover it"};
  }
  if (reason.id == kLittleNitrogen) {
    return {fmt::format("too little nitrogen (its mix is {}:1)",
                        measure::print_number(facts(kRatio).value, 0)),
            "mix in something rich in nitrogen as you turn it", "mix in greens", true};
  }
  if (reason.id == kTooSmall) {
    return {fmt::format("too small to hold heat ({})", print(facts(kSize))),
            "add to it, combine it with another pile, or cover it with straw or leaves",
            "add to it or cover it"};
  }
  if (reason.id == kSpent) {
    const bool shown = facts.is(kAllShown);
    return {fmt::format("the easy food is used up ({} hot)", days_words(facts(kHotDays))),
            shown ? "let it cure" : "mix in fresh material if it has to heat again",
            shown ? "let it cure" : "mix in fresh greens"};
  }
  if (reason.id == kJustTurned) {
    return {"just turned, which cools it for a day or two", "read it again tomorrow",
            "read it tomorrow"};
  }
  return {fmt::format("short of air (not turned for {})", days_words(facts(kDaysSince))),
          "turn it, outside to inside", "turn it", true, true};
}

// What its rule makes of a break in the days at heat.
std::string break_words(const Treatment& one) {
  if (one.outcome == Outcome::kCannot) {
    return fmt::format(
        "these records cannot show {} now, but it is the heat that kills germs and weed "
        "seeds",
        one.name);
  }
  if (one.wanted.in_a_row && !one.tally.open) {
    return fmt::format("{} needs its days in a row, so the count starts over", one.name);
  }
  const int to_go = std::max(0, one.wanted.days - one.window->days);
  std::string text = fmt::format("these days still count, {} more needed", to_go);
  if (one.standard == Standard::kNop && !one.wanted.in_a_row) {
    text += "; a certifier may want them in a row";
  }
  return text;
}

const Treatment* treatment_of(const Finding& finding, const Study& study) {
  const auto name = finding.facts.get(kTreatment);
  for (const Treatment& one : study.treatments()) {
    if (one.name == name) return &one;
  }
  return nullptr;
}

}  // namespace

model::Words cold_words(const Finding& finding, const Study& study) {
  const Printer print = study.print();
  const Facts& facts = finding.facts;
  const bool stopped = finding.rule == kRuleStopped;
  const Treatment* one = treatment_of(finding, study);
  const std::string so_far = one != nullptr && one->window ? count_words(*one, print) : "";
  Words words;
  if (stopped) {
    words.says = fmt::format("it is {}, below the {} that {} asks for, ",
                             print.beside(facts(kNow), facts(kLimit)), print(facts(kLimit)),
                             facts(kTreatment));
    words.says +=
        so_far.empty()
            ? fmt::format("and no day in {} counts yet", days_words(facts(kDaysOld)))
            : fmt::format("since {}: {} so far",
                          measure::day_words(*finding.since, study.history().today), so_far);
    if (!so_far.empty()) words.why = break_words(*one);
  } else {
    words.says = fmt::format("it is {}, below {}, and ", print.beside(facts(kNow), facts(kLimit)),
                             print(facts(kLimit)));
    words.says += finding.case_of == kCaseNeverHeated
                      ? fmt::format("never heated in {}", days_words(facts(kDaysOld)))
                      : "its treatment is not shown yet";
    if (!so_far.empty()) words.why = fmt::format("{} so far; {}", so_far, break_words(*one));
  }
  std::vector<std::string> texts;
  bool turned = false;
  for (const model::Reason& reason : finding.reasons) {
    const ReasonWords said = words_of(reason, print);
    texts.push_back(said.text);
    if (words.line.empty()) words.line = said.line;
    if (!said.only_turns || !turned) {
      words.action += (words.action.empty() ? "" : "; then ") + said.remedy;
    }
    turned = turned || said.turns;
  }
  if (texts.empty()) {
    words.line = "squeeze a handful";
    words.action = "squeeze a handful and log dry, damp or soggy";
  }
  words.line +=
      fmt::format(": {}, wants {}", degrees(facts(kNow), print), degrees(facts(kLimit), print));
  words.why += words.why.empty() ? "" : "; ";
  words.why +=
      texts.empty() ? "the records do not say why" : "likely " + measure::listed(texts, "then");
  return words;
}

}  // namespace kinds::pile
