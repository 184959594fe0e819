#include "kinds/larvae/survival.h"

#include <fmt/format.h>

#include <algorithm>

#include "kinds/finding.h"
#include "kinds/thresholds.h"

namespace kinds::larvae {
namespace {

namespace limits = thresholds::larvae;
using measure::Celsius;
using model::Urgency;

// The day on which somebody last saw that they live: weighed some, looked how many are dark, took
// some out or put in others.
model::Day last_seen(const model::History& history, const Course& course) {
  model::Day seen = course.seeded_again.value_or(course.seeded);
  for (const char* quantity : {"sample", "dark"}) {
    for (const model::DayRoll& roll : model::pooled_days(history.all(quantity))) {
      if (roll.greatest > 0) seen = std::max(seen, roll.day);
    }
  }
  for (const model::Movement& out : history.out) {
    if (is_larvae(out)) seen = std::max(seen, out.day);
  }
  return seen;
}

auto limit_of(Ordeal::Of of) {
  switch (of) {
    case Ordeal::Of::kDeadly:
      return limits::hot_lethal;
    case Ordeal::Of::kFled:
      return limits::hot_above;
    case Ordeal::Of::kFrost:
      return limits::cold_harm;
  }
  return limits::hot_lethal;
}

void note(std::optional<Ordeal>& worst, Ordeal::Of of, const model::DayRoll& roll, Celsius value) {
  if (worst && worst->of < of) return;
  if (!worst || of < worst->of) worst = Ordeal{of, roll.day, 0, value};
  worst->day = roll.day;
  ++worst->days;
  worst->worst =
      of == Ordeal::Of::kFrost ? std::min(worst->worst, value) : std::max(worst->worst, value);
}

}  // namespace

std::optional<Ordeal> ordeal_of(const model::History& history, const model::Rules& rules,
                                const Course& course) {
  const model::Day seen = last_seen(history, course);
  std::optional<Ordeal> worst;
  for (const model::DayRoll& roll : model::pooled_days(history.all("temperature"))) {
    if (roll.day < seen || roll.day > last_day(history)) continue;
    const Celsius high{roll.greatest}, mean{roll.mean()};
    if (high >= rules(limits::hot_lethal)) {
      note(worst, Ordeal::Of::kDeadly, roll, high);
    } else if (mean > rules(limits::hot_above)) {
      note(worst, Ordeal::Of::kFled, roll, high);
    } else if (mean <= rules(limits::cold_harm) && roll.day < course.nursery_until) {
      note(worst, Ordeal::Of::kFrost, roll, mean);
    }
  }
  return worst;
}

std::string ordeal_words(const Ordeal& ordeal, const model::History& history,
                         const model::Rules& rules) {
  const measure::Printer print(history.units);
  const std::string limit = print(rules(limit_of(ordeal.of)));
  std::string text = fmt::format(
      "it was {} on {}, {}", print(ordeal.worst), measure::day_words(ordeal.day, history.today),
      ordeal.of == Ordeal::Of::kDeadly ? fmt::format("at or above {}, where larvae die", limit)
      : ordeal.of == Ordeal::Of::kFled
          ? fmt::format("above {} all day, where larvae crawl off and few live on", limit)
          : fmt::format("at or below {}, where eggs and young larvae die within days", limit));
  if (ordeal.days > 1) text += fmt::format(" (so on {})", days_words(ordeal.days));
  return text;
}

void judge_survival(const model::History& history, const model::Rules& rules,
                    const std::optional<Ordeal>& ordeal, model::Assessment& into) {
  if (!ordeal) return;
  const bool lasts = std::any_of(
      into.findings.begin(), into.findings.end(),
      [](const model::Told& one) { return one.rule == "larvae.hot" || one.rule == "larvae.cold"; });
  if (lasts) return;
  model::Told made = finding("larvae.survival", Urgency::kToday, limit_of(ordeal->of), rules);
  made.limit->quantity = "temperature";
  made.value = model::Measured{"temperature", measure::value_of(ordeal->worst), ""};
  made.words.says = ordeal_words(*ordeal, history, rules) + ", and nobody has logged larvae since";
  made.words.why = "the warmth counted since is worth nothing if they are dead or gone";
  made.words.action =
      "stir the bin and look: log a sample or a dark share if they live, correct the reading if "
      "the probe was off (amend), else end the bin and seed it anew";
  into.findings.push_back(std::move(made));
}

}  // namespace kinds::larvae
