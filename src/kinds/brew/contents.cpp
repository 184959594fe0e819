#include "kinds/brew/contents.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "kinds/brew/vocabulary.h"
#include "kinds/thresholds.h"
#include "measure/text.h"
#include "model/material_groups.h"
#include "science/soil/brew.h"

namespace kinds::brew {
namespace {

namespace limits = thresholds::brew;
using measure::Fraction;
using measure::Kilograms;
using measure::Litres;
using model::Property;

constexpr std::array kBases{Base::kPlant, Base::kManure, Base::kFish, Base::kFrass,
                            Base::kEffluent};

Base base_of(const model::Material& material) {
  if (material.group == model::group::kEffluent) return Base::kEffluent;
  if (material.is(kFlagFish)) return Base::kFish;
  if (material.is(kFlagManure) || material.group == model::group::kManure) return Base::kManure;
  if (material.group == model::group::kFrass) return Base::kFrass;
  return Base::kPlant;
}

bool is_sugar(const model::Material& material) {
  return material.name == kSugar || material.name == kMolasses;
}

// Sugar and molasses feed a brew; they are not what it is made of.
bool makes_the_brew(const model::Material& material) {
  return !is_water(material) && material.group != model::group::kFeed && material.name != kSugar;
}

std::optional<Base> base_said(const model::Batch& batch) {
  const std::string said = batch.text(kBase, "");
  const auto found =
      std::find_if(kBases.begin(), kBases.end(), [&](Base base) { return word(base) == said; });
  return found == kBases.end() ? std::nullopt : std::optional(*found);
}

// The base that most of the material belongs to.
std::optional<Base> base_seen(const model::History& history) {
  std::array<double, kBases.size()> weights{};
  for (const model::Movement& movement : history.in) {
    if (!makes_the_brew(movement.material)) continue;
    weights[static_cast<std::size_t>(base_of(movement.material))] += weight_for_share(movement);
  }
  const auto most = std::max_element(weights.begin(), weights.end());
  if (*most <= 0) return std::nullopt;
  return kBases[static_cast<std::size_t>(most - weights.begin())];
}

// What another batch gave is judged by what went into that batch, not by its name.
std::optional<Raw> raw_in(const model::Movement& load) {
  const auto sort = is_raw_animal(load.material) ? Raw::Sort::kAnimal : Raw::Sort::kManure;
  if (load.manure.empty()) {
    const bool raw = is_raw_manure(load.material) || sort == Raw::Sort::kAnimal;
    if (!load.from.empty() || !raw) return std::nullopt;
    return Raw{.sort = sort, .material = load.material.name};
  }
  const model::ManureTrail& trail = load.manure.front();
  if (trail.material != load.material.name) {
    return Raw{.material = load.material.name, .came_from = trail.material};
  }
  return Raw{.sort = sort,
             .material = trail.material,
             .unproven = sort == Raw::Sort::kManure && !is_raw_manure(load.material)};
}

// The latest of it that went in, else what the drum is said to be made of, else the doubt.
std::optional<Raw> raw_of(const model::History& history, std::optional<Base> said, bool is_known) {
  for (auto load = history.in.rbegin(); load != history.in.rend(); ++load) {
    if (auto raw = raw_in(*load)) return raw;
  }
  const auto declared = [](Raw::Sort sort, std::string_view what) {
    return Raw{.sort = sort, .recorded = false, .material = std::string(what)};
  };
  if (!is_known) return declared(Raw::Sort::kUnknown, "unknown contents");
  const bool is_recorded = std::any_of(history.in.begin(), history.in.end(), [&](const auto& load) {
    return said && makes_the_brew(load.material) && base_of(load.material) == *said;
  });
  if (said == Base::kManure) return declared(Raw::Sort::kManure, word(*said));
  if (is_recorded) return std::nullopt;  // its own record told what it is
  if (said == Base::kEffluent) return declared(Raw::Sort::kManure, word(*said));
  if (said == Base::kFish) return declared(Raw::Sort::kAnimal, word(*said));
  return std::nullopt;
}

void count_liquid(const model::History& history, Contents& contents) {
  for (const model::Movement& movement : history.in) {
    if (!is_water(movement.material) && !movement.material.is(kFlagLiquid)) continue;
    contents.liquid += movement.volume().value_or(Litres{});
  }
  for (const model::Movement& movement : history.out) {
    contents.taken += movement.volume().value_or(Litres{});
  }
  const auto drum = history.batch.number(kVolume);
  if (contents.liquid > Litres{0} || !drum) return;
  contents.liquid = Litres{drum->si};
  contents.liquid_is_assumed = true;
}

// The share of one nutrient that the material brings in, or its name in `missing`.
Kilograms nutrient(Kilograms dry, const model::Material& material, Property property,
                   std::vector<std::string>& missing) {
  const auto share =
      property == Property::kNitrogen ? material.nitrogen() : material.share(property);
  if (share) return dry * share->value;
  missing.emplace_back(model::info(property).key);
  return {};
}

// What is liquid already has all of it in solution.
science::BrewShares shares_of(const model::Material& material, const model::Rules& rules) {
  const Fraction lost = rules(limits::extract_lost);
  if (material.is(kFlagLiquid)) return {Fraction{1}, Fraction{1}, Fraction{1}, lost};
  return {rules(limits::extract_nitrogen), rules(limits::extract_phosphorus),
          rules(limits::extract_potassium), lost};
}

}  // namespace

std::string_view word(Base base) {
  switch (base) {
    case Base::kPlant:
      return "plant";
    case Base::kManure:
      return "manure";
    case Base::kFish:
      return "fish";
    case Base::kFrass:
      return "frass";
    case Base::kEffluent:
      return "effluent";
  }
  return "plant";
}

Lid lid_of(const model::Batch& batch) {
  const std::string said = batch.text(kLid, "");
  if (said == kLidAirlock) return Lid::kAirlock;
  if (said == kLidLoose || (said.empty() && is_aerated(batch))) return Lid::kLoose;
  return Lid::kSealed;
}

bool is_aerated(const model::Batch& batch) {
  return batch.text(kMethod, "") == kWithAir;
}

bool is_for_leaf(const model::Batch& batch) {
  return batch.text(kMadeFor, "") == kForLeaf;
}

bool feeds_germs(const model::Material& material, const model::Batch& batch) {
  return is_sugar(material) && (is_for_leaf(batch) || is_aerated(batch));
}

bool feeds_germs(const model::History& history) {
  return std::any_of(history.in.begin(), history.in.end(), [&](const model::Movement& in) {
    return feeds_germs(in.material, history.batch);
  });
}

bool is_char(const model::Material& material) {
  return material.group == model::group::kChar;
}

bool is_water(const model::Material& material) {
  return material.group == model::group::kWater;
}

bool is_raw_manure(const model::Material& material) {
  return material.is(kFlagManure) && !material.is(kFlagTreated);
}

bool is_raw_animal(const model::Material& material) {
  return material.is(kFlagAnimal) && !material.is(kFlagTreated) &&
         material.group != model::group::kMineral;
}

double weight_for_share(const model::Movement& movement) {
  if (const auto mass = movement.mass()) return mass->value;
  if (const auto volume = movement.volume()) return volume->value;
  return 0;
}

bool Contents::used_up() const {
  // The dregs stay in the drum.
  constexpr double kRest = 0.05;
  return liquid > Litres{0} && taken >= liquid * (1 - kRest);
}

Contents contents_of(const model::History& history) {
  Contents contents;
  const auto said = base_said(history.batch);
  const auto base = said ? said : base_seen(history);
  contents.base = base.value_or(Base::kPlant);
  contents.base_is_assumed = !base;
  contents.raw = raw_of(history, said, base.has_value());
  contents.sweetened = std::any_of(history.in.begin(), history.in.end(),
                                   [](const auto& load) { return is_sugar(load.material); });
  count_liquid(history, contents);
  return contents;
}

Nutrients nutrients_of(const model::History& history, const model::Rules& rules) {
  Nutrients made;
  for (const model::Movement& movement : history.in) {
    const model::Material& material = movement.material;
    if (is_water(material) || is_char(material)) continue;
    const auto mass = movement.mass();
    const auto moisture = material.moisture();
    if (!mass || !moisture) {
      made.all_nitrogen_known = false;
      made.unknown.push_back(material.name + (mass ? " (moisture)" : " (weight)"));
      continue;
    }
    const Kilograms dry = *mass * (1 - moisture->value);
    std::vector<std::string> missing;
    const science::NutrientMass in{nutrient(dry, material, Property::kNitrogen, missing),
                                   nutrient(dry, material, Property::kPhosphorus, missing),
                                   nutrient(dry, material, Property::kPotassium, missing)};
    if (!missing.empty()) {
      if (!material.nitrogen()) made.all_nitrogen_known = false;
      made.unknown.push_back(fmt::format("{} ({})", material.name, measure::joined(missing, ", ")));
    }
    made.went_in = made.went_in + in;
    if (const auto split = science::split_brew_nutrients(in, shares_of(material, rules))) {
      made.dissolved = made.dissolved + split->liquid;
    }
  }
  std::sort(made.unknown.begin(), made.unknown.end());
  made.unknown.erase(std::unique(made.unknown.begin(), made.unknown.end()), made.unknown.end());
  return made;
}

std::optional<double> latest(const model::History& history, std::string_view quantity) {
  const model::Series* series = history.find(quantity);
  if (series == nullptr || !series->last) return std::nullopt;
  return series->last->value;
}

}  // namespace kinds::brew
