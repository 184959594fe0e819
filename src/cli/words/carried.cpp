#include "cli/words/carried.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "book/read/read.h"
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
  if (material == nullptr) return no_material(name, desk.materials());
  return Carried{amount.value, amount.typed, *material};
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
