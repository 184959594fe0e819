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
using measure::Number;
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
      "where that is safe; a licensed fitter mends it; in doubt call the local emergency number, "
      "from well away. Log mended once soapy water shows no bubbles",
      finding.facts.is(kUnderGlass) ? "open doors and vents from outside" : "let air in");
  return words;
}

// "63.4 °F, below 68 °F": never "68 °F, below 68 °F".
std::string below_words(Celsius mean, Celsius limit, const Printer& print) {
  if (print(mean) == print(limit)) return fmt::format("just under {}", print(limit));
  return fmt::format("{}, below {}", print(mean), print(limit));
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
  const std::string change = print.difference(finding.facts(kChange));
  const std::string most = print.difference(measure::Kelvins{finding.limit->value.si});
  const bool hour = finding.case_of == kCaseHour;
  return {
      .line = fmt::format("shade or cover it: {} in {}", change, hour ? "an hour" : "a day"),
      .says = hour ? fmt::format("changed by {} an hour, above {}", change, most)
                   : fmt::format("its daily mean changed by {} a day, above {}", change, most),
      .why = "the microbes bear a steady cold better than a jump",
      .action = "shade or cover it, and bring feed and water near the slurry's own temperature"};
}

std::string milligrams(Number content) {
  return Printer::labelled(content.value, "mg/L");
}

// Each sign that is off, with its limit; the first is short enough for a line.
struct Sign {
  std::string brief, whole;
};
std::vector<Sign> signs(const Finding& finding, const Study& study) {
  const Printer print = study.print();
  const model::Rules& rules = study.rules();
  const auto& facts = finding.facts;
  const bool sour = finding.case_of == kCaseSour;
  const measure::Ph ph_limit = rules(sour ? limits::sour_ph : limits::sour_ph_watch);
  const Number ratio_limit = rules(sour ? limits::sour_ratio : limits::sour_ratio_watch);
  std::vector<Sign> found;
  if (const auto ph = facts.get(kPhNow); ph && *ph < ph_limit) {
    found.push_back(
        {fmt::format("{}, limit {}", print(*ph), measure::print_number(ph_limit.value, 1)),
         fmt::format("{}, below {}", print(*ph), print(ph_limit))});
  }
  if (const auto ratio = facts.get(kRatio); ratio && *ratio > ratio_limit) {
    const std::string shown = measure::print_number(ratio->value, 2);
    const std::string most = measure::print_number(ratio_limit.value, 2);
    found.push_back({fmt::format("acids {}, limit {}", shown, most),
                     fmt::format("acids to alkalinity {} by {}, above {}", shown,
                                 facts.is(kTitrated) ? "titration" : "laboratory", most)});
  }
  const Number most{rules(limits::sour_vfa).value};
  if (const auto acids = facts.get(kAcidsNow); acids && *acids > most) {
    found.push_back(
        {"acids " + milligrams(*acids),
         fmt::format("volatile acids {}, above {}", milligrams(*acids), milligrams(most))});
  }
  if (facts.is(kSmellsSour)) found.push_back({"it smells sour", "it smells sour"});
  return found;
}

Words sour_words(const Finding& finding, const Study& study) {
  const bool sour = finding.case_of == kCaseSour;
  const std::vector<Sign> off = signs(finding, study);
  std::vector<std::string> all;
  for (const Sign& one : off) all.push_back(one.whole);
  const auto ration = finding.facts.get(kShare);
  const std::string& sign = off.front().brief;
  std::string line = (sour ? "stop feeding: " : "halve the feed: ") + sign;
  if (!sour && ration) {
    line = fitting({fmt::format("feed at most {} a day: {}",
                                daily_amount(study.feed(), ration->value, study.print()), sign),
                    fmt::format("feed {:.0f} % of it: {}", std::floor(ration->value * 100), sign)});
  }
  return {.line = std::move(line),
          .says = (sour ? "souring: " : "turning sour: ") + measure::joined(all, "; "),
          .why =
              "acids pile up faster than they turn to gas: too much feed, too cold, or "
              "something that harms it",
          .action = sour ? "stop feeding, stir, keep it warm, read pH daily; feed again, half as "
                           "much, once it is back at " +
                               study.print()(study.rules()(limits::sour_ph_watch)) +
                               "; only if it stays down after a week, fresh cattle manure or a "
                               "little lime"
                         : (ration ? "feed no more than " +
                                         daily_words(study.feed(), ration->value, study.print()) +
                                         " a day"
                                   : "halve the feed") +
                               ", leave out food and fat, and read pH daily"};
}

