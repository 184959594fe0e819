#include "kinds/pile/treatment.h"

#include <algorithm>

#include "kinds/finding.h"
#include "kinds/pile/standards.h"
#include "kinds/thresholds.h"
#include "measure/text.h"
#include "science/compost/hygiene.h"

namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using date::days;

struct Kept {
  model::Day from;  // the first day that still counts
  int days = 0;
};

// Two piles laid together are treated as far as the less treated one: of the days up to then, the
// latest ones, as many as both had with no more turnings among them.
Kept kept_of(const std::vector<GradedDay>& all, const Course& course, model::Day from,
             const model::Movement& load) {
  Kept kept{load.day};
  if (!load.treated) return kept;
  for (auto day = all.rbegin(); day != all.rend(); ++day) {
    if (day->day >= load.day || day->grade != Grade::kCounts) continue;
    const bool more = kept.days == load.treated->days ||
                      course.turnings_between(day->day, load.day) > load.treated->turnings;
    if (more || day->day < from) break;
    kept = {day->day, kept.days + 1};
  }
  return kept;
}

// The count begins on the first day, or anew on the day on which raw material went onto days that
// counted already: all of the material has to be treated.
void begin(Treatment& treatment, const Evidence& evidence) {
  const std::vector<GradedDay> all = graded(evidence.course, treatment.rule, evidence.course.start);
  const auto first = std::find_if(all.begin(), all.end(),
                                  [](const GradedDay& day) { return day.grade == Grade::kCounts; });
  model::Day from = evidence.course.start;
  if (first != all.end()) {
    for (const model::Movement& movement : evidence.history.in) {
      if (movement.day < first->day || !is_raw(movement.material)) continue;
      const bool known = treatment.standard == Standard::kNop && movement.treated;
      if (known && movement.treated->done) continue;
      const Kept kept = known ? kept_of(all, evidence.course, from, movement) : Kept{};
      if (kept.days > 0) {
        from = kept.from;
        treatment.since = movement.day;
        treatment.since_what = movement.material.name;
        continue;
      }
      // What was read before the addition says nothing of what was added.
      const DaySeen* seen = evidence.course.on(movement.day);
      const bool read_since =
          seen == nullptr ||
          std::any_of(seen->positions.begin(), seen->positions.end(),
                      [&](const PositionDay& one) { return one.last_at > movement.at; });
      if (movement.day == first->day && read_since) continue;
      from = movement.day + days{read_since ? 0 : 1};
      treatment.since = movement.day;
      treatment.since_what = movement.material.name;
    }
  }
  for (const GradedDay& day : all) {
    if (day.day >= from) treatment.days.push_back(day);
  }
}

// The texts for static piles speak of aerated ones, and of all the material. A passive heap shows
// neither by its core: an outer place was read too, or the heap was turned between heats, each long
// enough.
bool asks_of_static(Standard standard, Method method) {
  return method == Method::kStatic && standard != Standard::kPsrp && standard != Standard::kVector;
}

void hold_back_core_only(Treatment& treatment, const Course& course) {
  int row = 0;
  bool heated = false, turned_since = false;
  for (GradedDay& day : treatment.days) {
    turned_since = turned_since || (heated && course.turnings_between(day.day, day.day) > 0);
    if (day.grade == Grade::kCounts) {
      ++row;
    } else if (day.grade != Grade::kGap) {
      row = 0;
    }
    heated = heated || row >= treatment.wanted.days;
    if (day.grade == Grade::kCounts && !turned_since && !course.on(day.day)->outside()) {
      day.grade = Grade::kCoreOnly;
    }
  }
}

void judge_static(Treatment& treatment, const Evidence& evidence) {
  if (treatment.why == NotShown::kNoDay &&
      std::any_of(treatment.days.begin(), treatment.days.end(),
                  [](const GradedDay& day) { return day.grade == Grade::kCoreOnly; })) {
    treatment.why = NotShown::kCoreOnly;
  }
  if (treatment.outcome != Outcome::kShown ||
      is_aerated(evidence.history, evidence.rules, *treatment.shown_on)) {
    return;
  }
  treatment.outcome = evidence.history.batch.ended ? Outcome::kCannot : Outcome::kNotYet;
  treatment.why = NotShown::kNoAir;
  treatment.shown_on.reset();
}

