#pragma once

#include <optional>
#include <vector>

#include "measure/printer.h"
#include "model/history.h"
#include "model/rules.h"

// What a tank should hold: its roof, its rain, its draws and its levels. Each is worked out once,
// by the study of the tank, which the rest asks.
namespace kinds::tank {

class Study;

enum class Surface { kMetal, kTile, kShingle, kFlat, kGravel, kGreen, kUnsaid };
Surface surface_of(const model::Batch& batch);

// What the roof gives of each millimetre. The area is the outline on the ground.
struct Roof {
  measure::SquareMetres area{};
  measure::Fraction least{}, usual{}, most{};  // runoff
};
// None where its area was not told.
std::optional<Roof> roof_of(const model::History& history, const model::Rules& rules);

struct RainDay {
  model::Day day;
  model::Instant at;  // of the day's last reading
  measure::Metres rain{};
  measure::Metres flushed{};  // of it, what the first-flush pipe took
};
// The days with rain logged, ascending.
std::vector<RainDay> rain_days(const Study& study);

// What came off the roof that day, after the first flush.
measure::Litres caught(const RainDay& day, const Roof& roof, measure::Fraction runoff);

std::optional<measure::Litres> capacity_of(const model::Batch& batch);
std::optional<measure::Metres> height_of(const model::Batch& batch);
std::optional<measure::Litres> flush_of(const model::Batch& batch);

struct Level {
  model::Instant at;
  model::Day day;
  measure::Litres held{};
};
// Every day's last level, however it was read: a share, a volume or a depth. Ascending.
std::vector<Level> levels_of(const model::History& history);

// Water of a movement; nothing where it was neither weighed nor measured by volume.
measure::Litres water_of(const model::Movement& movement);

// What a level should have become by `until`, between what the least and the most of runoff, gauge
// and order within the days allow. `most` is without end where rain was never logged.
struct Expected {
  measure::Litres least{}, usual{};
  std::optional<measure::Litres> most;
  measure::Litres drawn{}, added{}, caught{}, spilt{};  // in between, by the usual runoff
  measure::Litres highest{};                            // that it stood at, by the usual runoff
  measure::Metres rain{};
};
Expected expected_from(const Level& level, model::Instant until, const Study& study);

// What is in it now: the last level, carried on by the rain and the draws since. None without one.
struct Holding {
  measure::Litres held{};
  Level last;
  bool carried_on = false;  // something came or went since
};
std::optional<Holding> holding_of(const Study& study);

// Water drawn a day: the mean of the last weeks' draws; where uses were told, these until there are
// draws enough to go by (`tank.low.record`, `tank.low.draws`).
enum class DrawBasis { kDraws, kUsesTooFewDraws, kUsesNoDraws };
struct Draw {
  measure::Litres a_day{};
  DrawBasis basis{};
  int draws{}, days{};  // that many draws in so many days
};
std::optional<Draw> draw_of(const model::History& history, const model::Rules& rules);

// The sum of the uses given at the start, a day; none where none were.
std::optional<measure::Litres> wanted_a_day(const model::Batch& batch);

}  // namespace kinds::tank
