#pragma once

#include <optional>

#include "measure/scalar.h"

// Laying hens: what they lay, what they eat of what they need, and what they leave.
// A hen-day is one hen kept for one day; over a period, the sum of each day's birds.
namespace science {

// Hen-day egg production: eggs a hen-day. Above 1 (eggs found late, birds miscounted) it is
// returned as it is. Nothing when hen_days is not above zero.
std::optional<measure::Fraction> laying_rate(measure::Number eggs, measure::Number hen_days);

// Feed eaten for twelve eggs. Nothing when eggs is not above zero.
std::optional<measure::Kilograms> feed_per_dozen_eggs(measure::Kilograms feed,
                                                      measure::Number eggs);

// Kilograms of feed for one of eggs. Nothing when egg_mass is not above zero.
std::optional<measure::Number> feed_per_egg_mass(measure::Kilograms feed,
                                                 measure::Kilograms egg_mass);

// A nutrient (protein, calcium) eaten against what a hen needs.
struct NutrientIntake {
  measure::Kilograms per_hen_day{};
  measure::Fraction of_need{};  // 1 is enough
};

// From the mass of the nutrient in all that was eaten over the hen-days. Nothing when hen_days or
// the need is not above zero.
std::optional<NutrientIntake> nutrient_intake(measure::Kilograms nutrient_eaten,
                                              measure::Number hen_days,
                                              measure::Kilograms need_per_hen_day);

// The content that a feed must have so that its daily intake covers a need: need / intake, on the
// basis (as fed or dry) of the intake. Nothing when the intake is not above zero.
std::optional<measure::Fraction> content_needed(measure::Kilograms need_per_hen_day,
                                                measure::Kilograms feed_per_hen_day);

// Larvae in the ration, all on dry matter.
struct LarvaeShare {
  measure::Fraction share{};
  bool above_limit{};                    // at the limit exactly is not above it
  measure::Kilograms most_larvae_dry{};  // beside the same other feed, to stay at the limit
};

// `limit` is a cautious share from feeding trials, not a rule of law; from 0 to under 1. Nothing
// when nothing was fed, a mass is negative or the limit is outside its range.
std::optional<LarvaeShare> larvae_share_of_ration(measure::Kilograms larvae_dry,
                                                  measure::Kilograms other_feed_dry,
                                                  measure::Fraction limit);

// For how many hen-days a mass of protein covers the need. Nothing when the need is not above zero.
std::optional<measure::Number> hen_days_of_protein(measure::Kilograms protein,
                                                   measure::Kilograms need_per_hen_day);

// Manure with the elements N, P and K in it (not the oxides): of one hen-day, or of many.
struct HenManure {
  measure::Kilograms mass{};  // with its water
  measure::Kilograms nitrogen{};
  measure::Kilograms phosphorus{};
  measure::Kilograms potassium{};
};

// Of one hen-day, fresh. USDA-NRCS manure nutrient table, hens and pullets: 11.45 short tons a year
// from 250 birds, with 26.93 / 9.98 / 10.44 lb of N / P / K a ton. (The column headed "Phosphate"
// is taken as elemental P, which is what excretion tables of other origin agree with.)
inline constexpr HenManure kHenManureFresh{
    measure::Kilograms{0.11383}, measure::Kilograms{0.001533}, measure::Kilograms{0.000568},
    measure::Kilograms{0.000594}};

// Of one hen-day, as it leaves the house after a year; most of the nitrogen has gone into the air.
// Lorimor & Xin 1999 (Iowa, four high-rise houses): 9.52 t a year from 1000 birds at 41 % moisture,
// with 18.5 / 41.0 / 26.0 kg of N / P2O5 / K2O a tonne.
inline constexpr HenManure kHenManureAfterAYear{
    measure::Kilograms{0.02608}, measure::Kilograms{0.0004825}, measure::Kilograms{0.0004667},
    measure::Kilograms{0.0005629}};

// What the hen-days leave, at a rate given for one of them. Nothing when hen_days is negative.
std::optional<HenManure> manure_from_hens(measure::Number hen_days, const HenManure& per_hen_day);

}  // namespace science
