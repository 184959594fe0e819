#include "kinds/pile/treatment.h"

#include <fmt/format.h>

#include <algorithm>

#include "kinds/pile/standards.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"
#include "measure/printer.h"
#include "measure/text.h"
#include "science/compost/hygiene.h"

namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using date::days;

// The count begins on the first day, or anew on the day on which raw material went onto days that
// counted already: all of the material has to be treated.
void begin(Treatment& treatment, const Evidence& evidence) {
  const std::vector<GradedDay> all = graded(evidence.course, treatment.rule, evidence.course.start);
  const auto first = std::find_if(all.begin(), all.end(),
                                  [](const GradedDay& day) { return day.grade == Grade::kCounts; });
  model::Day from = evidence.course.start;
  if (first != all.end()) {
    for (const model::Movement& movement : evidence.history.in) {
      if (movement.day <= first->day || !is_raw(movement.material)) continue;
      from = movement.day;
      treatment.since = movement.day;
      treatment.since_what = movement.material.name;
    }
  }
  for (const GradedDay& day : all) {
    if (day.day >= from) treatment.days.push_back(day);
  }
}

std::string stopped_words(const Treatment& treatment, const Evidence& evidence) {
  const measure::Printer print(evidence.history.units);
  const Run& run = *treatment.window;
  std::string text =
      fmt::format("it stopped on {} with {}", measure::day_words(run.last, evidence.history.today),
                  count_words(treatment, print));
  if (treatment.tally.gaps > 0) {
    text += fmt::format("; {} had no reading", days_words(treatment.tally.gaps));
  }
  return text;
}

// Why days and turnings are not shown (yet).
void judge_days(Treatment& treatment, const Evidence& evidence) {
  const measure::Printer print(evidence.history.units);
  const Tally& count = treatment.tally;
  if (count.met) {
    treatment.outcome = Outcome::kShown;
    treatment.window = count.met;
    treatment.shown_on = count.met->last;
    return;
  }
  treatment.window = count.open ? count.open : count.best;
  treatment.outcome = evidence.history.batch.ended ? Outcome::kCannot : Outcome::kNotYet;
  treatment.earliest = count.earliest;
  if (evidence.course.days.empty()) {
    treatment.reason = "its temperature was never read";
  } else if (!treatment.window) {
    treatment.reason =
        fmt::format("no day kept {} at every position read", rule_words(treatment.rule, print));
  } else if (treatment.outcome == Outcome::kCannot) {
    treatment.reason = fmt::format("it ended with {}", count_words(treatment, print));
    if (count.gaps > 0)
      treatment.reason += fmt::format("; {} had no reading", days_words(count.gaps));
  } else if (days_between(treatment.window->last, evidence.course.until) >
             evidence.rules(limits::cured_settled).value) {
    treatment.reason = stopped_words(treatment, evidence);
    // Days that nobody read may have made up the count: no later day can tell.
    if (count.counted + count.gaps >= treatment.wanted.days && count.gaps > 0) {
      treatment.outcome = Outcome::kCannot;
    }
  } else {
    treatment.reason = count_words(treatment, print);
  }
}

void judge_ratio(Treatment& treatment, const Evidence& evidence) {
  const StartRatio ratio = start_ratio(evidence.history, evidence.rules, evidence.inputs);
  const double least = evidence.rules(limits::treat_cn_least).value;
  const double most = evidence.rules(limits::treat_cn_most).value;
  const double same = 1e-9;
  std::string why;
  if (!ratio.value) {
    why = fmt::format("its carbon to nitrogen at the start is not known ({})", ratio.why);
  } else if (ratio.value->value < least - same || ratio.value->value > most + same) {
    why = fmt::format("its carbon to nitrogen at the start was {}, outside {} to {}",
                      measure::print_number(ratio.value->value, 1), measure::print_number(least, 1),
                      measure::print_number(most, 1));
  } else {
    return;
  }
  // While it is being built, what is recorded of the mix is not all of it.
  if (treatment.outcome == Outcome::kNotYet && treatment.tally.counted == 0) {
    treatment.reason += "; so far " + why;
    return;
  }
  if (treatment.outcome == Outcome::kShown) why += "; the days and turnings are there";
  treatment.outcome = Outcome::kCannot;
  treatment.reason = why;
  treatment.shown_on.reset();
  treatment.earliest.reset();
}

