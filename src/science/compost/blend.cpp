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

// A difference within rounding of its own terms is no difference: 0.48 - 30 x 0.016 must be zero,
// or its sign would make a goal that is met already look out of reach.
constexpr double kSameSum = 1e-12;

double dry_mass(const Ingredient& i) {
  return i.mass.value * (1 - i.moisture.value);
}

bool has_c_and_n(const Ingredient& i) {
  return i.carbon && i.nitrogen;
}

// A sum that remembers the size of its terms.
struct SignedSum {
  double sum = 0;
  double size = 0;

  void add(double term) {
    sum += term;
    size += std::abs(term);
  }
  // The sum, or exactly zero where only rounding is left of it.
  double settled() const { return std::abs(sum) <= kSameSum * size ? 0 : sum; }
};

// How far a mass of this material pulls a mix above a moisture goal.
void add_water_balance(SignedSum& to, const Ingredient& i, double mass, Fraction goal) {
  to.add(mass * i.moisture.value);
  to.add(-mass * goal.value);
}

// How much carbon a mass of this material brings beyond what its nitrogen takes at a C:N goal.
// Material without solids needs no figures.
void add_carbon_balance(SignedSum& to, const Ingredient& i, double mass, Number goal) {
  const double dry = mass * (1 - i.moisture.value);
  if (dry == 0) return;
  to.add(dry * i.carbon->value);
  to.add(-dry * goal.value * i.nitrogen->value);
}

bool can_balance_carbon(const Ingredient& i) {
  return is_possible(i) && (i.moisture.value == 1 || has_c_and_n(i));
}

bool is_base(std::span<const Ingredient> base) {
  double mass = 0;
  for (const Ingredient& i : base) {
    if (!is_possible(i)) return false;
    mass += i.mass.value;
  }
  return mass > 0;
}

bool is_c_to_n_goal(Number goal) {
  return std::isfinite(goal.value) && goal.value > 0;
}

// What of a material with this pull per kilogram cancels the base's pull; none if nothing does.
std::optional<Kilograms> cancelling_mass(const SignedSum& base, const SignedSum& per_kilogram) {
  const double numerator = -base.settled();
  const double denominator = per_kilogram.settled();
  if (numerator == 0) return Kilograms{0};
  if (denominator == 0 || numerator / denominator < 0) return std::nullopt;
  return Kilograms{numerator / denominator};
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

std::optional<Kilograms> mass_for_moisture(std::span<const Ingredient> base,
                                           const Ingredient& added, Fraction goal) {
  if (!is_base(base) || !is_possible(added) || !is_share(goal)) return std::nullopt;
  SignedSum have;
  for (const Ingredient& i : base) add_water_balance(have, i, i.mass.value, goal);
  SignedSum brings;
  add_water_balance(brings, added, 1, goal);
  return cancelling_mass(have, brings);
}

std::optional<Kilograms> mass_for_c_to_n(std::span<const Ingredient> base, const Ingredient& added,
                                         Number goal) {
  if (!is_base(base) || !is_c_to_n_goal(goal)) return std::nullopt;
  if (!std::ranges::all_of(base, can_balance_carbon) || !can_balance_carbon(added)) {
    return std::nullopt;
  }
  SignedSum have;
  for (const Ingredient& i : base) add_carbon_balance(have, i, i.mass.value, goal);
  SignedSum brings;
  add_carbon_balance(brings, added, 1, goal);
  return cancelling_mass(have, brings);
}

std::optional<Kilograms> water_to_add(std::span<const Ingredient> base, Fraction goal) {
  return mass_for_moisture(base, water_ingredient(Kilograms{0}), goal);
}

std::optional<TwoMasses> masses_for_both(std::span<const Ingredient> base, const Ingredient& second,
                                         const Ingredient& third, Fraction moisture_goal,
                                         Number c_to_n_goal) {
  if (!is_base(base) || !is_share(moisture_goal) || !is_c_to_n_goal(c_to_n_goal)) {
    return std::nullopt;
  }
  if (!std::ranges::all_of(base, can_balance_carbon) || !can_balance_carbon(second) ||
      !can_balance_carbon(third)) {
    return std::nullopt;
  }
  SignedSum water_have, carbon_have, water_2, carbon_2, water_3, carbon_3;
  for (const Ingredient& i : base) {
    add_water_balance(water_have, i, i.mass.value, moisture_goal);
    add_carbon_balance(carbon_have, i, i.mass.value, c_to_n_goal);
  }
  add_water_balance(water_2, second, 1, moisture_goal);
  add_carbon_balance(carbon_2, second, 1, c_to_n_goal);
  add_water_balance(water_3, third, 1, moisture_goal);
  add_carbon_balance(carbon_3, third, 1, c_to_n_goal);
  const double b1 = -water_have.settled();
  const double b2 = -carbon_have.settled();
  const double a11 = water_2.settled();
  const double a12 = water_3.settled();
  const double a21 = carbon_2.settled();
  const double a22 = carbon_3.settled();
  // Cramer's rule; each determinant is a balance too, so that an exact zero comes out as one.
  const auto determinant = [](double a, double b, double c, double d) {
    SignedSum balance;
    balance.add(a * d);
    balance.add(-b * c);
    return balance.settled();
  };
  const double whole = determinant(a11, a12, a21, a22);
  if (whole == 0) return std::nullopt;
  return TwoMasses{Kilograms{determinant(b1, a12, b2, a22) / whole},
                   Kilograms{determinant(a11, b1, a21, b2) / whole}};
}

std::optional<Fraction> moisture_from_drying(Kilograms wet, Kilograms dry) {
  if (!std::isfinite(wet.value) || wet.value <= 0) return std::nullopt;
  if (!(dry.value >= 0 && dry.value <= wet.value)) return std::nullopt;
  return Fraction{(wet - dry) / wet};
}

std::optional<Fraction> dry_basis(Fraction of_fresh_mass, Fraction moisture) {
  if (!is_share(of_fresh_mass) || !is_share(moisture) || moisture.value == 1) {
    return std::nullopt;
  }
  return Fraction{of_fresh_mass.value / (1 - moisture.value)};
}

Fraction carbon_from_c_to_n(Fraction nitrogen, Number c_to_n) {
  return Fraction{nitrogen.value * c_to_n.value};
}

Fraction carbon_from_ash(Fraction ash) {
  return Fraction{(1 - ash.value) / 1.8};
}

bool is_plausible_carbon(Fraction carbon) {
  return carbon.value >= 0 && carbon.value <= 0.60;
}

}  // namespace science
