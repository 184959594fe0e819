#include "cli/words/carried.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "book/read/read.h"
#include "cli/desk/left.h"
#include "measure/spoken.h"
#include "measure/text.h"
#include "model/material_groups.h"

namespace cli {
namespace {

using measure::Dimension;
using measure::Mistake;

bool can_be_carried(Dimension dimension) {
  return dimension == Dimension::kMass || dimension == Dimension::kVolume ||
         dimension == Dimension::kCount || dimension == Dimension::kEnergy;
}

// Things that are counted: "11 eggs" needs no unit.
bool is_counted(const model::Material& material) {
  static constexpr std::array<std::string_view, 3> kGroups{
      model::group::kEgg, model::group::kLarvae, model::group::kCrop};
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

constexpr std::string_view kAnd = " and ";

// What the material is that a name means: the catalogue's and the site's; the dung of an animal by
// any of its names; or what the batch gives, by the name of its kind or its own code.
const model::Material* material_named(std::string_view name, const CarriedFrom& from,
                                      const Desk& desk) {
  if (const model::Material* known = desk.materials().find(name)) return known;
  if (const model::Material* dung = desk.materials().find(dung_as_manure(name))) return dung;
  if (!from.batch) return nullptr;
  const kinds::Kind& kind = desk.kind(*from.batch);
  const std::string plain = measure::folded(name);
  const bool is_its_own = plain == kind.name || plain == from.batch->code || plain == "it" ||
                          plain == std::string(kind.name) + "s";
  const std::string_view product = desk.study(*from.batch, from.at)->product();
  return is_its_own && !product.empty() ? desk.materials().find(product) : nullptr;
}

bool is_all(std::string_view said) {
  return said == "all" || said == "everything" || said == "rest" || said == "the rest" ||
         said.starts_with("all ");
}

// "all", "all of it", "all compost": what is left by the records.
measure::Result<Carried> read_all(std::string said, const CarriedFrom& from, const Desk& desk) {
  if (!from.batch) {
    return Mistake{said, "all of what? What comes from outside needs an amount, like 40kg"};
  }
  std::string name = said.starts_with("all ") ? said.substr(4) : "";
  if (name.starts_with("of ")) name.erase(0, 3);
  if (name == "it" || name.empty()) name = from.usual;
  const model::Material* material = name.empty() ? nullptr : material_named(name, from, desk);
  if (name.empty()) return Mistake{said, "all of what? Name the material"};
  if (material == nullptr) return no_material(name, desk.materials());
  const auto left = left_in(*from.batch, from.at, desk);
  if (!left) return left.mistake();
  return Carried{*left, desk.print()(*left), *material};
}

// "squash 38lb" is "38lb squash": the amount first, where what stands before it is a material.
std::string amount_first(const std::string& said, const Desk& desk) {
  if (said.empty() || (said[0] >= '0' && said[0] <= '9') || said[0] == '.' || is_all(said)) {
    return said;
  }
  for (std::size_t space = said.find(' '); space != std::string::npos;
       space = said.find(' ', space + 1)) {
    const std::string amount = measure::with_digits(said.substr(space + 1));
    const auto read = measure::parse_amount_then(amount, desk.containers());
    const bool counts = measure::parse_number(amount).ok();
    if (counts || (read && read->rest.empty())) return amount + " " + said.substr(0, space);
  }
  return said;
}

// Whether it is one of the measures that things are carried in, mistyped.
bool is_near_measure(std::string_view vessel, const Desk& desk) {
  std::vector<std::string> known;
  for (const measure::Unit& unit : measure::all_units()) {
    if (!can_be_carried(unit.dimension)) continue;
    for (std::string& alias : measure::split(unit.aliases, ' ')) known.push_back(std::move(alias));
  }
  for (const measure::Container& one : desk.containers()) known.push_back(one.name);
  return std::any_of(known.begin(), known.end(),
                     [&](const std::string& one) { return measure::is_slip_of(vessel, one); });
}

// "1 bag feed", and nobody said what a bag holds.
std::optional<Mistake> unknown_vessel(std::string_view said, const CarriedFrom& from,
                                      const Desk& desk) {
  const auto words = measure::split(said, ' ');
  if (words.size() < 2 || !measure::parse_number(words[0])) return std::nullopt;
  std::string vessel = words[1], name;
  for (std::size_t i = 2; i < words.size(); ++i) {
    if (i == 2 && words[i] == "of") continue;
    name += (name.empty() ? "" : " ") + words[i];
  }
  if (name.empty()) name = from.usual;
  if (vessel.ends_with('s')) vessel.pop_back();
  const model::Material* material = name.empty() ? nullptr : material_named(name, from, desk);
  if (material == nullptr || is_near_measure(vessel, desk) ||
      vessel.find_first_not_of("abcdefghijklmnopqrstuvwxyz-") != std::string::npos) {
    return std::nullopt;
  }
  return Mistake{
      vessel,
      fmt::format("how much does a {0} hold? Say it once: 'roundbook container {0} {1} "
                  "{2}' or 'roundbook container {0} {3}'; then this line again",
                  vessel, desk.print().system() == measure::UnitSystem::kUs ? "50lb" : "20kg",
                  material->name,
                  desk.print().system() == measure::UnitSystem::kUs ? "10gal" : "40L")};
}

measure::Result<Carried> read_some(const std::string& said, const CarriedFrom& from,
                                   const Desk& desk) {
  if (const auto count = read_count(said, desk)) return *count;
  const auto read = measure::parse_amount_then(said, desk.containers());
  if (!read) {
    if (const auto why = lacks_unit(said, desk)) return *why;
    if (const auto why = unknown_vessel(said, from, desk)) return *why;
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
  const std::string name = read->rest.empty() ? std::string(from.usual) : read->rest;
  if (name.empty()) {
    return Mistake{amount.typed,
                   fmt::format("{} of what? Write it like '40kg coffee grounds'", amount.typed)};
  }
  const model::Material* material = material_named(name, from, desk);
  if (material == nullptr) return no_material(name, desk.materials());
  return Carried{amount.value, amount.typed, *material};
}

// Straw is not counted and has no kilowatt-hours.
std::optional<Mistake> unfit_amount(const Carried& carried) {
  const bool is_energy = carried.material.group == model::group::kEnergy;
  const Dimension dimension = carried.amount.dimension;
  static constexpr std::array<std::string_view, 12> kInBulk{
      model::group::kBedding, model::group::kBrew,    model::group::kBrown,
      model::group::kChar,    model::group::kCompost, model::group::kEffluent,
      model::group::kFrass,   model::group::kGas,     model::group::kGreen,
      model::group::kManure,  model::group::kMineral, model::group::kWater};
  const bool is_counted_bulk = dimension == Dimension::kCount &&
                               std::ranges::find(kInBulk, carried.material.group) != kInBulk.end();
  if ((dimension == Dimension::kEnergy) == is_energy && !is_counted_bulk) {
    const bool whole = carried.amount.si == std::floor(carried.amount.si);
    if (dimension != Dimension::kCount || whole) return std::nullopt;
    return Mistake{carried.typed,
                   fmt::format("{} is no whole number, which a count is", carried.typed)};
  }
  return Mistake{carried.typed,
                 fmt::format("{} is {}, and {} is {}", measure::quoted(carried.typed),
                             measure::described(dimension), carried.material.name,
                             is_energy ? "told in kWh" : "weighed or measured by volume")};
}

// More than any such site moves at once (common practice): a slip of the hand.
std::optional<Mistake> beyond_sense(const Carried& carried) {
  constexpr double kMostKilograms = 1e5, kMostLitres = 1e6, kMostCount = 1e7, kMostEnergy = 1e5;
  const double most = carried.amount.dimension == Dimension::kMass     ? kMostKilograms
                      : carried.amount.dimension == Dimension::kVolume ? kMostLitres
                      : carried.amount.dimension == Dimension::kEnergy ? kMostEnergy
                                                                       : kMostCount;
  if (carried.amount.si <= most) return std::nullopt;
  return Mistake{carried.typed,
                 fmt::format("{} {} is more than a site like this moves; --sure records it anyway",
                             carried.typed, carried.material.name)};
}

}  // namespace

measure::Result<Carried> read_carried(std::string_view text, const CarriedFrom& from,
                                      const Desk& desk) {
  const std::string said = amount_first(measure::with_digits(text), desk);
  auto carried = is_all(said) ? read_all(said, from, desk) : read_some(said, from, desk);
  if (!carried) return carried;
  if (auto why = unfit_amount(*carried)) return *why;
  if (auto why = beyond_sense(*carried); why && !from.sure) return *why;
  return carried;
}

std::vector<std::string> loads_in(std::string_view text) {
  std::vector<std::string> loads;
  for (const std::string& part : measure::split(measure::folded(text), ',')) {
    std::string rest = measure::folded(part);
    // An "and" before an amount parts two loads; else it is of a name ("horse manure and straw").
    std::size_t at = 0;
    while ((at = rest.find(kAnd, at)) != std::string::npos) {
      const std::string after = measure::with_digits(rest.substr(at + kAnd.size()));
      const bool is_number = !after.empty() && after[0] >= '0' && after[0] <= '9';
      const bool is_part = after.starts_with("1/");  // "one and a half barrows"
      if (is_number && !is_part) {
        loads.push_back(rest.substr(0, at));
        rest = rest.substr(at + kAnd.size());
        at = 0;
      } else {
        at += kAnd.size();
      }
    }
    if (!rest.empty()) loads.push_back(rest);
  }
  return loads;
}

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

}  // namespace cli