void judge_curing(Treatment& treatment, const Evidence& evidence) {
  if (treatment.outcome != Outcome::kShown) return;
  if (evidence.cured) {
    treatment.followed_by = "cured since";
    return;
  }
  treatment.outcome = evidence.history.batch.ended ? Outcome::kCannot : Outcome::kNotYet;
  treatment.reason =
      fmt::format("the heat is shown ({}); curing has to follow: {}",
                  measure::day_words(*treatment.shown_on, evidence.history.today), evidence.curing);
  treatment.shown_on.reset();
}

}  // namespace

std::string_view words(Outcome outcome) {
  switch (outcome) {
    case Outcome::kShown:
      return "shown";
    case Outcome::kNotYet:
      return "not yet";
    case Outcome::kCannot:
      return "cannot be shown from these records";
  }
  return "not yet";
}

std::vector<Standard> standards_of(const model::Batch& batch, std::vector<std::string>* unknown) {
  std::vector<Standard> asked;
  std::string text = measure::folded(batch.text("standard", "nop"));
  std::replace(text.begin(), text.end(), ',', '+');
  std::replace(text.begin(), text.end(), ' ', '+');
  for (const std::string& word : measure::split(text, '+')) {
    if (word.empty() || word == "none") continue;
    const auto standard = standard_named(word);
    if (!standard) {
      if (unknown != nullptr) unknown->push_back(word);
    } else if (std::find(asked.begin(), asked.end(), *standard) == asked.end()) {
      asked.push_back(*standard);
    }
  }
  return asked;
}

Treatment treat(Standard standard, const Evidence& evidence) {
  const Method method = method_of(evidence.history.batch);
  Treatment treatment = asked_by(standard, method, evidence.history, evidence.rules);
  if (method == Method::kCold) {
    treatment.outcome = Outcome::kCannot;
    treatment.reason = "it is made cold, and the text asks for heat";
    return treatment;
  }
  begin(treatment, evidence);
  treatment.tally = tally(treatment.days, evidence.course, treatment.wanted);
  judge_days(treatment, evidence);
  if (standard == Standard::kNop) judge_ratio(treatment, evidence);
  if (standard == Standard::kFsma) judge_curing(treatment, evidence);
  if (standard == Standard::kPsrp) judge_four_hours(treatment, evidence);
  if (standard == Standard::kVector) judge_average(treatment, evidence);
  tell_other_reading(treatment, evidence, method);
  return treatment;
}

std::string rule_words(const DayRule& rule, const measure::Printer& print) {
  const std::string from = print(measure::Celsius{rule.from});
  if (!rule.upto) return rule.above ? "above " + from : from + " or more";
  return fmt::format("{} to {}", from.substr(0, from.find(' ')),
                     print(measure::Celsius{*rule.upto}));
}

std::string count_words(const Treatment& treatment, const measure::Printer& print) {
  const Run run = treatment.window.value_or(Run{});
  std::string text =
      fmt::format("{} of {} days{} {}{}", run.days, treatment.wanted.days,
                  treatment.wanted.in_a_row ? " in a row" : "", treatment.rule.above ? "" : "at ",
                  rule_words(treatment.rule, print));
  if (treatment.wanted.turnings > 0) {
    text += fmt::format(", {} of {} turnings", run.turnings, treatment.wanted.turnings);
  }
  if (!treatment.followed_by.empty()) text += ", " + treatment.followed_by;
  return text;
}

measure::Number time_temperature(const Course& course) {
  std::vector<science::HeldAt> held;
  for (const DaySeen& day : course.days) {
    held.push_back({measure::Celsius{day.coldest().least}, science::Hours{24}});
  }
  return science::treatment_fraction(held, science::HeatRegime::SolidsFrom7Percent)
      .value_or(measure::Number{0});
}

}  // namespace kinds::pile
