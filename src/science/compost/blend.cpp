#include "science/compost/blend.h"

#include <algorithm>
#include <cmath>

#include "science/numbers/constants.h"

namespace science {
namespace {

using measure::Fraction;
using measure::Kilograms;
using measure::Litres;
using measure::Number;

double dry_mass(const Ingredient& i) {
  return i.mass.value * (1 - i.moisture.value);
}

bool has_c_and_n(const Ingredient& i) {
  return i.carbon && i.nitrogen;
}

bool is_base(std::span<const Ingredient> base) {
  double mass = 0;
  for (const Ingredient& i : base) {
    if (!is_possible(i)) return false;
    mass += i.mass.value;
  }
  return mass > 0;
}

struct Tally {
  double mass = 0;
  double dry = 0;

  std::optional<ElementContent> content() const {
    if (dry <= 0) return std::nullopt;
    return ElementContent{Kilograms{mass}, Fraction{mass / dry}};
  }
};

// Counts one element over the ingredients that have it, and lists those that lack it.
std::optional<ElementContent> content_of(std::span<const Ingredient> ingredients,
                                         std::optional<Fraction> Ingredient::*element,
                                         std::vector<std::size_t>& left_out) {
  Tally tally;
  for (std::size_t n = 0; n < ingredients.size(); ++n) {
    const double dry = dry_mass(ingredients[n]);
    if (dry == 0) continue;
    const std::optional<Fraction>& share = ingredients[n].*element;
    if (!share) {
      left_out.push_back(n);
      continue;
    }
    tally.mass += dry * share->value;
    tally.dry += dry;
  }
  return tally.content();
}

void count_c_to_n(std::span<const Ingredient> ingredients, Blend& blend) {
  double carbon = 0;
  double nitrogen = 0;
  for (std::size_t n = 0; n < ingredients.size(); ++n) {
    const double dry = dry_mass(ingredients[n]);
    if (dry == 0) continue;
    if (!has_c_and_n(ingredients[n])) {
      blend.left_out.c_to_n.push_back(n);
      continue;
    }
    carbon += dry * ingredients[n].carbon->value;
    nitrogen += dry * ingredients[n].nitrogen->value;
  }
  if (nitrogen > 0) blend.c_to_n = Number{carbon / nitrogen};
}

void count_volume(std::span<const Ingredient> ingredients, Blend& blend) {
  double mass = 0;
  double cubic_metres = 0;
  for (std::size_t n = 0; n < ingredients.size(); ++n) {
    if (ingredients[n].mass.value == 0) continue;
    if (!ingredients[n].bulk_density) {
      blend.left_out.volume.push_back(n);
      continue;
    }
    mass += ingredients[n].mass.value;
    cubic_metres += ingredients[n].mass.value / ingredients[n].bulk_density->value;
  }
  if (cubic_metres <= 0) return;
  blend.volume = Litres{cubic_metres * 1000};
  blend.bulk_density = KilogramsPerCubicMetre{mass / cubic_metres};
}

}  // namespace

Ingredient water_ingredient(Kilograms mass) {
  const Fraction none{0};
  return {mass, Fraction{1}, none, none, none, none, KilogramsPerCubicMetre{1000}};
}

bool is_possible(const Ingredient& i) {
  const auto share_or_unknown = [](const std::optional<Fraction>& f) { return !f || is_share(*f); };
  const bool carbon_ok = !i.carbon || (std::isfinite(i.carbon->value) && i.carbon->value >= 0);
  const bool density_ok =
      !i.bulk_density || (std::isfinite(i.bulk_density->value) && i.bulk_density->value > 0);
  return std::isfinite(i.mass.value) && i.mass.value >= 0 && is_share(i.moisture) && carbon_ok &&
         share_or_unknown(i.nitrogen) && share_or_unknown(i.phosphorus) &&
         share_or_unknown(i.potassium) && density_ok;
}

std::optional<Blend> blend_of(std::span<const Ingredient> ingredients) {
  if (!is_base(ingredients)) return std::nullopt;
  Blend blend;
  double water_mass = 0;
  for (const Ingredient& i : ingredients) {
    blend.mass += i.mass;
    blend.dry_mass += Kilograms{dry_mass(i)};
    water_mass += i.mass.value * i.moisture.value;
  }
  blend.moisture = Fraction{water_mass / blend.mass.value};
  count_c_to_n(ingredients, blend);
  BlendGaps& out = blend.left_out;
  blend.carbon = content_of(ingredients, &Ingredient::carbon, out.carbon);
  blend.nitrogen = content_of(ingredients, &Ingredient::nitrogen, out.nitrogen);
  blend.phosphorus = content_of(ingredients, &Ingredient::phosphorus, out.phosphorus);
  blend.potassium = content_of(ingredients, &Ingredient::potassium, out.potassium);
  count_volume(ingredients, blend);
  return blend;
}

}  // namespace science
