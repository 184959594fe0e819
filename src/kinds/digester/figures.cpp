#include "kinds/digester/figures.h"

#include <fmt/format.h>

#include <algorithm>

#include "kinds/digester/says.h"
#include "kinds/digester/vocabulary.h"
#include "kinds/figures.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"
#include "measure/text.h"
#include "science/gas/digestion.h"
#include "science/gas/gas_use.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Dimension;
using measure::Kilograms;
using measure::Litres;
using measure::Value;
using science::NormalLitres;

constexpr const char* kStandardVolume = "m3 at 0 °C, dry";

class List {
 public:
  void add(const char* key, const char* name, Value value, std::string basis,
           std::string label = "") {
    measures_.push_back({key, name, {name, value, std::move(label)}, std::move(basis)});
  }
  template <class T>
  void add(const char* key, const char* name, T scalar, std::string basis) {
    add(key, name, measure::value_of(scalar), std::move(basis));
  }
  // Gas as a volume at 0 °C, dry.
  void add_gas(const char* key, const char* name, NormalLitres gas, const measure::Printer& print,
               std::string basis) {
    add_number(key, name, gas.value / 1000, kStandardVolume, std::move(basis));
    measures_.back().value.words = gas_words(gas, print) + " at " + freezing_words(print) + ", dry";
  }
  void add_number(const char* key, const char* name, double number, const char* label,
                  std::string basis) {
    add(key, name, Value{Dimension::kNumber, number}, std::move(basis), label);
  }
  model::Measure& last() { return measures_.back(); }
  std::vector<model::Measure> take() { return std::move(measures_); }

 private:
  std::vector<model::Measure> measures_;
};

void add_feed(const Feed& feed, List& list) {
  list.add("digester.feed", "feed, fresh", feed.fresh, "weighed, or by bulk density");
  std::string basis = "by the materials' figures";
  if (!feed.unknown.empty())
    basis += "; not known and left out: " + measure::joined(feed.unknown, ", ");
  list.add("digester.volatile_solids", "volatile solids fed", feed.volatile_solids, basis);
  list.add("digester.water", "water fed", feed.water, "");
  list.last().value.shown_in = kSlurryShown;
  const auto nutrient = [&](const char* key, const char* name, Kilograms mass,
                            const std::set<std::string>& unknown) {
    // Nothing known is no zero.
    if (!(mass > Kilograms{0}) && !unknown.empty()) return;
    std::string in =
        "by the materials' figures; digestion loses carbon, and of these only some nitrogen as "
        "ammonia";
    if (!unknown.empty()) {
      const std::vector<std::string> names(unknown.begin(), unknown.end());
      in += "; not known and left out: " + measure::joined(names, ", ");
    }
    list.add(key, name, mass, std::move(in));
  };
  nutrient("digester.nitrogen_in", "nitrogen fed", feed.nutrients.nitrogen, feed.no_nitrogen);
  nutrient("digester.phosphorus_in", "phosphorus fed", feed.nutrients.phosphorus,
           feed.no_phosphorus);
  nutrient("digester.potassium_in", "potassium fed", feed.nutrients.potassium, feed.no_potassium);
}

void add_gas(const model::History& history, const model::Rules& rules, const Feed& feed,
             const Gas& gas, List& list) {
  if (!(gas.normal.value > 0)) return;
  const measure::Fraction share = methane_share(history, rules);
  const NormalLitres methane = gas.normal * share.value;
  const measure::Printer print(history.units);
  list.add_gas("digester.gas", "gas", gas.normal, print, gas.basis);
  list.add_gas("digester.methane", "methane", methane, print,
               history.find(kMethane) != nullptr
                   ? "methane share as read last"
                   : fmt::format("methane not read, taken as {:.0f} %", share.value * 100));
  list.add("digester.energy", "energy of that methane", science::methane_energy(methane),
           "lower heating value, before any stove");
  if (const auto yield = science::specific_gas(gas.normal, feed.volatile_solids)) {
    std::string basis =
        "all gas over all volatile solids; it says little until feed has stayed its full time";
    if (!feed.unknown.empty()) basis += "; feed of unknown figures gave gas too, so it is too high";
    if (!science::gas_yield_is_possible(*yield)) {
      basis = "more than even pure fat gives: a weight, a figure or the meter is off";
    }
    list.add_number("digester.yield", "gas yield", yield->value, "L/kg VS at 0 °C, dry", basis);
  }
}

void add_use(const model::History& history, const model::Rules& rules, const Gas& gas, List& list) {
  const GasUse use = gas_use_of(history, rules);
  if (!(use.gas.value > 0)) return;
  const auto replaced = science::fuel_replaced(use.gas);
  const char* households = "what households report, each figure alone (Gutterer & Sasse 1993)";
  list.add("digester.gas_used", "gas burned, as it reached the burner", use.gas,
           "by volume where it was carried out, else hours of flame " + use.basis);
  list.last().value.shown_in = {"ft3", "L"};
  list.add_number("digester.cooking_hours", "hours of flame", use.flame.value, "hours",
                  history.all(kCooking).empty() ? "gas burned, " + use.basis : "as logged");
  list.add(figures::kBottledGasReplaced.data(), "bottled gas replaced", replaced.bottled_gas,
           households);
  list.add("digester.firewood", "or firewood replaced", replaced.firewood, households);
  if (gas.metered.value > 0) {
    // Burned gas is as wet and warm as metered gas.
    const NormalLitres normal = gas.normal * (use.gas / gas.metered);
    const auto energy = science::methane_energy(normal * methane_share(history, rules).value);
    list.add("digester.bottled_gas_by_energy", "bottled gas of the same energy",
             science::bottled_gas_of_energy(energy).mass, "propane, lower heating value");
  }
}

