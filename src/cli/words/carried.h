#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "cli/desk/desk.h"

// What `add`, `take` and `amend` carry: an amount of a material.
namespace cli {

struct Carried {
  measure::Value amount;  // a mass, a volume, a count or an energy
  std::string typed;
  model::Material material;
};

// Reads "40 kg coffee grounds", "2 bucket grounds", "11 eggs", or "3lb" where `usual` names the
// material.
measure::Result<Carried> read_carried(std::string_view text, std::string_view usual,
                                      const Desk& desk);

// The movement as it will be read back, without its purpose and its money.
model::Movement load_of(const Carried& carried, measure::Instant at,
                        const std::optional<model::Batch>& from,
                        const std::optional<model::Batch>& to, const Desk& desk);

}  // namespace cli
