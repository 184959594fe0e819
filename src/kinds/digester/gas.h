#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/history.h"
#include "model/rules.h"
#include "science/numbers/units.h"

// How much gas was measured, brought to 0 degC, 101.325 kPa and dry.
namespace kinds::digester {

// Gas that was made after `from` and up to `to`.
struct GasSpan {
  model::Day from, to;
  measure::Litres metered;
  science::NormalLitres normal;
};

struct Gas {
  std::vector<GasSpan>
      spans;  // ascending; a first reading, whose span is not known, has from == to
  measure::Litres metered;
  science::NormalLitres normal;
  std::string basis;  // by what it was brought to standard
};

// The meter's counter where there is one, else the volumes that were logged.
Gas gas_of(const model::History& history);

struct GasRate {
  model::Day from, to;
  science::NormalLitres a_day;
  measure::Litres metered_a_day;
  int days() const { return (to - from).count(); }
};

// The mean over the spans that lie within (from, to]; none where they cover no day.
std::optional<GasRate> gas_rate(const Gas& gas, model::Day from, model::Day to);

// As read lately, else the rule's.
measure::Fraction methane_share(const model::History& history, const model::Rules& rules);

// What was burned, as it reached the burner: gas that was carried out for use, and hours of flame
// times the burner's rating; where a day has both, the larger, as they tell of the same gas.
struct GasUse {
  measure::Litres gas;
  science::Hours flame;  // as logged; where none was, gas over the rating
  std::string basis;
};
GasUse gas_use_of(const model::History& history, const model::Rules& rules);

}  // namespace kinds::digester
