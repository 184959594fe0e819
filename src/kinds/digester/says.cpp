#include "kinds/digester/says.h"

#include <array>
#include <cmath>

#include "kinds/digester/facts.h"
#include "kinds/digester/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"
#include "measure/text.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Celsius;
using measure::Printer;
using model::Finding;
using model::Words;

Words leak_words(const Finding& finding, const Study& study) {
  const model::Day day = finding.facts(kDay), today = study.history().today;
  const std::string on = measure::day_words(day, today);
  Words words;
  if (finding.case_of == kCaseRemarked) {
    words = {.line = "no flame, get everybody out: smell of gas",
             .says = fmt::format("gas may escape: a note of {} tells of its smell, and no mending "
                                 "is logged since",
                                 on)};
  } else {
    words = {.line = "no flame, get everybody out: gas escapes",
             .says = fmt::format("gas escapes: logged leaking {}, and no mending since",
                                 day == today ? std::string("today") : "on " + on)};
  }
  if (!finding.reasons.empty()) words.why = "it was checked after that, and a check mends nothing";
  words.action = fmt::format(
      "no flame, no switch, no phone near it; {} and get everybody out; shut the gas valve only "
      "where that is safe; a licensed fitter mends it; if in doubt call the local emergency "
      "number, "
      "from well away. Log mended once soapy water shows no bubbles",
      finding.facts.is(kUnderGlass) ? "open doors and vents from outside" : "let air in");
  return words;
}

// "63.4 °F, below 68 °F": never "68 °F, below 68 °F".
std::string below_words(Celsius mean, Celsius limit, const Printer& print) {
  const std::string now = print.beside(mean, limit);
  if (now == print(limit)) return fmt::format("just under {}", print(limit));
  return fmt::format("{}, below {}", now, print(limit));
}

std::string spell_words(const Study& study) {
  const Printer print = study.print();
  const Warmth& warmth = study.warmth();
  const std::string limit = print(study.rules()(limits::cold_below));
  const std::string trend = warmth.a_day ? change_words(*warmth.a_day, print) : "";
  const bool rises =
      warmth.is_soon || (warmth.a_day && !is_steady(*warmth.a_day, print) && !warmth.recovers());
  std::string words;
  if (warmth.is_back) {
    words = fmt::format("the latest day's mean is back at {} or above", limit);
  } else if (warmth.back_on && rises) {
    words = fmt::format("{}, back at {} {}about {} if that goes on", trend, limit,
                        warmth.is_soon ? "" : "only ",
                        measure::day_words(*warmth.back_on, study.history().today));
  } else if (warmth.recovers()) {
    words = fmt::format("by day it still reaches {}, on {} of {}", limit, warmth.warm_days,
                        days_words(warmth.days_read));
  } else {
    words = "it does not come back by itself";
    if (warmth.warm_days == 0) words += ": no day reached " + limit;
    if (!trend.empty()) words += ", " + trend;
  }
  if (warmth.read_once) words += "; read once a day, so the hour of reading counts";
  return words;
}

Words cold_words(const Finding& finding, const Study& study) {
  const Printer print = study.print();
  const Celsius mean = finding.facts(kMean), limit = study.rules()(limits::cold_below);
  const bool running = finding.facts.is(kRunning);
  const bool winter = finding.case_of == kCaseWinter, spell = finding.case_of == kCaseSpell;
  const std::string proof = print(mean) == print(limit)
                                ? "just under " + print(limit)
                                : fmt::format("{}, needs {}", print(mean), print(limit));
  Words words{.line = (winter  ? "keep it warm: "
                       : spell ? "close it in at night: "
                               : "cover it, close it in: ") +
                      proof,
              .says = fmt::format("too cold: {} is {}", window_words(study),
                                  below_words(mean, limit, print)),
              .why = spell_words(study)};
  if (winter) {
    words.action = "it has been so for long: see digester.winter";
  } else if (study.slurry().souring != Souring::kNo) {
    words.action = spell ? "a spell: close it in at night" : "cover it, close it in at night";
  } else if (running) {
    words.action = spell ? "a spell: feed less until it is back, close it in at night"
                         : "cover it, close it in at night, feed less and with warm water";
  } else {
    words.action = spell ? "a spell: close it in at night; it is not fed yet"
                         : "cover it, close it in at night; it is not fed yet";
  }
  return words;
}

