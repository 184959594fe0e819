#include "kinds/brew/clock.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "kinds/brew/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"
#include "science/gas/temperature_rate.h"
#include "science/soil/brew.h"

namespace kinds::brew {
namespace {

namespace limits = thresholds::brew;
using measure::Celsius;
using measure::Days;

// Sums of daily rates are compared with whole days: 21 times 1.0 must come to 21.
constexpr Days kRounding{1e-9};

science::BrewClock science_clock(const model::Rules& rules) {
  return {.q10 = rules(limits::ready_q10),
          .reference = rules(limits::ready_at),
          .ceiling = rules(limits::ready_ceiling)};
}

model::Threshold<Days> time_rule(const model::Batch& batch, Base base) {
  if (is_aerated(batch)) return limits::ready_aerated;
  switch (base) {
    case Base::kPlant:
      return limits::ready_days;
    case Base::kManure:
      return limits::ready_manure;
    case Base::kFish:
      return limits::ready_fish;
    case Base::kFrass:
      return limits::ready_frass;
    case Base::kEffluent:
      return limits::ready_effluent;
  }
  return limits::ready_days;
}

struct Start {
  model::Day day;
  std::string restart_by;
};

// The day the drum was filled: the first material, or the last that was a large share of all so
// far.
Start start_of(const model::History& history, const model::Rules& rules) {
  Start start{history.batch.started_day, ""};
  double all = 0;
  for (const model::Movement& movement : history.in) {
    if (is_water(movement.material) || is_char(movement.material)) continue;
    const double weight = weight_for_share(movement);
    const bool first = all == 0;
    all += weight;
    if (movement.day <= start.day) continue;
    if (!first && weight <= all * rules(limits::ready_restart).value) continue;
    start.day = movement.day;
    if (!first) start.restart_by = movement.material.name;
  }
  return start;
}

// One entry a day from `from` to today, both included.
std::vector<std::optional<Celsius>> daily_means(const model::History& history,
                                                std::string_view quantity, model::Day from) {
  const auto size = static_cast<std::size_t>(std::max(days_between(from, history.today), 0)) + 1;
  std::vector<std::optional<Celsius>> means(size);
  for (const model::DayRoll& roll : model::pooled_days(history.all(quantity))) {
    if (roll.day < from || roll.day > history.today) continue;
    means[static_cast<std::size_t>(days_between(from, roll.day))] = Celsius{roll.mean()};
  }
  return means;
}

struct Temperatures {
  std::vector<std::optional<Celsius>> read;
  std::vector<Celsius> filled;
  Thermometer thermometer;
};

Temperatures temperatures(const model::History& history, const model::Rules& rules,
                          model::Day from) {
  for (const auto& [quantity, thermometer] :
       {std::pair{kTemperature, Thermometer::kDrum}, std::pair{kAir, Thermometer::kAirBeside}}) {
    auto read = daily_means(history, quantity, from);
    if (auto filled = science::fill_daily_temperatures(read)) {
      return {std::move(read), std::move(filled->days), thermometer};
    }
  }
  auto read = daily_means(history, kTemperature, from);
  const std::vector<Celsius> assumed(read.size(), rules(limits::ready_assumed));
  return {std::move(read), assumed, Thermometer::kNone};
}

// Of the days that counted: up to the one on which the time was full.
void count_sources(const Temperatures& temperatures, Clock& clock) {
  const auto has_value = [](const auto& day) { return day.has_value(); };
  const auto& read = temperatures.read;
  const auto first = std::find_if(read.begin(), read.end(), has_value);
  const auto last = std::find_if(read.rbegin(), read.rend(), has_value).base();
  for (auto day = read.begin(); day != read.begin() + clock.counted(); ++day) {
    if (day->has_value()) {
      ++clock.measured;
    } else if (day > first && day < last) {
      ++clock.interpolated;
    } else {
      ++clock.carried;
    }
  }
}

// Counts the days that have passed whole. An aerated brew is a matter of hours, so there the
// clock's own hours count, at the rate of the days they fell on.
void run(const model::History& history, const model::Rules& rules, const Temperatures& temperatures,
         Clock& clock) {
  const science::BrewClock rate = science_clock(rules);
  const auto worth = [&](Celsius day) {
    const std::optional<Celsius> one[] = {day};
    const auto time = science::brew_time(one, rate);
    return time ? time->equivalent : Days{0};
  };
  if (is_aerated(history.batch)) {
    Days all{0};
    for (const Celsius day : temperatures.filled) all += worth(day);
    const double mean = all.value / static_cast<double>(temperatures.filled.size());
    const double hours =
        std::chrono::duration<double, std::ratio<3600>>(history.now - history.batch.started)
            .count();
    const double since = clock.from > history.batch.started_day ? clock.days * 24 : hours;
    clock.equivalent = Days{std::max(since, 0.0) / 24 * mean};
    if (clock.full()) {
      const double past = mean > 0 ? (clock.equivalent - clock.wanted).value / mean : 0;
      clock.full_on = history.today - date::days{static_cast<int>(past)};
    }
    return;
  }
  for (std::size_t day = 0; day + 1 < temperatures.filled.size(); ++day) {
    clock.equivalent += worth(temperatures.filled[day]);
    if (!clock.full_on && clock.equivalent + kRounding >= clock.wanted) {
      clock.equivalent = std::max(clock.equivalent, clock.wanted);
      clock.full_on = clock.from + date::days{day + 1};
    }
  }
}

Celsius mean_of_last(const std::vector<Celsius>& days, Days window) {
  const auto count = std::min(days.size(), static_cast<std::size_t>(window.value));
  double total = 0;
  for (std::size_t i = days.size() - count; i < days.size(); ++i) total += days[i].value;
  return Celsius{total / static_cast<double>(count)};
}

}  // namespace

Clock clock_of(const model::History& history, const model::Rules& rules, const Contents& contents) {
  Clock clock;
  const Start start = start_of(history, rules);
  clock.from = start.day;
  clock.restart_by = start.restart_by;
  const auto rule = time_rule(history.batch, contents.base);
  clock.rule = rule.info;
  clock.wanted = rules(rule);
  clock.days = std::max(days_between(clock.from, history.today), 0);
  const Temperatures days = temperatures(history, rules, clock.from);
  clock.thermometer = days.thermometer;
  run(history, rules, days, clock);
  if (clock.thermometer != Thermometer::kNone) count_sources(days, clock);
  clock.expected = mean_of_last(days.filled, rules(limits::forecast_window));
  clock.left =
      science::brew_days_left(clock.wanted, clock.equivalent, clock.expected, science_clock(rules));
  return clock;
}

bool was_lively(const model::History& history, const model::Rules& rules) {
  const model::Sensed* seen = history.last_sensed(kBubbling);
  return seen != nullptr && seen->word == kLively.word && !is_aerated(history.batch) &&
         days_between(seen->day, history.today) <= rules(limits::ready_sensed).value;
}

std::optional<model::Day> waits_until(const model::History& history, const model::Rules& rules,
                                      const Clock& clock) {
  const double longest = rules(limits::ready_longest).value;
  if (!clock.full_on || !was_lively(history, rules)) return std::nullopt;
  if (days_between(clock.full_day(), history.today) >= longest) return std::nullopt;
  return *clock.full_on + date::days{static_cast<int>(longest)};
}

std::optional<ReadyDays> foresee_ready(const model::History& history, const model::Rules& rules,
                                       const Clock& clock) {
  if (clock.full() || !clock.left) return std::nullopt;
  const science::BrewClock rate = science_clock(rules);
  const measure::Kelvins spread = rules(limits::forecast_spread);
  const auto day_at = [&](Celsius expected) -> std::optional<model::Day> {
    const auto left = science::brew_days_left(clock.wanted, clock.equivalent, expected, rate);
    if (!left) return std::nullopt;
    return history.today + date::days{static_cast<int>(std::ceil(left->value))};
  };
  return ReadyDays{day_at(clock.expected + spread), day_at(clock.expected),
                   day_at(clock.expected - spread)};
}

}  // namespace kinds::brew
