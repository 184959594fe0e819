#include "kinds/brew/says.h"

#include <cmath>

#include "kinds/brew/care.h"
#include "kinds/brew/facts.h"
#include "kinds/brew/study.h"
#include "kinds/brew/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"

namespace kinds::brew {
namespace {

namespace limits = thresholds::brew;
using model::Finding;
using model::Words;

// "dairy manure of unproven treatment"; "effluent, which came from dairy manure"
std::string raw_words(const Raw& raw) {
  if (raw.sort == Raw::Sort::kUnknown)
    return "something not on record: treated as raw manure until it is logged";
  if (!raw.came_from.empty())
    return fmt::format("{}, which came from {}", raw.material, raw.came_from);
  return raw.material + (raw.unproven ? " of unproven treatment" : "");
}

// Hours of a few, days of more: nobody counts 376 hours.
std::string hours_words(measure::Days time) {
  constexpr double kCountedInHours = 3;
  if (time.value >= kCountedInHours) return days_words(static_cast<int>(time.value));
  return fmt::format("{:.0f} hours", time.value * 24);
}

// "21 days", "36 hours": the time that it needs.
std::string wanted_words(const Clock& clock) {
  return fmt::format("{} {}",
                     measure::print_number(clock.wanted.value * (clock.in_hours() ? 24 : 1), 1),
                     clock.in_hours() ? "hours" : "days");
}

// "11.2 of 21 days at 68 °F"; an aerated brew in hours.
std::string done_words(const Study& study) {
  const Clock& clock = study.clock();
  // Rounded down: "21 of 21 days" is said of a brew that has them.
  const double done = std::floor(clock.equivalent.value * (clock.in_hours() ? 24 : 1) * 10) / 10;
  return fmt::format("{} of {} at {}", measure::print_number(done, 1), wanted_words(clock),
                     study.print()(study.rules()(limits::ready_at)));
}

std::string to_go_words(const Clock& clock) {
  if (clock.in_hours())
    return fmt::format("about {} hours to go", std::ceil(clock.left->value * 24));
  return fmt::format("about {} to go", days_words(static_cast<int>(std::ceil(clock.left->value))));
}

Words ready_words(const Finding& finding, const Study& study) {
  const auto& facts = finding.facts;
  const model::Day today = study.history().today;
  const std::string from =
      facts(kRestartBy).empty() ? "it was filled" : facts(kRestartBy) + " went in";
  const std::string full_on = measure::day_words(facts(kFullOn), today);
  Words words{.line = fmt::format("thin it 1 to {} water: ready {}",
                                  measure::print_number(facts(kWaterParts).value, 1), full_on),
              .says = fmt::format(
                  "finished {}: {} at {}, {} after {}", full_on, wanted_words(study.clock()),
                  study.print()(study.rules()(limits::ready_at)), days_words(facts(kTook)), from),
              .why = source_words(study),
              .action = (facts.is(kToStrain) ? "strain it; use " : "use ") + dilution_words(study)};
  words.tag = "brew 1 to " + measure::print_number(facts(kWaterParts).value, 1);
  if (facts.is(kStillLively)) words.why += "; still bubbling long after its time";
  if (const auto& raw = study.contents().raw) words.why += "; it holds " + raw_words(*raw);
  return words;
}

Words vent_words(const Finding& finding, const Study& study) {
  const std::string days = days_words(finding.facts(kDays));
  // Who opens it to stir it, at the same time, lets the gas off first.
  return {.line = fmt::format("vent it slowly{}: sealed {}", judge_stir(study) ? ", then stir" : "",
                              days),
          .says = fmt::format("not vented for {}; {} is the limit", days,
                              days_words(finding.facts(kLongest))),
          .why = "a sealed drum builds gas until its lid gives",
          .action = "loosen the lid slowly, let the gas out and log vented"};
}

Words stir_words(const Finding& finding) {
  const std::string days = days_words(finding.facts(kDays));
  return {.line = fmt::format("stir it to the bottom: not for {}", days),
          .says = fmt::format("not stirred for {}", days),
          .action = "push what floats under, stir it to the bottom and log stirred"};
}

Words open_words(const Finding& finding) {
  if (finding.case_of == kCaseNoAir) {
    const std::string hours = hours_words(finding.facts(kWithoutAir));
    return {
        .line = fmt::format("log air, or keep off leaves: {} none", hours),
        .says = fmt::format("left standing: no air logged for {}", hours),
        .why =
            "without air an aerated brew turns within hours, and what then grows does not belong "
            "on leaves",
        .action =
            "if the pump has run, log aerated; if not, pour it on bare soil or on a pile that is "
            "not in treatment, not on leaves"};
  }
  const std::string days = days_words(finding.facts(kDays));
  return {.line = fmt::format("put the lid on: open {}", days),
          .says = fmt::format("opened {} ago and not logged closed", days),
          .why = "an open drum loses nitrogen as ammonia, and flies breed in it",
          .action = "put the lid on and log closed"};
}

Words old_words(const Finding& finding) {
  const std::string days = days_words(finding.facts(kDays));
  return {.line = fmt::format("use it up on soil: ready {}", days),
          .says = fmt::format("ready for {}, above {}", days, days_words(finding.facts(kLongest))),
          .why = "its nitrogen goes off as ammonia, and what it still holds is not known",
          .action = "use it up on soil, pour it on a pile, or have it analysed"};
}

Words smell_words(const Finding& finding) {
  const std::string smelt = finding.facts(kSmelt);
  const std::string smells = "it smells " + (smelt == kAmmonia.word ? "of " + smelt : smelt);
  if (finding.case_of == kCaseNoAir) {
    return {.line = fmt::format("give it air: {}", smells),
            .says = smells,
            .why = "an aerated brew that had air enough smells of earth",
            .action = "give it air; pour it on a pile rather than on leaves or on a crop"};
  }
  if (finding.case_of == kCaseAmmonia) {
    return {.line = fmt::format("keep it closed: {}", smells),
            .says = smells,
            .why = "that is nitrogen leaving",
            .action = finding.facts.is(kFull) ? "keep it closed, thin it well and use it soon"
                                              : "keep it closed"};
  }
  return {.line = "leave it closed: time up, still rotten",
          .says = "its time is up and it still smells rotten",
          .why = "proteins are still breaking down, or meat or fat went in",
          .action =
              "leave it closed until the smell eases; soil only, well thinned, not near the house"};
}

Words alkaline_words(const Finding& finding, const measure::Printer& print) {
  const std::string ph = print(finding.facts(kPhNow));
  return {.line = fmt::format("keep off, put on no crop: {}", ph),
          .says = fmt::format("it stands at {}, above {}", ph, print(finding.limit->value)),
          .why = "lye, lime or ash is in it, or ammonia comes off it",
          .action =
              "keep it shut and off every crop; read its pH again in some days, and pour it "
              "on a pile once it is below",
          .tag = "pH"};
}

Words manure_words(const Finding& finding, const Raw& raw) {
  const std::string holds = raw_words(raw);
  if (finding.case_of == kCaseLeaf) {
    return {.line = "soil only: made for leaves, holds manure",
            .says = fmt::format("made for leaves, but it holds {}", holds),
            .action = "use it in the soil only, and brew the leaf feed from plants alone"};
  }
  const int loads = finding.facts(kLoads);
  return {
      .line = "amend the load: it was manure brew",
      .says = fmt::format("{} taken as a brew without manure, but it holds {}",
                          loads == 1 ? "a load was" : fmt::format("{} loads were", loads), holds),
      .action = "amend the entry: it is manure brew, and whoever got it should know"};
}

}  // namespace

Words words_of(const Finding& finding, const Study& study) {
  if (finding.rule == kRuleReady) return ready_words(finding, study);
  if (finding.rule == kRuleVent) return vent_words(finding, study);
  if (finding.rule == kRuleStir) return stir_words(finding);
  if (finding.rule == kRuleOpen) return open_words(finding);
  if (finding.rule == kRuleOld) return old_words(finding);
  if (finding.rule == kRuleSmell) return smell_words(finding);
  if (finding.rule == kRuleAlkaline) return alkaline_words(finding, study.print());
  return manure_words(finding, *study.contents().raw);
}

std::string source_words(const Study& study) {
  const Clock& clock = study.clock();
  if (clock.thermometer == Thermometer::kNone) {
    return fmt::format("no temperature was read, so each day counts as one at {}",
                       study.print()(study.rules()(limits::ready_assumed)));
  }
  std::string words = fmt::format("{} of {} read", clock.measured, days_words(clock.counted()));
  if (clock.thermometer == Thermometer::kAirBeside)
    words += " in the air beside it, not in the drum";
  if (clock.interpolated > 0) words += fmt::format(", {} filled in between", clock.interpolated);
  if (clock.carried > 0) words += fmt::format(", {} taken as the nearest", clock.carried);
  return words;
}

std::string how_far_words(const Study& study) {
  const Clock& clock = study.clock();
  if (!clock.full()) return done_words(study) + (clock.left ? ", " + to_go_words(clock) : "");
  return fmt::format("finished {}, {} at {}{}",
                     measure::day_words(clock.full_day(), study.history().today),
                     wanted_words(clock), study.print()(study.rules()(limits::ready_at)),
                     study.waits_until() ? ", but still bubbling" : "");
}

std::string left_words(const Study& study) {
  const Clock& clock = study.clock();
  if (clock.full()) return study.waits_until() ? "time up, still bubbling" : "ready";
  return clock.left ? to_go_words(clock) : "at a standstill, too cold";
}

std::string brewing_words(const Study& study) {
  const Clock& clock = study.clock();
  const auto day = [&](model::Day of) { return measure::day_words(of, study.history().today); };
  std::string says = how_far_words(study);
  if (const auto until = study.waits_until()) {
    says += fmt::format("; ready when that slows, or on {}", day(*until));
  } else if (!clock.full() && !clock.left) {
    says += fmt::format("; at {} it stands still", study.print()(clock.expected));
  }
  if (!clock.restart_by.empty()) {
    says += fmt::format("; counted from {}, when {} went in", day(clock.from), clock.restart_by);
  }
  return says + (clock.days > 0 ? "; " + source_words(study) : "");
}

std::string ready_line() {
  return "brew ready to use";
}

std::string foreseen_words(const ReadyDays& days, const Study& study) {
  const model::Forecast foreseen{"", days.earliest, days.likely, days.latest, ""};
  return fmt::format(
      "{}, if it stays near {}, give or take {}{}",
      kinds::foreseen_words(foreseen, study.history().today), study.print()(study.clock().expected),
      study.print().difference(study.rules()(limits::forecast_spread)),
      study.clock().thermometer == Thermometer::kNone ? "; a guess, no temperature was read" : "");
}

std::string because_words(const Raw& raw) {
  switch (raw.sort) {
    case Raw::Sort::kManure:
      return fmt::format("the drum is made of it (base={}), and brewing does not kill its germs",
                         raw.material);
    case Raw::Sort::kAnimal:
      return fmt::format(
          "the drum is made of it (base={}), and untreated animal matter counts like raw manure "
          "(21 CFR 112.3)",
          raw.material);
    case Raw::Sort::kUnknown:
      break;
  }
  return "nothing says what went in, so it counts as raw manure until that is logged";
}

std::string on_leaves_words(const Study& study) {
  return study.contents().raw
             ? "what may hold raw manure or animal matter never goes on leaves: pour it on the "
               "soil, without 'spray' in what it is for"
             : "it is not ready, and goes on no leaves: pour it on the soil of what is not eaten "
               "raw, or wait";
}

std::string ending_words() {
  return "it is sealed and still building gas, and nobody is reminded once it is closed: vent it "
         "slowly, outdoors, no flame; leave the lid loose, log opened, then end it";
}

std::string adding_words(BadIn bad, const model::Material& material) {
  const std::string& name = material.name;
  switch (bad) {
    case BadIn::kForbidden:
      return name + " must not go into a brew: it would reach the beds with it";
    case BadIn::kRawForLeaves:
      return fmt::format("this brew is made for leaves, and {} {} raw manure", name,
                         is_raw_animal(material) ? "is untreated animal matter, which counts like"
                         : material.is(kFlagUnproven)
                             ? "is not shown to be treated, so it counts as"
                             : "is");
    case BadIn::kRaw:
      return fmt::format(
          "with {} in it the brew counts as raw manure: soil only, and the harvest waits", name);
    case BadIn::kRawAnimal:
      return fmt::format(
          "{} is untreated animal matter: the brew counts like raw manure, soil only, and the "
          "harvest waits; a pile takes it better{}",
          name, material.is(kFlagSalty) ? "; it brings salt: read the EC" : "");
    case BadIn::kFeedsGerms:
      return name + " feeds harmful germs as well: such a brew is tested before it goes on a crop";
    case BadIn::kRancid:
      return name + " turns rancid in a brew and draws pests; a pile takes it better";
    case BadIn::kSalty:
      return name + " brings salt: read the EC before you pour it";
    case BadIn::kDiseased:
      return name + " may carry disease to the next bed: a brew does not heat";
  }
  return "";
}

std::string taking_words(NotFit unfit, const Study& study) {
  switch (unfit) {
    case NotFit::kNoAir:
      return fmt::format(
          "no air was logged for {}: if the pump was off, it is for a pile or bare soil, not for "
          "leaves or "
          "a crop",
          hours_words(time_without_air(study.history(), study.rules()).value_or(measure::Days{})));
    case NotFit::kEarly:
      return fmt::format(
          "not ready yet: {}; it feeds less than a ready one, and its acids can harm young plants: "
          "wait, "
          "or pour it on a pile. What it brings is counted as if it were ready",
          how_far_words(study));
    case NotFit::kSugarInIt:
      return "sugar or molasses went into it, which feeds harmful germs as well: such a brew is "
             "tested "
             "before it goes on a crop";
    case NotFit::kFoul:
      return is_aerated(study.history().batch)
                 ? "it smells like a brew short of air: for a pile or bare soil, not for leaves "
                   "or a crop"
                 : "it still smells rotten: soil only, not on leaves, not near the house";
    case NotFit::kStillBubbling:
      return "not ready yet: its time is up but it is still bubbling. What it brings is counted as "
             "if it were ready";
  }
  return "";
}

}  // namespace kinds::brew
