#include "kinds/pile/says.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "kinds/finding.h"
#include "kinds/pile/care.h"
#include "kinds/pile/vocabulary.h"
#include "kinds/thresholds.h"
#include "measure/text.h"

// What is said of a pile's findings.
namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using measure::Celsius;
using measure::Printer;
using model::Facts;
using model::Finding;
using model::Words;

std::string place_name(const std::string& position) {
  return position.empty() ? "an unnamed place" : position;
}

// "core 164 °F", or the temperature alone.
std::string reading_words(const Facts& facts, const Printer& print) {
  const std::string position = facts(kPosition);
  return (position.empty() ? "" : position + " ") + degrees(facts(kHottest), print);
}

std::string others_words(const std::vector<model::Part>& others, const Printer& print) {
  std::vector<std::string> names;
  for (const model::Part& one : others) {
    names.push_back(fmt::format("{} {}", place_name(one.name), print(one.amount)));
  }
  return fmt::format("; so {} {}", names.size() == 1 ? "is" : "are", measure::listed(names, "and"));
}

Words hot_words(const Finding& finding, const Study& study) {
  const Printer print = study.print();
  const Facts& facts = finding.facts;
  const std::string place = place_words(facts(kPosition)), limit = print(facts(kLimit)),
                    now = print.beside(facts(kHottest), facts(kLimit));
  const std::string read = reading_words(facts, print);
  const auto stale = facts.get(kDaysAgo);
  const bool fire = finding.case_of == kCaseFire;
  const model::Day today = study.history().today, read_on = facts(kReadOn);
  Words words;
  if (stale) {
    words.says = fmt::format("{} was too hot when it was last read, {} ago: {}, above {}", place,
                             days_words(*stale), now, limit);
  } else if (fire) {
    words.says = fmt::format("{} is at {}, where a pile can catch fire by itself ({} or more)",
                             place, now, print(facts(kFireLimit)));
  } else {
    words.says = fmt::format("{} is too hot: {}, above {}", place, now, limit);
  }
  if (!stale && read_on != today) {
    words.says += fmt::format(" (read {})", measure::day_words(read_on, today));
  }
  if (const auto others = facts.get(kAlsoHot)) words.says += others_words(*others, print);
  if (fire) {
    words.line = "keep it shut, get help: " + read;
    words.action = fmt::format(
        "keep it closed until water under pressure and a second person stand by, or the fire "
        "service does; then spread it thin, wetting as you go, away from anything that burns; no "
        "other work on it until every place reads {} or less",
        limit);
    return words;
  }
  if (facts.is(kSevere)) {
    words.why = "at this heat the microbes die back, and the days no longer count for treatment";
  }
  const std::string position = facts(kPosition);
  const std::string again = position.empty() ? "it again" : "its " + position + " again";
  if (finding.case_of == kCaseTurned) {
    words.line = fmt::format("read {}: {} before turning", again, degrees(facts(kHottest), print));
    words.action = fmt::format("it was turned since; read {}: {} or less ends this", again, limit);
  } else if (stale) {
    words.line = fmt::format("read it now: {}, {} ago", read, days_words(*stale));
    words.action = fmt::format(
        "read {} now, and turn or open it if it is still so; {} or less there ends this", again,
        limit);
  } else {
    words.line = "turn or open it: " + read;
    words.action = fmt::format("turn it or open it, water it if it is dry, and read {}", again);
  }
  return words;
}

Words moisture_words(const Finding& finding, const Study& study) {
  const Printer print = study.print();
  const Facts& facts = finding.facts;
  const bool dry = finding.rule == kRuleDry;
  const auto read = facts.get(kMoistureRead);
  Words words;
  words.line = dry ? "water it as you turn it: " : "turn in dry straw or chips: ";
  if (read) {
    words.line += print(*read) + " moisture";
    words.says = fmt::format("it is too {}: {} moisture, {} {}", dry ? "dry" : "wet", print(*read),
                             dry ? "below" : "above", print(facts(kMoistureLimit)));
  } else {
    words.line += dry ? "handful fell apart" : "handful ran";
    words.says = dry ? "a squeezed handful fell apart: it is too dry to work"
                     : "water ran from a squeezed handful: it is too wet for air to get in";
  }
  words.action =
      dry ? "water it as you turn it, until a squeezed handful holds and gives a drop"
          : "turn it with dry coarse material such as straw, leaves or chips, and keep rain off";
  return words;
}

Words smell_words(const Finding& finding, const Study&) {
  if (finding.case_of == kCaseAmmonia) {
    std::string why;
    if (const auto ratio = finding.facts.get(kRatio)) {
      why = fmt::format("what went in has a carbon to nitrogen of {}",
                        measure::print_number(ratio->value, 1));
    }
    return {"mix in dry leaves or straw: ammonia smell",
            "it smells of ammonia: it has more nitrogen than it can use, and is losing it", why, "",
            "mix in dry brown material such as leaves, straw or sawdust"};
  }
  return {fmt::format("turn it: smells {}, too little air", finding.case_of),
          fmt::format("it smells {}: it has too little air", finding.case_of), "", "",
          "turn it, with dry coarse material if it is wet"};
}

