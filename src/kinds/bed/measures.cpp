#include "kinds/bed/measures.h"

#include <algorithm>
#include <array>

#include "kinds/bed/says.h"
#include "kinds/bed/study.h"
#include "kinds/figures.h"
#include "kinds/thresholds.h"
#include "measure/text.h"
#include "model/material_groups.h"

namespace kinds::bed {
namespace {

namespace limits = thresholds::bed;
namespace group = model::group;
using measure::Fraction;
using measure::Kilograms;
using measure::Litres;

struct Adder {
  std::vector<model::Measure>& into;

  template <class T>
  void operator()(const std::string& key, std::string name, T value, std::string basis,
                  std::string_view label = "") const {
    into.push_back({"bed." + key,
                    std::move(name),
                    {"", measure::value_of(value), std::string(label)},
                    std::move(basis)});
  }
};

std::string key_of(std::string name) {
  std::replace(name.begin(), name.end(), ' ', '_');
  return name;
}

std::string names_words(const std::vector<std::string>& names, std::string_view why) {
  return names.empty() ? "" : fmt::format("{} left out, {}", measure::joined(names, ", "), why);
}

void add_harvest(const Study& study, const Adder& add) {
  const model::History& history = study.history();
  Kilograms mass;
  std::vector<std::string> counted;
  for (const model::Movement& out : history.out) {
    if (out.material.group != group::kCrop) continue;
    const auto weight = out.mass();
    if (weight) mass += *weight;
    const auto seen = std::find(counted.begin(), counted.end(), out.material.name);
    if (!weight && seen == counted.end()) counted.push_back(out.material.name);
  }
  const std::string basis = names_words(counted, "harvested without a weight");
  if (mass.value > 0) add("harvest", "harvest", mass, basis);
  const auto area = area_of(history.batch);
  if (mass.value > 0 && area) {
    add("yield", "harvest a square metre", measure::Number{mass.value / area->value}, basis,
        "kg/m2");
  }
  Kilograms early;
  const auto& marked = study.early();
  for (const model::Movement* one : marked) early += one->mass().value_or(Kilograms{});
  if (!marked.empty()) {
    add("harvested_early", "of it inside the harvest interval", early,
        fmt::format("{}, recorded against 7 CFR 205.203(c)(1)",
                    marked.size() == 1 ? "1 harvest" : fmt::format("{} harvests", marked.size())));
  }
}

// Liquids sink in: only what lies on the bed has a depth.
bool lies_on_top(const Given& one) {
  return one.group != group::kBrew && one.group != group::kEffluent;
}

void add_given(const model::History& history, const std::vector<Given>& given, const Adder& add) {
  const auto area = area_of(history.batch);
  for (const Given& one : given) {
    const std::string key = key_of(one.material);
    if (one.mass.value > 0) add("in." + key, one.material + " put on", one.mass, "");
    if (!area) continue;
    if (one.mass.value > 0) {
      add("in_area." + key, one.material + " a square metre",
          measure::Number{one.mass.value / area->value}, "", "kg/m2");
    }
    if (one.volume.value > 0 && lies_on_top(one)) {
      add("depth." + key, one.material + " as a depth",
          measure::Metres{one.volume.value / 1000 / area->value},
          "spread evenly, before it is dug in");
    }
  }
}

void add_nutrients(const model::History& history, const std::vector<Given>& given,
                   const Adder& add) {
  struct Row {
    const char *key, *name;
    Kilograms science::NutrientMass::*of;
  };
  static constexpr std::array kRows{
      Row{"nitrogen", "nitrogen", &science::NutrientMass::nitrogen},
      Row{"phosphorus", "phosphorus (P)", &science::NutrientMass::phosphorus},
      Row{"potassium", "potassium (K)", &science::NutrientMass::potassium}};
  std::string without = gaps_words(given);
  if (!without.empty()) without = "; without " + without;
  const Taken taken = taken_from(history);
  const std::string unfigured = names_words(taken.left_out, "no removal figures or no weight");
  for (const Row& row : kRows) {
    Kilograms all, first;
    for (const Given& one : given) {
      all += one.all.*row.of;
      first += one.first_year.*row.of;
    }
    const std::string key(row.key), name(row.name);
    if (all.value > 0) {
      add(key + "_in", name + " put on", all, "by the materials' figures" + without);
      add(key + "_first_year", name + " of it for this year's crop", first,
          "estimated by the first-year share of each material (rules bed.available)" + without);
      if (row.of == &science::NutrientMass::nitrogen) add.into.back().range = nitrogen_range(given);
    }
    if (taken.mass.value > 0) {
      add(key + "_out", name + " taken by the harvest", taken.nutrients.*row.of,
          measure::joined(taken.sources, "; ") + (unfigured.empty() ? "" : "; " + unfigured));
    }
  }
  for (const Given& one : given) {
    if (one.first_year.nitrogen.value > 0) {
      add("nitrogen_from." + key_of(one.material),
          "nitrogen for this year's crop from " + one.material, one.first_year.nitrogen, "");
      add.into.back().range = nitrogen_range({one});
    }
  }
}

void add_replaced(const Study& study, const Adder& add) {
  const auto replaced = took_the_place(study);
  if (!replaced) return;
  const std::string basis = study.need() ? "of the site's own loads, no more than the crop needed"
                                         : "of the site's own loads, no more than the harvest took";
  const auto one = [&](std::string_view key, const char* name, Kilograms mass) {
    if (mass.value > 0)
      add.into.push_back({std::string(key), name, {"", measure::value_of(mass), ""}, basis});
  };
  one(figures::kNitrogenReplaced, "fertilizer nitrogen it replaced", replaced->mass.nitrogen);
  if (replaced->nitrogen_least < replaced->nitrogen_most && replaced->mass.nitrogen.value > 0) {
    add.into.back().range = {replaced->nitrogen_least.value, replaced->nitrogen_most.value};
  }
  one(figures::kPhosphorusReplaced, "fertilizer phosphorus (P) it replaced",
      replaced->mass.phosphorus);
  one(figures::kPotassiumReplaced, "fertilizer potassium (K) it replaced",
      replaced->mass.potassium);
}

void add_char(const model::History& history, const model::Rules& rules, const Adder& add) {
  const auto held = char_in(history, rules);
  if (!held) return;
  const measure::Printer print(history.units);
  const std::string depth = print(rules(limits::char_depth));
  const std::string range = fmt::format("{} to {} is worth most", print(rules(limits::char_least)),
                                        print(rules(limits::char_most)));
  add("char", "char put on, by volume", held->volume, "in earlier batches of this bed too");
  add("char_of_soil", "char of the soil's volume", held->share.of_soil,
      fmt::format("of the top {}, the char coming on top; {}", depth, range));
  add("char_of_blend", "char of the blend's volume", held->share.of_blend,
      fmt::format("of the top {} and the char together; settling leaves the truth between", depth));
  add("char_layer", "char as a depth", held->share.layer, "spread evenly, before it is dug in");
}

void add_water(const model::History& history, const Adder& add) {
  Litres water;
  for (const model::Movement& in : history.in) {
    if (in.material.group == group::kWater) water += in.volume().value_or(Litres{});
  }
  if (!(water.value > 0)) return;
  add("water", "water given", water, "as recorded, without rain");
  add.into.back().value.shown_in = {"gal", "L"};
  if (const auto area = area_of(history.batch)) {
    add("water_depth", "water given as a depth", measure::Metres{water.value / 1000 / area->value},
        "");
  }
}

}  // namespace

std::vector<model::Measure> measures_of(const Study& study) {
  std::vector<model::Measure> made;
  const Adder add{made};
  const model::History& history = study.history();
  add_harvest(study, add);
  add_given(history, study.given(), add);
  add_nutrients(history, study.given(), add);
  add_replaced(study, add);
  add_char(history, study.rules(), add);
  add_water(history, add);
  return made;
}

}  // namespace kinds::bed
