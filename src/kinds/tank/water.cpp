#include "kinds/tank/water.h"

#include <algorithm>
#include <map>

#include "kinds/finding.h"
#include "kinds/tank/study.h"
#include "kinds/tank/vocabulary.h"
#include "kinds/thresholds.h"
#include "kinds/uses.h"
#include "science/weather/rain.h"

namespace kinds::tank {
namespace {

namespace limits = thresholds::tank;
using measure::Dimension;
using measure::Fraction;
using measure::Litres;
using measure::Metres;

struct Runoff {
  Surface surface;
  std::string_view name;
  model::Threshold<Fraction> least, usual, most;
};
constexpr Runoff kRunoffs[] = {
    {Surface::kMetal, kMetal, limits::runoff_metal_least, limits::runoff_metal,
     limits::runoff_metal_most},
    {Surface::kTile, kTile, limits::runoff_tile_least, limits::runoff_tile,
     limits::runoff_tile_most},
    {Surface::kShingle, kShingle, limits::runoff_shingle_least, limits::runoff_shingle,
     limits::runoff_shingle_most},
    {Surface::kFlat, kFlat, limits::runoff_flat_least, limits::runoff_flat,
     limits::runoff_flat_most},
    {Surface::kGravel, kGravel, limits::runoff_gravel_least, limits::runoff_gravel,
     limits::runoff_gravel_most},
    {Surface::kGreen, kGreenRoof, limits::runoff_green_least, limits::runoff_green,
     limits::runoff_green_most},
    {Surface::kUnsaid, "", limits::runoff_unsaid_least, limits::runoff_unsaid,
     limits::runoff_unsaid_most},
};

const Runoff& runoff_of(const model::Batch& batch) {
  const std::string said = batch.text(kSurface, "");
  const auto found = std::find_if(std::begin(kRunoffs), std::end(kRunoffs),
                                  [&](const Runoff& one) { return one.name == said; });
  return found == std::end(kRunoffs) ? std::end(kRunoffs)[-1] : *found;
}

template <class T>
std::optional<T> told(const model::Batch& batch, std::string_view key) {
  const auto value = batch.number(key);
  return value && value->si > 0 ? std::optional(T{value->si}) : std::nullopt;
}

}  // namespace

Surface surface_of(const model::Batch& batch) {
  return runoff_of(batch).surface;
}

std::optional<Roof> roof_of(const model::History& history, const model::Rules& rules) {
  const auto area = told<measure::SquareMetres>(history.batch, kRoof);
  if (!area) return std::nullopt;
  const Runoff& surface = runoff_of(history.batch);
  Roof roof{*area, rules(surface.least), rules(surface.usual), rules(surface.most)};
  if (const auto own = history.batch.number(kRunoff)) {
    roof.least = roof.usual = roof.most = Fraction{std::min(own->si, 1.0)};
  }
  return roof;
}

std::vector<RainDay> rain_days(const Study& study) {
  std::vector<RainDay> days;
  const model::Series* rain = study.history().find(kRain);
  if (rain == nullptr) return days;
  const model::Rules& rules = study.rules();
  const auto flush = flush_of(study.history().batch);
  const auto& roof = study.roof();
  std::optional<model::Day> last_wet;
  Metres pipe_left;  // how much more rain the pipe takes in this wet spell
  for (const model::DayRoll& roll : rain->days) {
    if (roll.total <= 0) continue;
    if (flush && roof && roof->usual > Fraction{0} &&
        (!last_wet || days_between(*last_wet, roll.day) > rules(limits::flush_dry).value)) {
      pipe_left = science::flush_depth(*flush, roof->area, roof->usual);
    }
    const Metres taken = std::min(pipe_left, Metres{roll.total});
    pipe_left = pipe_left - taken;
    days.push_back({roll.day, roll.last_at, Metres{roll.total}, taken});
    last_wet = roll.day;
  }
  return days;
}

Litres caught(const RainDay& day, const Roof& roof, Fraction runoff) {
  return science::roof_catch(roof.area, day.rain - day.flushed, runoff);
}

std::optional<Litres> capacity_of(const model::Batch& batch) {
  return told<Litres>(batch, kCapacity);
}

std::optional<Metres> height_of(const model::Batch& batch) {
  return told<Metres>(batch, kHeight);
}

std::optional<Litres> flush_of(const model::Batch& batch) {
  return told<Litres>(batch, kFlush);
}

std::vector<Level> levels_of(const model::History& history) {
  const auto capacity = capacity_of(history.batch);
  const auto height = height_of(history.batch);
  std::map<model::Instant, Level> found;
  const auto take = [&](std::string_view quantity, double litres_a_unit) {
    const model::Series* series = history.find(quantity);
    if (series == nullptr) return;
    for (const model::DayRoll& roll : series->days) {
      found[roll.last_at] = {roll.last_at, roll.day, Litres{roll.last * litres_a_unit}};
    }
  };
  take(kHeld, 1);
  if (capacity) take(kLevel, capacity->value);
  if (capacity && height) take(kDepth, capacity->value / height->value);
  std::vector<Level> all;
  for (const auto& [at, level] : found) {
    if (!all.empty() && all.back().day == level.day) all.pop_back();
    all.push_back(level);
  }
  return all;
}

Litres water_of(const model::Movement& movement) {
  if (const auto volume = movement.volume()) return *volume;
  // Water: a litre a kilogram.
  const auto mass = movement.mass();
  return mass ? Litres{mass->value} : Litres{};
}

Expected expected_from(const Level& level, model::Instant until, const Study& study) {
  const model::History& history = study.history();
  struct Flows {
    Litres least_in, usual_in, most_in, out;
  };
  std::map<model::Day, Flows> by_day;
  Expected expected;
  const auto in_between = [&](model::Instant at) { return at > level.at && at <= until; };
  const auto& roof = study.roof();
  const double error = study.rules()(limits::gauge_error).value;
  for (const RainDay& day : study.rain()) {
    if (!roof || !in_between(day.at)) continue;
    Flows& flows = by_day[day.day];
    flows.least_in += caught(day, *roof, roof->least) * (1 - error);
    flows.usual_in += caught(day, *roof, roof->usual);
    // A pipe that was not emptied takes nothing.
    flows.most_in += science::roof_catch(roof->area, day.rain, roof->most) * (1 + error);
    expected.caught += caught(day, *roof, roof->usual);
    expected.rain += day.rain;
  }
  for (const model::Movement& movement : history.in) {
    if (!in_between(movement.at)) continue;
    const Litres water = water_of(movement);
    Flows& flows = by_day[movement.day];
    flows.least_in += water;
    flows.usual_in += water;
    flows.most_in += water;
    expected.added += water;
  }
  for (const model::Movement& movement : history.out) {
    if (!in_between(movement.at)) continue;
    by_day[movement.day].out += water_of(movement);
    expected.drawn += water_of(movement);
  }
  const auto full = study.capacity();
  const auto at_most_full = [&](Litres held) { return full ? std::min(held, *full) : held; };
  const Litres none{0};
  expected.highest = level.held;
  Litres least = level.held, usual = level.held, most = level.held;
  for (const auto& [day, flows] : by_day) {
    // Least: the rain fell on a fuller tank. Most: the draws made room for it.
    least = std::max(at_most_full(least + flows.least_in) - flows.out, none);
    const Litres before_draws = at_most_full(usual + flows.usual_in);
    expected.spilt += usual + flows.usual_in - before_draws;
    expected.highest = std::max(expected.highest, before_draws);
    usual = std::max(before_draws - flows.out, none);
    most = at_most_full(std::max(most - flows.out, none) + flows.most_in);
  }
  expected.least = least;
  expected.usual = usual;
  if (roof && history.find(kRain) != nullptr) expected.most = most;
  return expected;
}

std::optional<Holding> holding_of(const Study& study) {
  const auto& all = study.levels();
  if (all.empty()) return std::nullopt;
  const Level& last = all.back();
  const Expected now = expected_from(last, study.history().now, study);
  const bool moved = now.drawn + now.added + now.caught > Litres{0};
  return Holding{moved ? now.usual : last.held, last, moved};
}

std::optional<Litres> wanted_a_day(const model::Batch& batch) {
  const auto uses = uses_or_none(batch.text(kUses, ""), Dimension::kVolume);
  if (uses.empty()) return std::nullopt;
  Litres sum;
  for (const Use& use : uses) sum += Litres{use.si};
  return sum;
}

std::optional<Draw> draw_of(const model::History& history, const model::Rules& rules) {
  const auto wanted = wanted_a_day(history.batch);
  const int least = full_days(rules(limits::low_record));
  // Before the first draw that was logged, nobody may have logged any; but a day or two of draws
  // are no mean.
  const int since_first =
      history.out.empty() ? 0 : days_between(history.out.front().day, history.today) + 1;
  const int window = std::min({std::max(since_first, least),
                               days_between(history.batch.started_day, history.today) + 1,
                               full_days(rules(limits::low_window))});
  Litres drawn;
  int draws = 0;
  for (const model::Movement& movement : history.out) {
    if (days_between(movement.day, history.today) >= window) continue;
    drawn += water_of(movement);
    ++draws;
  }
  const bool any = drawn > Litres{0};
  const bool enough = since_first >= least && draws >= rules(limits::low_draws).value;
  if (any && (enough || !wanted)) return Draw{drawn / window, DrawBasis::kDraws, draws, window};
  if (!wanted) return std::nullopt;
  return Draw{*wanted, any ? DrawBasis::kUsesTooFewDraws : DrawBasis::kUsesNoDraws, draws, window};
}

}  // namespace kinds::tank
