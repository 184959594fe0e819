#include "cli/import/targets.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "cli/words/log_words.h"
#include "measure/text.h"

namespace cli {
namespace {

std::vector<book::TargetRun> runs_of(const Desk& desk, const model::Batch& latest, bool only_it) {
  std::vector<book::TargetRun> runs;
  for (const model::Batch& batch : desk.batches()) {
    if (batch.code != latest.code || batch.kind != latest.kind) continue;
    if (only_it && batch.id != latest.id) continue;
    runs.push_back({batch.id, batch.started.time_since_epoch().count(),
                    batch.ended ? batch.ended->time_since_epoch().count()
                                : std::numeric_limits<std::int64_t>::max()});
  }
  std::sort(runs.begin(), runs.end(),
            [](const auto& a, const auto& b) { return a.started < b.started; });
  return runs;
}

// What a bare code means: what the kind is read for.
measure::Result<NamedQuantity> usual_quantity(const kinds::Kind& kind) {
  const std::string_view name =
      kind.vocabulary.temperature.empty() ? kind.vocabulary.rhythm : kind.vocabulary.temperature;
  if (const kinds::Quantity* quantity = kinds::find_quantity(kind, name)) {
    return NamedQuantity{quantity, ""};
  }
  std::vector<std::string_view> known;
  for (const kinds::Quantity& quantity : kind.vocabulary.quantities) known.push_back(quantity.name);
  return measure::Mistake{
      "", fmt::format("say which reading of the {}: {}", kind.name, measure::listed(known))};
}

}  // namespace

measure::Result<book::Target> find_target(const Desk& desk, std::string_view name,
                                          const std::string& unit) {
  const std::size_t dot = name.find('.');
  const auto batch = desk.batch(name.substr(0, dot));
  if (!batch) return batch.mistake();
  const kinds::Kind& kind = desk.kind(*batch);
  const auto named = dot == std::string_view::npos
                         ? usual_quantity(kind)
                         : read_quantity_name(measure::folded(name.substr(dot + 1)), kind);
  if (!named) return named.mistake();
  const kinds::Quantity& quantity = *named->quantity;
  const bool pinned = name.substr(0, dot).find('/') != std::string_view::npos;
  book::Target target;
  target.label = fmt::format(
      "{}{}{}{}", name.substr(0, dot), named->position.empty() ? "" : " ", named->position,
      quantity.name == kind.vocabulary.temperature && !named->position.empty()
          ? ""
          : " " + std::string(quantity.name));
  target.quantity = quantity.name;
  target.position = named->position;
  target.dimension = quantity.dimension;
  target.unit = unit.empty() ? &bare_unit(quantity, desk.print()) : measure::find_unit(unit);
  target.least = quantity.least;
  target.greatest = quantity.greatest;
  target.hourly_change = quantity.hourly_change;
  target.stands_still = quantity.stands_still;
  target.runs = runs_of(desk, *batch, pinned);
  // A plain number's own unit is "count" for want of another; it takes none that is named.
  const bool counts = quantity.dimension == measure::Dimension::kNumber && unit.empty();
  if (target.unit == nullptr || (target.unit->dimension != quantity.dimension && !counts)) {
    return measure::Mistake{
        unit, fmt::format("{} of {} is {}, not in {}", quantity.name, kinds::one_of(kind),
                          measure::described(quantity.dimension), measure::quoted(unit))};
  }
  return target;
}

measure::Result<TargetWord> read_target_word(std::string_view word) {
  const std::size_t colon = word.find(':');
  TargetWord read{measure::folded(word.substr(0, colon)), ""};
  if (colon == std::string_view::npos) return read;
  const std::string_view spelling = word.substr(colon + 1);
  const measure::Unit* unit = measure::find_unit(spelling);
  if (unit == nullptr) {
    return measure::Mistake{std::string(word),
                            fmt::format("{} is no unit", measure::quoted(spelling))};
  }
  read.unit = unit->symbol;
  return read;
}

std::optional<std::string> target_in_name(const Desk& desk, std::string_view name) {
  std::string plain = measure::folded(name.substr(0, name.find_first_of("([")));
  std::replace(plain.begin(), plain.end(), ' ', '.');
  if (plain.empty() || !book::find_batch(desk.logbook(), plain.substr(0, plain.find('.')))) {
    return std::nullopt;
  }
  return find_target(desk, plain, "") ? std::optional(plain) : std::nullopt;
}

std::string shown(const Desk& desk, const book::Target& target, double value) {
  for (const kinds::Kind* kind : kinds::all_kinds()) {
    const kinds::Quantity* quantity = kinds::find_quantity(*kind, target.quantity);
    if (quantity != nullptr && quantity->dimension == target.dimension) {
      return desk.print()({target.dimension, value}, quantity->shown_in);
    }
  }
  return desk.print()({target.dimension, value});
}

}  // namespace cli
