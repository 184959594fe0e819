#include <fmt/format.h>

#include "kinds/finding.h"
#include "kinds/larvae/facts.h"
#include "kinds/larvae/says.h"
#include "kinds/larvae/study.h"
#include "kinds/larvae/vocabulary.h"
#include "kinds/thresholds.h"
#include "measure/text.h"

namespace kinds::larvae {
namespace {

namespace limits = thresholds::larvae;
using measure::Printer;
using model::Finding;
using model::Words;

std::string minutes(measure::Days time) {
  return measure::print_number(time.value * 24 * 60, 1);
}

std::string day_of(const Finding& one, OnDay fact, const Study& study) {
  return measure::day_words(one.facts(fact), study.history().today);
}

std::string moisture_words(const Finding& one, std::string_view what, std::string_view side,
                           const Study& study) {
  const Printer print = study.print();
  if (const auto felt = one.facts.get(kByHand))
    return fmt::format("it was found {} by hand", *felt);
  return fmt::format("it is too {}: {} moisture, {} {}", what, print(one.facts(kMoist)), side,
                     print(one.facts(kMoistLimit)));
}

// "40 % moisture", "dry by hand"
std::string moisture_briefly(const Finding& one, const Study& study) {
  if (const auto felt = one.facts.get(kByHand)) return *felt + " by hand";
  return study.print()(one.facts(kMoist)) + " moisture";
}

Words dry_words(const Finding& one, const Study& study) {
  const bool stops = one.case_of == kCaseStops;
  return {.line = "spray water on: " + moisture_briefly(one, study),
          .says = moisture_words(one, "dry", stops ? "at or below" : "below", study),
          .why = stops ? "larvae do not develop in it" : "larvae grow slower and stay smaller",
          .action = "add wet feed or spray water on until a squeezed handful holds together"};
}

Words wet_words(const Finding& one, const Study& study) {
  const bool sieve = one.case_of == kCaseSieve;
  const std::string now = moisture_briefly(one, study);
  return {.line = (sieve ? "dry it to sieve: " : "drain it, mix in dry bran: ") + now,
          .says = moisture_words(one, "wet", "above", study),
          .why = sieve ? "it will not sieve" : "it turns airless and larvae climb out",
          .action = sieve
                        ? "stop wet feed, open it to the air and stir in dry coir or bran"
                        : "let it drain, stir in dry bran, coir or shredded cardboard, feed drier"};
}

Words meter_words(const Finding& one, const Study& study) {
  const std::string read = study.print()(one.facts(kMoist)), days = days_words(one.facts(kDays));
  return {.line = fmt::format("squeeze a handful: meter {} for {}", read, days),
          .says = fmt::format("moisture was read as {} on {} in a row", read, days),
          .why = "a fed bin hardly stays the same: the meter, or a value copied from before",
          .action = "squeeze a handful and read it again elsewhere in the bin"};
}

Words smell_words(const Finding& one) {
  const std::string smelt = one.facts(kSmelt);
  const std::string smells = "it smells " + (smelt == kAmmonia.word ? "of " + smelt : smelt);
  if (smelt == kAmmonia.word) {
    return {.line = "mix in dry bran and stir: " + smells,
            .says = smells,
            .why = "more protein than they eat, or a wet bin",
            .action = "leave out meat and manure, mix in dry bran or coir, stir"};
  }
  if (smelt == kRotten.word) {
    return {.line = "take out what rots: " + smells,
            .says = smells,
            .why = "feed lies airless and uneaten",
            .action = "take out what rots, stir, and hold off feeding"};
  }
  return {.line = "hold the feed and stir: " + smells,
          .says = smells,
          .why = "feed ferments faster than it is eaten",
          .action = "hold the feed and stir"};
}

Words flies_words(const Finding& one) {
  const std::string counted = measure::print_number(one.facts(kCounted).value, 0);
  return {.line = fmt::format("bury or cover the feed: {} other flies", counted),
          .says = fmt::format("{} other flies counted, more than {}", counted,
                              measure::print_number(one.facts(kCountLimit).value, 0)),
          .action = "bury fresh feed under the old or cover it, and feed less at a time"};
}

Words renewal_words(const Finding& one) {
  const bool bedding = one.rule == kRuleBedding;
  const std::string age = days_words(one.facts(kDays));
  return {.line = fmt::format("{}: {} old", bedding ? "renew the bedding" : "hang fresh cardboard",
                              age),
          .says = fmt::format("the {} is {} old, renewed every {}",
                              bedding ? "bedding" : "cardboard for the eggs", age,
                              days_words(one.facts(kLongest))),
          .action = bedding ? "renew it, and log bedded"
                            : "hang up fresh corrugated cardboard, and log carded"};
}

Words sample_words(const Finding& one, const Study& study) {
  const std::string mass = larva_words(one.facts(kWeighed));
  const double most = study.rules()(limits::sample_most).value;
  return {.line = fmt::format("weigh again: {} a larva cannot be", mass),
          .says = fmt::format("a sample of {} a larva ({}) cannot be right", mass,
                              day_of(one, kOn, study)),
          .why = one.case_of == kCaseTooHeavy
                     ? fmt::format("no larva weighs more than {}", Printer::labelled(most, "mg"))
                     : "it is far from the weighings near it, like a slipped decimal point",
          .action = "weigh again and amend it; until then it is left out"};
}

Words record_words(const Finding& one, const Study& study) {
  const auto& facts = one.facts;
  if (one.case_of == kCaseBeforeSeeding) {
    return {.line = "amend a day: larvae out before the seeding",
            .says = fmt::format("{} {} went out on {}, before the seeding on {}", facts(kTyped),
                                facts(kMaterial), day_of(one, kOn, study),
                                day_of(one, kSeededOn, study)),
            .action = "amend the day of one of them; until then that harvest is left out"};
  }
  const std::string out = study.print()(facts(kTaken));
  return {.line = fmt::format("log the missing feed: {} of larvae out", out),
          .says = fmt::format("{} of larvae came out of {} of feed, more than is possible", out,
                              study.print()(facts(kGiven))),
          .action = "look for a feed that was not logged, or a slip in a weight, and amend it"};
}

Words frass_words(const Finding& one, const Study& study) {
  const Printer print = study.print();
  const model::Rules& rules = study.rules();
  const std::string heat = print(rules(limits::frass_heat));
  const std::string held = minutes(rules(limits::frass_held));
  Words words{
      .line = "heat the frass that is sold: not logged",
      .says = "frass went out, and no heating of it is logged",
      .why = fmt::format("the EU asks for {} for {} minutes, and few dead insects, before frass is "
                         "sold",
                         heat, held),
      .action = "heat it and log frass_heat and frass_held; hold it back until then"};
  if (one.case_of == kCaseTooCool) {
    const std::string at = print.beside(one.facts(kRead), rules(limits::frass_heat));
    words.line = fmt::format("heat the frass again: {}, not {}", at, heat);
    words.says = fmt::format("frass was heated to {}, below {}", at, heat);
  } else if (one.case_of == kCaseTooShort) {
    const std::string time = minutes(one.facts(kHeld));
    words.line = fmt::format("hold the frass hot: {} of {} minutes", time, held);
    words.says = fmt::format("frass was held hot for {} minutes, less than {}", time, held);
  } else if (one.case_of == kCaseDeadWeight || one.case_of == kCaseDeadVolume) {
    const bool weight = one.case_of == kCaseDeadWeight;
    const std::string share =
        print.beside(one.facts(kDeadShare),
                     weight ? rules(limits::frass_dead_weight) : rules(limits::frass_dead_volume));
    words.line = fmt::format("sieve the frass again: {} dead insects", share);
    words.says = fmt::format(
        "{} of the frass is dead insects by {}, more than {}", share, weight ? "weight" : "volume",
        print(weight ? rules(limits::frass_dead_weight) : rules(limits::frass_dead_volume)));
  }
  return words;
}

Words dried_words(const Finding& one, const Study& study) {
  const Printer print = study.print();
  const std::string water = print.beside(one.facts(kMoist), study.rules()(limits::dried_moisture));
  return {.line = fmt::format("dry the larvae further: {} water", water),
          .says = fmt::format("the dried larvae hold {} water, more than {}", water,
                              print(study.rules()(limits::dried_moisture))),
          .action = "dry them further before they are sold as feed"};
}

Words banned_words(const Finding& one, const Study& study) {
  const auto feeds = one.facts(kFeeds);
  const std::string to = one.facts(kTo);
  // A site's own name for it may be long.
  constexpr std::size_t kLongest = 46;
  const std::string line = fmt::format("feed hens no more of them: fed {}", feeds.front());
  return {.line = line.size() <= kLongest ? line : "feed hens no more of them: fed what is banned",
          .says = fmt::format("larvae {} from a bin that was fed {}",
                              to.empty() ? "left the site" : "went to " + to,
                              measure::listed(feeds, "and")),
          .why = law_keeps_words(law_of(study.history().batch, kLaw)) + " such larvae from animals",
          .action = "feed no more of them, and ask your veterinary or feed authority"};
}

}  // namespace

Words care_words_of(const Finding& one, const Study& study) {
  const auto& rule = one.rule;
  if (rule == kRuleDry) return dry_words(one, study);
  if (rule == kRuleWet) return wet_words(one, study);
  if (rule == kRuleMeter) return meter_words(one, study);
  if (rule == kRuleSmell) return smell_words(one);
  if (rule == kRuleFlies) return flies_words(one);
  if (rule == kRuleBedding || rule == kRuleCardboard) return renewal_words(one);
  if (rule == kRuleSample) return sample_words(one, study);
  if (rule == kRuleRecord) return record_words(one, study);
  if (rule == kRuleFrass) return frass_words(one, study);
  if (rule == kRuleDried) return dried_words(one, study);
  return banned_words(one, study);
}

}  // namespace kinds::larvae
