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

// A factor's ends and its middle.
enum class End { kLow, kUsual, kHigh };

template <class T>
auto at(End end, const model::Rules& rules, const T& low, const T& usual, const T& high) {
  return rules(end == End::kLow ? low : end == End::kHigh ? high : usual);
}

Kilograms landfill_of(const model::Movement& load, const model::Rules& rules, End end) {
  const bool paper = load.material.group == model::group::kPaper;
  const science::Landfill landfill{paper ? at(end, rules, limits::landfill_paper_least,
                                              limits::landfill_paper, limits::landfill_paper_most)
                                         : at(end, rules, limits::landfill_food_least,
                                              limits::landfill_food, limits::landfill_food_most),
                                   rules(limits::landfill_decomposes),
                                   rules(limits::landfill_methane),
                                   rules(limits::landfill_correction),
                                   rules(limits::landfill_oxidised),
                                   at(end, rules, limits::landfill_escapes_least,
                                      limits::landfill_escapes, limits::landfill_escapes_most)};
  return science::landfill_emissions(load.mass().value_or(Kilograms{}), landfill, warming(rules));
}

science::WasteFactors of_piles(const model::Rules& rules, End end) {
  return {KilogramsPerTonne{at(end, rules, limits::pile_methane_least, limits::pile_methane,
                               limits::pile_methane_most)
                                .value},
          KilogramsPerTonne{at(end, rules, limits::pile_nitrous_least, limits::pile_nitrous,
                               limits::pile_nitrous_most)
                                .value}};
}