// Whether days and turnings are there, and else why not (yet).
void judge_days(Treatment& treatment, const Evidence& evidence) {
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
    treatment.why = NotShown::kNeverRead;
  } else if (!treatment.window) {
    treatment.why = NotShown::kNoDay;
  } else if (treatment.outcome == Outcome::kCannot) {
    treatment.why = NotShown::kEnded;
  } else if (days_between(treatment.window->last, evidence.course.until) >
             evidence.rules(limits::cured_settled).value) {
    treatment.why = NotShown::kStopped;
    // Days that nobody read may have made up the count: no later day can tell.
    if (count.counted + count.gaps >= treatment.wanted.days && count.gaps > 0) {
      treatment.outcome = Outcome::kCannot;
    }
  } else {
    treatment.why = NotShown::kCounting;
  }
}

void judge_ratio(Treatment& treatment, const Evidence& evidence) {
  const StartRatio ratio = start_ratio(evidence.history, evidence.rules, evidence.inputs);
  const double least = evidence.rules(limits::treat_cn_least).value;
  const double most = evidence.rules(limits::treat_cn_most).value;
  const double same = 1e-9;
  if (ratio.value && ratio.value->value >= least - same && ratio.value->value <= most + same)
    return;
  treatment.bad_ratio = ratio;
  // While it is being built, what is recorded of the mix is not all of it.
  if (treatment.outcome == Outcome::kNotYet && treatment.tally.counted == 0) return;
  treatment.outcome = Outcome::kCannot;
  treatment.why = NotShown::kBadRatio;
  treatment.shown_on.reset();
  treatment.earliest.reset();
}

void judge_curing(Treatment& treatment, const Evidence& evidence) {
  if (treatment.outcome != Outcome::kShown) return;
  treatment.cured_since = evidence.cured;
  if (evidence.cured) return;
  treatment.outcome = evidence.history.batch.ended ? Outcome::kCannot : Outcome::kNotYet;
  treatment.why = NotShown::kCuring;
  treatment.shown_on.reset();
}

}  // namespace

int kept_by(const model::Movement& load, const Treatment& nop, const Course& course) {
  return kept_of(nop.days, course, course.start, load).days;
}

std::vector<Standard> standards_of(const model::Batch& batch, std::vector<std::string>* unknown) {
  std::vector<Standard> asked;
  std::string text = measure::folded(batch.text(kStandard, kStandard.otherwise));
  std::replace(text.begin(), text.end(), ',', '+');
  std::replace(text.begin(), text.end(), ' ', '+');
  for (const std::string& word : measure::split(text, '+')) {
    if (word.empty() || word == kStandardNone) continue;
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
  Treatment treatment = asked_by(standard, method, evidence.rules);
  if (method == Method::kCold) {
    treatment.outcome = Outcome::kCannot;
    treatment.why = NotShown::kMadeCold;
    return treatment;
  }
  begin(treatment, evidence);
  const bool as_static = asks_of_static(standard, method);
  if (as_static) hold_back_core_only(treatment, evidence.course);
  treatment.tally = tally(treatment.days, evidence.course, treatment.wanted);
  judge_days(treatment, evidence);
  if (as_static) judge_static(treatment, evidence);
  if (standard == Standard::kNop) judge_ratio(treatment, evidence);
  if (standard == Standard::kFsma) judge_curing(treatment, evidence);
  if (standard == Standard::kPsrp) judge_four_hours(treatment, evidence);
  if (standard == Standard::kVector) judge_average(treatment, evidence);
  treatment.other_reading = other_reading(treatment, evidence, method);
  return treatment;
}

bool is_aerated(const model::History& history, const model::Rules& rules, model::Day until) {
  if (history.batch.text(kAeration, kAeration.otherwise) != kAerationNone) return true;
  for (const model::Deed& deed : history.deeds) {
    if (kAerated.word == deed.word && deed.day <= until) return true;
  }
  for (const model::Series* series : history.all(kOxygen)) {
    if (measure::Fraction{series->last->value} >= rules(limits::cold_oxygen)) return true;
  }
  return false;
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
