#include "kinds/burn/says.h"

#include <algorithm>
#include <cmath>

#include "kinds/burn/facts.h"
#include "kinds/burn/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"
#include "measure/text.h"

namespace kinds::burn {
namespace {

namespace limits = thresholds::burn;
using measure::Days;
using measure::Fraction;
using model::Facts;
using model::Words;

constexpr const char* kSmokes = "it smokes, and its water takes the heat that would char it";

// "1 hour", "9 hours": whole hours; "minutes" of less than one.
std::string hours_words(double hours) {
  const auto whole = static_cast<int>(hours);
  if (whole == 0) return "minutes";
  return fmt::format("{} hour{}", whole, whole == 1 ? "" : "s");
}

std::string hours_words(measure::Number hours) {
  return hours_words(hours.value);
}

// The same where a line has room for few: "3 hours", "5 days".
std::string briefly(measure::Number hours) {
  return hours.value < 48 ? hours_words(hours) : days_words(static_cast<int>(hours.value / 24));
}

double in_hours(Days days) {
  return days.value * 24;
}

// "quenched 3 hours ago", or what is known instead.
std::string ended_words(const Facts& facts) {
  return fmt::format("{} {} ago", facts.is(kNoQuench) ? "opened" : "quenched",
                     hours_words(facts(kSinceQuench)));
}

Words lit_words(const model::Finding& finding) {
  const bool overdue = finding.case_of == kCaseOverdue;
  const measure::Number since = finding.facts(kSinceLit);
  return {.line = fmt::format("{}: lit {} ago", overdue ? "look, quench it" : "stay with it",
                              briefly(since)),
          .says = fmt::format("lit {} ago and no quench is logged", hours_words(since)),
          .action = overdue ? "go and look; quench what still burns and log quenched"
                            : "stay with it until it is quenched, then log quenched",
          .tag = "quench"};
}

Words hot_words(const Facts& facts, const measure::Printer& print) {
  const auto read = facts.get(kHottest);
  return {
      .line = read ? fmt::format("drown and stir it: still hot, {}", print(*read))
                   : "drown and stir it: still warm or smoking",
      .says = read ? fmt::format("the quenched char is still hot: {}, above {}",
                                 print.beside(*read, facts(kColdBelow)), print(facts(kColdBelow)))
                   : "the quenched char is still warm or smoking",
      .action = "drown it and stir it to the bottom, then look again"};
}

Words unseen_words(const Facts& facts) {
  const std::string ended = ended_words(facts);
  std::string says = ended + ", not yet found cold and wet";
  if (facts.is(kNoQuench)) {
    says = ended + ", no quench is logged, and not yet found cold and wet";
  } else if (facts.is(kOverdue)) {
    says = fmt::format("{} and not looked at for {}", ended, hours_words(facts(kSinceLook)));
  }
  return {.line = facts.is(kOverdue) ? fmt::format("drench and stir: not looked at for {}",
                                                   briefly(facts(kSinceLook)))
                                     : std::string("stir and feel it: not yet found cold, wet"),
          .says = std::move(says),
          .action = fmt::format("look at it every {} until it is cold and wet: stir it, feel it, "
                                "log cold and wet",
                                hours_words(facts(kEvery)))};
}

Words too_soon_words(const Facts& facts) {
  const std::string settle = hours_words(facts(kSettle));
  if (!facts.is(kOverdue)) {
    const double left = facts(kSettle).value - facts(kSinceQuench).value;
    const std::string again = hours_words(std::ceil(std::max(1.0, left)));
    return {.line = fmt::format("feel it again in {}: embers last {}", again, settle),
            .says = fmt::format("cold and wet, but {} only {} ago: embers inside can take {}",
                                facts.is(kNoQuench) ? "opened" : "quenched",
                                hours_words(facts(kSinceQuench)), settle),
            .action = fmt::format("stir it and feel it once more in {}", again)};
  }
  return {.line = "stir, feel it again: too soon to be sure",
          .says = fmt::format("last found cold and wet {} after {}, too soon to be sure: embers "
                              "inside can take {}",
                              hours_words(facts(kFoundAfter)),
                              facts.is(kNoQuench) ? "it was opened" : "the quench", settle),
          .action = "stir it to the bottom, feel it once more now, and log cold and wet"};
}

Words ember_words(const model::Finding& finding, const measure::Printer& print) {
  const Facts& facts = finding.facts;
  Words words = finding.case_of == kCaseHot      ? hot_words(facts, print)
                : finding.case_of == kCaseUnseen ? unseen_words(facts)
                : finding.case_of == kCaseTooSoon
                    ? too_soon_words(facts)
                    : Words{.line = "drench and stir: cold, not logged wet",
                            .says = "found cold, but nobody has logged that it is wet",
                            .why = "dry char can glow on unseen and takes fire from one spark",
                            .action = "wet it through, stir it and log wet"};
  if (const auto places = facts(kGoneTo); !places.empty()) {
    words.why =
        joined(words.why, fmt::format("char of it went to {} all the same: look at it there "
                                      "too",
                                      measure::listed(places, "and")));
  }
  words.tag = "embers";
  return words;
}

Words wet_words(const model::Finding& finding, const measure::Printer& print) {
  const Facts& facts = finding.facts;
  const std::string most = print(facts(kMoistureMost));
  if (finding.case_of == kCaseFelt) {
    return {.line = "do not light it, dry it: feels too wet",
            .says = "the feedstock feels too wet to burn clean",
            .why = kSmokes,
            .action = fmt::format(
                "do not light it; dry it under cover and read its moisture: at most {}", most),
            .tag = "wet feedstock"};
  }
  const Fraction now = facts(kMoistureNow), methane = facts(kMuchMethane);
  return {
      .line = fmt::format("do not light it, dry it: {}, most {}", print(now), most),
      .says = fmt::format("the feedstock is too wet to burn clean: {}, above {}",
                          print.beside(now, facts(kMoistureMost)), most),
      .why = now > methane
                 ? fmt::format("above {} a burn gives off more methane than its char makes up for",
                               print(methane))
                 : kSmokes,
      .action = "do not light it; split it, stack it under cover and read it again",
      .tag = "wet feedstock"};
}

Words ready_words(const Facts& facts, const measure::Printer& print) {
  const Fraction now = facts(kMoistureNow), best = facts(kMoistureBest);
  return {.line = fmt::format("light it on a calm day, no ban: {}", print(now)),
          .says = fmt::format("the feedstock is dry enough to light: {}, at most {}", print(now),
                              print(facts(kMoistureMost))),
          .why = now >= best
                     ? fmt::format("below {} it would give off the least methane", print(best))
                     : "",
          .action = "light it on a day with little wind and no burn ban, then log lit",
          .tag = "ready to light"};
}

Words raw_words(const Facts& facts, const Study& study) {
  const std::string place = facts(kPlace);
  const int charged = facts(kDays);
  return {
      .line = fmt::format("feed {}: char went there raw", place),
      .says = fmt::format("char went to {} on {} {}", place,
                          measure::day_words(facts(kCarriedOn), study.history().today),
                          charged == 0 ? "uncharged"
                                       : fmt::format("after charging {} of {}", charged,
                                                     study.print()(facts(kWanted)))),
      .why = "raw char ties up nutrients in the soil for most of a season",
      .action = fmt::format("give {} compost or liquid feed on top of what its crop needs", place),
      .tag = "raw char"};
}

// "28.3 ft2 to 56.5 ft2 of bed at 10 % to 5 % of the volume of the top 6 in"
std::string bed_words(const Facts& facts, const Study& study) {
  const measure::Printer print = study.print();
  const model::Rules& rules = study.rules();
  return fmt::format("{} to {} of bed at {} to {} of the volume of the top {}",
                     print(facts(kBedLeast)), print(facts(kBedMost)),
                     print(rules(limits::share_most)), print(rules(limits::share_least)),
                     print(rules(limits::share_depth)));
}

Words charged_words(const model::Finding& finding, const Study& study) {
  const Facts& facts = finding.facts;
  const std::string days = days_words(facts(kDays)), wanted = study.print()(facts(kWanted));
  if (finding.case_of == kCaseElsewhere) {
    const std::string place = facts(kPlace);
    return {.line = fmt::format("spread it from {}: charged {}", place, days),
            .says = fmt::format("the char in {} has been there {}, {} are enough: charged", place,
                                days, wanted),
            .action =
                fmt::format("carry it to beds with what else is in {}{}", place,
                            facts.is(kNoneLeft) ? "; none is left here, so this burn can end" : ""),
            .tag = "charged char"};
  }
  const std::string with = facts(kChargedWith);
  return {.line = fmt::format("mix it into the top of a bed: charged {}", days),
          .says = fmt::format("the char has charged {}{}, {} are enough: ready for beds", days,
                              with.empty() ? "" : " in " + with, wanted),
          .action = facts.has(kBedLeast)
                        ? fmt::format("mix it into the top of a bed as charged char: enough for {}",
                                      bed_words(facts, study))
                        : "mix it into the top of a bed, and log it as charged char",
          .tag = "charged char"};
}

Words dry_words(const Facts& facts, const measure::Printer& print) {
  const auto read = facts.get(kMoistureNow);
  return {.line = read ? fmt::format("water it, cover it: {}, needs {}", print(*read),
                                     print(facts(kMoistureLeast)))
                       : "water it, cover it: charging char feels dry",
          .says = read ? fmt::format("the charging char is too dry: {}, below {}",
                                     print.beside(*read, facts(kMoistureLeast)),
                                     print(facts(kMoistureLeast)))
                       : "the charging char feels dry",
          .why = "the microbes it was charged with need it moist",
          .action = "water it, cover it, and log watered",
          .tag = "dry char"};
}

Words foul_finding_words(const model::Finding& finding) {
  const std::string foul = finding.facts(kFoul);
  if (finding.case_of == kCaseAlight)
    return {
        .line = "put it out, stay upwind: toxic smoke",
        .says = fmt::format("it burns with {} in it: toxic smoke", foul),
        .action = "keep everybody upwind and put it out; call the fire service where it spreads",
        .tag = "foul fuel"};
  if (finding.case_of == kCaseLaid)
    return {.line = "do not light it: take the foul out",
            .says = fmt::format("{} lies in it", foul),
            .action =
                "take it out before anything is lit; where it may go is for the local waste "
                "authority",
            .tag = "foul fuel"};
  return {.line = "char and ash on no bed: foul fuel",
          .says = fmt::format("{} went into its fire", foul),
          .why = "its char and ash hold poisons",
          .action = "keep it wet and covered; where it may go is for the local waste authority",
          .tag = "foul char"};
}

Words indoors_words(const model::Finding& finding) {
  return {.line = "burn it outdoors: a roof holds the gas",
          .says = fmt::format("it stands in the place \"{}\"", finding.facts(kWhere)),
          .why = "carbon monoxide gathers there, has no smell and kills",
          .action =
              "carry it unlit into the open, and start it there; lit, keep everybody out and "
              "call the fire service",
          .tag = "indoors"};
}

}  // namespace

Words words_of(const model::Finding& finding, const Study& study) {
  const measure::Printer print = study.print();
  if (finding.rule == kRuleLit) return lit_words(finding);
  if (finding.rule == kRuleEmber) return ember_words(finding, print);
  if (finding.rule == kRuleBanned) return foul_finding_words(finding);
  if (finding.rule == kRuleIndoors) return indoors_words(finding);
  if (finding.rule == kRuleWet) return wet_words(finding, print);
  if (finding.rule == kRuleReady) return ready_words(finding.facts, print);
  if (finding.rule == kRuleRaw) return raw_words(finding.facts, study);
  if (finding.rule == kRuleCharged) return charged_words(finding, study);
  return dry_words(finding.facts, print);
}

std::string well_words(const Study& study) {
  const measure::Printer print = study.print();
  if (const auto days = study.days_charged(); days && !study.is_burning()) {
    const Days wanted = study.rules()(limits::charged_days);
    return Days{static_cast<double>(*days)} < wanted
               ? fmt::format("charging, {} of {}", *days, print(wanted))
               : "charged for " + days_words(*days);
  }
  if (!study.is_laid()) {
    return study.course().had_fire() && study.embers().out
               ? "cold and wet, to be crushed damp and charged"
               : study.stage();
  }
  const auto moisture = latest(study.history(), kMoisture);
  return moisture ? "laid, feedstock at " + print(Fraction{*moisture})
                  : "laid, feedstock moisture not read";
}

std::string ember_progress(const Study& study) {
  const double since = hours_between(*study.course().watched_from(), study.history().now);
  return fmt::format("{} since {}; out when found cold and wet from {} on", hours_words(since),
                     study.course().quenched ? "the quench" : "it was opened",
                     hours_words(in_hours(study.rules()(limits::ember_settle))));
}

std::string moisture_progress(const Study& study) {
  const measure::Printer print = study.print();
  const model::DayRoll* read = latest_day(study.history(), kMoisture);
  if (read == nullptr) {
    return fmt::format("feedstock moisture is not read: at most {}, below {} burns cleanest",
                       print(study.rules()(limits::wet_above)),
                       print(study.rules()(limits::wet_best)));
  }
  return fmt::format("feedstock was {}, {} ago: read it again before lighting",
                     print(Fraction{read->last}),
                     days_words(days_between(read->day, study.history().today)));
}

std::string charging_words(int days, Days wanted, const Study& study) {
  return fmt::format("{} of {} of charging", days, study.print()(wanted));
}

std::string elsewhere_words(const Elsewhere& one, const Study& study) {
  return fmt::format(
      "{} of {} in {}{}", one.days, study.print()(study.rules()(one.needs)), one.load->to,
      one.back == nullptr ? ""
                          : fmt::format(", back here on {}",
                                        measure::day_words(one.back->day, study.history().today)));
}

std::string charged_line() {
  return "char charged";
}

std::string charged_on_words(model::Day ready, const Study& study) {
  return fmt::format("charged on {} at the earliest; longer is better",
                     measure::day_words(ready, study.history().today));
}

std::string yield_words(const Study& study) {
  const measure::Printer print = study.print();
  std::string says = print(*study.account().char_dry.value) + " of dry char";
  if (const auto share = study.account().yield()) {
    says += fmt::format(", {} of the dry feedstock", print(*share));
    if (*share > study.rules()(limits::yield_most))
      says += " (more than a burn yields: check the weights)";
  }
  return says;
}

std::string balance_words(const Balance& balance, const Study& study) {
  const measure::Printer print = study.print();
  const auto mass = [](double kilograms) {
    return measure::Value{measure::Dimension::kMass, kilograms};
  };
  const auto& [low, high] = balance.net_range;
  if (high <= 0) {
    return fmt::format("its methane outweighs its char by {} of CO2",
                       print.between(mass(-high), mass(-low)));
  }
  if (low < 0) {
    return fmt::format(
        "at best {} of CO2 kept out of the air for a century once in soil; at worst its methane "
        "outweighs that by {}",
        print.roughly(mass(high)), print.roughly(mass(-low)));
  }
  return fmt::format("{} of CO2 kept out of the air for a century once in soil, net of methane",
                     print.between(mass(low), mass(high)));
}

std::string not_out_words(const Study& study) {
  const std::string& code = study.history().batch.code;
  const Course& course = study.course();
  const auto ago = [&](model::Instant at) {
    return hours_words(hours_between(at, study.history().now));
  };
  const std::string why =
      study.is_burning()
          ? fmt::format("{} was lit {} ago and no quench is logged", code, ago(*course.lit))
          : fmt::format(
                "{} was {} {} ago and is not found cold and wet {} or more after that: "
                "stir it, feel it, and 'log {} cold wet' first",
                code, course.quenched ? "quenched" : "opened", ago(*course.watched_from()),
                hours_words(in_hours(study.rules()(limits::ember_settle))), code);
  return why +
         "; char that looks out can flare up again for a day or more, so keep it outdoors on bare "
         "ground, away from buildings";
}

std::string ending_words(const Study& study) {
  return not_out_words(study) + "; drench it, stir it to the bottom, and close it when it is cold";
}

std::string foul_words(const std::string& material) {
  return material +
         " must not be burnt: its smoke is toxic and its ash hazardous; of wood only plain boards, "
         "of pallets only plain ones stamped HT";
}

std::string foul_char_words(const std::string& material) {
  return fmt::format(
      "{} went into it: its char holds poisons and goes on no bed, into no pile "
      "and to no animal",
      material);
}

std::string no_fire_words(const Study& study) {
  return fmt::format(
      "no fire and no quench of {} is on record, so nothing shows that it is out: "
      "feel that it is cold and wet to the bottom",
      study.history().batch.code);
}

}  // namespace kinds::burn
