#include "kinds/larvae/says.h"

#include <fmt/format.h>

#include "kinds/finding.h"
#include "kinds/larvae/facts.h"
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

std::string milligrams(measure::Number amount) {
  return Printer::labelled(amount.value, "mg");
}

std::string day(const Finding& one, OnDay fact, const Study& study) {
  return measure::day_words(one.facts(fact), study.history().today);
}

// Both signs of ripeness, that which came first in front.
std::string ripe_words(const Study& study) {
  const Readiness& readiness = study.readiness();
  const std::string by_warmth = fmt::format("by warmth, {}", of_constant(study));
  const std::string by_dark =
      study.dark().last ? fmt::format("by their dark share, {} from {} on", dark_words(study),
                                      study.print()(study.rules()(limits::harvest_dark)))
                        : "";
  if (!readiness.by_dark) return by_warmth;
  if (!readiness.by_warmth) return by_dark;
  return *readiness.by_dark <= *readiness.by_warmth ? by_dark + ", and " + by_warmth
                                                    : by_warmth + ", and " + by_dark;
}

// What a reader must know to trust the number or not.
std::string doubt_words(const Study& study) {
  std::string words;
  if (study.readiness().by_warmth) {
    words = filled_words(study);
    if (!study.diet().told) words = joined(words, "diet not given, taken as rich");
    if (study.dark().last && !study.readiness().by_dark)
      words = joined(words, fmt::format("but only {}", dark_words(study)));
    const Learned& own = study.learned();
    if (own.runs > 0 && own.value > study.warmth().total.value) {
      words = joined(words, fmt::format("this site's own runs point to {}",
                                        study.print()(measure::DegreeDays{own.value})));
    }
  }
  if (const auto& ordeal = study.ordeal()) {
    words = joined(words, fmt::format("but {}: first see whether they are alive",
                                      ordeal_words(*ordeal, study)));
  }
  return words;
}

Words ready_words(const Finding& one, const Study& study) {
  const std::string sign =
      one.case_of == kCaseByDark
          ? study.print()(measure::Fraction{study.dark().last->value}) + " dark"
          : of_constant(study);
  Words words{.line = "harvest the larvae: " + sign,
              .says = "the larvae are ready to harvest " + ripe_words(study),
              .why = doubt_words(study),
              .action =
                  "stop feeding, let the bin dry for a day, sieve out the larvae and log them "
                  "with take"};
  if (one.facts.has(kHarvestSince)) {
    const std::string since = day(one, kHarvestSince, study);
    words.line = fmt::format("end it once empty: harvest since {}", since);
    words.action = fmt::format("harvesting since {}: end the batch once the bin is empty", since);
  } else if (one.facts.is(kMayBeDead)) {
    words.line = fmt::format("harvest if they live: {}", sign);
  }
  if (const auto feeds = one.facts.get(kFeeds)) {
    words.caution =
        fmt::format("It was fed {}: {} these larvae from animals.", measure::listed(*feeds, "and"),
                    law_keeps_words(law_of(study.history().batch, kLaw)));
  }
  return words;
}

Words harvest_finding(const Finding& one, const Study& study) {
  if (one.case_of == kCaseNear) {
    return {.line = fmt::format("feed less: harvest near, {}", of_constant(study)),
            .says = fmt::format("close to harvest: {}", of_constant(study)),
            .why = filled_words(study),
            .action = "give no more feed than they eat by then, and see how many are dark"};
  }
  if (one.case_of == kCaseUnread) {
    const std::string ago = days_words(one.facts(kDays));
    return {.line = fmt::format("see how many are dark: seeded {} ago", ago),
            .says = fmt::format("seeded {} ago, and neither its temperature nor its dark share "
                                "was read: it may be ready",
                                ago),
            .action = "see how many are dark and log it, like dark=30%"};
  }
  return ready_words(one, study);
}

// "its core", "it", "the bin (by the air plus 2.7 °F)"
std::string where_words(const Finding& one, const Study& study) {
  if (one.facts.is(kByAir)) {
    return fmt::format("the bin (by the air plus {})",
                       study.print().difference(study.rules()(limits::air_offset)));
  }
  const std::string position = one.facts(kPosition);
  return position.empty() ? "it" : "its " + position;
}

// "core 104 °F"
std::string briefly(const Finding& one, const Study& study) {
  const std::string place = one.facts.is(kByAir) ? "by the air" : one.facts(kPosition);
  return (place.empty() ? "" : place + " ") + study.print()(one.facts(kRead));
}

Words hot_words(const Finding& one, const Study& study) {
  const Printer print = study.print();
  const model::Rules& rules = study.rules();
  const bool deadly = one.case_of == kCaseDeadly;
  return {.line = fmt::format("{}: {}", deadly ? "cool it, larvae die" : "shade it and stir it",
                              briefly(one, study)),
          .says = fmt::format("{} is too hot: {}, above {}", where_words(one, study),
                              print.beside(one.facts(kRead), rules(limits::hot_above)),
                              print(rules(limits::hot_above))),
          .why = deadly ? fmt::format("larvae die from {} on", print(rules(limits::hot_lethal)))
                        : "larvae crawl off, and few that stay live to become flies; heat makes "
                          "no harvest sooner",
          .action =
              "shade it, stir it and spread it thinner to let the heat out, give it air, and do "
              "not feed until it has cooled"};
}

