#include "science/gas/digestion.h"

#include <cassert>
#include <vector>

#include "science/gas/gas.h"
#include "science/numbers/constants.h"

namespace science {
namespace {

using measure::Days;
using measure::Fraction;
using measure::Kilograms;
using measure::Litres;
using measure::Number;

}  // namespace

std::optional<Fraction> diluted_solids(Fraction total_solids, Kilograms feed, Kilograms water) {
  if (!is_share(total_solids) || !(feed.value >= 0 && water.value >= 0)) return std::nullopt;
  const Kilograms slurry = feed + water;
  if (!(slurry.value > 0)) return std::nullopt;
  return total_solids * (feed / slurry);
}

std::optional<Kilograms> water_to_dilute(Kilograms feed, Fraction total_solids, Fraction wanted) {
  if (!(wanted.value > 0 && wanted <= total_solids && total_solids.value <= 1)) return std::nullopt;
  if (!(feed.value >= 0)) return std::nullopt;
  return feed * (total_solids / wanted - 1);
}

std::optional<SlurryMix> mix_slurry(std::span<const SlurryPart> parts) {
  std::vector<Ingredient> materials;
  Kilograms volatile_solids;
  for (const SlurryPart& part : parts) {
    if (!is_share(part.volatile_solids)) return std::nullopt;
    const double solids_share = 1 - part.material.moisture.value;
    volatile_solids += part.material.mass * (solids_share * part.volatile_solids.value);
    materials.push_back(part.material);
  }
  const std::optional<Blend> blend = blend_of(materials);
  if (!blend) return std::nullopt;

  SlurryMix mix{.mass = blend->mass,
                .total_solids = blend->dry_mass,
                .volatile_solids = volatile_solids,
                .total_solids_share = Fraction{blend->dry_mass / blend->mass}};
  if (blend->left_out.c_to_n.empty()) mix.c_to_n = blend->c_to_n;
  return mix;
}

std::optional<KilogramsPerCubicMetreDay> loading_rate(Kilograms volatile_solids, Days over,
                                                      Litres working_volume) {
  if (!(volatile_solids.value >= 0 && over.value > 0 && working_volume.value > 0)) {
    return std::nullopt;
  }
  const double cubic_metres = working_volume.value / 1000;
  return KilogramsPerCubicMetreDay{volatile_solids.value / over.value / cubic_metres};
}

std::optional<Days> retention_time(Litres working_volume, Litres slurry, Days over) {
  if (!(working_volume.value > 0 && slurry.value > 0 && over.value > 0)) return std::nullopt;
  return over * (working_volume / slurry);
}

std::optional<Litres> working_volume_for(Litres slurry, Days over, Days retention) {
  if (!(slurry.value > 0 && over.value > 0 && retention.value > 0)) return std::nullopt;
  return slurry * (retention / over);
}

std::optional<Litres> slurry_for(Litres working_volume, Days retention, Days over) {
  if (!(working_volume.value > 0 && retention.value > 0 && over.value > 0)) return std::nullopt;
  return working_volume * (over / retention);
}

std::optional<NormalLitresPerKilogram> specific_gas(NormalLitres gas, Kilograms fed) {
  if (!(fed.value > 0 && gas.value >= 0)) return std::nullopt;
  return NormalLitresPerKilogram{gas.value / fed.value};
}

bool gas_yield_is_possible(NormalLitresPerKilogram gas_per_volatile_solids) {
  const std::optional<BuswellYield> triolein =
      buswell_boyle({.carbon = Number{57}, .hydrogen = Number{104}, .oxygen = Number{6}});
  assert(triolein);
  return gas_per_volatile_solids <= triolein->gas_yield;
}

}  // namespace science