bool is_covered(const model::History& history) {
  const model::Deed* covered = history.last_deed(kCovered);
  const model::Deed* uncovered = history.last_deed(kUncovered);
  return covered != nullptr && (uncovered == nullptr || uncovered->at <= covered->at);
}

// What keeps it warm, in the order of what it costs; what is done already is left out.
std::string winter_steps(const model::History& history, bool running) {
  std::vector<std::string> steps;
  if (!is_covered(history)) {
    steps.emplace_back(
        "cover it: straw, bubble wrap or boards round the sides and over it at night");
  }
  if (running) steps.emplace_back("feed less, at midday, with sun-warmed water");
  switch (site_of(history.batch)) {
    case Site::kOpen:
    case Site::kBuried:
    case Site::kUnknown:
      steps.emplace_back("put glass or plastic over it");
      break;
    case Site::kGlass:
      steps.emplace_back("close the glass early and seal its gaps");
      break;
    case Site::kHeated:
      steps.emplace_back("see why the heating does not hold");
      break;
  }
  steps.emplace_back(
      running ? "or shut it down in good order: stop feeding, use up the gas and vent the rest, "
                "drain the trap and the gas line against frost, keep the slurry in as the starter "
                "for spring, and log rested"
              : "or let it rest till spring: drain the trap and the gas line against frost, keep "
                "the slurry in, and log rested");
  std::string text;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    text += fmt::format("{}{}) {}", i == 0 ? "" : "; ", i + 1, steps[i]);
  }
  return text;
}

Words winter_words(const Finding& finding, const Study& study) {
  const Printer print = study.print();
  const auto& facts = finding.facts;
  const std::string limit = print(study.rules()(limits::cold_below));
  const int days = facts(kDays), judged = facts(kJudgedDays);
  const bool running = facts.is(kRunning);
  Words words{.line = fmt::format("{}: below {} {}",
                                  running ? "cover it, feed less" : "cover it or rest it", limit,
                                  days_words(days)),
              .says = fmt::format(
                  "more than a cold spell: the mean has been below {} for {}, since {}", limit,
                  days_words(days), measure::day_words(facts(kDay), study.history().today))};
  if (judged < days) words.says += fmt::format(" ({} of them read enough to judge)", judged);
  if (const auto pace = facts.get(kPace)) {
    words.why = fmt::format("at {} it digests at about {:.0f} % of its pace at {}, and {}",
                            print(facts(kMean)), pace->value * 100, limit,
                            running ? "feed piles up" : "starts so much later");
  }
  words.action = winter_steps(study.history(), running);
  return words;
}

Words swing_words(const Finding& finding, const Study& study) {
  const Printer print = study.print();
  const measure::Kelvins limit{finding.limit->value.si};
  const std::string change = print.beside(finding.facts(kChange), limit);
  const std::string most = print.difference(limit);
  const bool hour = finding.case_of == kCaseHour;
  return {
      .line = fmt::format("shade or cover it: {} in {}", change, hour ? "an hour" : "a day"),
      .says = hour ? fmt::format("changed by {} an hour, above {}", change, most)
                   : fmt::format("its daily mean changed by {} a day, above {}", change, most),
      .why = "the microbes stand steady cold better than a jump",
      .action = "shade or cover it, and bring feed and water near the slurry's own temperature"};
}

Words sulfide_words(const Finding& finding, const Study& study) {
  const Printer print = study.print();
  const std::string now = print(measure::value_of(finding.facts(kSulfideNow)), kSulfide.shown_in);
  const std::string most = print(finding.limit->value, kSulfide.shown_in);
  if (finding.case_of == kCaseOldReading) {
    return {
        .line = "measure the air first: h2s was " + now,
        .says = fmt::format("hydrogen sulfide was {}, above {}, and was not read since", now, most),
        .why = "whether it is safe now is not known, and the nose cannot tell",
        .action = "open it to the air, keep out, and log h2s from outside before anyone goes in"};
  }
  if (finding.case_of == kCaseNotCleared) {
    const int low = finding.facts(kLowDays), wanted = finding.facts(kWanted);
    return {
        .line = fmt::format("keep out: h2s was {}; low {} of {} days", now, low, wanted),
        .says = fmt::format("hydrogen sulfide was {}, above {}; read low on {} of {} later days",
                            now, most, low, wanted),
        .why = "one low reading does not show that no more of it comes",
        .action =
            "find where it came from; read h2s from outside on each day, until it has "
            "stayed low"};
  }
  return {.line = fmt::format("get everybody out: h2s {}, limit {}", now, most),
          .says = fmt::format("hydrogen sulfide {} in the air, above {}", now, most),
          .why = finding.case_of == kCaseDeadly
                     ? "this much kills within minutes, and the nose no longer warns"
                     : "the nose stops noticing before it harms",
          .action =
              "get everybody out and upwind, let air in from outside, nobody goes back for "
              "anything; if in doubt call the local emergency number; log the next reading once "
              "it is aired"};
}