Words ammonia_words(const Finding& finding, const Study&) {
  Words words{
      .line = "thin it, feed straw: smells of ammonia",
      .says = "it smells of ammonia",
      .action =
          "thin it with water, feed straw or plants rather than manure, and nothing of poultry"};
  const auto free = finding.facts.get(kFreeAmmoniaNow);
  const std::string most = finding.limit ? milligrams(Number{finding.limit->value.si}) : "";
  if (finding.case_of == kCaseFree) {
    const std::string shown = milligrams(Number{std::round(free->value)});
    words.line = "thin it, feed straw: ammonia " + shown;
    words.says = fmt::format("free ammonia about {} as nitrogen, above {}", shown, most);
    words.why =
        "reckoned for dilute water from total ammonia, pH and temperature: in slurry it is rather "
        "less";
  } else if (finding.case_of == kCaseTotal) {
    const std::string shown = milligrams(Number{std::round(finding.facts(kTotalNow).value)});
    words.line = "thin it, feed straw: ammonia " + shown;
    words.says = fmt::format("total ammonia {} as nitrogen, above {}", shown, most);
    words.why = free ? "the rest turns to free ammonia as pH or warmth rise"
                     : "no pH of late says how much of it is free; it is taken as harmful";
  } else if (!free) {
    words.why = "no analysis of total ammonia with a pH says how much";
  }
  return words;
}

Words nitrogen_words(const Finding& finding, const Study&) {
  const std::string ratio = ratio_words(finding.facts(kFeedRatio));
  return {.line = fmt::format("mix in straw or plants: feed C:N {}", ratio),
          .says = fmt::format("its feed is {} carbon to nitrogen, below {:.0f}:1", ratio,
                              finding.limit->value.si),
          .why = "so much nitrogen turns to ammonia, which stops the gas",
          .action =
              "mix in straw, leaves or other plants, thin it with water, and have total "
              "ammonia read with a pH"};
}

Words sulfide_words(const Finding& finding, const Study& study) {
  const Printer print = study.print();
  const std::string now = print(measure::value_of(finding.facts(kSulfideNow)), kSulfide.shown_in);
  const std::string most = print(finding.limit->value, kSulfide.shown_in);
  return {.line = fmt::format("get everybody out: h2s {}, limit {}", now, most),
          .says = fmt::format("hydrogen sulfide {} in the air, above {}", now, most),
          .why = finding.case_of == kCaseDeadly
                     ? "so much kills within minutes, and the nose no longer warns"
                     : "the nose tires of it before it harms",
          .action =
              "get everybody out and upwind, let air in from outside, nobody goes back for "
              "anything; in doubt call the local emergency number; log the next reading once "
              "it is aired"};
}

Words banned_words(const Finding& finding, const Study& study) {
  const Printer print = study.print();
  const auto& facts = finding.facts;
  if (finding.case_of == kCaseTooMuch) {
    const std::string share = print(facts(kShare));
    return {
        .line = fmt::format("leave out oil and citrus: {} of the feed", share),
        .says = fmt::format("oil, grease and citrus are {} of the feed of {}, above {}", share,
                            days_words(facts(kDays)), print(study.rules()(limits::limited_most))),
        .why = "they sour it, float and slow the microbes",
        .action =
            "leave them out until the share is down; a pile or the larvae take them "
            "better"};
  }
  const std::string name = facts(kMaterial);
  const std::string day = measure::day_words(facts(kDay), study.history().today);
  return {.line = fitting({fmt::format("no more {}: went in {}", name, day),
                           fmt::format("no more {}: it went in", name),
                           "no more of what went in " + day}),
          .says = fmt::format("{} went in on {}", name, day),
          .why = ban_words(facts(kBan), name, study.rules()),
          .action = "feed no more of it; read pH and watch the flame for two weeks"};
}

Words overfed_words(const Finding& finding, const Study& study) {
  const Printer print = study.print();
  const auto& facts = finding.facts;
  const double share = facts(kShare).value;
  Words words{
      .line = fitting(
          {fmt::format("feed at most {} a day: got {}", daily_amount(study.feed(), share, print),
                       daily_amount(study.feed(), 1, print)),
           "feed less: " + loading_words(facts(kLoadingNow).value)}),
      .says = fmt::format("fed {} on the mean of {}, above {} at {}",
                          loading_words(facts(kLoadingNow).value), days_words(facts(kDays)),
                          loading_words(facts(kLoadingLimit).value), print(facts(kAt))),
      .action = fmt::format("feed no more than {} a day ({:.0f} % of what it got) until its "
                            "pH and its gas are steady",
                            daily_words(study.feed(), share, print), std::floor(share * 100))};
  if (finding.case_of == kCaseCold)
    words.action += fmt::format("; or warm it ({} at {}), or let it rest till it is warm",
                                loading_words(facts(kWarmLimit).value),
                                print(study.rules()(limits::cold_below)));
  if (facts.is(kAssumedWarm))
    words.why = "its temperature is not read often enough; a warm digester is assumed";
  return words;
}