science::WasteFactors of_digesters(const model::Rules& rules, End end) {
  if (end == End::kLow) return {};
  return {KilogramsPerTonne{
              rules(end == End::kUsual ? limits::digester_methane : limits::digester_methane_most)
                  .value},
          {}};
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

namespace {

// By the end of the span less what it was before, over all batches; `of` gives a measure's number.
template <class Of>
double grown(const std::vector<Judged>& batches, std::string_view key, Of of) {
  double sum = 0;
  const auto add = [&](const std::vector<model::Measure>& measures, double sign) {
    const auto one = std::find_if(measures.begin(), measures.end(),
                                  [&](const model::Measure& each) { return each.key == key; });
    if (one != measures.end()) sum += sign * of(*one);
  };
  for (const Judged& batch : batches) {
    add(batch.measures, 1);
    add(batch.before, -1);
  }
  return sum;
}

model::Measure::Range range_of(const model::Measure& one) {
  const double value = one.value.value.si;
  return one.range.value_or(model::Measure::Range{value, value});
}

}  // namespace

double in_span(const std::vector<Judged>& batches, std::string_view key) {
  return grown(batches, key, [](const model::Measure& one) { return one.value.value.si; });
}

model::Measure::Range range_in_span(const std::vector<Judged>& batches, std::string_view key) {
  return {grown(batches, key, [](const model::Measure& one) { return range_of(one).low; }),
          grown(batches, key, [](const model::Measure& one) { return range_of(one).high; })};
}

namespace {

Kilograms sum_of(const std::vector<GreenhouseLine>& lines, Kilograms GreenhouseLine::*of) {
  Kilograms sum;
  for (const GreenhouseLine& line : lines) sum += line.*of;
  return sum;
}

}  // namespace

Kilograms Greenhouse::net() const {
  return sum_of(lines, &GreenhouseLine::co2e);
}

Kilograms Greenhouse::low() const {
  return sum_of(lines, &GreenhouseLine::low);
}

Kilograms Greenhouse::high() const {
  return sum_of(lines, &GreenhouseLine::high);
}

Greenhouse greenhouse_of(const std::vector<model::Movement>& movements,
                         const std::vector<Judged>& batches, const model::Rules& rules) {
  Greenhouse account;
  account.set =
      fmt::format("IPCC, warming over 100 years: methane {}, nitrous oxide {} times carbon dioxide",
                  measure::print_number(rules(limits::gas_methane).value, 1),
                  measure::print_number(rules(limits::gas_nitrous).value, 1));
  // `of` gives the line at each end of its factors.
  const auto add = [&](std::string key, std::string name, const auto& of, std::string basis,
                       std::string source) {
    const Kilograms usual = of(End::kUsual);
    if (usual.value == 0) return;
    const Kilograms one = of(End::kLow), other = of(End::kHigh);
    account.lines.push_back({std::move(key), std::move(name), usual, std::min(one, other),
                             std::max(one, other), std::move(basis), std::move(source)});
  };
  const auto landfill = [&](End end) {
    Kilograms sum;
    for (const model::Movement& load : movements) {
      if (is_kept_from_landfill(load)) sum += landfill_of(load, rules, end);
    }
    return sum;
  };
  const measure::Printer percent(measure::UnitSystem::kMetric);
  add("landfill", "landfill methane that was not made", landfill,
      fmt::format("food and paper waste brought here, {} to {} of a landfill's methane not caught, "
                  "{} of that oxidised in its cover",
                  percent(rules(limits::landfill_escapes_least)),
                  percent(rules(limits::landfill_escapes_most)),
                  percent(rules(limits::landfill_oxidised))),
      rules.in_force(*limits::landfill_food.info).source + "; " +
          rules.in_force(*limits::landfill_escapes.info).source);
  const auto let_out = [&](bool kinds::Roles::*role, auto factors) {
    return [&rules, all = fed(movements, role), factors](End end) {
      return Kilograms{} - science::treatment_emissions(all, factors(rules, end), warming(rules));
    };
  };
  add("composting", "methane and nitrous oxide of the piles",
      let_out(&kinds::Roles::composts, of_piles),
      "tier 1, by the wet weight put in; a pile that is turned and airy lets go less",
      rules.in_force(*limits::pile_methane.info).source);
  add(std::string(kinds::kind_with(&kinds::Roles::makes_gas).name),
      "methane that leaks from the digester", let_out(&kinds::Roles::makes_gas, of_digesters),
      "tier 1, by the wet weight fed", rules.in_force(*limits::digester_methane.info).source);
  const double stored = in_span(batches, kinds::figures::kCharLasting);
  const auto stored_range = range_in_span(batches, kinds::figures::kCharLasting);
  const auto end_of = [](double usual, model::Measure::Range range) {
    return [=](End end) {
      return Kilograms{end == End::kLow ? range.low : end == End::kHigh ? range.high : usual};
    };
  };
  add("char", "carbon of char that lasts a century", end_of(stored, stored_range),
      "counted once, where it was burnt, wherever it went since",
      "IPCC 2019 Refinement vol. 4 appendix 4");
  const double methane = in_span(batches, kinds::figures::kCharNet) - stored;
  const auto net_range = range_in_span(batches, kinds::figures::kCharNet);
  add("burning", "methane of the burns",
      end_of(methane, {net_range.low - stored_range.low, net_range.high - stored_range.high}),
      "by the feedstock's moisture", "Cornelissen et al. 2016 and 2023");
  const double bottled =
      in_span(batches, kinds::figures::kBottledGasReplaced) * science::kCarbonDioxideOfPropane;
  add("fuel", "bottled gas that was not burnt", end_of(bottled, {bottled, bottled}),
      "as much as households report that such gas replaces; its carbon dioxide as propane",
      "3 x 44.01 kg of CO2 a 44.1 kg of C3H8, from the atomic masses");
  account.notes = {
      "In it: waste that a landfill would have had, the piles, the digester's leaks, the burns and "
      "their char, bottled gas. Not in it: brews, gas let off unburnt, stored slurry and effluent, "
      "what beds and pens give off, engines, haulage, bought goods, and what manure, straw or "
      "leaves would have given off elsewhere.",
      "Each line spans the published range of its factors; the net adds all their low ends, and "
      "all their high ones.",
      "Carbon dioxide of rotting, breath and fire is of this year's growth and is not counted, "
      "nor is carbon kept in compost or soil: no carbon counts twice."};
  return account;
}

}  // namespace season
