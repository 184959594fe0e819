#include "kinds/available.h"

#include <algorithm>

#include "kinds/thresholds.h"
#include "model/material_groups.h"
#include "science/soil/nutrients.h"

namespace kinds {
namespace {

namespace limits = thresholds::bed;
namespace group = model::group;
using measure::Fraction;
using model::Material;

// Flags and names of materials.
constexpr std::string_view kTreated = "treated", kLiquid = "liquid", kPoultry = "poultry",
                           kMushroomCompost = "mushroom compost";
// The animal in the name of a manure.
constexpr std::string_view kRabbit = "rabbit", kPig = "pig";

// Fresh plants and meals give more the richer they are in nitrogen.
Fraction by_nitrogen(const Material& material, const model::Rules& rules) {
  const double percent = 100 * material.nitrogen().value_or(Fraction{}).value;
  const double share = rules(limits::available_green).value * (percent - 1) / 100;
  return Fraction{std::clamp(share, 0.0, rules(limits::available_most).value)};
}

Fraction of_manure(const Material& material, const model::Rules& rules) {
  if (material.is(kTreated)) return rules(limits::available_dried);
  if (material.is(kLiquid)) return rules(limits::available_slurry);
  const bool small = material.name.find(kRabbit) != std::string::npos;
  if (material.is(kPoultry) || small) return rules(limits::available_poultry);
  if (material.name.starts_with(kPig)) return rules(limits::available_pig);
  return rules(limits::available_manure);
}

// A laboratory's ammonium tells more than the kind of manure does.
std::optional<Fraction> by_ammonium(const Material& material, const model::Rules& rules) {
  const auto total = material.nitrogen();
  const auto ammonium = material.share(model::Property::kAmmonium);
  if (!total || !ammonium || !(total->value > 0)) return std::nullopt;
  // Of a tonne of dry mass.
  const science::ManureNitrogen manure{
      .total = science::KilogramsPerTonne{total->value * 1000},
      .ammonium = science::KilogramsPerTonne{ammonium->value * 1000}};
  const auto first_year =
      science::first_year_nitrogen(manure, {.organic_mineralised = rules(limits::available_organic),
                                            .ammonium_kept = rules(limits::available_ammonium)});
  if (!first_year) return std::nullopt;
  return Fraction{first_year->available / manure.total};
}

}  // namespace

std::optional<ShareRange> first_year_range(const Material& material, const model::Rules& rules) {
  if (material.group == group::kBrew) {
    return ShareRange{rules(limits::available_brew_least), rules(limits::available_brew_most)};
  }
  if (material.group == group::kFrass) {
    return ShareRange{rules(limits::available_frass_least), rules(limits::available_frass_most)};
  }
  if (material.group == group::kCompost) {
    return ShareRange{rules(limits::available_compost_least),
                      rules(limits::available_compost_most)};
  }
  return std::nullopt;
}

std::optional<Fraction> first_year_share(const Material& material, const model::Rules& rules) {
  if (material.group == group::kBrew) return rules(limits::available_brew);
  if (material.group == group::kEffluent) {
    return material.is(kLiquid) ? rules(limits::available_effluent)
                                : rules(limits::available_solids);
  }
  if (material.name == kMushroomCompost) return rules(limits::available_mushroom);
  if (material.group == group::kCompost) return rules(limits::available_compost);
  if (material.group == group::kFrass) return rules(limits::available_frass);
  if (const auto analysed = by_ammonium(material, rules)) return analysed;
  if (material.group == group::kManure) return of_manure(material, rules);
  const bool plants = material.group == group::kGreen || material.group == group::kFood ||
                      material.group == group::kFeed || material.group == group::kMineral;
  if (plants && material.nitrogen()) return by_nitrogen(material, rules);
  return std::nullopt;
}

}  // namespace kinds
