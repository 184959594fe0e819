#include "season/balance.h"

#include <fmt/format.h>

#include <set>

#include "kinds/finding.h"
#include "kinds/kind.h"
#include "kinds/thresholds.h"
#include "model/material_groups.h"
#include "science/numbers/constants.h"

namespace season {
namespace {

namespace limits = kinds::thresholds::loop;
using measure::Kilograms;

struct Sums {
  Kilograms in, out, lost;
  std::set<std::string> unknown_in, unknown_out;
};

bool is_counted(const model::Movement& load) {
  return load.material.group != model::group::kGas && load.material.group != model::group::kEnergy;
}

void add(const std::vector<model::Movement>& loads, Stuff stuff, Kilograms& sum,
         std::set<std::string>& unknown) {
  for (const model::Movement& load : loads) {
    if (!is_counted(load)) continue;
    const auto known = amount(model::load_of(load), stuff);
    if (known) {
      sum += *known;
    } else {
      unknown.insert(load.material.name);
    }
  }
}

// Kilograms of carbon in a cubic metre of gas at 0 degC and 101.325 kPa: methane and carbon dioxide
// hold one atom each.
constexpr double kCarbonOfGas = science::kCarbon / science::kMolarVolume;

struct Lost {
  Kilograms mass;
  std::string_view as;
};

// What of a load is expected to have left for the air by a day, in a batch of the kind it went to.
Lost lost_of(const model::Movement& load, const kinds::Kind* kind, Stuff stuff, model::Day until,
             const model::Rules& rules) {
  if (kind == nullptr || !is_counted(load)) return {};
  const kinds::ExpectedLoss loss = kind->carrying.loss(stuff, load, until, rules);
  return {model::amount(model::load_of(load), stuff).value_or(Kilograms{}) * loss.share.value,
          loss.as};
}

BalanceLine line_of(Stuff stuff, const Sums& sums, bool open, bool makes_none,
                    const model::Rules& rules) {
  BalanceLine line;
  line.stuff = stuff;
  line.in = sums.in;
  line.out = sums.out;
  line.lost = sums.lost;
  line.in_unknown = sums.in.value == 0 && !sums.unknown_in.empty();
  line.out_unknown = sums.out.value == 0 && !sums.unknown_out.empty();
  const Kilograms rest = sums.in - sums.out - sums.lost;
  (open && rest.value > 0 ? line.kept : line.unaccounted) = rest;
  for (const std::string& name : sums.unknown_in) line.left_out.push_back(name + " in");
  for (const std::string& name : sums.unknown_out) line.left_out.push_back(name + " out");
  const double slack =
      (stuff == Stuff::kMass ? rules(limits::balance_slack) : rules(limits::balance_figures)).value;
  line.impossible = makes_none && sums.unknown_in.empty() && sums.in.value > 0 &&
                    sums.out.value > sums.in.value * (1 + slack);
  return line;
}

}  // namespace

Balance balance_of(const model::History& history, std::string_view label,
                   const std::vector<model::Measure>& measures, const model::Rules& rules) {
  const std::string& kind = history.batch.kind;
  const kinds::Kind* found = kinds::find_kind(kind);
  const bool makes_none = found != nullptr && kinds::passes_on(*found);
  const model::Day until = history.batch.ended_day.value_or(history.today);
  Balance balance{std::string(label), kind, !history.batch.ended, {}};
  const bool ground = found != nullptr && found->roles.ground;
  for (const Stuff stuff : kAllStuff) {
    // A crop takes its carbon from the air and its water from the rain.
    if (ground && (stuff == Stuff::kMass || stuff == Stuff::kCarbon)) continue;
    Sums sums;
    add(history.in, stuff, sums.in, sums.unknown_in);
    add(history.out, stuff, sums.out, sums.unknown_out);
    std::string lost_as;
    const auto gas =
        stuff == Stuff::kCarbon ? model::value_of(measures, kind + ".gas") : std::nullopt;
    if (gas && *gas > 0) {
      sums.lost = Kilograms{*gas * kCarbonOfGas};
      lost_as = "as the gas that was metered";
    } else if (loses(history, rules)) {
      for (const model::Movement& load : history.in) {
        const Lost lost = lost_of(load, found, stuff, until, rules);
        if (lost.mass.value > 0) lost_as = fmt::format("{}, expected", lost.as);
        sums.lost += lost.mass;
      }
    }
    BalanceLine line = line_of(stuff, sums, balance.open, makes_none, rules);
    if (line.lost.value > 0) line.lost_as = lost_as;
    balance.lines.push_back(std::move(line));
  }
  return balance;
}

bool loses(const model::History& history, const model::Rules& rules) {
  return kinds::find_kind(history.batch.kind) != nullptr &&
         kinds::study(history, rules)->loses_yet();
}

Balance site_balance(const std::vector<model::Movement>& movements, model::Day until,
                     const model::Rules& rules, const std::set<std::string>& unbegun) {
  Balance balance{"", "", true, {}};
  for (const Stuff stuff : kAllStuff) {
    Sums sums;
    std::vector<model::Movement> in, out;
    for (const model::Movement& load : movements) {
      // Rain and taps do not close a loop, and nobody weighs what dries.
      if (load.material.group == model::group::kWater) continue;
      if (load.from.empty()) in.push_back(load);
      if (load.to.empty()) out.push_back(load);
      if (load.to.empty() || unbegun.count(load.to) > 0) continue;
      sums.lost += lost_of(load, kinds::find_kind(load.to_kind), stuff, until, rules).mass;
    }
    add(in, stuff, sums.in, sums.unknown_in);
    add(out, stuff, sums.out, sums.unknown_out);
    BalanceLine line = line_of(stuff, sums, true, false, rules);
    // What is below zero came out of the site's own ground, or out of the air.
    line.kept += line.unaccounted;
    line.unaccounted = Kilograms{};
    if (line.lost.value > 0) line.lost_as = "in all batches together, expected";
    balance.lines.push_back(std::move(line));
  }
  return balance;
}

std::vector<model::Told> impossible_findings(const Balance& balance, measure::UnitSystem units) {
  std::vector<model::Told> findings;
  const measure::Printer print(units);
  for (const BalanceLine& line : balance.lines) {
    if (!line.impossible) continue;
    model::Told made{
        kinds::finding(balance.kind + ".balance", model::Urgency::kSoon, "conservation of mass")};
    made.batch = balance.batch;
    made.kind = balance.kind;
    made.value =
        model::Measured{std::string(model::key(line.stuff)), measure::value_of(line.out), ""};
    made.limit =
        model::Measured{std::string(model::key(line.stuff)), measure::value_of(line.in), ""};
    made.words.says = fmt::format("more {} came out than went in: {} out, {} in",
                                  model::name(line.stuff), print(line.out), print(line.in));
    made.words.why =
        line.stuff == Stuff::kMass
            ? "a weight or a bulk density is off, or something put in was not logged"
            : "a weight or a material's figure is off, or something put in was not logged";
    made.words.action =
        fmt::format("look through 'roundbook trace {} --up' for what is missing", balance.batch);
    findings.push_back(std::move(made));
  }
  return findings;
}

}  // namespace season
