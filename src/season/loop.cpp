#include "season/loop.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>

#include "kinds/figures.h"
#include "kinds/kind.h"
#include "kinds/thresholds.h"
#include "measure/text.h"
#include "model/material_groups.h"
#include "season/greenhouse.h"

namespace season {
namespace {

namespace limits = kinds::thresholds::loop;
using measure::Fraction;
using measure::Kilograms;
using measure::Litres;

bool eats(const model::Movement& load) {
  return kinds::has_role(load.to_kind, &kinds::Roles::animals);
}

LoopShare share_of(const std::vector<model::Movement>& movements, std::string key, std::string name,
                   bool kinds::Roles::*role) {
  LoopShare share{std::move(key), std::move(name), {}, {}, std::nullopt, ""};
  Kilograms all_nitrogen, own_nitrogen;
  std::set<std::string> unweighed, no_nitrogen;
  for (const model::Movement& load : movements) {
    if (!kinds::has_role(load.to_kind, role) || load.material.group == model::group::kWater)
      continue;
    const model::Load holds = model::load_of(load);
    if (!holds.mass) unweighed.insert(load.material.name);
    if (!holds.nitrogen) no_nitrogen.insert(load.material.name);
    const Kilograms mass = holds.mass.value_or(Kilograms{});
    const Kilograms nitrogen = holds.nitrogen.value_or(Kilograms{});
    share.all += mass;
    all_nitrogen += nitrogen;
    if (load.from.empty()) continue;
    share.own += mass;
    own_nitrogen += nitrogen;
  }
  if (all_nitrogen.value > 0) share.nitrogen_share = Fraction{own_nitrogen / all_nitrogen};
  share.basis = "by weight as carried, without water";
  const auto leave_out = [&](const std::set<std::string>& names, std::string_view of) {
    if (names.empty()) return;
    const std::vector<std::string> list(names.begin(), names.end());
    share.basis += fmt::format("; without {} of {}", of, measure::joined(list, ", "));
  };
  leave_out(unweighed, "the weight");
  leave_out(no_nitrogen, "the nitrogen");
  return share;
}

struct Adder {
  const model::Rules& rules;
  std::vector<Replaced>& into;

