#include "kinds/flock/measures.h"

#include "kinds/finding.h"
#include "kinds/flock/days.h"
#include "kinds/flock/ration.h"
#include "kinds/flock/says.h"
#include "kinds/flock/vocabulary.h"
#include "kinds/thresholds.h"
#include "measure/text.h"
#include "model/material_groups.h"
#include "science/animals/hens.h"

namespace kinds::flock {
namespace {

namespace limits = thresholds::flock;
using measure::Fraction;
using measure::Kilograms;
using measure::Number;

struct Adder {
  std::vector<model::Measure>& into;

  template <class T>
  void operator()(std::string_view key, std::string_view name, std::optional<T> value,
                  std::string basis = "", std::string_view label = "") const {
    if (!value) return;
    into.push_back({"flock." + std::string(key),
                    std::string(name),
                    {"", measure::value_of(*value), std::string(label)},
                    std::move(basis)});
  }
};

std::optional<Kilograms> some(Kilograms mass) {
  return mass > Kilograms{0} ? std::optional(mass) : std::nullopt;
}

std::string without(const std::set<std::string>& names, std::string_view why) {
  if (names.empty()) return "";
  const std::vector<std::string> words(names.begin(), names.end());
  return fmt::format("{} left out, {}", measure::joined(words, ", "), why);
}

std::string egg_basis(const Eggs& eggs, int days) {
  std::string basis =
      eggs.by_movements
          ? fmt::format("by what went out on {} of {}, as the nests were counted on fewer",
                        eggs.days, days_words(days))
          : fmt::format("counted on {} of {}", eggs.days, days_words(days));
  if (eggs.by_mass) basis += "; weighed ones by the usual egg";
  return basis;
}

void add_intake(const Ration& ration, std::optional<Number> days, const model::Rules& rules,
                const Adder& add) {
  if (!days) return;
  const auto grams = [&](auto need) { return Kilograms{rules(need).value / 1000}; };
  const auto a_day = [](const std::optional<science::NutrientIntake>& intake) {
    return intake ? std::optional(Number{intake->per_hen_day.value * 1000}) : std::nullopt;
  };
  const std::string outside = "by the records, what they find outside is not in it";
  const auto joined = [&](const std::string& more) {
    return more.empty() ? outside : outside + "; " + more;
  };
  if (ration.fed <= Kilograms{0}) return;
  add("feed_a_day", "feed a hen a day",
      a_day(science::nutrient_intake(ration.fed, *days, grams(limits::need_feed))),
      joined(without(ration.no_weight, "given without a weight")), "g/hen/d");
  add("protein_a_day", "protein a hen a day",
      a_day(science::nutrient_intake(ration.protein, *days, grams(limits::need_protein))),
      joined(without(ration.no_protein, "not known of it")), "g/hen/d");
  add("calcium_a_day", "calcium a hen a day",
      a_day(science::nutrient_intake(ration.calcium, *days, grams(limits::need_calcium))),
      joined(without(ration.no_calcium, "not known of it")), "g/hen/d");
}

void add_larvae(const Ration& ration, const model::Rules& rules, const Adder& add) {
  add("larvae", "larvae fed", some(ration.larvae),
      without(ration.no_weight, "given without a weight"));
  if (ration.larvae <= Kilograms{0}) return;
  const auto share = science::larvae_share_of_ration(ration.larvae_dry, ration.other_dry,
                                                     rules(limits::share_above));
  if (share) {
    add("larvae_share", "larvae in the recorded ration (dry)", std::optional(share->share),
        without(ration.no_water, "its water not known"));
  }
  const Fraction protein = rules(limits::feed_protein);
  if (protein <= Fraction{0} || ration.larvae_protein <= Kilograms{0}) return;
  const measure::Printer percent(measure::UnitSystem::kMetric);
  add("feed_replaced", "feed that larvae replaced",
      std::optional(ration.larvae_protein / protein.value),
      fmt::format("by its protein, at {} of the feed", percent(protein)));
}

}  // namespace

void measure_laying(const model::History& history, const model::Rules& rules,
                    std::vector<model::Measure>& into) {
  const Adder add{into};
  const model::Day from = history.batch.started_day, to = last_day(history);
  const int days = days_between(from, to) + 1;
  const auto birds = hen_days(history, from, to);
  const Ration ration = ration_between(history, rules, from, to);
  const Eggs eggs = eggs_between(history, rules, from, to);
  add("hen_days", "hen-days", birds, "", "hen-days");
  if (eggs.days > 0) {
    const std::string basis = egg_basis(eggs, days);
    add("eggs", "eggs", std::optional(eggs.laid), basis, "eggs");
    if (eggs.hen_days) {
      add("laying", "eggs a hen-day", science::laying_rate(eggs.laid, *eggs.hen_days), basis);
    }
    const MeanEgg mean = mean_egg(history, rules);
    const std::string egg = mean.weighed ? "" : egg_words(mean, measure::Printer(history.units));
    const Kilograms mass = mean.mass * eggs.laid.value;
    add("egg_mass", "eggs by weight", some(mass), egg);
    if (ration.fed > Kilograms{0}) {
      const std::string weight = without(ration.no_weight, "given without a weight");
      add("feed_per_dozen", "feed for a dozen eggs",
          science::feed_per_dozen_eggs(ration.fed, eggs.laid), weight);
      add("feed_per_egg_mass", "feed for a weight of eggs",
          science::feed_per_egg_mass(ration.fed, mass), egg, "kg/kg");
    }
  }
  add("feed", "feed and scraps fed", some(ration.fed),
      without(ration.no_weight, "given without a weight"));
  add("feed_bought", "feed bought", some(ration.bought));
  add_larvae(ration, rules, add);
  add_intake(ration, birds, rules, add);
}

void measure_manure(const model::History& history, std::vector<model::Measure>& into) {
  const Adder add{into};
  Kilograms out;
  for (const model::Movement& movement : history.out) {
    if (movement.material.group != model::group::kManure) continue;
    out += movement.mass().value_or(Kilograms{});
  }
  add("manure_out", "manure carried out", some(out));
  const auto days = hen_days(history, history.batch.started_day, last_day(history));
  if (!days) return;
  const auto manure = science::manure_from_hens(*days, science::kHenManureFresh);
  if (!manure) return;
  const std::string basis =
      "estimate from hen-days, fresh (USDA-NRCS); stored for a year two thirds of its nitrogen are "
      "gone";
  add("manure", "manure made", some(manure->mass), basis);
  add("manure_nitrogen", "nitrogen in it", some(manure->nitrogen), basis);
  add("manure_phosphorus", "phosphorus in it", some(manure->phosphorus), basis);
  add("manure_potassium", "potassium in it", some(manure->potassium), basis);
}

}  // namespace kinds::flock
