#include "cli/desk/objections.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/write/amend.h"
#include "cli/desk/answer.h"
#include "kinds/hold.h"

namespace cli {
namespace {

using measure::Mistake;

// Where more would be taken out of a batch than was ever put in: a sentence saying so. None where
// there is enough, where the kind makes mass, or where nothing recorded can tell.
std::optional<std::string> too_much(const Desk& desk, const model::Batch& from,
                                    const Carried& carried, std::optional<std::int64_t> corrects) {
  if (!desk.kind(from).roles.holds_mass) return std::nullopt;
  const model::History history = desk.history(from);
  model::Movement moved;
  moved.material = carried.material;
  moved.amount = carried.amount;
  const auto wanted = moved.mass();
  if (!wanted || history.in.empty()) return std::nullopt;
  double held = 0;
  for (const model::Movement& one : history.in) {
    const auto mass = one.mass();
    if (!mass) return std::nullopt;
    held += mass->value;
  }
  for (const model::Movement& one : history.out) {
    if (one.id != corrects) held -= one.mass().value_or(measure::Kilograms{}).value;
  }
  // A scale and a handbook density differ: a few per cent more than everything is still everything.
  constexpr double kSlack = 1.05;
  if (wanted->value <= held * kSlack) return std::nullopt;
  const std::string holds = fmt::format("{} holds {} by its records", from.code,
                                        desk.print()(measure::Kilograms{std::max(held, 0.0)}));
  if (carried.amount.dimension == measure::Dimension::kMass) {
    return "that is more than is there: " + holds;
  }
  return fmt::format("{} of {} is {} by its bulk density, more than is there: {}", carried.typed,
                     carried.material.name, desk.print()(*wanted), holds);
}

// The material as this load of it is: what a batch of the site gives holds raw manure by what went
// into that batch, not by its name.
model::Material as_it_is(const model::Movement& load, const std::optional<model::Batch>& from,
                         const Desk& desk) {
  model::Material material = load.material;
  // Animal matter as such says so itself.
  if (!load.manure.empty() && !material.is("manure") && !material.is("animal")) {
    material.flags.emplace_back("manure");
  } else if (load.manure.empty() && from && kinds::passes_on(desk.kind(*from))) {
    std::erase(material.flags, "manure");
  }
  return material;
}

std::optional<kinds::Objection> objection_of_receiver(const model::Movement& load,
                                                      const std::optional<model::Batch>& from,
                                                      const model::Batch& into, const Desk& desk) {
  return desk.kind(into).carrying.objects_to(as_it_is(load, from, desk), into,
                                             book::rules(desk.logbook(), into));
}

// What the batch itself says, behind what the morning says must not be taken: past that, how it
// would be used well is no matter.
std::optional<kinds::Objection> objection_of_giver(const model::Movement& load,
                                                   const model::Batch& from, const Desk& desk) {
  const auto study = desk.study(from, load.at);
  if (auto hold = kinds::against_hold(*study, load)) return hold;
  return study->against_taking(load);
}

// Whether the batch was told so of something that went in before.
bool was_told(const kinds::Objection& objection, const model::Batch& into, const Desk& desk) {
  const auto rules = book::rules(desk.logbook(), into);
  const auto objects_to = desk.kind(into).carrying.objects_to;
  const model::History history = desk.history(into);
  return std::any_of(history.in.begin(), history.in.end(), [&](const model::Movement& one) {
    const auto said = objects_to(one.material, into, rules);
    return said && said->once && said->rule == objection.rule && said->source == objection.source &&
           said->about == objection.about;
  });
}

}  // namespace

measure::Result<std::vector<std::string>> objections(const Carried& carried,
                                                     const model::Movement& load,
                                                     const std::optional<model::Batch>& from,
                                                     const std::optional<model::Batch>& to,
                                                     bool sure, const Desk& desk,
                                                     std::optional<std::int64_t> corrects) {
  std::vector<std::string> remarks;
  std::vector<kinds::Objection> raised;
  constexpr std::string_view kOverrule = "; --sure records it anyway";
  if (from) {
    if (const auto why = too_much(desk, *from, carried, corrects)) {
      if (!sure) return Mistake{from->code, *why + std::string(kOverrule)};
      remarks.push_back(*why);
    }
    if (const auto objection = objection_of_giver(load, *from, desk)) raised.push_back(*objection);
  }
  if (to) {
    const auto objection = objection_of_receiver(load, from, *to, desk);
    if (objection && !(objection->once && was_told(*objection, *to, desk))) {
      raised.push_back(*objection);
    }
    // What a correction changes is in there already.
    if (!corrects) {
      if (const auto cost = desk.study(*to, load.at)->against_adding(load)) raised.push_back(*cost);
    }
  }
  for (const kinds::Objection& objection : raised) {
    const std::string why = objection_text(objection);
    if (objection.refuses && !sure) {
      return Mistake{carried.material.name, why + std::string(kOverrule) + ", and marks it"};
    }
    remarks.push_back(objection.refuses ? why + "; recorded and marked" : why);
  }
  return remarks;
}

measure::Result<std::vector<std::string>> standing_against(const book::NewMovement& movement,
                                                           const Desk& desk, bool sure,
                                                           std::int64_t corrects) {
  const Carried carried{movement.amount, movement.typed, desk.materials().named(movement.material)};
  const auto batch = [&](std::optional<std::int64_t> id) {
    return id ? book::batch_of_id(desk.logbook(), *id) : std::nullopt;
  };
  const auto from = batch(movement.from);
  const auto to = batch(movement.to);
  const model::Movement load = load_of(carried, movement.at, from, to, desk);
  return objections(carried, load, from, to, sure, desk, corrects);
}

}  // namespace cli