  // `in_price_units`: the amount in what the price is for.
  // No: there is nothing of it.
  bool operator()(std::string key, std::string name, measure::Value amount, double in_price_units,
                  model::Threshold<measure::Number> price, std::string basis) const {
    if (!(amount.si > 0)) return false;
    const double each = rules(price).value;
    Replaced one{std::move(key),
                 std::move(name),
                 {"", amount, ""},
                 std::nullopt,
                 each > 0 ? std::optional(in_price_units * each) : std::nullopt,
                 std::move(basis)};
    if (!one.money) one.basis += fmt::format("; no price is set (rule {})", price.info->key);
    into.push_back(std::move(one));
    return true;
  }
};

// Bought feed of the same protein as the larvae that the flock was given.
Kilograms feed_replaced(const std::vector<model::Movement>& movements, const model::Rules& rules) {
  Kilograms protein;
  for (const model::Movement& load : movements) {
    if (!eats(load) || load.material.group != model::group::kLarvae || load.from.empty()) continue;
    const auto mass = load.mass();
    const auto moisture = load.material.moisture();
    const auto share = load.material.share(model::Property::kProtein);
    if (mass && moisture && share) protein += *mass * ((1 - moisture->value) * share->value);
  }
  const Fraction of_feed = rules(kinds::thresholds::flock::feed_protein);
  return of_feed.value > 0 ? protein / of_feed.value : Kilograms{};
}

// What beds' crops did not need to be bought; of beds whose crop's need is not known nothing.
void add_nutrients(const std::vector<Judged>& batches, const Adder& add) {
  const auto each = [&](std::string_view figure, const char* key, const char* name,
                        model::Threshold<measure::Number> price) {
    const Kilograms mass{in_span(batches, figure)};
    if (!add(key, name, measure::value_of(mass), mass.value, price,
             "what the crops could have of the site's own loads, no more than they needed; beds "
             "whose need is not known are left out")) {
      return;
    }
    const auto range = range_in_span(batches, figure);
    if (range.low < range.high) add.into.back().range = range;
  };
  each(kinds::figures::kNitrogenReplaced, "nitrogen", "fertilizer nitrogen",
       limits::price_nitrogen);
  each(kinds::figures::kPhosphorusReplaced, "phosphorus", "fertilizer phosphorus (P)",
       limits::price_phosphorus);
  each(kinds::figures::kPotassiumReplaced, "potassium", "fertilizer potassium (K)",
       limits::price_potassium);
}

void add_replaced(const std::vector<model::Movement>& movements, const std::vector<Judged>& batches,
                  const model::Rules& rules, Loop& into) {
  const Adder add{rules, into.replaced};
  const Kilograms feed = feed_replaced(movements, rules);
  add("feed", "bought feed", measure::value_of(feed), feed.value, limits::price_feed,
      "by the protein of the larvae that the flock was given");
  add_nutrients(batches, add);
  const Kilograms fuel{in_span(batches, kinds::figures::kBottledGasReplaced)};
  add("fuel", "bottled gas", measure::value_of(fuel), fuel.value, limits::price_fuel,
      "by the gas burned, as households report it");
  Litres rain;
  for (const model::Movement& load : movements) {
    const bool used =
        !load.to.empty() && !kinds::has_role(load.to_kind, &kinds::Roles::stores_water);
    if (load.material.name == "rainwater" && used) rain += load.volume().value_or(Litres{});
  }
  add("water", "mains water", measure::value_of(rain), rain.value / 1000, limits::price_water,
      "rainwater carried into batches");
}

}  // namespace

std::optional<Fraction> LoopShare::share() const {
  if (!(all.value > 0)) return std::nullopt;
  return Fraction{own / all};
}

Loop loop_of(const std::vector<model::Movement>& movements, const std::vector<Judged>& batches,
             const model::Rules& rules) {
  Loop loop;
  for (auto& share :
       {share_of(movements, "beds", "put on the beds", &kinds::Roles::ground),
        share_of(movements, std::string(kinds::kind_with(&kinds::Roles::animals).name),
                 "fed to the flock", &kinds::Roles::animals)}) {
    if (share.all.value > 0) loop.shares.push_back(share);
  }
  for (const model::Movement& load : movements) {
    if (is_kept_from_landfill(load)) loop.kept_from_landfill += load.mass().value_or(Kilograms{});
  }
  loop.kept_basis = "food, brewery, dairy and paper waste from outside that was not paid for";
  add_replaced(movements, batches, rules, loop);
  loop.greenhouse = greenhouse_of(movements, batches, rules);
  return loop;
}

std::vector<model::Measure> site_figures(const std::vector<model::Movement>& movements,
                                         const Loop& loop) {
  std::vector<model::Measure> figures;
  const auto add = [&](std::string key, std::string name, measure::Value value, std::string basis,
                       std::string label = "") {
    figures.push_back({"site." + std::move(key),
                       std::move(name),
                       {"", value, std::move(label)},
                       std::move(basis)});
  };
  Kilograms harvest;
  for (const model::Movement& load : movements) {
    if (kinds::has_role(load.from_kind, &kinds::Roles::ground) &&
        load.material.group == model::group::kCrop) {
      harvest += load.mass().value_or(Kilograms{});
    }
  }
  if (harvest.value > 0) add("harvest", "harvested from beds", measure::value_of(harvest), "");
  for (const LoopShare& one : loop.shares) {
    if (const auto share = one.share()) {
      add(one.key + "_own", "of what was " + one.name + ", the site's own",
          measure::value_of(*share), one.basis);
    }
    if (one.nitrogen_share) {
      add(one.key + "_own_nitrogen", "the same by nitrogen", measure::value_of(*one.nitrogen_share),
          one.basis);
    }
  }
  if (loop.kept_from_landfill.value > 0) {
    add("kept_from_landfill", "kept from landfill", measure::value_of(loop.kept_from_landfill),
        loop.kept_basis);
  }
  double money = 0;
  for (const Replaced& one : loop.replaced) {
    add(one.key + "_replaced", one.name + " replaced", one.amount.value, one.basis);
    figures.back().range = one.range;
    money += one.money.value_or(0);
  }
  if (money > 0) {
    add("money_replaced", "worth of what was replaced", {measure::Dimension::kNumber, money},
        "at the site's own prices; what has no price is left out", "money");
  }
  if (!loop.greenhouse.lines.empty()) {
    add("greenhouse", "greenhouse gas kept out of the air, net (CO2 equivalent)",
        measure::value_of(loop.greenhouse.net()),
        "an estimate; below zero: more was let out than kept; " + loop.greenhouse.set);
    figures.back().range = {loop.greenhouse.low().value, loop.greenhouse.high().value};
  }
  return figures;
}

std::vector<Compared> compared(const std::vector<model::Measure>& now,
                               const std::vector<model::Measure>& before) {
  std::vector<Compared> rows;
  for (const model::Measure& one : now) {
    Compared row{one, std::nullopt};
    const auto same = std::find_if(before.begin(), before.end(), [&](const model::Measure& other) {
      return other.key == one.key;
    });
    if (same != before.end()) row.before = *same;
    rows.push_back(std::move(row));
  }
  return rows;
}

}  // namespace season
