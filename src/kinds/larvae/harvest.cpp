#include "kinds/larvae/harvest.h"

#include <algorithm>

#include "kinds/finding.h"
#include "kinds/larvae/learn.h"
#include "kinds/thresholds.h"

namespace kinds::larvae {
namespace {

namespace limits = thresholds::larvae;
using measure::DegreeDays;
using measure::Fraction;
using model::Urgency;

constexpr std::string_view kHarvestAction =
    "stop feeding, let the bin dry for a day, sieve out the larvae and log them with take";

std::string dark_words(const model::History& history, const DarkShare& dark) {
  return fmt::format("{} dark on {}", measure::Printer(history.units)(Fraction{dark.last->value}),
                     measure::day_words(*dark.last_day, history.today));
}

// Both shares of the sentence, that which came first in front.
std::string ready_words(const model::History& history, const model::Rules& rules,
                        const Warmth& warmth, const DarkShare& dark, const Readiness& readiness) {
  const measure::Printer print(history.units);
  const std::string by_warmth = fmt::format("by warmth, {}", of_constant(warmth, print));
  const std::string by_dark =
      dark.last ? fmt::format("by their dark share, {} from {} on", dark_words(history, dark),
                              print(rules(limits::harvest_dark)))
                : "";
  if (!readiness.by_dark) return by_warmth;
  if (!readiness.by_warmth) return by_dark;
  return *readiness.by_dark <= *readiness.by_warmth ? by_dark + ", and " + by_warmth
                                                    : by_warmth + ", and " + by_dark;
}

// What a reader must know to trust the number or not.
std::string doubts(const model::History& history, const model::Rules& rules, const Diet& diet,
                   const Warmth& warmth, const DarkShare& dark, const Readiness& readiness) {
  const measure::Printer print(history.units);
  std::string words;
  if (readiness.by_warmth) {
    words = filled_words(warmth, rules, print);
    if (!diet.told) words = joined(words, "diet not told, taken as rich");
    if (dark.last && !readiness.by_dark) {
      words = joined(words, fmt::format("but only {}", dark_words(history, dark)));
    }
    const Learned own = learned_constant(history, rules, diet);
    if (own.runs > 0 && own.value > warmth.total.value) {
      words = joined(words,
                     fmt::format("this site's own runs point to {}", print(DegreeDays{own.value})));
    }
  }
  return words;
}

bool is_late(const model::Rules& rules, const Diet& diet, const Warmth& warmth,
             const DarkShare& dark, const Readiness& readiness) {
  if (dark.last && Fraction{dark.last->value} >= rules(limits::harvest_dark_late)) return true;
  return readiness.by_warmth && warmth.total >= rules(diet.constant) + rules(diet.error);
}

void add_progress(const model::History& history, const model::Rules& rules, const Course& course,
                  const Diet& diet, const Warmth& warmth, const DarkShare& dark,
                  model::Assessment& into) {
  const measure::Printer print(history.units);
  if (!warmth.days) {
    into.progress.push_back({"harvest",
                             fmt::format("no temperature read since {}, so its warmth is not known",
                                         course.from_eggs ? "the hatch" : "seeding"),
                             std::nullopt});
    return;
  }
  std::string says = fmt::format("{} of warmth, {} feed{}", of_constant(warmth, print), diet.word,
                                 diet.told ? "" : " (diet not told)");
  if (course.age) says += ", with the warmth before seeding";
  says = joined(says, filled_words(warmth, rules, print));
  if (!course.seeding_told) says = joined(says, "seeding not logged, counted from the start");
  if (course.seeded_again) says = joined(says, "seeded more than once, counted from the first");
  if (dark.last) {
    says = joined(says, fmt::format("{} of {}", dark_words(history, dark),
                                    print(rules(limits::harvest_dark))));
  }
  into.progress.push_back(progress("harvest", warmth.total.value, warmth.constant.value, says));
}

// A finding of what was read of it, or none. Where nothing was, time alone asks for a look.
std::optional<model::Told> look_inside(const model::History& history, const model::Rules& rules,
                                       const Course& course, const Warmth& warmth,
                                       const DarkShare& dark) {
  const int days = days_between(course.seeded, history.today);
  if (warmth.days || dark.last || days < rules(limits::harvest_look).value) return std::nullopt;
  model::Told made = finding("larvae.harvest", Urgency::kToday, limits::harvest_look, rules);
  made.value =
      model::Measured{"time since seeding", measure::value_of(measure::Days{1.0 * days}), ""};
  made.words.says = fmt::format(
      "seeded {} ago, and neither its temperature nor its dark share was read: it may "
      "be ready",
      days_words(days));
  made.words.action = "look how many are dark and log it, like dark=30%";
  return made;
}

}  // namespace

DarkShare dark_share_of(const model::History& history, const model::Rules& rules) {
  DarkShare dark;
  const model::Day seeded = seeding_day(history);
  for (const model::DayRoll& roll : model::pooled_days(history.all("dark"))) {
    if (roll.day < seeded) continue;
    dark.last = model::Reading{roll.last_at, roll.last};
    dark.last_day = roll.day;
    if (!dark.reached && Fraction{roll.last} >= rules(limits::harvest_dark))
      dark.reached = roll.day;
  }
  dark.stands = dark.last && Fraction{dark.last->value} >= rules(limits::harvest_dark);
  return dark;
}

std::optional<model::Day> first_harvest(const model::History& history, model::Day from) {
  for (const model::Movement& movement : history.out) {
    if (is_larvae(movement) && movement.day >= from) return movement.day;
  }
  return std::nullopt;
}

Readiness judge_harvest(const model::History& history, const model::Rules& rules,
                        const Course& course, const Diet& diet, const Warmth& warmth,
                        const std::string& banned, const std::string& ordeal,
                        model::Assessment& into) {
  const DarkShare dark = dark_share_of(history, rules);
  const Readiness readiness{warmth.reached, dark.stands ? dark.reached : std::nullopt};
  add_progress(history, rules, course, diet, warmth, dark, into);
  if (!readiness.ready()) {
    if (auto made = look_inside(history, rules, course, warmth, dark))
      into.findings.push_back(*made);
    return readiness;
  }
  const bool dark_first = readiness.since() == readiness.by_dark;
  // A handful taken before is no harvest: most larvae are still in there.
  const auto begun = first_harvest(history, *readiness.since());
  const Urgency urgency =
      !begun && is_late(rules, diet, warmth, dark, readiness) ? Urgency::kToday : Urgency::kReady;
  model::Told made = dark_first ? finding("larvae.harvest", urgency, limits::harvest_dark, rules)
                                : finding("larvae.harvest", urgency, diet.constant, rules);
  made.value = dark_first
                   ? model::Measured{"dark", {measure::Dimension::kFraction, dark.last->value}, ""}
                   : model::Measured{"warmth", measure::value_of(warmth.total), ""};
  made.words.says =
      "the larvae are ready to harvest " + ready_words(history, rules, warmth, dark, readiness);
  made.words.why = doubts(history, rules, diet, warmth, dark, readiness);
  if (!ordeal.empty())
    made.words.why = joined(made.words.why, "but " + ordeal + ": look first whether they live");
  made.words.action = begun
                          ? fmt::format("harvesting since {}: end the batch once the bin is empty",
                                        measure::day_words(*begun, history.today))
                          : std::string(kHarvestAction);
  made.words.caution = banned;
  into.findings.push_back(std::move(made));
  return readiness;
}

}  // namespace kinds::larvae
