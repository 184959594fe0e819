#include "kinds/pile/heat.h"

#include <algorithm>
#include <cmath>

#include "kinds/finding.h"
#include "kinds/thresholds.h"

namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using date::days;

// One standard deviation of the correction's logarithm between piles, for what lies weeks ahead.
constexpr double kLogSpread = 0.15;
// How far ahead and how far back a pile's past is replayed.
constexpr int kReplayAhead = 7;
constexpr int kReplayBack = 21;
constexpr double kReplayHalfLife = 7;
// Every so many days of a finished pile are replayed.
constexpr int kSiteEvery = 4;
// The half of a normal distribution's middle 80 % is so many standard deviations wide.
constexpr double kHalfOf80 = 1.2816;

// What to make of the model's forecasts: came = share x foreseen + drift x days ahead.
struct Trust {
  double share = 1;     // of a foreseen change, 0 to 1
  double drift = 0;     // K a day
  double widening = 1;  // of the usual interval
};

// How the model's forecasts of days that have passed went, in sums of weighted squares and
// products.
struct Replayed {
  double foreseen2 = 0, foreseen_ahead = 0, ahead2 = 0;  // of foreseen changes (K) and days ahead
  double came_foreseen = 0, came_ahead = 0;              // with the changes that came
  double misses = 0, weight = 0;  // squared errors in usual standard deviations
  int count = 0;

  // Least squares, drawn towards `before` by as much as its weights say (ridge regression).
  Trust trust(const Trust& before, double share_weight, double drift_weight) const {
    const double a = foreseen2 + share_weight, b = foreseen_ahead, c = ahead2 + drift_weight;
    const double x = came_foreseen + before.share * share_weight;
    const double y = came_ahead + before.drift * drift_weight;
    const double det = a * c - b * b;
    Trust made = before;
    made.share = std::clamp((x * c - b * y) / det, 0.0, 1.0);
    made.drift = (y - b * made.share) / c;
    return made;
  }
  double widening(double before, double before_weight) const {
    return std::sqrt((misses + before * before * before_weight) / (weight + before_weight));
  }
};

double half_width(const model::Rules& rules, int ahead) {
  return rules(limits::foresee_spread).value +
         rules(limits::foresee_growth).value * (std::sqrt(static_cast<double>(ahead)) - 1);
}

struct Prior {
  double log_factor = 0;
  Trust trust;
  double site = 0;
  int piles = 0;
};

double corrected(const Heat& own, double before, const model::Rules& rules) {
  const double share = own.pairs / (own.pairs + rules(limits::foresee_own_weight).value);
  return share * own.log_factor + (1 - share) * before;
}

// Foresees from one past day, and judges by what was read after it up to `known`.
void replay_day(const Course& course, const science::PileModel& pile, const model::Rules& rules,
                const HeatDays& heat, const DaySeen& from, model::Day known, double prior,
                const Trust& trust, Replayed& into) {
  const int back = static_cast<int>(rules(limits::foresee_own_days).value);
  const Heat own = heat.as_of(from.day, back);
  const std::vector<double> ahead = simulated(
      pile, own.degradable, corrected(own, prior, rules), from.peak(),
      air_on(course, rules, from.day), std::min(kReplayAhead, days_between(from.day, known)));
  for (std::size_t i = 0; i < ahead.size(); ++i) {
    const int step = static_cast<int>(i) + 1;
    const model::Day then = from.day + days{step};
    const DaySeen* read = then <= known ? course.on(then) : nullptr;
    if (read == nullptr) continue;
    const double foreseen = ahead[i] - from.peak(), came = read->peak() - from.peak();
    const double weight = std::exp2(-days_between(then, known) / kReplayHalfLife);
    const double usual = half_width(rules, step) / kHalfOf80;
    const double miss = (came - trust.share * foreseen - trust.drift * step) / usual;
    into.foreseen2 += weight * foreseen * foreseen;
    into.foreseen_ahead += weight * foreseen * step;
    into.ahead2 += weight * step * step;
    into.came_foreseen += weight * came * foreseen;
    into.came_ahead += weight * came * step;
    into.misses += weight * miss * miss;
    into.weight += weight;
    ++into.count;
  }
}

Trust trust_in(const Replayed& replayed, const Trust& before, const model::Rules& rules) {
  Trust made = replayed.trust(before, rules(limits::foresee_belief_weight).value,
                              rules(limits::foresee_drift_weight).value);
  made.widening = replayed.widening(before.widening, rules(limits::foresee_spread_weight).value);
  return made;
}

using Finished = std::shared_ptr<const std::vector<model::History>>;

Prior prior_of(const Finished& finished, const model::Rules& rules, model::Day as_of) {
  Prior prior;
  prior.trust.share = rules(limits::foresee_belief).value;
  if (!finished) return prior;
  double logs = 0;
  Replayed replayed;
  for (const model::History& other : *finished) {
    if (!other.batch.ended_day || *other.batch.ended_day > as_of) continue;
    const Course course = course_of(other);
    const science::PileModel pile = model_by(other, rules, course.until);
    const HeatDays days_of_heat(course, pile, rules);
    const Heat heat = days_of_heat.as_of(course.until, {});
    if (heat.pairs < 5) continue;
    logs += heat.log_factor;
    ++prior.piles;
    for (std::size_t i = 0; i < course.days.size(); i += kSiteEvery) {
      const DaySeen& from = course.days[i];
      replay_day(course, pile, rules, days_of_heat, from, from.day + days{kReplayAhead}, 0,
                 prior.trust, replayed);
    }
  }
  if (prior.piles == 0) return prior;
  prior.site = prior.piles / (prior.piles + rules(limits::foresee_site_weight).value);
  prior.log_factor = prior.site * logs / prior.piles;
  const Trust shown = trust_in(replayed, prior.trust, rules);
  prior.trust.share += prior.site * (shown.share - prior.trust.share);
  prior.trust.drift += prior.site * (shown.drift - prior.trust.drift);
  prior.trust.widening += prior.site * (shown.widening - 1);
  return prior;
}

