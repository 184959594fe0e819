#include "season/greenhouse.h"

#include <fmt/format.h>

#include <algorithm>

#include "kinds/figures.h"
#include "kinds/kind.h"
#include "kinds/thresholds.h"
#include "measure/printer.h"
#include "model/material_groups.h"
#include "science/gas/greenhouse.h"

namespace season {
namespace {

namespace limits = kinds::thresholds::loop;
using measure::Kilograms;
using science::KilogramsPerTonne;

science::WarmingPotentials warming(const model::Rules& rules) {
  return {rules(limits::gas_methane), rules(limits::gas_nitrous)};
}

Kilograms landfill_of(const model::Movement& load, const model::Rules& rules) {
  const bool paper = load.material.group == model::group::kPaper;
  const science::Landfill landfill{
      paper ? rules(limits::landfill_paper) : rules(limits::landfill_food),
      rules(limits::landfill_decomposes),
      rules(limits::landfill_methane),
      rules(limits::landfill_correction),
      rules(limits::landfill_oxidised),
      rules(limits::landfill_escapes)};
  return science::landfill_emissions(load.mass().value_or(Kilograms{}), landfill, warming(rules));
}

// What was put into batches of that role, without water.
Kilograms fed(const std::vector<model::Movement>& movements, bool kinds::Roles::*role) {
  Kilograms sum;
  for (const model::Movement& load : movements) {
    if (!kinds::has_role(load.to_kind, role) || load.material.group == model::group::kWater)
      continue;
    sum += load.mass().value_or(Kilograms{});
  }
  return sum;
}

}  // namespace

bool is_kept_from_landfill(const model::Movement& load) {
  const std::string& group = load.material.group;
  const bool waste = group == model::group::kFood || group == model::group::kBrewery ||
                     group == model::group::kDairy || group == model::group::kPaper;
  return waste && load.from.empty() && !load.to.empty() && load.paid_cents.value_or(0) == 0;
}

double in_span(const std::vector<Judged>& batches, std::string_view key) {
  double sum = 0;
  for (const Judged& batch : batches) {
    sum += model::value_of(batch.measures, key).value_or(0) -
           model::value_of(batch.before, key).value_or(0);
  }
  return sum;
}

Kilograms Greenhouse::net() const {
  Kilograms sum;
  for (const GreenhouseLine& line : lines) sum += line.co2e;
  return sum;
}

Greenhouse greenhouse_of(const std::vector<model::Movement>& movements,
                         const std::vector<Judged>& batches, const model::Rules& rules) {
  Greenhouse account;
  account.set =
      fmt::format("IPCC, warming over 100 years: methane {}, nitrous oxide {} times carbon dioxide",
                  measure::print_number(rules(limits::gas_methane).value, 1),
                  measure::print_number(rules(limits::gas_nitrous).value, 1));
  const auto add = [&](std::string key, std::string name, Kilograms co2e, std::string basis,
                       std::string source) {
    if (co2e.value == 0) return;
    account.lines.push_back(
        {std::move(key), std::move(name), co2e, std::move(basis), std::move(source)});
  };
  Kilograms landfill;
  for (const model::Movement& load : movements) {
    if (is_kept_from_landfill(load)) landfill += landfill_of(load, rules);
  }
  const measure::Printer percent(measure::UnitSystem::kMetric);
  add("landfill", "landfill methane that was not made", landfill,
      fmt::format("food and paper waste brought here, {} of a landfill's methane not caught, {} of "
                  "that oxidised in its cover",
                  percent(rules(limits::landfill_escapes)),
                  percent(rules(limits::landfill_oxidised))),
      rules.in_force(*limits::landfill_food.info).source + "; " +
          rules.in_force(*limits::landfill_escapes.info).source);
  const science::WasteFactors pile{KilogramsPerTonne{rules(limits::pile_methane).value},
                                   KilogramsPerTonne{rules(limits::pile_nitrous).value}};
  add("composting", "methane and nitrous oxide of the piles",
      Kilograms{} - science::treatment_emissions(fed(movements, &kinds::Roles::composts), pile,
                                                 warming(rules)),
      "tier 1, by the wet weight put in; a pile that is turned and airy lets go less",
      rules.in_force(*limits::pile_methane.info).source);
  const science::WasteFactors digester{KilogramsPerTonne{rules(limits::digester_methane).value},
                                       KilogramsPerTonne{0}};
  add(std::string(kinds::kind_with(&kinds::Roles::makes_gas).name),
      "methane that leaks from the digester",
      Kilograms{} - science::treatment_emissions(fed(movements, &kinds::Roles::makes_gas), digester,
                                                 warming(rules)),
      "tier 1, by the wet weight fed", rules.in_force(*limits::digester_methane.info).source);
  const double stored = in_span(batches, kinds::figures::kCharLasting);
  const double net = in_span(batches, kinds::figures::kCharNet);
  add("char", "carbon of char that lasts a century", Kilograms{stored},
      "counted once, where it was burnt, wherever it went since",
      "IPCC 2019 Refinement vol. 4 appendix 4");
  add("burning", "methane of the burns", Kilograms{net - stored}, "by the feedstock's moisture",
      "Cornelissen et al. 2016 and 2023");
  const double bottled = in_span(batches, kinds::figures::kBottledGasReplaced);
  add("fuel", "bottled gas that was not burnt",
      Kilograms{bottled * science::kCarbonDioxideOfPropane},
      "as much as households report that such gas replaces; its carbon dioxide as propane",
      "3 x 44.01 kg of CO2 a 44.1 kg of C3H8, from the atomic masses");
  account.notes = {
      "An estimate: every line leans on default factors, and the true value may be half or double.",
      "Carbon kept in compost or soil is not counted, so that no carbon counts twice: char once at "
      "its burn, waste once as landfill methane.",
      "Carbon dioxide of rotting, breath and fire is of this year's growth and is not counted; nor "
      "are engines, haulage and bought goods."};
  return account;
}

}  // namespace season
