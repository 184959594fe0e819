#include "kinds/larvae/learn.h"

#include <cmath>

#include "kinds/finding.h"
#include "kinds/larvae/harvest.h"
#include "kinds/larvae/warmth.h"
#include "kinds/larvae/yield.h"
#include "kinds/thresholds.h"

namespace kinds::larvae {
namespace {

namespace limits = thresholds::larvae;

std::optional<double> warmth_needed(const model::History& run, const model::Rules& rules,
                                    const Diet& diet) {
  const auto ready = day_of_readiness(run, rules);
  // Harvested before enough of them had turned, they needed more than they had had.
  const auto day = ready ? ready : main_harvest(run);
  if (!day || diet_of(run.batch).word != diet.word) return std::nullopt;
  const Course course = course_of(run, rules, weighings_of(run, rules));
  if (!course.seeding_told || *day <= course.counts_from) return std::nullopt;
  const Warmth warmth = warmth_of(run, rules, course, diet, *day);
  if (!warmth.days || warmth.by_air) return std::nullopt;
  const double read = warmth.days->measured_days;
  const double share = read / days_between(course.counts_from, *day);
  if (share < rules(limits::learn_read).value) return std::nullopt;
  if (!ready && warmth.total.value <= rules(diet.constant).value) return std::nullopt;
  return warmth.total.value;
}

// One figure a finished run that has it: of this bin where any has, else of all larva bins.
template <class Figure>
std::vector<double> own_figures(const model::History& history, Figure figure) {
  std::vector<double> same, others;
  if (!history.finished) return same;
  for (const model::History& run : *history.finished) {
    if (run.batch.kind != history.batch.kind) continue;
    const std::optional<double> one = figure(run);
    if (one) (run.batch.code == history.batch.code ? same : others).push_back(*one);
  }
  return same.empty() ? others : same;
}

}  // namespace

std::optional<model::Day> main_harvest(const model::History& run) {
  const model::Day seeded = seeding_day(run);
  std::vector<std::pair<model::Day, double>> taken;
  double all = 0;
  for (const model::Movement& movement : run.out) {
    if (!is_larvae(movement) || movement.day < seeded) continue;
    taken.push_back({movement.day, movement.mass().value_or(measure::Kilograms{}).value});
    all += taken.back().second;
  }
  double out = 0;
  for (const auto& [day, mass] : taken) {
    out += mass;
    if (out >= all / 2) return day;
  }
  return std::nullopt;
}

std::optional<model::Day> day_of_readiness(const model::History& run, const model::Rules& rules) {
  const DarkShare dark = dark_share_of(run, rules);
  if (dark.reached) return dark.reached;
  if (dark.last) return std::nullopt;  // it was harvested before enough of them had turned
  return main_harvest(run);
}

Learned drawn_together(double published, double published_spread, double weight,
                       std::span<const double> own) {
  const auto runs = static_cast<double>(own.size());
  if (own.empty() || weight + runs <= 0) return {published, published_spread, 0};
  double sum = weight * published;
  for (const double one : own) sum += one;
  const double mean = sum / (weight + runs);
  double squares = weight * (published_spread * published_spread + std::pow(published - mean, 2));
  for (const double one : own) squares += std::pow(one - mean, 2);
  return {mean, std::sqrt(squares / (weight + runs)), static_cast<int>(own.size())};
}

Learned learned_constant(const model::History& history, const model::Rules& rules,
                         const Diet& diet) {
  const auto own = own_figures(
      history, [&](const model::History& run) { return warmth_needed(run, rules, diet); });
  // A standard error is that of the fit: one bin differs from the next by more.
  const double constant = rules(diet.constant).value;
  const double spread =
      std::hypot(rules(diet.error).value, constant * rules(limits::harvest_spread).value);
  return drawn_together(constant, spread, rules(limits::learn_weight).value, own);
}

Learned learned_yield(const model::History& history, const model::Rules& rules) {
  const auto own = own_figures(history, [&](const model::History& run) -> std::optional<double> {
    const auto weighings = weighings_of(run, rules);
    const Course course = course_of(run, rules, weighings);
    const auto metrics = science::metrics_as_weighed(yield_of(run, rules, course, weighings).run);
    if (!metrics.bioconversion || *metrics.bioconversion <= measure::Fraction{0})
      return std::nullopt;
    return metrics.bioconversion->value;
  });
  // The published figure comes with a range of single boxes; half of it stands for the spread.
  const double spread = (rules(limits::expect_most).value - rules(limits::expect_least).value) / 2;
  return drawn_together(rules(limits::expect_larvae).value, spread,
                        rules(limits::learn_weight).value, own);
}

}  // namespace kinds::larvae
