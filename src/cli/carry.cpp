#include "cli/carry.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "book/amend.h"
#include "book/pen.h"
#include "cli/answer.h"
#include "cli/desk.h"
#include "measure/text.h"

namespace cli {
namespace {

using measure::Dimension;
using measure::Mistake;

bool can_be_carried(Dimension dimension) {
  return dimension == Dimension::kMass || dimension == Dimension::kVolume ||
         dimension == Dimension::kCount || dimension == Dimension::kEnergy;
}

Mistake no_material(std::string_view word, const Desk& desk) {
  std::string why = fmt::format("no material is called {}", measure::quoted(word));
  if (const auto near = desk.materials().nearest(word)) {
    why += fmt::format("; did you mean {}?", *near);
  } else {
    why += fmt::format("; 'roundbook material \"{}\" --new' adds it", std::string(word));
  }
  return {std::string(word), why};
}

// Things that are counted: "11 eggs" needs no unit.
bool is_counted(const model::Material& material) {
  static constexpr std::array<std::string_view, 3> kGroups{"egg", "larvae", "crop"};
  return std::find(kGroups.begin(), kGroups.end(), material.group) != kGroups.end();
}

std::optional<Carried> read_count(std::string_view text, const Desk& desk) {
  const std::string plain = measure::folded(text);
  const std::size_t space = plain.find(' ');
  if (space == std::string::npos) return std::nullopt;
  const auto number = measure::parse_number(plain.substr(0, space));
  const model::Material* material = desk.materials().find(plain.substr(space + 1));
  if (!number || *number <= 0 || material == nullptr || !is_counted(*material)) return std::nullopt;
  return Carried{{Dimension::kCount, *number}, plain.substr(0, space), *material};
}

// "40 coffee grounds": a number and a material, and nothing that says how much.
std::optional<Mistake> lacks_unit(std::string_view text, const Desk& desk) {
  const std::string plain = measure::folded(text);
  const std::size_t space = plain.find(' ');
  if (space == std::string::npos || !measure::parse_number(plain.substr(0, space)))
    return std::nullopt;
  const model::Material* material = desk.materials().find(plain.substr(space + 1));
  if (material == nullptr) return std::nullopt;
  return Mistake{plain,
                 fmt::format("'{0}' has no unit; write it like '{0}kg {1}' or '{0} bucket {1}'",
                             plain.substr(0, space), material->name)};
}

}  // namespace

measure::Result<Carried> read_carried(std::string_view text, std::string_view usual,
                                      const Desk& desk) {
  if (const auto count = read_count(text, desk)) return *count;
  const auto read = measure::parse_amount_then(text, desk.containers());
  if (!read) {
    if (const auto why = lacks_unit(text, desk)) return *why;
    return read.mistake();
  }
  const measure::Amount& amount = read->amount;
  if (!can_be_carried(amount.value.dimension)) {
    return Mistake{
        amount.typed,
        fmt::format("{} is {}; what is carried is weighed, measured by volume "
                    "or counted",
                    measure::quoted(amount.typed), measure::described(amount.value.dimension))};
  }
  if (amount.value.si <= 0) {
    return Mistake{amount.typed, fmt::format("{} is nothing", measure::quoted(amount.typed))};
  }
  const std::string name = read->rest.empty() ? std::string(usual) : read->rest;
  if (name.empty()) {
    return Mistake{amount.typed,
                   fmt::format("{} of what? Write it like '40kg coffee grounds'", amount.typed)};
  }
  const model::Material* material = desk.materials().find(name);
  if (material == nullptr) return no_material(name, desk);
  return Carried{amount.value, amount.typed, *material};
}

namespace {

// "12.50", "$12.50" as hundredths.
measure::Result<std::optional<std::int64_t>> read_money(const Arguments& arguments,
                                                        std::string_view option) {
  const auto typed = arguments.option(option);
  if (!typed) return std::optional<std::int64_t>();
  std::string_view digits = *typed;
  for (const std::string_view sign : {"$", "€", "£"}) {
    if (digits.starts_with(sign)) digits.remove_prefix(sign.size());
  }
  const auto number = measure::parse_number(digits);
  if (!number || *number < 0 || *number > 1e9) {
    return Mistake{*typed, fmt::format("--{} takes an amount of money like 12.50, not {}", option,
                                       measure::quoted(*typed))};
  }
  return std::optional(static_cast<std::int64_t>(std::llround(*number * 100)));
}

// Where more would be taken out of a batch than was ever put in: a sentence saying so. None where
// there is enough, where the kind makes mass, or where nothing recorded can tell.
std::optional<std::string> too_much(const Desk& desk, const model::Batch& from,
                                    const Carried& carried, std::optional<std::int64_t> corrects) {
  if (!desk.kind(from).keeps_mass) return std::nullopt;
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
  return fmt::format("that is more than is there: {} holds {} by its records", from.code,
                     desk.print()(measure::Kilograms{std::max(held, 0.0)}));
}

struct CarriedWords {
  std::string text;  // "2 bucket coffee grounds (26.4 lb by its bulk density)"
  std::optional<std::string> remark;
};

CarriedWords carried_words(const Carried& carried, const Desk& desk) {
  model::Movement moved;
  moved.material = carried.material;
  moved.amount = carried.amount;
  const auto mass = moved.mass();
  CarriedWords words{fmt::format("{} {}", carried.typed, carried.material.name), std::nullopt};
  if (carried.amount.dimension != Dimension::kVolume) return words;
  if (mass) {
    words.text += fmt::format(" ({} by its bulk density)", desk.print()(*mass));
  } else if (carried.material.group != "gas") {
    words.remark = fmt::format(
        "the bulk density of {0} is not known, so it stays a volume: 'roundbook "
        "material \"{0}\" bulk_density=...' sets it",
        carried.material.name);
  }
  return words;
}

// The material as this load of it is: what a batch of the site gives holds raw manure by what went
// into that batch, not by its name.
model::Material as_it_is(const model::Movement& load, const std::optional<model::Batch>& from,
                         const Desk& desk) {
  model::Material material = load.material;
  if (!load.manure.empty() && !material.is("manure")) {
    material.flags.emplace_back("manure");
  } else if (load.manure.empty() && from && kinds::passes_on(desk.kind(*from))) {
    std::erase(material.flags, "manure");
  }
  return material;
}

std::optional<kinds::Objection> objection_of_receiver(const model::Movement& load,
                                                      const std::optional<model::Batch>& from,
                                                      const model::Batch& into, const Desk& desk) {
  const kinds::Kind& kind = desk.kind(into);
  if (kind.objects_to == nullptr) return std::nullopt;
  return kind.objects_to(as_it_is(load, from, desk), into, book::rules(desk.logbook(), into));
}

std::optional<kinds::Objection> objection_of_giver(const model::Movement& load,
                                                   const model::Batch& from, const Desk& desk) {
  const kinds::Kind& kind = desk.kind(from);
  if (kind.objects_to_taking == nullptr) return std::nullopt;
  return kind.objects_to_taking(load, desk.history(from, load.at),
                                book::rules(desk.logbook(), from));
}

// Whether the batch was told so of something that went in before.
bool was_told(const kinds::Objection& objection, const model::Batch& into, const Desk& desk) {
  const auto rules = book::rules(desk.logbook(), into);
  const auto objects_to = desk.kind(into).objects_to;
  const model::History history = desk.history(into);
  return std::any_of(history.in.begin(), history.in.end(), [&](const model::Movement& one) {
    const auto said = objects_to(one.material, into, rules);
    return said && said->once && said->rule == objection.rule && said->source == objection.source;
  });
}

// What stands against the movement: taking more than is there, or either end's objection.
measure::Result<std::vector<std::string>> objections(const Carried& carried,
                                                     const model::Movement& load,
                                                     const std::optional<model::Batch>& from,
                                                     const std::optional<model::Batch>& to,
                                                     bool sure, const Desk& desk,
                                                     std::optional<std::int64_t> corrects = {}) {
  std::vector<std::string> remarks;
  std::vector<kinds::Objection> raised;
  constexpr std::string_view kOverrule = "; --sure records it all the same";
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

// The movement as it will be read back.
model::Movement load_of(const Carried& carried, measure::Instant at,
                        const std::optional<model::Batch>& from,
                        const std::optional<model::Batch>& to, const Desk& desk) {
  model::Movement load;
  load.at = at;
  load.day = desk.site().zone.day_of(at);
  load.material = carried.material;
  load.amount = carried.amount;
  load.typed = carried.typed;
  if (from) {
    load.from = book::label_of(desk.logbook(), *from);
    load.from_kind = from->kind;
  }
  if (to) {
    load.to = book::label_of(desk.logbook(), *to);
    load.to_kind = to->kind;
  }
  if (to) desk.bring_provenance(load);
  return load;
}

// What is to be said of a load at the moment when a bed gets it.
std::vector<std::string> use_lines(const model::Movement& load,
                                   const std::optional<model::Batch>& from,
                                   const std::optional<model::Batch>& to, const Desk& desk) {
  if (!to || desk.kind(*to).on_arrival == nullptr) return {};
  std::vector<std::string> lines;
  if (from && desk.kind(*from).at_use != nullptr) {
    lines = desk.kind(*from).at_use(load, desk.history(*from, load.at),
                                    book::rules(desk.logbook(), *from));
  }
  for (auto& line : desk.kind(*to).on_arrival(load, desk.history(*to, load.at),
                                              book::rules(desk.logbook(), *to))) {
    lines.push_back(std::move(line));
  }
  return lines;
}

// Where the other end is no batch: how the outside is said instead.
Mistake other_end_mistake(const std::string& code, Mistake mistake, const Carrying& carrying,
                          const Desk& desk) {
  if (desk.batch(code)) return mistake;
  mistake.why += carrying.into_the_batch
                     ? " (--from is for a batch; what comes from outside needs none)"
                     : fmt::format(
                           " (--to is for a batch; what leaves the site says where with "
                           "--for {})",
                           measure::quoted(code));
  return mistake;
}

// A purpose that is nearly one said before, and so may be it mistyped.
std::optional<std::string> purpose_remark(const std::optional<std::string>& purpose,
                                          const Desk& desk) {
  if (!purpose) return std::nullopt;
  const auto loads =
      book::movements(desk.logbook(), desk.materials(), measure::Instant{}, desk.now());
  std::map<std::string, int> near;
  for (const model::Movement& one : loads) {
    if (one.purpose == *purpose) return std::nullopt;
    const bool same = measure::folded(*purpose) == measure::folded(one.purpose);
    if (same || measure::is_slip_of(*purpose, one.purpose)) near[one.purpose] += same ? 100 : 1;
  }
  if (near.empty()) return std::nullopt;
  const auto likeliest = std::max_element(
      near.begin(), near.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
  return fmt::format(
      "{} was not said before; did you mean {}? 'roundbook undo' takes the line back",
      measure::quoted(*purpose), likeliest->first);
}

std::string_view product_of(const model::Batch& batch, measure::Instant at, const Desk& desk) {
  const kinds::Kind& kind = desk.kind(batch);
  return kind.product_now != nullptr ? kind.product_now(desk.history(batch, at)) : kind.product;
}

}  // namespace

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

Outcome carry(Context& context, const Arguments& arguments, const Carrying& carrying) {
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  if (arguments.words.size() < 2) {
    return Mistake{
        "", fmt::format("{0} needs a batch, an amount and a material, like '{0} heap-3 40kg {1}'",
                        carrying.command, carrying.into_the_batch ? "coffee grounds" : "compost")};
  }
  const auto at = recorded_at(context, arguments, desk->site());
  if (!at) return at.mistake();
  const auto batch = desk->open_batch(arguments.words[0], at->at);
  if (!batch) return batch.mistake();
  const std::vector<std::string> rest(arguments.words.begin() + 1, arguments.words.end());
  const std::string_view usual = carrying.into_the_batch ? "" : product_of(*batch, at->at, *desk);
  const auto carried = read_carried(measure::joined(rest, " "), usual, *desk);
  if (!carried) return carried.mistake();

  std::optional<model::Batch> other;
  if (const auto code = arguments.option(carrying.other_end)) {
    const auto found = desk->open_batch(*code, at->at);
    if (!found) return other_end_mistake(*code, found.mistake(), carrying, *desk);
    if (found->id == batch->id) {
      return Mistake{
          *code, fmt::format("{} cannot be carried {} itself", found->code, carrying.other_end)};
    }
    other = *found;
  }
  const auto& from = carrying.into_the_batch ? other : std::optional(*batch);
  const auto& to = carrying.into_the_batch ? std::optional(*batch) : other;
  const bool sure = arguments.flag("sure");
  model::Movement load = load_of(*carried, at->at, from, to, *desk);
  load.purpose = arguments.option("for").value_or("");
  const auto remarks = objections(*carried, load, from, to, sure, *desk);
  if (!remarks) return remarks.mistake();
  const auto money = read_money(arguments, carrying.money);
  if (!money) return money.mistake();

  book::NewMovement movement{.at = at->at,
                             .material = carried->material.name,
                             .from = from ? std::optional(from->id) : std::nullopt,
                             .to = to ? std::optional(to->id) : std::nullopt,
                             .amount = carried->amount,
                             .typed = carried->typed,
                             .purpose = arguments.option("for"),
                             .paid_cents = carrying.into_the_batch ? *money : std::nullopt,
                             .sold_cents = carrying.into_the_batch ? std::nullopt : *money,
                             .sure = sure};
  const CarriedWords words = carried_words(*carried, *desk);
  Answer answer{*batch, words.text + (carrying.into_the_batch ? " in" : " out"), *remarks};
  if (other) answer.recorded += fmt::format(" {} {}", carrying.other_end, other->code);
  if (movement.purpose) answer.recorded += " for " + *movement.purpose;
  if (arguments.option("when")) {
    answer.recorded = fmt::format(
        "{}, {}", measure::moment_words(at->at, desk->now(), desk->site().zone), answer.recorded);
  }
  for (auto& line : use_lines(load, from, to, *desk)) answer.remarks.push_back(std::move(line));
  if (from) answer.caution = caution_for({.out = &load}, *from, at->at, *desk);
  if (to && answer.caution.empty()) {
    answer.caution = caution_for({.in = &load}, *to, at->at, *desk);
  }
  if (words.remark) answer.remarks.push_back(*words.remark);
  if (const auto near = purpose_remark(movement.purpose, *desk)) answer.remarks.push_back(*near);
  if (!at->remark.empty()) answer.remarks.push_back(at->remark);
  book::Pen pen(*context.book,
                {context.who, std::string(carrying.command), context.line, context.clock});
  pen.add_movement(movement);
  pen.commit();
  print_answer(context, *desk, answer);
  return kDone;
}

}  // namespace cli
