#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/printer.h"
#include "measure/result.h"
#include "model/assessment.h"
#include "model/history.h"
#include "season/span.h"

// What plots are compared by: a word or two that names a number of any batch.
namespace season {

// A batch as of a moment, with what is said of it then.
struct Plot {
  std::string label;
  model::History history;
  model::Assessment assessment;
};

enum class Of {
  kYield,    // what was taken out, by weight (counted things by count)
  kProduct,  // of one material only
  kReading,  // a quantity read
  kFigure,   // a figure of the kind: "nestbox.fledged"
  kDeed,     // how often something was done
  kDays,     // from its start to its end
};
enum class Roll { kMean, kTotal, kHighest, kLowest };

struct Yardstick {
  Of of{};
  Roll roll = Roll::kMean;   // of readings: of the days' means (totals: of all readings)
  std::string name;          // of the material, the quantity, the figure or the deed
  std::string said;          // the figure's own words
  std::string per;           // "area", another setting, or a quantity; empty: for the batch
  std::optional<Span> span;  // movements, readings and deeds of these days only
};

// "yield", "tomatoes", "tomatoes per area", "eggs per birds", "total slugs", "highest moisture",
// "nestbox.fledged", "turned", "days": what the batches of these kinds can be measured by. The
// mistake lists what there is.
measure::Result<Yardstick> read_yardstick(std::string_view text, const std::vector<Plot>& plots);

// The number of a batch, in base units.
struct PlotValue {
  double si{};
  measure::Dimension dimension{measure::Dimension::kNumber};
  std::string label;                      // the unit of a kNumber
  std::optional<measure::Dimension> per;  // of the divisor, where there is one
  std::string per_name;                   // "area", "birds"
  std::string leaves_out;                 // "1 movement without a weight left out"
};
// The mistake says of which batch it is not known, and why.
measure::Result<PlotValue> value_of(const Plot& plot, const Yardstick& yardstick);

// How values of that sort are shown: shown = si / factor + zero (differences without the zero).
struct Scale {
  double factor{1};
  double zero{};
  std::string unit;     // "lb/100 ft2"
  std::string si_unit;  // "kg/m2"
};
Scale scale_of(const PlotValue& value, measure::UnitSystem system);

// In words for the heading: "tomatoes taken, per area".
std::string described(const Yardstick& yardstick);

}  // namespace season