Words short_words(const Finding& finding, const Study& study) {
  const int stay = full_days(finding.facts(kStay));
  const int wanted = full_days(measure::Days{finding.limit->value.si});
  Words words{.line = fmt::format("less feed and water: stays {} of {} days", stay, wanted),
              .says = fmt::format("feed and water stay only {} in it, less than {}{}",
                                  days_words(stay), days_words(wanted),
                                  finding.case_of == kCaseWinter ? " through a winter" : ""),
              .why = "what leaves early leaves undigested, and takes the microbes along"};
  if (const auto most = finding.facts.get(kMostADay)) {
    words.action = fmt::format("feed no more than {} of feed and water a day, or less water",
                               slurry_words(*most, study.print()));
  }
  return words;
}

Words upkeep_words(const Finding& finding, const Study&) {
  const std::string days = days_words(finding.facts(kDays));
  if (finding.rule == kRuleTrap)
    return {.line = "drain the water trap: not for " + days,
            .says = "the water trap not drained for " + days,
            .action =
                "drain it and log drained: water in the line makes the flame flicker and "
                "blocks it in frost"};
  if (finding.rule == kRuleScrubber)
    return {.line = "renew the scrubber: not for " + days,
            .says = "the scrubber not renewed for " + days,
            .action = "renew its filling and log renewed: spent, it lets hydrogen sulfide through"};
  return {.line = "soap every joint: not checked for " + days,
          .says = "joints and hoses not checked for leaks for " + days,
          .action = "brush soapy water on every joint, look for bubbles, log checked"};
}

Words first_gas_words(const Finding& finding, const Study& study) {
  const model::Day today = study.history().today;
  const std::string until = measure::day_words(finding.facts(kUntil), today);
  return {.line = fmt::format("let it off until {}: first gas", until),
          .says = fmt::format("its first gas came on {}",
                              measure::day_words(finding.facts(kDay), today)),
          .why =
              "the first gas holds air and too little methane: it can explode in the holder, "
              "and burns badly",
          .action = fmt::format("let it off outdoors, use none before {}, and log vented", until)};
}

Words restart_words(const Finding& finding, const Study& study) {
  const std::string mean = study.print()(finding.facts(kMean));
  return {
      .line = fmt::format("feed little by little: warm, {}", mean),
      .says = fmt::format("resting, and warm enough again: {} is {}", window_words(study), mean),
      .action = "check it for leaks, feed it little by little, and let the first gas off"};
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
      Row{kRuleSour, sour_words},          Row{kRuleAmmonia, ammonia_words},
      Row{kRuleNitrogen, nitrogen_words},  Row{kRuleSulfide, sulfide_words},
      Row{kRuleBanned, banned_words},      Row{kRuleOverfed, overfed_words},
      Row{kRuleShort, short_words},        Row{kRuleLowGas, low_gas_words},
      Row{kRuleTrend, trend_words},        Row{kRuleStart, start_words},
      Row{kRuleFirstGas, first_gas_words}, Row{kRuleRestart, restart_words},
      Row{kRuleCheck, upkeep_words},       Row{kRuleTrap, upkeep_words},
      Row{kRuleScrubber, upkeep_words},
  };
  for (const Row& row : kRows) {
    if (row.rule == finding.rule) return row.words(finding, study);
  }
  return {};
}

std::string ban_words(Ban ban, const std::string& material, const model::Rules& rules) {
  switch (ban) {
    case Ban::kPoison:
      return material + " must not go into a digester: it poisons it or comes out on the beds";
    case Ban::kPoultry:
      return material +
             " is refused: its nitrogen turns to ammonia, which stops the gas (start the batch "
             "with poultry=yes to take it)";
    case Ban::kPoultryTaken:
      return material + " brings ammonia: little by little, and watch the pH";
    case Ban::kLimited:
      return fmt::format(
          "{} in small amounts only: with other oil and citrus no more than {} of the feed",
          material, Printer(measure::UnitSystem::kMetric)(rules(limits::limited_most)));
    case Ban::kWoody:
      return material + " does not digest: it floats, forms a crust and blocks the outlet";
    case Ban::kSettling:
      return material + " settles or blocks, and takes up the room of the slurry";
    case Ban::kAnimal:
      return material + " stinks, draws pests and may carry germs that a digester does not kill";
    case Ban::kNone:
      break;
  }
  return {};
}

std::string holder_words() {
  return "more than a gas holder or a bag stands at, a few to some tens of mbar: look at the gauge, "
         "its unit and the safety vent";
}

std::string gas_in_it_words(const Study& study) {
  return study.history().batch.code +
         " may hold gas: let it off outdoors with no flame near and log vented, stop feeding, "
         "drain "
         "it, air it for days and never lean in, and have a licensed fitter take its pipes apart; "
         "then end it";
}

std::string leak_objection_words(const Study& study) {
  return study.history().batch.code +
         " is logged as leaking: light none of its gas until that is mended";
}

}  // namespace kinds::digester
