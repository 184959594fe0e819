#include "season/balance.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "kinds/kind.h"
#include "kinds/thresholds.h"
#include "kinds/words.h"

namespace season {
namespace {

namespace limits = kinds::thresholds::loop;
using measure::Fraction;
using measure::Kilograms;

std::optional<Kilograms> amount(const model::Load& load, Stuff stuff) {
  switch (stuff) {
    case Stuff::kMass:
      return load.mass;
    case Stuff::kCarbon:
      return load.carbon;
    case Stuff::kNitrogen:
      return load.nitrogen;
    case Stuff::kPhosphorus:
      return load.phosphorus;
    case Stuff::kPotassium:
      return load.potassium;
  }
  return std::nullopt;
}

struct Loss {
  Fraction share;
  std::string as;
};

Loss pile_loss(Stuff stuff, const model::Rules& rules) {
  switch (stuff) {
    case Stuff::kMass:
      return {rules(limits::loss_pile_mass), "as water vapour and gas"};
    case Stuff::kCarbon:
      return {rules(limits::loss_pile_carbon), "as carbon dioxide"};
    case Stuff::kNitrogen:
      return {rules(limits::loss_pile_nitrogen), "as ammonia"};
    case Stuff::kPhosphorus:
    case Stuff::kPotassium:
      break;
  }
  return {};
}

Loss larvae_loss(Stuff stuff, const model::Rules& rules) {
  switch (stuff) {
    case Stuff::kMass:
      return {rules(limits::loss_larvae_mass), "as water vapour and gas"};
    case Stuff::kCarbon:
      return {rules(limits::loss_larvae_carbon), "breathed out as carbon dioxide"};
    case Stuff::kNitrogen:
      return {rules(limits::loss_larvae_nitrogen), "as ammonia"};
    case Stuff::kPhosphorus:
    case Stuff::kPotassium:
      break;
  }
  return {};
}

Loss burn_loss(Stuff stuff, const model::Rules& rules) {
  switch (stuff) {
    case Stuff::kMass:
      return {rules(limits::loss_burn_mass), "burnt off, with the feedstock's water"};
    case Stuff::kCarbon:
      return {rules(limits::loss_burn_carbon), "burnt off as carbon dioxide"};
    case Stuff::kNitrogen:
      return {rules(limits::loss_burn_nitrogen), "burnt off"};
    case Stuff::kPhosphorus:
    case Stuff::kPotassium:
      break;
  }
  return {};
}

// What a batch of the kind is expected to lose of what goes in.
Loss loss_of(std::string_view kind, Stuff stuff, const model::Rules& rules) {
  if (kind == "pile") return pile_loss(stuff, rules);
  if (kind == "larvae") return larvae_loss(stuff, rules);
  if (kind == "burn") return burn_loss(stuff, rules);
  if (kind == "digester" && stuff == Stuff::kCarbon) {
    return {rules(limits::loss_digester_carbon), "as gas"};
  }
  if (kind == "brew" && stuff == Stuff::kNitrogen) {
    namespace brew = kinds::thresholds::brew;
    return {Fraction{rules(brew::extract_nitrogen).value * rules(brew::extract_lost).value},
            "as ammonia"};
  }
  return {};
}

// How much of its loss a load has had by a day: composting takes weeks, and nothing burns before it
// is lit.
double progress_of_loss(std::string_view kind, const model::Movement& load, model::Day until,
                        const model::Rules& rules) {
  if (kind != "pile") return 1;
  const double days = kinds::days_between(load.day, until);
  return std::clamp(days / rules(limits::loss_pile_days).value, 0.0, 1.0);
}

struct Sums {
  Kilograms in, out, lost;
  std::set<std::string> unknown_in, unknown_out;
};

bool is_counted(const model::Movement& load) {
  return load.material.group != "gas";
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
// hold one atom each. 12.011 g/mol over 22.414 L/mol.
constexpr double kCarbonOfGas = 12.011 / 22.414;

std::optional<double> measured(const std::vector<model::Measure>& measures, std::string_view key) {
  for (const model::Measure& one : measures) {
    if (one.key == key) return one.value.value.si;
  }
  return std::nullopt;
}

bool was_lit(const model::History& history) {
  return history.last_deed("lit") != nullptr || history.batch.ended;
}

BalanceLine line_of(Stuff stuff, const Sums& sums, bool open, bool makes_none,
                    const model::Rules& rules) {
  BalanceLine line;
  line.stuff = stuff;
  line.in = sums.in;
  line.out = sums.out;
  line.lost = sums.lost;
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

std::string_view key(Stuff stuff) {
  switch (stuff) {
    case Stuff::kMass:
      return "mass";
    case Stuff::kCarbon:
      return "carbon";
    case Stuff::kNitrogen:
      return "nitrogen";
    case Stuff::kPhosphorus:
      return "phosphorus";
    case Stuff::kPotassium:
      return "potassium";
  }
  return "";
}

std::string_view name(Stuff stuff) {
  switch (stuff) {
    case Stuff::kMass:
      return "weight";
    case Stuff::kCarbon:
      return "carbon";
    case Stuff::kNitrogen:
      return "nitrogen";
    case Stuff::kPhosphorus:
      return "phosphorus (P)";
    case Stuff::kPotassium:
      return "potassium (K)";
  }
  return "";
}

Balance balance_of(const model::History& history, std::string_view label,
                   const std::vector<model::Measure>& measures, const model::Rules& rules) {
  const std::string& kind = history.batch.kind;
  const kinds::Kind* found = kinds::find_kind(kind);
  const bool makes_none = found != nullptr && found->still_raw != nullptr;
  const model::Day until = history.batch.ended_day.value_or(history.today);
  Balance balance{std::string(label), kind, !history.batch.ended, {}};
  for (const Stuff stuff : kAllStuff) {
    Sums sums;
    add(history.in, stuff, sums.in, sums.unknown_in);
    add(history.out, stuff, sums.out, sums.unknown_out);
    const Loss loss = loss_of(kind, stuff, rules);
    std::string lost_as = loss.as;
    const auto gas = stuff == Stuff::kCarbon ? measured(measures, "digester.gas") : std::nullopt;
    if (gas && *gas > 0) {
      sums.lost = Kilograms{*gas * kCarbonOfGas};
      lost_as = "as the gas that was metered";
    } else if (kind != "burn" || was_lit(history)) {
      for (const model::Movement& load : history.in) {
        if (!is_counted(load)) continue;
        sums.lost += amount(model::load_of(load), stuff).value_or(Kilograms{}) *
                     (loss.share.value * progress_of_loss(kind, load, until, rules));
      }
      if (sums.lost.value > 0) lost_as += ", expected";
    }
    BalanceLine line = line_of(stuff, sums, balance.open, makes_none, rules);
    if (line.lost.value > 0) line.lost_as = lost_as;
    balance.lines.push_back(std::move(line));
  }
  return balance;
}

Balance site_balance(const std::vector<model::Movement>& movements, model::Day until,
                     const model::Rules& rules) {
  Balance balance{"", "", true, {}};
  for (const Stuff stuff : kAllStuff) {
    Sums sums;
    std::vector<model::Movement> in, out;
    for (const model::Movement& load : movements) {
      if (load.from.empty()) in.push_back(load);
      if (load.to.empty()) out.push_back(load);
      if (load.to.empty() || !is_counted(load)) continue;
      sums.lost += amount(model::load_of(load), stuff).value_or(Kilograms{}) *
                   (loss_of(load.to_kind, stuff, rules).share.value *
                    progress_of_loss(load.to_kind, load, until, rules));
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

std::vector<model::Finding> impossible_findings(const Balance& balance, measure::UnitSystem units) {
  std::vector<model::Finding> findings;
  const measure::Printer print(units);
  for (const BalanceLine& line : balance.lines) {
    if (!line.impossible) continue;
    model::Finding made =
        kinds::finding(balance.kind + ".balance", model::Urgency::kSoon, "conservation of mass");
    made.batch = balance.batch;
    made.kind = balance.kind;
    made.value = model::Measured{std::string(key(line.stuff)), measure::value_of(line.out), ""};
    made.limit = model::Measured{std::string(key(line.stuff)), measure::value_of(line.in), ""};
    made.says = fmt::format("more {} came out than went in: {} out, {} in", name(line.stuff),
                            print(line.out), print(line.in));
    made.why = line.stuff == Stuff::kMass
                   ? "a weight or a bulk density is off, or something put in was not logged"
                   : "a weight or a material's figure is off, or something put in was not logged";
    made.action =
        fmt::format("look through 'roundbook trace {} --up' for what is missing", balance.batch);
    findings.push_back(std::move(made));
  }
  return findings;
}

}  // namespace season
