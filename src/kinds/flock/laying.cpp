#include "kinds/flock/laying.h"

#include "kinds/flock/days.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"
#include "science/animals/hens.h"

namespace kinds::flock {
namespace {

namespace limits = thresholds::flock;
using measure::Days;
using measure::Fraction;
using measure::Number;
using model::Urgency;

// A span of whole days that ends before today, as today's eggs are not all laid yet.
Eggs eggs_before(const model::History& history, const model::Rules& rules, int skipped, int days) {
  const model::Day to = history.today - date::days{skipped + 1};
  const model::Day from = std::max(history.batch.started_day, to - date::days{days - 1});
  return eggs_between(history, rules, from, to);
}

std::optional<Fraction> rate_of(const Eggs& eggs) {
  if (!eggs.hen_days) return std::nullopt;
  return science::laying_rate(eggs.laid, *eggs.hen_days);
}

// What the records show that makes hens lay less, that which they support best in front.
std::string reasons(const model::History& history, const model::Rules& rules,
                    const std::string& short_of) {
  std::string words;
  if (!short_of.empty()) words = "the records show too little " + short_of;
  const model::Sensed* condition = history.last_sensed("condition");
  if (condition != nullptr && condition->word != "well" &&
      days_between(condition->day, history.today) <= rules(limits::told_days).value) {
    words += fmt::format("{}hens were seen {}", words.empty() ? "" : "; ", condition->word);
  }
  return words.empty() ? "nothing on record explains it" : words;
}

void say_rate(const Eggs& eggs, std::optional<Fraction> rate, const measure::Printer& print,
              model::Assessment& into) {
  std::string says = fmt::format("{} eggs in {}", measure::print_number(eggs.laid.value, 0),
                                 days_words(eggs.by_movements ? eggs.span : eggs.days));
  if (eggs.by_movements) says += " by what went out";
  says += rate ? fmt::format(", {} a hen-day", print(*rate)) : ", number of hens not told";
  into.progress.push_back({"laying", says, rate ? std::optional(rate->value) : std::nullopt});
}

}  // namespace

void judge_laying(const model::History& history, const model::Rules& rules,
                  const std::string& short_of, model::Assessment& into) {
  const measure::Printer print(history.units);
  const int days = full_days(rules(limits::laying_days));
  const int before_days = full_days(rules(limits::laying_before));
  const Eggs now = eggs_before(history, rules, 0, days);
  const auto rate = rate_of(now);
  if (now.days > 0) say_rate(now, rate, print, into);
  const Eggs before = eggs_before(history, rules, days, before_days);
  const auto rate_before = rate_of(before);
  const double least = rules(limits::laying_counted).value;
  if (!rate || !rate_before || now.days < least || before.days < least) return;
  if (*rate_before <= Fraction{0}) return;
  const Fraction fall{1 - *rate / *rate_before};
  const Fraction rounding{1e-9};
  if (fall + rounding < rules(limits::laying_fall)) return;
  model::Told made = finding("flock.laying", Urgency::kToday, limits::laying_fall, rules);
  made.value = model::Measured{"fall", measure::value_of(fall), ""};
  made.words.says =
      fmt::format("laying fell by {}: {} a hen-day over {}, {} over {} before", print(fall),
                  print(*rate), days_words(days), print(*rate_before), days_words(before_days));
  made.words.why = reasons(history, rules, short_of);
  made.words.action =
      "look for empty feeders and water, moult, heat, mites, broody hens, short days, and eggs "
      "laid away or eaten";
  into.findings.push_back(std::move(made));
}

void judge_counts(const model::History& history, const model::Rules& rules,
                  model::Assessment& into) {
  const auto birds = birds_on(history, history.today);
  if (!birds) {
    into.progress.push_back({"hens",
                             "number not told: log it, like birds=8; no rate is known without it",
                             std::nullopt});
    return;
  }
  const Eggs eggs = eggs_before(history, rules, 0, full_days(rules(limits::laying_days)));
  const auto rate = rate_of(eggs);
  if (eggs.by_movements || !rate || *rate <= Fraction{1}) return;
  model::Told made = finding("flock.record", Urgency::kToday, "the records themselves");
  made.value = model::Measured{"laying", measure::value_of(*rate), ""};
  made.words.says = fmt::format("{} eggs in {} from {} hens: more than one a hen a day",
                          measure::print_number(eggs.laid.value, 0), days_words(eggs.days),
                          measure::print_number(birds->value, 0));
  made.words.action = "count the birds, and look for a day's eggs that were logged twice";
  into.findings.push_back(std::move(made));
}

}  // namespace kinds::flock