void add_effluent(const model::History& history, List& list) {
  Litres volume;
  science::NutrientMass held;
  std::string sources;
  for (const model::Movement& movement : history.out) {
    if (!is_inoculum(movement.material)) continue;
    volume += movement.volume().value_or(Litres{});
    const auto mass = movement.mass();
    const auto moisture = movement.material.moisture();
    if (!mass || !moisture) continue;
    const Kilograms dry = *mass * (1 - moisture->value);
    const auto part = [&](model::Property property) {
      return dry * movement.material.share(property).value_or(measure::Fraction{}).value;
    };
    held = held + science::NutrientMass{part(model::Property::kNitrogen),
                                        part(model::Property::kPhosphorus),
                                        part(model::Property::kPotassium)};
    if (const auto* figure = movement.material.figure(model::Property::kNitrogen))
      sources = figure->source;
  }
  if (!(volume.value > 0)) return;
  list.add("digester.effluent", "effluent out", volume, "not hygienised: it counts as raw manure");
  list.last().value.shown_in = kSlurryShown;
  const std::string basis = "by the material's figures (" + sources + "), not analysed by itself";
  list.add("digester.nitrogen_out", "nitrogen in it", held.nitrogen, basis);
  list.add("digester.phosphorus_out", "phosphorus in it", held.phosphorus, basis);
  list.add("digester.potassium_out", "potassium in it", held.potassium, basis);
}

void add_days(const model::History& history, const model::Rules& rules, const Startup& startup,
              List& list) {
  const auto rolls = model::pooled_days(history.all(kTemperature));
  const auto warm = std::count_if(rolls.begin(), rolls.end(), [&](const model::DayRoll& roll) {
    return !is_below(measure::Celsius{roll.mean()}, rules(limits::cold_below));
  });
  if (!rolls.empty()) {
    list.add("digester.warm_days", "days warm enough", measure::Days{static_cast<double>(warm)},
             fmt::format("of {} with a reading", days_words(static_cast<int>(rolls.size()))));
  }
  if (startup.filled_on && startup.burns_on && !startup.taken_over) {
    list.add(
        "digester.start_days", "days from filling to gas that burns",
        measure::Days{static_cast<double>(days_between(*startup.filled_on, *startup.burns_on))},
        "");
  }
}

void add_chemistry(const Study& study, List& list) {
  const FeedMix& mix = study.mix();
  const Slurry& slurry = study.slurry();
  if (mix.solids) {
    list.add("digester.feed_solids", "solids of feed and water", *mix.solids,
             "of the last days, or of the filling");
  }
  if (mix.c_to_n) {
    list.add("digester.feed_cn", "carbon to nitrogen of the feed", *mix.c_to_n,
             without_words(mix.no_c_to_n));
  }
  if (slurry.acids_to_alkalinity) {
    list.add("digester.acids_to_alkalinity", "acids to alkalinity", *slurry.acids_to_alkalinity,
             slurry.titrated ? "by titration, after Nordmann 1977" : "by a laboratory");
  }
  if (slurry.free_ammonia) {
    list.add_number("digester.free_ammonia", "free ammonia, as nitrogen",
                    slurry.free_ammonia->value, "mg/L",
                    "worked out for dilute water; in slurry it is rather less");
  }
}

void add_due(const Study& study, List& list) {
  const auto& due = study.due();
  if (!due) return;
  const auto add = [&](const char* key, const char* name, NormalLitres gas, const char* basis) {
    list.add_number(key, name, gas.value, "L/d at 0 °C, dry", basis);
    list.last().value.words = fmt::format("{} a day at {}, dry", gas_words(gas, study.print()),
                                          freezing_words(study.print()));
  };
  add("digester.gas_due", "gas due lately", due->by_loads,
      "first-order release of each load at each day's temperature, until feed pushes it out");
  list.last().range = {due->least.value, due->most.value};
  list.last().value.words =
      fmt::format("{} to {} a day at {}, dry", about_gas_words(due->least, study.print()),
                  about_gas_words(due->most, study.print()), freezing_words(study.print()));
  if (!due->stirred) return;
  add("digester.gas_due_stirred", "the same by a second model", *due->stirred,
      "Chen & Hashimoto 1978: a stirred digester of manure at its steady state; its K by "
      "Hashimoto's regressions; an unstirred one gives less");
}

}  // namespace

std::vector<model::Measure> figures_of(const Study& study) {
  const model::History& history = study.history();
  List list;
  add_feed(study.feed(), list);
  add_gas(history, study.rules(), study.feed(), study.gas(), list);
  add_use(history, study.rules(), study.gas(), list);
  add_effluent(history, list);
  add_days(history, study.rules(), study.startup(), list);
  add_chemistry(study, list);
  if (study.running()) add_due(study, list);
  return list.take();
}

}  // namespace kinds::digester
