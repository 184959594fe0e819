#include "kinds/pile/stage.h"

#include <algorithm>
#include <cmath>

#include "kinds/finding.h"
#include "kinds/pile/blend.h"
#include "kinds/thresholds.h"

namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using date::days;

// Goes through the days once: when it was hot, how often it came back, and why.
void follow_heat(const Course& course, double warm, Standing& at) {
  bool was_hot = false;
  std::optional<model::Day> fell;
  int below = 0;
  for (const DaySeen& day : course.days) {
    const bool hot = day.peak() >= warm - kSameKelvins;
    if (hot) {
      if (at.last_hot && !was_hot && fell) {
        if (course.turnings_between(*at.last_hot, day.day) > 0) {
          ++at.turning_reheats;
        } else if (below >= 2) {
          ++at.reheats;
        }
      }
      if (!at.first_hot) at.first_hot = day.day;
      at.last_hot = day.day;
      ++at.hot_days;
      below = 0;
    } else {
      if (was_hot) fell = day.day;
      ++below;
    }
    was_hot = hot;
  }
}

Stage unheated(const model::Rules& rules, const Course& course) {
  const int age = days_between(course.start, course.until);
  if (age <= whole(rules(limits::cold_after)) || is_rising(course)) return Stage::kWarming;
  return Stage::kNotHeating;
}

// What keeps a curing pile from being ready.
Wanting missing(const model::History& history, const model::Rules& rules, const Standing& at) {
  using What = Wanting::What;
  const int wanted = whole(rules(limits::ready_curing));
  if (at.self_heating) {
    if (*at.self_heating < science::SelfHeatingClass::IV) return {What::kSelfHeatingTest};
    if (*at.self_heating == science::SelfHeatingClass::V) return {};
  }
  if (at.curing_days < wanted) return {What::kDays, wanted};
  if (!at.air && at.peak_now > rules(limits::ready_warmest).value) return {What::kAirReading};
  const measure::Kelvins above{at.air ? at.peak_now - at.air->value : 0};
  if (above > rules(limits::ready_above_air)) return {What::kNearerAir, 0, above};
  const bool long_since = at.curing_days >= whole(rules(limits::ready_untested));
  if (!at.self_heating && !at.turned_since_hot && !long_since &&
      method_of(history.batch) == Method::kByTurning) {
    return {What::kTurning};
  }
  return {};
}

// Raw material begins to cure when it goes in.
int days_since_fed(const model::History& history, const Course& course) {
  model::Day fed = course.start;
  for (const model::Movement& one : history.in) {
    if (is_raw(one.material)) fed = std::max(fed, one.day);
  }
  return days_between(fed, course.until);
}

Stage cooled(const model::History& history, const model::Rules& rules, const Course& course,
             Standing& at) {
  const auto turning = course.last_turning();
  const int below = days_between(*at.last_hot, course.until);
  at.turned_since_hot = turning && *turning >= *at.last_hot;
  const int since_turning = turning ? days_between(*turning, course.until) : 0;
  if (at.turned_since_hot && since_turning <= whole(rules(limits::turn_recovers))) {
    at.dipped = true;
    if (below <= whole(rules(limits::cured_settled))) return Stage::kWarm;
  }
  at.curing_days = std::min(below, days_since_fed(history, course));
  const bool tested = at.turned_since_hot && since_turning >= whole(rules(limits::cured_test));
  if (below < whole(rules(limits::cured_settled)) && !tested) return Stage::kCooling;
  if (at.dipped) {
    at.wants = {Wanting::What::kDaysAfterTurning};
    return Stage::kCuring;
  }
  at.wants = missing(history, rules, at);
  return at.wants.what == Wanting::What::kNothing ? Stage::kReady : Stage::kCuring;
}

std::optional<science::SelfHeatingClass> self_heating(const model::History& history) {
  const auto tests = history.all(kSelfHeating);
  if (tests.empty()) return std::nullopt;
  return science::self_heating_class(measure::Kelvins{tests.front()->last->value});
}

}  // namespace

bool is_rising(const Course& course) {
  if (course.days.size() < 2) return true;
  const DaySeen& last = course.days.back();
  const DaySeen& before = course.days[course.days.size() - 2];
  return last.peak() - before.peak() >= 1 * std::max(1, days_between(before.day, last.day));
}

bool in_heat(Stage stage) {
  return stage == Stage::kWarm || stage == Stage::kHot;
}

std::string_view word(Stage stage) {
  switch (stage) {
    case Stage::kUnread:
      return "unread";
    case Stage::kWarming:
      return "warming";
    case Stage::kNotHeating:
      return "not heating";
    case Stage::kWarm:
      return "warm";
    case Stage::kHot:
      return "hot";
    case Stage::kCooling:
      return "cooling";
    case Stage::kCuring:
      return "curing";
    case Stage::kReady:
      return "ready";
    case Stage::kResting:
      return "resting";
  }
  return "unread";
}

Standing standing(const model::History& history, const model::Rules& rules, const Course& course) {
  Standing at;
  at.air = course.air_before(course.until, kAirDays);
  at.self_heating = self_heating(history);
  const bool cold = method_of(history.batch) == Method::kCold;
  if (course.days.empty()) {
    at.stage = cold ? Stage::kResting : Stage::kUnread;
  } else {
    at.peak_now = course.days.back().peak();
    follow_heat(course, rules(limits::warm_from).value, at);
    const bool hot_now = at.last_hot && *at.last_hot == course.days.back().day;
    if (hot_now) {
      const bool at_heat = at.peak_now >= rules(limits::treat_from).value - kSameKelvins;
      at.stage = at_heat ? Stage::kHot : Stage::kWarm;
    } else if (at.last_hot) {
      at.stage = cooled(history, rules, course, at);
    } else {
      at.stage = cold ? Stage::kResting : unheated(rules, course);
    }
  }
  if (at.stage == Stage::kResting) {
    at.curing_days = days_since_fed(history, course);
    const int wanted = whole(rules(limits::ready_cold_days));
    at.wants = {Wanting::What::kDays, wanted};
    if (at.curing_days >= wanted) at.stage = Stage::kReady;
  }
  return at;
}

}  // namespace kinds::pile
