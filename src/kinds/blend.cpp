#include "kinds/blend.h"

#include <fmt/format.h>

#include <algorithm>

#include "kinds/thresholds.h"
#include "measure/text.h"

namespace kinds {
namespace {

std::optional<measure::Fraction> within_one(std::optional<measure::Fraction> share) {
  return share && share->value <= 1 ? share : std::nullopt;
}

void add_once(std::vector<std::string>& names, const std::string& name) {
  if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
}

void add(Inputs& inputs, const model::Material& material, const science::Ingredient& ingredient) {
  for (std::size_t i = 0; i < inputs.materials.size(); ++i) {
    if (inputs.materials[i].name != material.name) continue;
    inputs.ingredients[i].mass += ingredient.mass;
    return;
  }
  inputs.materials.push_back(material);
  inputs.ingredients.push_back(ingredient);
}

// A load whose own contents are known: from another pile, which knows what went into it. Its
// moisture is the material's.
std::optional<science::Ingredient> known_ingredient(const model::Movement& movement) {
  if (!movement.holds || !movement.holds->carbon || !movement.holds->nitrogen) return std::nullopt;
  const auto mass = movement.mass();
  if (!mass) return std::nullopt;
  auto made = ingredient_of(movement.material, *mass);
  if (!made || made->moisture.value >= 1) return std::nullopt;
  const measure::Kilograms dry{mass->value * (1 - made->moisture.value)};
  made->carbon = measure::Fraction{*movement.holds->carbon / dry};
  made->nitrogen = measure::Fraction{*movement.holds->nitrogen / dry};
  return science::is_possible(*made) ? made : std::nullopt;
}

}  // namespace

std::optional<science::Ingredient> ingredient_of(const model::Material& material,
                                                 measure::Kilograms mass) {
  const auto moisture = material.moisture();
  if (!moisture) return std::nullopt;
  science::Ingredient ingredient{mass,
                                 *moisture,
                                 within_one(material.carbon()),
                                 within_one(material.nitrogen()),
                                 within_one(material.share(model::Property::kPhosphorus)),
                                 within_one(material.share(model::Property::kPotassium)),
                                 std::nullopt};
  if (const auto density = material.kilograms_per_litre()) {
    ingredient.bulk_density = science::KilogramsPerCubicMetre{*density * 1000};
  }
  if (!science::is_possible(ingredient)) return std::nullopt;
  return ingredient;
}

Inputs inputs_of(const model::History& history) {
  Inputs inputs;
  for (const model::Movement& movement : history.in) {
    const auto mass = movement.mass();
    if (!mass) {
      add_once(inputs.unweighed, movement.material.name);
      continue;
    }
    if (!movement.weighed()) inputs.estimated = true;
    if (const auto known = known_ingredient(movement)) {
      inputs.materials.push_back(movement.material);
      inputs.ingredients.push_back(*known);
    } else if (const auto ingredient = ingredient_of(movement.material, *mass)) {
      add(inputs, movement.material, *ingredient);
    } else {
      add_once(inputs.unknown, movement.material.name);
      inputs.left_out += *mass;
    }
  }
  inputs.blend = science::blend_of(inputs.ingredients);
  return inputs;
}

std::vector<std::string> Inputs::lacking_c_to_n() const {
  std::vector<std::string> names = unknown;
  if (!blend) return names;
  for (const std::size_t i : blend->left_out.c_to_n) names.push_back(materials[i].name);
  return names;
}

measure::Fraction Inputs::share_lacking_c_to_n() const {
  measure::Kilograms lacking = left_out, all = left_out;
  for (const science::Ingredient& one : ingredients) all += one.mass;
  if (blend) {
    for (const std::size_t i : blend->left_out.c_to_n) lacking += ingredients[i].mass;
  }
  return measure::Fraction{all.value > 0 ? lacking / all : 1};
}

MixRanges mix_ranges(const model::Rules& rules) {
  return {{rules(thresholds::pile::mix_cn_least), rules(thresholds::pile::mix_cn_most)},
          {rules(thresholds::pile::mix_moisture_least), rules(thresholds::pile::mix_moisture_most)},
          {science::KilogramsPerCubicMetre{rules(thresholds::pile::mix_bulk_least).value},
           science::KilogramsPerCubicMetre{rules(thresholds::pile::mix_bulk_most).value}},
          rules(thresholds::pile::mix_cn_best),
          rules(thresholds::pile::mix_moisture_best)};
}

std::string blend_words(const science::Blend& blend, const measure::Printer& print) {
  const std::string moisture = print(blend.moisture) + " moisture";
  if (!blend.c_to_n) return moisture;
  return fmt::format("{}:1 carbon to nitrogen, {}", measure::print_number(blend.c_to_n->value, 1),
                     moisture);
}

}  // namespace kinds
