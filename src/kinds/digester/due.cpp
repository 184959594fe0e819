#include "kinds/digester/due.h"

#include "kinds/finding.h"
#include "kinds/thresholds.h"
#include "science/gas/digestion_gas.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Days;
using measure::Kilograms;
using science::NormalLitres;
using science::NormalLitresPerKilogram;

// What was fed lately, as one feed.
struct MeanFeed {
  Kilograms volatile_solids, of_manure, of_pigs;
  NormalLitres potential;
};

MeanFeed mean_feed(const model::History& history, const Feed& feed) {
  MeanFeed mean;
  for (const Load& load : feed.loads) {
    if (!load.volatile_solids || days_between(load.day, history.today) >= feed.window.value) {
      continue;
    }
    mean.volatile_solids += *load.volatile_solids;
    mean.potential += NormalLitres{load.potential.value * load.volatile_solids->value};
    if (load.manure) mean.of_manure += *load.volatile_solids;
    if (load.of_pigs) mean.of_pigs += *load.volatile_solids;
  }
  return mean;
}

std::optional<science::ChenHashimotoYield> stirred_yield(const model::History& history,
                                                         const model::Rules& rules,
                                                         const Feed& feed, const Warmth& warmth) {
  if (!warmth.mean || !feed.retention || !feed.loading) return std::nullopt;
  const MeanFeed mean = mean_feed(history, feed);
  if (!(mean.volatile_solids > Kilograms{0}) ||
      mean.of_manure < mean.volatile_solids * rules(limits::due_manure).value) {
    return std::nullopt;
  }
  // Loading is what enters a cubic metre in a day, and stays for so many days.
  const science::KilogramsPerCubicMetre entering{feed.loading->value * feed.retention->value};
  const auto manure =
      mean.of_pigs * 2 > mean.of_manure ? science::Manure::swine : science::Manure::cattle;
  const auto k = science::chen_hashimoto_k(manure, entering);
  if (!k) return std::nullopt;
  const NormalLitresPerKilogram potential{mean.potential.value / mean.volatile_solids.value};
  return science::chen_hashimoto(potential, entering, *k, *feed.retention, *warmth.mean);
}

}  // namespace

std::optional<GasDue> gas_due(const model::History& history, const model::Rules& rules,
                              const Feed& feed, const Warmth& warmth,
                              const std::optional<Expected>& expected) {
  if (!expected) return std::nullopt;
  const date::days window{static_cast<int>(rules(limits::lowgas_window).value)};
  const auto by_loads = expected->mean(history.today - window, history.today);
  if (!by_loads) return std::nullopt;
  const double doubt = rules(limits::gas_doubt).value;
  // Below its working temperature a digester may give a fraction of what is reckoned.
  const bool cold = warmth.mean && *warmth.mean < rules(limits::cold_below);
  const double doubt_down = cold ? rules(limits::gas_doubt_cold).value : doubt;
  GasDue due{*by_loads, *by_loads * (1 - doubt_down), *by_loads * (1 + doubt), std::nullopt, false};
  if (const auto stirred = stirred_yield(history, rules, feed, warmth)) {
    // m3 of methane a m3 of digester a day, times its litres, are litres of methane.
    const double methane = stirred->volume_rate.value * feed.working_volume->value;
    due.stirred = NormalLitres{methane / methane_share(history, rules).value};
    due.washed_out = stirred->washed_out;
  }
  return due;
}

}  // namespace kinds::digester