Words edge_words(const Finding& finding, const Study& study) {
  const Printer print = study.print();
  const Facts& facts = finding.facts;
  const bool heap = study.method() == Method::kByTurning;
  const std::string place = facts(kPosition);
  return {fmt::format("{}: {} {}", heap ? "turn it outside in, cover it" : "cover it",
                      place.empty() ? "outside" : place, degrees(facts(kOuter), print)),
          fmt::format("{} is {}, below the {} that {} asks for, while its warmest place is {}: {} "
                      "held back",
                      place_words(place), print(facts(kOuter)), print(facts(kLimit)),
                      facts(kTreatment), print(facts(kNow)), days_words(facts(kDaysHeld))),
          "all of it has to get hot, and the coldest place counts", "",
          heap ? "turn it outside to inside, cover it with straw or old compost, and read that "
                 "place again"
               : "cover it with straw or old compost, and read that place again"};
}

Words turn_words(const Finding& finding, const Study& study) {
  const Facts& facts = finding.facts;
  const std::string since = days_words(facts(kDaysSince));
  const bool ever = facts.is(kEverTurned);
  const std::string when = ever ? fmt::format("it was turned {} ago", since)
                                : fmt::format("it has been hot for {} and was not turned", since);
  if (finding.case_of == kCaseTurnings) {
    return {fmt::format("turn it: {} of {} turnings, {}", facts(kTurnings), facts(kTurningsWanted),
                        ever ? since + " since" : since + " hot"),
            fmt::format("{}, and {} wants {} turnings within its days: {} so far", when,
                        facts(kTreatment), facts(kTurningsWanted), facts(kTurnings)),
            "", "", "turn it, outside to inside"};
  }
  if (finding.case_of == kCaseFallen) {
    const std::string fallen = study.print().difference(facts(kFallen));
    return {"turn it: fallen " + fallen,
            fmt::format("{} and has fallen {} since its highest", when, fallen), "", "",
            "turn it to give it air, and water it if it is dry"};
  }
  return {fmt::format("turn it: {} {}", since, ever ? "since the last turning" : "hot, not turned"),
          when, "", "", "turn it"};
}

Words ready_words(const Finding& finding, const Study& study) {
  const Printer print = study.print();
  const Facts& facts = finding.facts;
  const std::string cured = days_words(facts(kCuringDays));
  if (finding.case_of == kCaseCold) {
    return {"see if it is done: lain " + cured,
            fmt::format("it has lain {}, at least {}", cured,
                        days_words(whole(study.rules()(limits::ready_cold_days)))),
            "it never heated, so it counts as raw where manure went in", "",
            "see whether what went in can still be told apart; sieve and use it if not"};
  }
  Words words{"sieve and use it: cured " + cured,
              fmt::format("it has cured {} and no longer heats up", cured), "", "",
              "sieve and use it"};
  if (const auto air = facts.get(kAirNow)) {
    words.says += fmt::format("; it is {} with the air at {}", print(facts(kNow)), print(*air));
  }
  if (const auto treatment = facts.get(kNotShown)) {
    words.why = fmt::format("{} is not shown, so keep it off crops like raw manure, if any went in",
                            *treatment);
  }
  words.tag = "compost";
  return words;
}

Words standard_words(const Finding& finding, const Study&) {
  const std::vector<std::string> unknown = finding.facts(kUnknown);
  return {
      "set its standard again: not known",
      fmt::format("its standard= names {}, which is not known", measure::listed(unknown, "and")),
      "", "", fmt::format("the known ones are {}", kKnownStandards)};
}

}  // namespace

model::Words words_of(const Finding& finding, const Study& study) {
  struct Row {
    std::string_view rule;
    Words (*words)(const Finding&, const Study&);
  };
  static constexpr std::array kRows{
      Row{kRuleHot, hot_words},           Row{kRuleHeating, heating_words},
      Row{kRuleCold, cold_words},         Row{kRuleStopped, cold_words},
      Row{kRuleEdge, edge_words},         Row{kRuleTurn, turn_words},
      Row{kRuleDry, moisture_words},      Row{kRuleSoggy, moisture_words},
      Row{kRuleSmell, smell_words},       Row{kRuleMix, mix_words},
      Row{kRuleReady, ready_words},       Row{kRuleUnready, unready_words},
      Row{kRuleStandard, standard_words},
  };
  for (const Row& row : kRows) {
    if (row.rule == finding.rule) return row.words(finding, study);
  }
  return {};
}

std::string place_words(const std::string& position) {
  return position.empty() ? "the pile" : "its " + position;
}

}  // namespace kinds::pile
