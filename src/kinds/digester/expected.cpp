#include "kinds/digester/expected.h"

#include <algorithm>
#include <cmath>

#include "kinds/digester/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"
#include "science/gas/digestion_gas.h"
#include "science/gas/temperature_rate.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Celsius;
using measure::Days;
using measure::Kelvins;
using measure::Kilograms;
using model::Day;
using science::NormalLitres;

// How many days after its own a load still gives gas: while it stays, and no longer than is looked
// back.
int gas_days(const Load& load, const model::Rules& rules) {
  const int lookback = full_days(rules(limits::gas_lookback));
  return load.leaves ? std::min(days_between(load.day, *load.leaves), lookback) : lookback;
}

std::optional<std::vector<Celsius>> temperatures(const model::History& history, Day first) {
  std::vector<std::optional<Celsius>> means(
      static_cast<std::size_t>(days_between(first, history.today)) + 1);
  for (const model::DayRoll& roll : model::pooled_days(history.all(kTemperature))) {
    if (roll.day < first || roll.day > history.today) continue;
    means[static_cast<std::size_t>(days_between(first, roll.day))] = Celsius{roll.mean()};
  }
  const auto filled = science::fill_daily_temperatures(means);
  if (!filled) return std::nullopt;
  return filled->days;
}

// Feeding on as lately pushes out more of what is in.
void foresee_leaving(const model::History& history, const Feed& feed, std::vector<Load>& loads) {
  if (!feed.retention) return;
  for (Load& load : loads) {
    if (load.leaves) continue;
    const double days = *feed.retention * (1 - load.behind / *feed.working_volume) / Days{1};
    load.leaves = history.today + date::days{static_cast<int>(std::ceil(days))};
  }
}

// The loads of the last days once more, spread evenly over the coming ones.
std::vector<Load> loads_ahead(const model::History& history, const Feed& feed, int days_ahead) {
  std::vector<Load> ahead;
  if (!(feed.window.value > 0)) return ahead;
  for (const Load& load : feed.loads) {
    if (days_between(load.day, history.today) >= feed.window.value || !load.volatile_solids)
      continue;
    for (int day = 1; day <= days_ahead; ++day) {
      Load again = load;
      again.day = history.today + date::days{day};
      again.leaves.reset();
      again.volatile_solids = *load.volatile_solids / feed.window.value;
      ahead.push_back(again);
    }
  }
  return ahead;
}

// What one load gives on each day, while it stays.
bool add_load(const Load& load, Day first, const std::vector<Celsius>& days,
              const science::FirstOrderDigester& digester, Celsius rate_at, int stays,
              std::vector<NormalLitres>& methane) {
  const int offset = days_between(first, load.day);
  // Feeding is a matter of the day's middle, give or take.
  const science::FeedEvent event{.at = Days{offset + 0.5},
                                 .volatile_solids = *load.volatile_solids,
                                 .potential = load.potential,
                                 .rate = load.rate,
                                 .rate_at = rate_at};
  const auto given = science::daily_methane({&event, 1}, days, digester);
  if (!given) return false;
  const auto last = std::min(methane.size(), static_cast<std::size_t>(offset + stays + 1));
  for (auto day = static_cast<std::size_t>(offset); day < last; ++day)
    methane[day] += (*given)[day];
  return true;
}

}  // namespace

std::optional<NormalLitres> Expected::mean(Day from, Day to) const {
  const int begin = (from - first).count() + 1, end = (to - first).count() + 1;
  if (begin < 0 || end <= begin || end > static_cast<int>(biogas.size())) return std::nullopt;
  NormalLitres sum;
  for (int day = begin; day < end; ++day) sum += biogas[static_cast<std::size_t>(day)];
  return sum / (end - begin);
}

std::optional<Expected> expected_gas(const model::History& history, const model::Rules& rules,
                                     const Feed& feed, const Warmth& warmth, int days_ahead,
                                     Kelvins warmer) {
  const Day earliest = history.today - date::days{full_days(rules(limits::gas_lookback))};
  std::vector<Load> loads;
  for (const Load& load : feed.loads) {
    if (load.volatile_solids && load.day >= earliest) loads.push_back(load);
  }
  if (loads.empty()) return std::nullopt;
  const Day first = std::min(loads.front().day, history.today);
  auto days = temperatures(history, first);
  if (!days) return std::nullopt;
  const Celsius lately = warmth.mean.value_or(days->back());
  days->insert(days->end(), static_cast<std::size_t>(days_ahead), lately + warmer);
  if (days_ahead > 0) foresee_leaving(history, feed, loads);
  for (const Load& load : loads_ahead(history, feed, days_ahead)) loads.push_back(load);

  const science::FirstOrderDigester digester{.theta = rules(limits::gas_theta),
                                             .ceiling = rules(limits::gas_ceiling)};
  std::vector<NormalLitres> methane(days->size());
  for (const Load& load : loads) {
    if (!add_load(load, first, *days, digester, rules(limits::gas_rate_at), gas_days(load, rules),
                  methane)) {
      return std::nullopt;
    }
  }
  const double share = methane_share(history, rules).value;
  for (NormalLitres& day : methane) day = day / share;
  return Expected{first, std::move(methane)};
}

std::optional<GasAhead> foresee_gas(const model::History& history, const model::Rules& rules,
                                    const Feed& feed, const Warmth& warmth, const Gas& gas,
                                    const std::optional<Expected>& so_far) {
  const int ahead = full_days(rules(limits::forecast_ahead));
  const Day last = history.today + date::days{ahead};
  const auto mean_at = [&](Kelvins warmer) -> std::optional<NormalLitres> {
    const auto expected = expected_gas(history, rules, feed, warmth, ahead, warmer);
    return expected ? expected->mean(history.today, last) : std::nullopt;
  };
  const Kelvins spread = rules(limits::forecast_spread);
  const auto low = mean_at(Kelvins{} - spread), likely = mean_at({}), high = mean_at(spread);
  if (!low || !likely || !high) return std::nullopt;
  GasAhead made{last, *low, *likely, *high};
  const Day from = history.today - date::days{full_days(rules(limits::lowgas_window))};
  const auto measured = gas_rate(gas, from, history.today);
  if (!measured || measured->days() < rules(limits::lowgas_days).value) return made;
  const auto due = so_far->mean(measured->from, measured->to);
  if (!due || due->value < rules(limits::lowgas_least).value) return made;
  made.own = measured->a_day / *due;
  made.own_days = measured->days();
  for (NormalLitres* one : {&made.low, &made.likely, &made.high}) *one = *one * made.own;
  return made;
}

}  // namespace kinds::digester
