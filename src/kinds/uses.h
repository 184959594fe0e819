#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "measure/dimension.h"
#include "measure/result.h"

// Lists that a setting holds: "beds 40gal, hens 3gal"; "pump 60W, lamp 10W"; "soiling 3%, wiring
// 2%".
namespace kinds {

struct Use {
  std::string name;
  double si{};  // in the dimension's base unit
};

// Reads names with amounts of one dimension, separated by commas; the name may stand before or
// after its amount. The mistake says what would be understood, with `example`.
measure::Result<std::vector<Use>> read_uses(std::string_view text, measure::Dimension dimension,
                                            std::string_view example);

// The list of a setting, or none where it was not told (a logbook holds only lists that were read
// once).
std::vector<Use> uses_or_none(std::string_view text, measure::Dimension dimension);

}  // namespace kinds