// A prior with all that it rests on: it holds for no other piles, rules or day.
struct HeatLesson : model::Lesson {
  Finished finished;
  model::Rules rules;
  model::Day as_of;
  Prior prior;
};

Prior prior_for(const model::History& history, const model::Rules& rules, model::Day as_of) {
  const auto* lesson = dynamic_cast<const HeatLesson*>(history.lesson.get());
  if (lesson != nullptr && lesson->finished == history.finished && lesson->as_of == as_of &&
      lesson->rules == rules) {
    return lesson->prior;
  }
  return prior_of(history.finished, rules, as_of);
}

Leaning leaning_of(const Prior& prior, const Heat& own, double belief, const Replayed& replayed,
                   const model::Rules& rules) {
  Leaning leaning;
  leaning.site_piles = prior.piles;
  leaning.own_days = own.pairs;
  leaning.replayed = replayed.count;
  const double share = own.pairs / (own.pairs + rules(limits::foresee_own_weight).value);
  leaning.own = belief * share;
  leaning.site = belief * (1 - share) * prior.site;
  leaning.model = belief * (1 - share) * (1 - prior.site);
  leaning.still = 1 - belief;
  return leaning;
}

}  // namespace

std::shared_ptr<const model::Lesson> learn(const Finished& finished, const model::Rules& rules,
                                           model::Day as_of) {
  auto lesson = std::make_shared<HeatLesson>();
  lesson->finished = finished;
  lesson->rules = rules;
  lesson->as_of = as_of;
  lesson->prior = prior_of(finished, rules, as_of);
  return lesson;
}

double HeatView::Spread::half_width(int days_ahead) const {
  return first + growth * (std::sqrt(static_cast<double>(days_ahead)) - 1);
}

std::optional<HeatView> HeatView::of(const model::History& history, const Course& course,
                                     const model::Rules& rules, model::Day as_of) {
  const DaySeen* last = nullptr;
  for (const DaySeen& day : course.days) {
    if (day.day <= as_of) last = &day;
  }
  if (last == nullptr || days_between(last->day, as_of) > kFreshDays) return std::nullopt;
  const science::PileModel pile = model_by(history, rules, as_of);
  const HeatDays heat(course, pile, rules);
  const Prior prior = prior_for(history, rules, as_of);
  Replayed replayed;
  for (const DaySeen& day : course.days) {
    if (day.day >= last->day || days_between(day.day, as_of) > kReplayBack) continue;
    replay_day(course, pile, rules, heat, day, as_of, prior.log_factor, prior.trust, replayed);
  }
  const Trust trust = trust_in(replayed, prior.trust, rules);
  const Heat own = heat.as_of(as_of, static_cast<int>(rules(limits::foresee_own_days).value));
  HeatView view(pile, {trust.share, trust.drift, trust.widening,
                       rules(limits::foresee_spread).value, rules(limits::foresee_growth).value});
  view.leaning_ = leaning_of(prior, own, trust.share, replayed, rules);
  view.last_ = last->day;
  view.as_of_ = as_of;
  view.degradable_ = own.degradable;
  view.log_factor_ = corrected(own, prior.log_factor, rules);
  view.start_ = last->peak();
  view.air_ = air_on(course, rules, as_of);
  return view;
}

std::optional<HeatForecast> HeatView::ahead(int days_ahead, Courses courses) const {
  const int steps = days_ahead + days_between(last_, as_of_);
  const auto course_with = [&](double log) {
    return simulated(pile_, degradable_, log, start_, air_, steps);
  };
  HeatForecast forecast;
  forecast.leaning = leaning_;
  if (courses == Courses::kWanted) {
    forecast.lesser = course_with(log_factor_ - kLogSpread);
    forecast.greater = course_with(log_factor_ + kLogSpread);
  }
  forecast.model = course_with(log_factor_);
  for (std::size_t i = 0; i < forecast.model.size(); ++i) {
    const int step = static_cast<int>(i) + 1;
    const double likely = start_ + spread_.share * (forecast.model[i] - start_) +
                          spread_.drift * std::min(step, kReplayAhead);
    const double half = spread_.widening * spread_.half_width(step);
    forecast.days.push_back({last_ + days{step}, likely, likely - half, likely + half});
  }
  if (forecast.days.empty()) return std::nullopt;
  return forecast;
}

std::optional<HeatForecast> foresee(const model::History& history, const Course& course,
                                    const model::Rules& rules, model::Day as_of, int days_ahead) {
  const auto view = HeatView::of(history, course, rules, as_of);
  return view ? view->ahead(days_ahead) : std::nullopt;
}

}  // namespace kinds::pile
