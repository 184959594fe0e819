#include "kinds/digester/startup.h"

#include <algorithm>
#include <vector>

#include "kinds/digester/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"
#include "science/gas/temperature_rate.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Celsius;
using measure::Days;
using measure::Litres;
using model::Day;

// A volume for the 1 to 1 of the filling; a weight of unknown density counts as water does.
Litres volume_of(const model::Movement& movement) {
  if (const auto volume = movement.volume()) return *volume;
  if (const auto mass = movement.mass()) return Litres{mass->value};
  return {};
}

void note(std::optional<Day>& first, Day day) {
  if (!first || day < *first) first = day;
}

void find_filled(const model::History& history, const model::Rules& rules, Startup& startup) {
  const auto volume = history.batch.number(kVolume);
  Litres so_far;
  for (const model::Movement& movement : history.in) {
    so_far += volume_of(movement);
    constexpr double kRounding = 1 - 1e-9;
    if (volume && so_far.value >= volume->si * rules(limits::start_full).value * kRounding) {
      note(startup.filled_on, movement.day);
      break;
    }
  }
  for (const model::Deed& deed : history.deeds) {
    if (deed.word == kFilled.word) note(startup.filled_on, deed.day);
  }
  // Neither a volume nor a word: then the first load stands for the filling.
  if (!startup.filled_on && !volume && !history.in.empty()) {
    startup.filled_on = history.in.front().day;
  }
  // It burned before that: it was taken over at work, and what follows is its daily feed.
  if (startup.burns_on && (!startup.filled_on || *startup.burns_on < *startup.filled_on)) {
    startup.filled_on = startup.burns_on;
    startup.taken_over = true;
  }
}

void find_gas(const model::History& history, Startup& startup) {
  for (const auto* quantity : {&kGas, &kCooking}) {
    for (const model::Series* series : history.all(*quantity)) {
      for (const model::DayRoll& roll : series->days) {
        if (roll.greatest <= 0) continue;
        note(startup.gas_on, roll.day);
        if (series->quantity == kCooking.name) note(startup.burns_on, roll.day);
        break;
      }
    }
  }
  for (const model::Series* series : history.all(kMeter)) {
    for (const model::DayRoll& roll : series->days) {
      if (roll.greatest > series->days.front().least) {
        note(startup.gas_on, roll.day);
        break;
      }
    }
  }
  for (const model::Sensed& sensed : history.sensed) {
    if (sensed.sense != kSenseFlame || sensed.word == kNoFlame.word) continue;
    note(startup.gas_on, sensed.day);
    note(startup.burns_on, sensed.day);
  }
  for (const model::Movement& movement : history.out) {
    if (!is_burned(movement)) continue;
    note(startup.gas_on, movement.day);
    note(startup.burns_on, movement.day);
  }
}

// Keeps so much of what is in it: the rest was drawn off, or ran over.
void keep(double share, Startup& startup) {
  for (Litres* part : {&startup.held, &startup.manure, &startup.water, &startup.inoculum}) {
    *part = *part * share;
  }
}

void put_in(const model::Movement& movement, std::optional<Litres> room, Startup& startup) {
  const model::Material& material = movement.material;
  const Litres volume = volume_of(movement);
  startup.held += volume;
  if (is_water(material)) startup.water += volume;
  if (is_inoculum(material)) startup.inoculum += volume;
  // Slurry brings its water along.
  if (is_feed(material) && material.is(kFlagManure) && !material.is(kFlagLiquid))
    startup.manure += volume;
  startup.in = std::max(startup.in, startup.held);
  if (room && startup.held > *room) keep(*room / startup.held, startup);
}

void draw_off(const model::Movement& movement, Startup& startup) {
  if (is_gas(movement.material) || !(startup.held > Litres{0})) return;
  keep(std::max(1 - volume_of(movement) / startup.held, 0.0), startup);
}

void count_filling(const model::History& history, Startup& startup) {
  for (const model::Movement& movement : history.in) {
    startup.hoofed = startup.hoofed || movement.material.is(kFlagHoofed);
    const bool before_gas = !startup.burns_on || movement.day < *startup.burns_on;
    if (before_gas && is_feed(movement.material) && !movement.material.is(kFlagManure)) {
      startup.other_feed = movement.material.name;
    }
  }
  const auto volume = history.batch.number(kVolume);
  const auto room = volume && volume->si > 0 ? std::optional(Litres{volume->si}) : std::nullopt;
  const auto is_of_it = [&](const model::Movement& movement) {
    return !startup.filled_on || startup.is_filling(movement.day);
  };
  auto out = history.out.begin();
  for (const model::Movement& in : history.in) {
    if (!is_of_it(in)) continue;
    for (; out != history.out.end() && out->at < in.at; ++out) draw_off(*out, startup);
    put_in(in, room, startup);
  }
  for (; out != history.out.end() && is_of_it(*out); ++out) draw_off(*out, startup);
}

void count_wait(const model::History& history, const model::Rules& rules, Startup& startup) {
  startup.needed = rules(limits::start_days);
  if (startup.inoculum >= startup.held * rules(limits::start_inoculum).value &&
      startup.inoculum > Litres{0}) {
    startup.needed = startup.needed * rules(limits::start_with_inoculum).value;
  }
  if (!startup.filled_on) return;
  const int days = std::max(days_between(*startup.filled_on, history.today), 0);
  startup.waited = Days{static_cast<double>(days)};
  std::vector<std::optional<Celsius>> means(static_cast<std::size_t>(days) + 1);
  for (const model::DayRoll& roll : model::pooled_days(history.all(kTemperature))) {
    if (roll.day < *startup.filled_on || roll.day > history.today) continue;
    means[static_cast<std::size_t>(days_between(*startup.filled_on, roll.day))] =
        Celsius{roll.mean()};
  }
  const auto filled = science::fill_daily_temperatures(means);
  if (!filled) return;
  startup.waited_is_read = true;
  startup.waited = Days{0};
  const science::TemperatureRate response{.theta = rules(limits::gas_theta),
                                          .reference = rules(limits::start_at),
                                          .ceiling = rules(limits::gas_ceiling)};
  for (int day = 0; day < days; ++day) {
    const auto rate = science::relative_rate(filled->days[static_cast<std::size_t>(day)], response);
    startup.waited += Days{rate ? rate->value : 0};
  }
}

}  // namespace

std::optional<Day> Startup::filling_ended() const {
  if (!filled_on || !burns_on) return std::nullopt;
  return std::max(*filled_on, *burns_on - date::days{1});
}

bool Startup::is_filling(Day day) const {
  if (!filled_on) return false;
  const auto ended = filling_ended();
  return !ended || day <= *ended;
}

Startup startup_of(const model::History& history, const model::Rules& rules) {
  Startup startup;
  find_gas(history, startup);
  find_filled(history, rules, startup);
  count_filling(history, startup);
  count_wait(history, rules, startup);
  return startup;
}

bool is_resting(const model::History& history) {
  const model::Deed* rested = history.last_deed(kRested);
  return rested != nullptr &&
         std::none_of(history.in.begin(), history.in.end(), [&](const model::Movement& movement) {
           return movement.at > rested->at && is_feed(movement.material);
         });
}

std::string stage_of(const model::History& history, const Startup& startup) {
  if (is_resting(history)) return "resting";
  if (startup.running()) return "running";
  if (startup.filled_on) return "starting";
  return history.in.empty() ? "empty" : "filling";
}

}  // namespace kinds::digester
