#include "kinds/brew/contents.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "kinds/thresholds.h"
#include "measure/text.h"
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
  if (material.group == "effluent") return Base::kEffluent;
  if (material.is("fish")) return Base::kFish;
  if (material.is("manure") || material.group == "manure") return Base::kManure;
  if (material.group == "frass") return Base::kFrass;
  return Base::kPlant;
}

// Sugar and molasses feed a brew; they are not what it is made of.
bool makes_the_brew(const model::Material& material) {
  return !is_water(material) && material.group != "feed" && material.name != "sugar";
}

std::optional<Base> base_said(const model::Batch& batch) {
  const std::string said = batch.text("base", "");
  for (const Base base : kBases) {
    if (word(base) == said) return base;
  }
  return std::nullopt;
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

void count_liquid(const model::History& history, Contents& contents) {
  for (const model::Movement& movement : history.in) {
    if (!is_water(movement.material) && !movement.material.is("liquid")) continue;
    contents.liquid += movement.volume().value_or(Litres{});
  }
  for (const model::Movement& movement : history.out) {
    contents.taken += movement.volume().value_or(Litres{});
  }
  contents.liquid_basis = "water and liquids put in, as recorded";
  const auto drum = history.batch.number("volume");
  if (contents.liquid <= Litres{0} && drum) {
    contents.liquid = Litres{drum->si};
    contents.liquid_basis = "no water is recorded: the drum's volume, taken as full";
  }
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
  if (material.is("liquid")) return {Fraction{1}, Fraction{1}, Fraction{1}, lost};
  return {rules(limits::extract_nitrogen), rules(limits::extract_phosphorus),
          rules(limits::extract_potassium), lost};
}

void count_nutrients(const model::History& history, const model::Rules& rules, Contents& contents) {
  for (const model::Movement& movement : history.in) {
    const model::Material& material = movement.material;
    if (is_water(material) || is_char(material)) continue;
    const auto mass = movement.mass();
    const auto moisture = material.moisture();
    if (!mass || !moisture) {
      contents.all_nitrogen_known = false;
      contents.unknown.push_back(material.name + (mass ? " (moisture)" : " (weight)"));
      continue;
    }
    const Kilograms dry = *mass * (1 - moisture->value);
    std::vector<std::string> missing;
    const science::NutrientMass in{nutrient(dry, material, Property::kNitrogen, missing),
                                   nutrient(dry, material, Property::kPhosphorus, missing),
                                   nutrient(dry, material, Property::kPotassium, missing)};
    if (!missing.empty()) {
      if (!material.nitrogen()) contents.all_nitrogen_known = false;
      contents.unknown.push_back(
          fmt::format("{} ({})", material.name, measure::joined(missing, ", ")));
    }
    contents.went_in = contents.went_in + in;
    if (const auto split = science::split_brew_nutrients(in, shares_of(material, rules))) {
      contents.dissolved = contents.dissolved + split->liquid;
    }
  }
  std::sort(contents.unknown.begin(), contents.unknown.end());
  contents.unknown.erase(std::unique(contents.unknown.begin(), contents.unknown.end()),
                         contents.unknown.end());
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

bool is_aerated(const model::Batch& batch) {
  return batch.text("method", "") == "aerated";
}

bool is_sugar(const model::Material& material) {
  return material.name == "sugar" || material.name == "molasses";
}

bool feeds_germs(const model::Material& material, const model::Batch& batch) {
  return is_sugar(material) && (is_for_leaf(batch) || is_aerated(batch));
}

bool feeds_germs(const model::History& history) {
  return std::any_of(history.in.begin(), history.in.end(), [&](const model::Movement& in) {
    return feeds_germs(in.material, history.batch);
  });
}

bool is_for_leaf(const model::Batch& batch) {
  return batch.text("made_for", "") == "leaf";
}

bool is_char(const model::Material& material) {
  return material.group == "char";
}

bool is_water(const model::Material& material) {
  return material.group == "water";
}

bool is_raw_manure(const model::Material& material) {
  return material.is("manure") && !material.is("treated");
}

std::string raw_manure_in(const model::Movement& movement) {
  if (movement.manure.empty()) {
    const bool raw = movement.from.empty() && is_raw_manure(movement.material);
    return raw ? movement.material.name : "";
  }
  const model::ManureTrail& trail = movement.manure.front();
  if (trail.material == movement.material.name) {
    return trail.material + (is_raw_manure(movement.material) ? "" : " of unproven treatment");
  }
  return fmt::format("{}, which came from {}", movement.material.name, trail.material);
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

Contents contents_of(const model::History& history, const model::Rules& rules) {
  Contents contents;
  const auto said = base_said(history.batch);
  const auto base = said ? said : base_seen(history);
  contents.base = base.value_or(Base::kPlant);
  contents.base_is_assumed = !base;
  bool has_effluent = false;
  for (const model::Movement& movement : history.in) {
    const std::string raw = raw_manure_in(movement);
    if (!raw.empty()) contents.manure = raw;
    has_effluent = has_effluent || movement.material.group == "effluent";
  }
  if (contents.manure.empty() && said == Base::kManure) contents.manure = "manure";
  if (contents.manure.empty() && said == Base::kEffluent && !has_effluent) {
    contents.manure = "effluent";
  }
  count_liquid(history, contents);
  count_nutrients(history, rules, contents);
  return contents;
}

std::optional<double> latest(const model::History& history, std::string_view quantity) {
  const model::Series* series = history.find(quantity);
  if (series == nullptr || !series->last) return std::nullopt;
  return series->last->value;
}

std::optional<Nitrogen> nitrogen(const model::History& history, const Contents& contents) {
  if (const auto read = latest(history, "nitrogen")) {
    return Nitrogen{science::MilligramsPerLitre{*read}, true};
  }
  if (!contents.estimated()) return std::nullopt;
  const auto content =
      science::nutrient_concentration(contents.dissolved.nitrogen, contents.liquid);
  if (!content) return std::nullopt;
  return Nitrogen{*content, false};
}

}  // namespace kinds::brew
