#pragma once

#include <optional>
#include <string>
#include <vector>

#include "measure/printer.h"
#include "model/history.h"
#include "model/rules.h"

// What a tank should hold: its roof, its rain, its draws and its levels.
namespace kinds::tank {

// Water is spoken of in gallons or litres, whatever the size.
inline constexpr measure::ShownIn kWater{"gal", "L"};
inline constexpr measure::ShownIn kRain{"in", "mm"};

inline constexpr std::string_view kNotForDrinking =
    "Untreated rainwater is not for drinking, cooking or washing what is eaten raw: put it on the "
    "soil. Treating it, or joining it to house pipes, is for local code and a licensed plumber.";

// What the roof gives of each millimetre. The area is the outline on the ground.
struct Roof {
  measure::SquareMetres area{};
  measure::Fraction least{}, usual{}, most{};  // runoff
  std::string surface;                         // empty: not told
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
std::vector<RainDay> rain_days(const model::History& history, const model::Rules& rules);

// What came off the roof that day, after the first flush.
measure::Litres caught(const RainDay& day, const Roof& roof, measure::Fraction runoff);

std::optional<measure::Litres> capacity_of(const model::History& history);

struct Level {
  model::Instant at;
  model::Day day;
  measure::Litres held{};
};
// Every day's last level, however it was read: a share, a volume or a depth. Ascending.
std::vector<Level> levels(const model::History& history);

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
Expected expected_from(const Level& level, model::Instant until, const model::History& history,
                       const model::Rules& rules);

// What is in it now: the last level, carried on by the rain and the draws since. None without one.
struct Holding {
  measure::Litres held{};
  Level last;
  bool carried_on = false;  // something came or went since
};
std::optional<Holding> holding(const model::History& history, const model::Rules& rules);

// Water drawn a day: the mean of the last weeks' draws; where uses were told, these until there are
// draws enough to go by (`tank.low.record`, `tank.low.draws`).
struct Draw {
  measure::Litres a_day{};
  std::string basis;  // "by 12 draws in 28 days", "by the uses told"
};
std::optional<Draw> present_draw(const model::History& history, const model::Rules& rules);

// The sum of the uses told at the start, a day; none where none were.
std::optional<measure::Litres> wanted_a_day(const model::History& history);

}  // namespace kinds::tank
