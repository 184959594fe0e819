#include "kinds/pile/outlook.h"

#include <algorithm>
#include <cmath>

#include "kinds/finding.h"
#include "kinds/pile/standards.h"
#include "kinds/thresholds.h"

namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using date::days;

// Two readings further apart than this make no slope.
constexpr int kSlopeDays = 2;
// A new pile that has fallen by more than this (K) is no longer on its way up.
constexpr double kFallenOff = 5;
// However near the bound, a pile may rise and fall by a part of this (K).
constexpr double kLeastUp = 10, kLeastDown = 8;

const PositionDay& warmest(const DaySeen& day) {
  return *std::max_element(day.positions.begin(), day.positions.end(),
                           [](const auto& a, const auto& b) { return a.mean < b.mean; });
}

bool is_turned(const model::Deed& deed) {
  return deed.word == kTurned.word;
}

// The latest of ascending days that is not after `day`.
std::optional<model::Day> latest_by(const std::vector<model::Day>& all, model::Day day) {
  const auto after = std::upper_bound(all.begin(), all.end(), day);
  return after == all.begin() ? std::nullopt : std::optional(*std::prev(after));
}

bool any_within(const std::vector<model::Day>& all, model::Day first, model::Day last) {
  const auto found = std::lower_bound(all.begin(), all.end(), first);
  return found != all.end() && *found <= last;
}

}  // namespace

Stirring Stirring::of(const model::History& history, const model::Rules& rules) {
  Stirring made;
  for (const model::Deed& deed : history.deeds) {
    if (is_turned(deed)) made.turnings.push_back({deed.at, deed.day});
  }
  std::sort(made.turnings.begin(), made.turnings.end(),
            [](const Turning& one, const Turning& other) { return one.at < other.at; });
  const double litre = rules(limits::foresee_density).value / 1000;  // kg
  std::vector<std::pair<model::Day, double>> loads;                  // L
  for (const model::Movement& one : history.in) {
    const auto volume = one.volume();
    const auto mass = one.mass();
    if (volume) {
      loads.emplace_back(one.day, volume->value);
    } else if (mass) {
      loads.emplace_back(one.day, mass->value / litre);
    }
  }
  std::sort(loads.begin(), loads.end());
  double held = 0;
  for (std::size_t i = 0; i < loads.size();) {
    const model::Day day = loads[i].first;
    double came = 0;
    for (; i < loads.size() && loads[i].first == day; ++i) came += loads[i].second;
    held += came;
    if (came > 0 && came >= rules(limits::foresee_fed_share).value * held) made.fed.push_back(day);
  }
  made.turned_by_hand = method_of(history.batch) == Method::kByTurning;
  const std::vector<Standard> asked = standards_of(history.batch, nullptr);
  made.wants_turnings = std::any_of(asked.begin(), asked.end(), [&](Standard one) {
    return asked_by(one, method_of(history.batch), rules).wanted.turnings > 0;
  });
  return made;
}