Words heating_words(const Finding& one, const Study& study) {
  const Printer print = study.print();
  const std::string limit = print(study.rules()(limits::hot_above));
  if (one.case_of == kCaseTomorrow) {
    const std::string high = print(one.facts(kRead));
    return {.line = fmt::format("shade it, thin the feed: {} tomorrow", high),
            .says = fmt::format("each day has been hotter: about {} tomorrow if it goes on, above "
                                "{}",
                                high, limit),
            .action = "shade it and thin the feed today"};
  }
  const int hours = one.facts(kHours);
  return {.line = fmt::format("shade it: {}, too hot in {} hours", briefly(one, study), hours),
          .says = fmt::format("{} is at {} and rising: above {} in about {} hours if it goes on",
                              where_words(one, study), print(one.facts(kRead)), limit, hours),
          .action = "shade it and give it air before the afternoon, and feed in the evening"};
}

Words cold_words(const Finding& one, const Study& study) {
  const Printer print = study.print();
  const std::string where = where_words(one, study), at = print(one.facts(kRead));
  if (one.case_of == kCaseFrost) {
    return {.line = fmt::format("bring it in or wrap it: {}", briefly(one, study)),
            .says = fmt::format("{} is near frost: {}, {} or less", where, at,
                                print(study.rules()(limits::cold_harm))),
            .why = "eggs and small larvae die within days, large ones stand it for a while",
            .action = "bring it in or wrap it now; no feed"};
  }
  if (one.case_of == kCaseStill) {
    return {
        .line = fmt::format("warm it or let it rest: {}", briefly(one, study)),
        .says = fmt::format("{} is too cold: {}, at or below {} larvae lie still and stop growing",
                            where, at, print(study.rules()(study.diet().from))),
        .action = "warm or wrap it, or let it rest; no feed, which would only rot"};
  }
  return {.line = fmt::format("wrap it and feed little: {}", briefly(one, study)),
          .says = fmt::format("{} is cold: {}, below {} larvae hardly feed", where,
                              print.beside(one.facts(kRead), study.rules()(limits::cold_below)),
                              print(study.rules()(limits::cold_below))),
          .action = "wrap or warm it, and feed little"};
}

Words survival_words(const Study& study) {
  const Ordeal& ordeal = *study.ordeal();
  return {.line = fmt::format("look if they live: {} on {}", study.print()(ordeal.worst),
                              measure::day_words(ordeal.day, study.history().today)),
          .says = ordeal_words(ordeal, study) + ", and nobody has logged larvae since",
          .why = "the warmth counted since means nothing if they are dead or gone",
          .action =
              "stir the bin and look: log a sample or a dark share if they live, correct the "
              "reading if the probe was off (amend), else end the bin and seed it again"};
}

Words hungry_words(const Finding& one, const Study& study) {
  const auto& facts = one.facts;
  const Printer print = study.print();
  if (one.rule == kRuleEmpty) {
    const std::string last = day(one, kOn, study), meal = print(facts(kAppetite));
    return {.line = fmt::format("feed about {}: last fed {}", meal, last),
            .says = fmt::format("last fed {}, and that is eaten by now if they eat as usual", last),
            .action = fmt::format("see how much is left, and feed about {}", meal)};
  }
  const std::string days = days_words(facts(kDays));
  if (one.case_of == kCaseNoFeed) {
    return {.line = fmt::format("look and feed: none logged in {}", days),
            .says = fmt::format("no feed logged in the last {}", days),
            .action = "see whether anything is left, and feed"};
  }
  const std::string meal = print(facts(kAppetite)), given = print(facts(kGiven));
  return {.line = fmt::format("feed {} a day: had {} in {}", meal, given, days),
          .says = fmt::format("too little feed: {} in {}, {} a larva a day, below {}", given, days,
                              milligrams(facts(kEach)), milligrams(facts(kEachLimit))),
          .why = count_words(study.course()),
          .action = fmt::format("feed about {} a day", meal)};
}

Words overfed_words(const Finding& one, const Study& study) {
  const auto& facts = one.facts;
  const Printer print = study.print();
  const std::string given = fmt::format("{} in {}", print(facts(kGiven)), days_words(facts(kDays)));
  Words words{.line = "feed no more for now: " + given,
              .says = {},
              .action = "wait until the last feed is eaten, take out what smells, and stir air in"};
  if (one.case_of == kCaseByLarva) {
    words.says = fmt::format("too much feed: {}, {} a larva a day, above {}", given,
                             milligrams(facts(kEach)), milligrams(facts(kEachLimit)));
    words.why = count_words(study.course());
  } else {
    words.says = fmt::format("too much feed for its area: {} on {}, more than {} a day", given,
                             print(facts(kOnArea)), print(facts(kMost)));
  }
  return words;
}

}  // namespace

Words words_of(const Finding& one, const Study& study) {
  const auto& rule = one.rule;
  if (rule == kRuleHarvest) return harvest_finding(one, study);
  if (rule == kRuleHot) return hot_words(one, study);
  if (rule == kRuleHeating) return heating_words(one, study);
  if (rule == kRuleCold) return cold_words(one, study);
  if (rule == kRuleSurvival) return survival_words(study);
  if (rule == kRuleUnderfed || rule == kRuleEmpty) return hungry_words(one, study);
  if (rule == kRuleOverfed) return overfed_words(one, study);
  return care_words_of(one, study);
}

}  // namespace kinds::larvae
