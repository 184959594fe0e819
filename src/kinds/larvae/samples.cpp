#include "kinds/larvae/samples.h"

#include <cmath>

#include "kinds/finding.h"
#include "kinds/larvae/facts.h"
#include "kinds/larvae/vocabulary.h"
#include "kinds/thresholds.h"
#include "science/animals/larvae.h"

namespace kinds::larvae {
namespace {

namespace limits = thresholds::larvae;
using measure::Kilograms;

void add_day(const model::DayRoll& roll, std::vector<Weighing>& into) {
  into.push_back({roll.day, Kilograms{roll.least}});
  if (roll.count == 1) return;
  if (roll.count > 2) {
    const double rest = roll.total - roll.least - roll.greatest;
    into.push_back({roll.day, Kilograms{rest / (roll.count - 2)}});
  }
  into.push_back({roll.day, Kilograms{roll.greatest}});
}

void mark_doubtful(std::vector<Weighing>& weighings, const model::Rules& rules) {
  const Kilograms most{rules(limits::sample_most).value / kMilligrams};
  for (Weighing& one : weighings) one.doubtful = one.mass > most || one.mass <= Kilograms{0};
  std::vector<bool> slipped(weighings.size(), false);
  for (std::size_t i = 0; i < weighings.size(); ++i) {
    std::vector<Kilograms> neighbours;
    for (std::size_t j = 0; j < weighings.size(); ++j) {
      const double apart = std::abs((weighings[j].day - weighings[i].day).count());
      if (j == i || weighings[j].doubtful || apart > rules(limits::sample_days).value) continue;
      neighbours.push_back(weighings[j].mass);
    }
    slipped[i] = science::is_far_from_neighbours(weighings[i].mass, neighbours,
                                                 rules(limits::sample_factor));
  }
  for (std::size_t i = 0; i < weighings.size(); ++i) {
    weighings[i].doubtful = weighings[i].doubtful || slipped[i];
  }
}

std::optional<Weighing> mean_of_day(const std::vector<Weighing>& weighings, model::Day day) {
  Kilograms sum;
  int count = 0;
  for (const Weighing& one : weighings) {
    if (one.day != day || one.doubtful) continue;
    sum += one.mass;
    ++count;
  }
  if (count == 0) return std::nullopt;
  return Weighing{day, sum / count};
}

}  // namespace

std::vector<Weighing> weighings_of(const model::History& history, const model::Rules& rules) {
  std::vector<Weighing> weighings;
  for (const model::DayRoll& roll : model::pooled_days(history.all(kSample))) {
    add_day(roll, weighings);
  }
  mark_doubtful(weighings, rules);
  return weighings;
}

std::optional<Weighing> last_sound(const std::vector<Weighing>& weighings) {
  for (auto one = weighings.rbegin(); one != weighings.rend(); ++one) {
    if (!one->doubtful) return mean_of_day(weighings, one->day);
  }
  return std::nullopt;
}

std::optional<Weighing> first_sound(const std::vector<Weighing>& weighings, model::Day latest) {
  for (const Weighing& one : weighings) {
    if (one.day > latest) break;
    if (!one.doubtful) return mean_of_day(weighings, one.day);
  }
  return std::nullopt;
}

std::optional<Weighing> sound_near(const std::vector<Weighing>& weighings, model::Day day,
                                   measure::Days within) {
  const Weighing* nearest = nullptr;
  const auto apart = [&](const Weighing& one) { return std::abs((one.day - day).count()); };
  for (const Weighing& one : weighings) {
    if (one.doubtful || apart(one) > within.value) continue;
    if (nearest == nullptr || apart(one) <= apart(*nearest)) nearest = &one;
  }
  return nearest == nullptr ? std::nullopt : mean_of_day(weighings, nearest->day);
}

std::optional<model::Finding> judge_samples(const model::Rules& rules,
                                            const std::vector<Weighing>& weighings) {
  const Weighing* last = nullptr;
  for (const Weighing& one : weighings) {
    if (one.doubtful) last = &one;
  }
  if (last == nullptr) return std::nullopt;
  const bool too_heavy = last->mass.value * kMilligrams > rules(limits::sample_most).value;
  model::Finding made =
      too_heavy ? finding(kRuleSample, model::Urgency::kToday, limits::sample_most, rules)
                : finding(kRuleSample, model::Urgency::kToday, limits::sample_factor, rules);
  made.case_of = too_heavy ? kCaseTooHeavy : kCaseFarOff;
  made.job = kJobWeigh;
  made.since = last->day;
  made.value = model::Measured{
      "sample", {measure::Dimension::kNumber, last->mass.value * kMilligrams}, "mg/larva"};
  made.facts.set(kWeighed, last->mass);
  made.facts.set(kOn, last->day);
  made.ends = {{.by = model::Ending::By::kReading, .name = std::string(kSample)}};
  return made;
}

}  // namespace kinds::larvae
