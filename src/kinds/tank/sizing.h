#pragma once

#include <array>
#include <optional>
#include <vector>

#include "kinds/tank/water.h"
#include "model/assessment.h"
#include "science/weather/store.h"

// How often the tank, or one of another size, would have met what is wanted of it, over the rain on
// record.
namespace kinds::tank {

// What is wanted on each day: the uses given; else by the month's own draws where a year of them is
// on record; else the present draw, the same every day.
enum class DemandBasis { kByUses, kPresentDraw, kMonths };
struct Demand {
  std::array<measure::Litres, 12> by_month{};
  DemandBasis basis{};
  std::optional<model::Day> since{};  // of kMonths: the first draw
};

struct Sized {
  measure::Litres size{};
  bool is_own = false;  // the tank's own size
  science::StoreRun run;
  double a_litre_more{};  // litres a year that a litre added to it gives
};

enum class Unsized { kNoRoof, kNoRain, kNoDemand };

struct Sizing {
  std::optional<Unsized> why_none;  // then the rest is empty
  Demand demand{};
  measure::Litres a_day{};  // wanted, on the mean
  std::vector<Sized> sizes{};
  std::optional<science::StoreRun> rain_first{};  // the own size, each day's rain before its draws
  double days{};                                  // of the rain on record
  std::optional<Level> start{};  // what was read before the first of it; none: taken as empty
  int dry_days{};  // days on which it was read empty: what was drawn then was all there was
};
Sizing sizing_of(const Study& study);

double years_of(const Sizing& sizing);

// As `show CODE --sizing` prints it: a table, a picture, and the size past which more buys little.
model::Record sizing_record(const Sizing& sizing, const Study& study);

}  // namespace kinds::tank
