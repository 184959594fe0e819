#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "book/import/rows.h"
#include "cli/desk/desk.h"

namespace cli {

// "heap-3.core.moisture": all batches of that code ("heap-3/1": that one), a probe position and a
// quantity, either of which may be missing. `unit`: the symbol of its numbers' unit; empty: none
// was said, and it is the one in which the site's bare numbers are read.
measure::Result<book::Target> find_target(const Desk& desk, std::string_view name,
                                          const std::string& unit);

// The target and the unit in "heap-3.core:F"; the unit is a symbol, or empty.
struct TargetWord {
  std::string name, unit;
};
measure::Result<TargetWord> read_target_word(std::string_view word);

// What a column's or a probe's own name may mean: "heap-3.core (°F)", "heap-3 core". None: it is no
// series of the site.
std::optional<std::string> target_in_name(const Desk& desk, std::string_view name);

// A value of a target, with its unit: "148 °F".
std::string shown(const Desk& desk, const book::Target& target, double value);

}  // namespace cli