Words upkeep_words(const Finding& finding, const Study&) {
  const std::string days = days_words(finding.facts(kDays));
  if (finding.rule == kRuleTrap)
    return {.line = "drain the water trap: not for " + days,
            .says = "the water trap not drained for " + days,
            .action =
                "drain it and log drained: water in the line makes the flame flicker and "
                "blocks it in frost",
            .tag = "water trap"};
  if (finding.rule == kRuleScrubber)
    return {.line = "renew the scrubber: not for " + days,
            .says = "the scrubber not renewed for " + days,
            .action = "renew its filling and log renewed: spent, it lets hydrogen sulfide through",
            .tag = "scrubber"};
  return {.line = "soap every joint: not checked for " + days,
          .says = "joints and hoses not checked for leaks for " + days,
          .action = "brush soapy water on every joint, look for bubbles, log checked",
          .tag = "leak check"};
}

Words first_gas_words(const Finding& finding, const Study& study) {
  const model::Day today = study.history().today;
  const std::string until = measure::day_words(finding.facts(kUntil), today);
  return {.line = fmt::format("vent it until {}: first gas", until),
          .says = fmt::format("its first gas came on {}",
                              measure::day_words(finding.facts(kDay), today)),
          .why =
              "the first gas holds air and too little methane: it can explode in the holder, "
              "and burns badly",
          .action = fmt::format("vent it outdoors, use none before {}, and log vented", until)};
}

Words restart_words(const Finding& finding, const Study& study) {
  const std::string mean = study.print()(finding.facts(kMean));
  return {
      .line = fmt::format("feed little by little: warm, {}", mean),
      .says = fmt::format("resting, and warm enough again: {} is {}", window_words(study), mean),
      .action = "check it for leaks, feed it little by little, and vent the first gas"};
}

}  // namespace

Words words_of(const Finding& finding, const Study& study) {
  struct Row {
    std::string_view rule;
    Words (*words)(const Finding&, const Study&);
  };
  static constexpr std::array kRows{
      Row{kRuleLeak, leak_words},          Row{kRuleCold, cold_words},
      Row{kRuleWinter, winter_words},      Row{kRuleSwing, swing_words},
      Row{kRuleSour, feed_words},          Row{kRuleAmmonia, feed_words},
      Row{kRuleNitrogen, feed_words},      Row{kRuleSulfide, sulfide_words},
      Row{kRuleBanned, feed_words},        Row{kRuleOverfed, feed_words},
      Row{kRuleShort, feed_words},         Row{kRuleLowGas, low_gas_words},
      Row{kRuleTrend, trend_words},        Row{kRuleStart, start_words},
      Row{kRuleFirstGas, first_gas_words}, Row{kRuleRestart, restart_words},
      Row{kRuleCheck, upkeep_words},       Row{kRuleTrap, upkeep_words},
      Row{kRuleScrubber, upkeep_words},
  };
  for (const Row& row : kRows) {
    if (row.rule != finding.rule) continue;
    Words words = row.words(finding, study);
    if (finding.rule == kRuleLowGas) words.tag = "low gas";
    return words;
  }
  return {};
}

std::string holder_words() {
  return "more than a gas holder or a bag stands at, a few to some tens of mbar: look at the "
         "gauge, its unit and the safety vent";
}

std::string flame_at_leak_words() {
  return "a flame where gas escapes: none is lit before the leak is found and logged mended";
}

std::string leak_objection_words(const Study& study) {
  return study.history().batch.code +
         " is logged as leaking: light none of its gas until that is mended";
}

std::string flame_forbidden_words(const model::Told& hold) {
  return fmt::format("a flame, and none is lit while this stands: {}", hold.words.says);
}

std::string gas_in_it_words(const Study& study) {
  return study.history().batch.code +
         " may hold gas: vent it outdoors with no flame near and log vented, stop feeding, "
         "drain "
         "it, air it for days and never lean in, and have a licensed fitter take its pipes apart; "
         "then end it";
}

}  // namespace kinds::digester
