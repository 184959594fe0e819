#include "season/trial.h"

#include <array>
#include <cassert>
#include <cmath>

namespace season {
namespace {

constexpr std::array kPlotsShown{2, 3, 4, 5, 6, 8, 10, 12, 16, 20};

std::vector<double> differences(const TrialAsk& ask) {
  std::vector<double> made;
  for (std::size_t i = 0; i < ask.treated.values.size(); ++i) {
    made.push_back(ask.treated.values[i] - ask.against.values[i]);
  }
  return made;
}

Verdict verdict_of(const Trial& trial) {
  if (trial.treated.n < 2 || trial.against.n < 2) return Verdict::kOnePlot;
  if (!trial.student) return Verdict::kNoSpread;
  if (trial.by_lots) {
    if (*trial.by_lots <= kLevel) return Verdict::kShown;
    return trial.least_p > kLevel ? Verdict::kTooFew : Verdict::kNotShown;
  }
  return trial.student->p <= kLevel ? Verdict::kShown : Verdict::kNotShown;
}

}  // namespace

Trial judge_trial(const TrialAsk& ask) {
  const auto treated = science::summary(ask.treated.values);
  const auto against = science::summary(ask.against.values);
  assert(treated && against);
  Trial trial;
  trial.treated = *treated;
  trial.against = *against;
  trial.difference = treated->mean - against->mean;
  if (against->mean > 0) trial.share = trial.difference / against->mean;
  if (ask.pairs) {
    assert(treated->n == against->n);
    const std::vector<double> apart = differences(ask);
    trial.student = science::paired(ask.treated.values, ask.against.values);
    trial.by_lots = science::swap_test(apart);
    trial.least_p = science::least_p_pairs(treated->n);
    trial.by_ranks = science::signed_rank_test(apart);
  } else {
    trial.student = science::welch(*treated, *against);
    trial.by_lots = science::permutation_test(ask.treated.values, ask.against.values);
    trial.least_p = science::least_p_apart(treated->n, against->n);
    trial.by_ranks = science::rank_sum_test(ask.treated.values, ask.against.values);
  }
  if (trial.student) {
    trial.could_see = science::findable(kChance, trial.student->degrees) * trial.student->error;
  }
  trial.verdict = verdict_of(trial);
  return trial;
}

Plan plan_trial(double worth, double spread, bool pairs) {
  Plan plan;
  plan.needed = pairs ? science::pairs_needed(worth, spread, kChance)
                      : science::plots_a_side(worth, spread, kChance);
  for (const int plots : kPlotsShown) {
    const double degrees = pairs ? plots - 1 : 2 * plots - 2;
    const double error = spread * std::sqrt((pairs ? 1.0 : 2.0) / plots);
    const double least_p =
        pairs ? science::least_p_pairs(plots) : science::least_p_apart(plots, plots);
    plan.steps.push_back({plots, science::findable(kChance, degrees) * error, least_p <= kLevel});
  }
  return plan;
}

std::vector<Lot> draw_lots(const std::vector<std::string>& plots,
                           const std::vector<std::string>& treatments, bool blocks,
                           std::uint64_t seed) {
  const std::size_t kinds = treatments.size();
  assert(kinds >= 2 && (!blocks || plots.size() % kinds == 0));
  std::vector<Lot> lots;
  if (!blocks) {
    const auto order = science::drawn_order(static_cast<int>(plots.size()), seed);
    for (const std::string& plot : plots) lots.push_back({plot, "", 0});
    for (std::size_t i = 0; i < order.size(); ++i) {
      lots[static_cast<std::size_t>(order[i])].treatment = treatments[i % kinds];
    }
    return lots;
  }
  for (std::size_t first = 0; first < plots.size(); first += kinds) {
    const std::size_t block = first / kinds + 1;
    // A seed of its own for each block, far from the others'.
    const auto order = science::drawn_order(static_cast<int>(kinds), seed * 1000003 + block);
    for (std::size_t i = 0; i < kinds; ++i) {
      lots.push_back({plots[first + i], treatments[static_cast<std::size_t>(order[i])],
                      static_cast<int>(block)});
    }
  }
  return lots;
}

}  // namespace season
