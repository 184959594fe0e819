#pragma once

#include <optional>
#include <vector>

#include "model/history.h"

// What a load brings to a bed, against what the crop wanted.
namespace kinds::bed {

class Study;

// One nutrient of a load, against what the crop wanted of it before the load came.
struct Wanted {
  const char* symbol;
  measure::Kilograms before;   // none or less: nothing
  measure::Kilograms covered;  // by the load, for this year's crop
  double loads;                // so many of it would have met what was wanted
  // Between what and what the load covers, where its share is known no better.
  std::optional<measure::Kilograms> least{}, most{};

  bool was_wanted() const { return before.value > 0; }
  // To what such estimates are printed.
  bool is_met() const { return covered.value >= before.value * 0.995; }
};
// Nutrients that are not asked for are left out. The study is of the bed without the load. Empty
// where the need or the load's content is not known.
std::vector<Wanted> wanted_before(const model::Movement& load, const Study& bed);

}  // namespace kinds::bed
