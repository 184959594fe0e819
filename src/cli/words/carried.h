#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "cli/desk/desk.h"

// What `add`, `take` and `amend` carry: an amount of a material.
namespace cli {

struct Carried {
  measure::Value amount;  // a mass, a volume, a count or an energy
  std::string typed;
  model::Material material;
};

// Where what is carried comes from, for what only that batch can tell.
struct CarriedFrom {
  std::string_view usual = {};             // the material where none is said; empty: it must be
  std::optional<model::Batch> batch = {};  // none: from outside
  measure::Instant at = {};
  bool sure = false;  // of an amount beyond sense
};

// Reads "40 kg coffee grounds", "a bucket of grounds", "grounds 2 bucket", "11 eggs", "all" (what
// is left of the batch by its records), or "3lb" where the usual material is meant. The name of the
// batch's kind stands for what it gives ("5gal brew").
measure::Result<Carried> read_carried(std::string_view text, const CarriedFrom& from,
                                      const Desk& desk);

// "6 barrow leaves, 3 barrow horse manure", "2 bucket peels and 1 bucket bran": each by itself.
std::vector<std::string> loads_in(std::string_view text);

// The movement as it will be read back, without its purpose and its money.
model::Movement load_of(const Carried& carried, measure::Instant at,
                        const std::optional<model::Batch>& from,
                        const std::optional<model::Batch>& to, const Desk& desk);

}  // namespace cli