Outlook::Outlook(const Course& course, std::size_t index, const Stirring& stirring,
                 const model::Rules& rules, model::Day known)
    : stirring_(&stirring), rules_(&rules) {
  const DaySeen& now = course.days[index];
  const PositionDay& place = warmest(now);
  day_ = now.day;
  at_ = place.last_at;
  read_ = start_ = now.peak();
  air_ = course.air_before(day_, kAirDays).value_or(rules(limits::foresee_air)).value;
  std::optional<model::Day> turned;  // the last time
  const DaySeen* before = index > 0 ? &course.days[index - 1] : nullptr;
  bool just_turned = false, stirred = false;  // since the day of the reading before
  for (const Stirring::Turning& one : stirring.turnings) {
    if (one.day > known) break;
    turned = one.day;
    if (one.at >= at_) turned_since_ = true;
    if (one.day == day_ && one.at < at_) just_turned = true;
    // A turning ends whatever it was on its way to.
    if (before != nullptr && one.day >= before->day) stirred = true;
  }
  if (before != nullptr) {
    const int gap = days_between(before->day, day_);
    stirred = stirred || any_within(stirring.fed, before->day + days{1}, day_);
    if (!stirred && gap <= kSlopeDays) slope_ = (read_ - before->peak()) / gap;
    if (just_turned && place.count == 1 && gap <= kFreshDays && before->peak() > read_) {
      start_ += rules(limits::foresee_regain).value * (before->peak() - read_);
    }
  }
  turned_ = turned.has_value();
  const auto fed = latest_by(stirring.fed, known);
  fed_since_ = fed && *fed > day_;
  const model::Day laid = std::max(course.start, fed.value_or(course.start));
  age_ = std::max(0, days_between(laid, day_));
  double highest = read_;
  std::optional<model::Day> hot;
  const double working = rules(limits::cold_below).value;
  for (std::size_t i = 0; i <= index; ++i) {
    if (course.days[i].day >= laid) highest = std::max(highest, course.days[i].peak());
    if (!hot && course.days[i].peak() >= working) hot = course.days[i].day;
  }
  warming_up_ = age_ < whole(rules(limits::foresee_warming_days)) &&
                read_ < rules(limits::foresee_warming_to).value &&
                (fed_since_ || highest <= read_ + kFallenOff);
  if (stirring.turned_by_hand && hot && read_ >= working) {
    const int every =
        whole(stirring.wants_turnings ? rules(limits::turn_every) : rules(limits::turn_longest));
    turning_due_ = std::max(*hot, turned.value_or(*hot)) + days{every};
  }
}

double Outlook::Ahead::miss(double read) const {
  return read > likely ? (read - likely) / room_up : (likely - read) / room_down;
}

bool Outlook::turning_foreseen(int days_ahead) const {
  return turned_since_ || (turning_due_ && *turning_due_ <= day_ + days{days_ahead});
}

bool Outlook::disturbed(int days_ahead) const {
  const model::Day then = day_ + days{days_ahead};
  if (!fed_since_ && any_within(stirring_->fed, day_ + days{1}, then)) return true;
  if (turning_foreseen(days_ahead)) return false;
  return std::any_of(stirring_->turnings.begin(), stirring_->turnings.end(),
                     [&](const auto& one) { return one.at >= at_ && one.day <= then; });
}

Outlook::Ahead Outlook::with_room(double likely, int days_ahead) const {
  const model::Rules& rules = *rules_;
  double wider = 1 + rules(limits::foresee_young).value *
                         std::exp(-age_ / rules(limits::foresee_young_days).value);
  if (turning_foreseen(days_ahead)) wider *= rules(limits::foresee_turned).value;
  Ahead made;
  made.likely = likely;
  made.room_up = wider * std::max(rules(limits::foresee_most).value - likely, kLeastUp);
  made.room_down = wider * (std::max(likely - air_, 0.0) + kLeastDown);
  return made;
}

Outlook::Ahead Outlook::ahead(int days_ahead) const {
  const model::Rules& rules = *rules_;
  // The sum of a slope that lasts less and less: 1 + left + left^2 ...
  const double left = rules(limits::foresee_trend_left).value;
  double going_on = 0;
  for (int day = 0; day < days_ahead; ++day) going_on += std::pow(left, day);
  going_on *= rules(limits::foresee_trend).value * slope_;
  const auto nearing = [&](double goal, double share) {
    return goal + (start_ - goal) * std::pow(1 - share, days_ahead);
  };
  const double drawn =
      warming_up_
          ? nearing(rules(limits::foresee_warming_to).value, rules(limits::foresee_warming).value)
          : nearing(air_, turned_ && read_ >= rules(limits::treat_from).value &&
                                  turning_foreseen(days_ahead)
                              ? 0
                              : rules(limits::foresee_cooling).value);
  return with_room(drawn + going_on, days_ahead);
}

Outlook::Ahead Outlook::as_today(int days_ahead) const {
  return with_room(read_, days_ahead);
}

}  // namespace kinds::pile
