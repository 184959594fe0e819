#include "science/animals/hens.h"

namespace science {

using measure::Fraction;
using measure::Kilograms;
using measure::Number;

std::optional<Fraction> laying_rate(Number eggs, Number hen_days) {
  if (hen_days <= Number{0}) return std::nullopt;
  return Fraction{eggs / hen_days};
}

std::optional<Kilograms> feed_per_dozen_eggs(Kilograms feed, Number eggs) {
  if (eggs <= Number{0}) return std::nullopt;
  return feed * 12 / eggs.value;
}

std::optional<Number> feed_per_egg_mass(Kilograms feed, Kilograms egg_mass) {
  if (egg_mass <= Kilograms{0}) return std::nullopt;
  return Number{feed / egg_mass};
}

std::optional<NutrientIntake> nutrient_intake(Kilograms nutrient_eaten, Number hen_days,
                                              Kilograms need_per_hen_day) {
  if (hen_days <= Number{0} || need_per_hen_day <= Kilograms{0}) return std::nullopt;
  const Kilograms per_hen_day = nutrient_eaten / hen_days.value;
  return NutrientIntake{per_hen_day, Fraction{per_hen_day / need_per_hen_day}};
}

std::optional<Fraction> content_needed(Kilograms need_per_hen_day, Kilograms feed_per_hen_day) {
  if (feed_per_hen_day <= Kilograms{0}) return std::nullopt;
  return Fraction{need_per_hen_day / feed_per_hen_day};
}

std::optional<LarvaeShare> larvae_share_of_ration(Kilograms larvae_dry, Kilograms other_feed_dry,
                                                  Fraction limit) {
  const Kilograms none{0};
  const Kilograms all = larvae_dry + other_feed_dry;
  if (larvae_dry < none || other_feed_dry < none || all <= none) return std::nullopt;
  if (limit < Fraction{0} || limit >= Fraction{1}) return std::nullopt;
  const Fraction share{larvae_dry / all};
  // 16 g beside 144 g must not come out above 10 % for a last binary digit.
  const Fraction rounding{1e-9};
  return LarvaeShare{share, share > limit + rounding,
                     other_feed_dry * (limit.value / (1 - limit.value))};
}

std::optional<Number> hen_days_of_protein(Kilograms protein, Kilograms need_per_hen_day) {
  if (need_per_hen_day <= Kilograms{0}) return std::nullopt;
  return Number{protein / need_per_hen_day};
}

std::optional<HenManure> manure_from_hens(Number hen_days, const HenManure& per_hen_day) {
  if (hen_days < Number{0}) return std::nullopt;
  const double days = hen_days.value;
  return HenManure{per_hen_day.mass * days, per_hen_day.nitrogen * days,
                   per_hen_day.phosphorus * days, per_hen_day.potassium * days};
}

}  // namespace science
