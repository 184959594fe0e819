#include "kinds/digester/mix.h"

#include "kinds/digester/vocabulary.h"
#include "kinds/finding.h"

namespace kinds::digester {
namespace {

using measure::Fraction;
using measure::Kilograms;
using measure::Number;

struct Sums {
  Kilograms wet, dry, carbon, nitrogen;
};

void add(const model::Movement& movement, Sums& sums, FeedMix& mix) {
  const model::Material& material = movement.material;
  if (is_water(material)) {
    sums.wet += Kilograms{movement.volume().value_or(measure::Litres{}).value};
    return;
  }
  const auto mass = movement.mass();
  const auto moisture = material.moisture();
  if (!mass || !moisture) {
    mix.no_solids.insert(material.name);
    mix.no_c_to_n.insert(material.name);
    return;
  }
  const Kilograms dry = *mass * (1 - moisture->value);
  sums.wet += *mass;
  sums.dry += dry;
  const auto carbon = material.carbon();
  const auto nitrogen = material.nitrogen();
  if (!carbon || !nitrogen) {
    mix.no_c_to_n.insert(material.name);
    return;
  }
  sums.carbon += dry * carbon->value;
  sums.nitrogen += dry * nitrogen->value;
}

}  // namespace

FeedMix feed_mix_of(const model::History& history, const Feed& feed, const Startup& startup) {
  FeedMix mix;
  Sums sums;
  for (const model::Movement& movement : history.in) {
    if (is_gas(movement.material) || is_inoculum(movement.material)) continue;
    const bool lately = days_between(movement.day, history.today) < feed.window.value &&
                        !startup.is_filling(movement.day);
    if (startup.running() && !lately) continue;
    add(movement, sums, mix);
  }
  if (sums.dry > Kilograms{0} && mix.no_solids.empty()) mix.solids = Fraction{sums.dry / sums.wet};
  if (sums.nitrogen > Kilograms{0}) mix.c_to_n = Number{sums.carbon / sums.nitrogen};
  return mix;
}

}  // namespace kinds::digester
