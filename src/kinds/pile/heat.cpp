#include "kinds/pile/heat.h"

#include <algorithm>
#include <cmath>

#include "kinds/finding.h"
#include "kinds/thresholds.h"

namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using date::days;

// Of how many of five the interval should hold four.
constexpr double kChance = 0.8;
// Forecasts at one distance that have to be judged before they can show that there is no skill.
constexpr int kJudgedForSkill = 10;
// The reference piles' misses are spread like this: an exponential distribution whose 80th
// percentile is 1, in so many equal steps (their own quantiles: 0.4 at a half, 1.1 at 0.83, 1.6 at
// 0.93, 2.3 at 0.98; the exponential: 0.43, 1.1, 1.6, 2.3).
constexpr int kReferenceSteps = 40;

std::size_t at(int days_ahead) {
  return static_cast<std::size_t>(std::clamp(days_ahead, 1, kMostAhead) - 1);
}

// The half width at the start, as a share of the room there is.
double first_share(const model::Rules& rules, int days_ahead) {
  const std::array widths{limits::foresee_width_1, limits::foresee_width_2, limits::foresee_width_3,
                          limits::foresee_width_4, limits::foresee_width_5, limits::foresee_width_6,
                          limits::foresee_width_7};
  static_assert(widths.size() == kMostAhead);
  return rules(widths[at(days_ahead)]).value;
}

// Foresees from each day of a pile, and judges by what was read after it up to `known`. A miss
// counts half where it was found out a half-life before `known`; all alike without one.
Misses replayed(const Course& course, const Stirring& stirring, const model::Rules& rules,
                model::Day known, std::optional<double> half_life) {
  Misses made;
  for (std::size_t i = 0; i < course.days.size() && course.days[i].day < known; ++i) {
    const Outlook outlook(course, i, stirring, rules, course.days[i].day);
    for (int step = 1; step <= kMostAhead; ++step) {
      const model::Day then = outlook.day() + days{step};
      const DaySeen* read = then <= known ? course.on(then) : nullptr;
      if (read == nullptr || outlook.disturbed(step)) continue;
      const double came = read->peak(), share = first_share(rules, step);
      const auto foreseen = outlook.ahead(step), today = outlook.as_today(step);
      const double weight = half_life ? std::exp2(-days_between(then, known) / *half_life) : 1.0;
      made.method[at(step)].push_back({foreseen.miss(came) / share, weight});
      made.as_today[at(step)].push_back({today.miss(came) / share, weight});
      made.error[at(step)] += std::fabs(foreseen.likely - came);
      made.naive[at(step)] += std::fabs(outlook.read() - came);
      ++made.judged;
    }
  }
  return made;
}

using Finished = std::shared_ptr<const std::vector<model::History>>;

struct SiteMisses {
  Misses misses;
  int piles = 0;
};

SiteMisses misses_of(const Finished& finished, const model::Rules& rules, model::Day as_of) {
  SiteMisses made;
  if (!finished) return made;
  for (const model::History& other : *finished) {
    if (!other.batch.ended_day || *other.batch.ended_day > as_of) continue;
    const Course course = course_of(other);
    const Misses one =
        replayed(course, Stirring::of(other, rules), rules, course.until, std::nullopt);
    if (one.judged == 0) continue;
    made.misses.add(one, rules(limits::foresee_site_weight).value);
    ++made.piles;
  }
  return made;
}

// Misses with all that they rest on: they hold for no other piles, rules or day.
struct HeatLesson : model::Lesson {
  Finished finished;
  model::Rules rules;
  model::Day as_of;
  SiteMisses site;
};

SiteMisses site_misses(const model::History& history, const model::Rules& rules, model::Day as_of) {
  const auto* lesson = dynamic_cast<const HeatLesson*>(history.lesson.get());
  if (lesson != nullptr && lesson->finished == history.finished && lesson->as_of == as_of &&
      lesson->rules == rules) {
    return lesson->site;
  }
  return misses_of(history.finished, rules, as_of);
}

// Whether a pile's own past and the site's finished ones show, of enough forecasts, that it is best
// to say that it stays as it is.
bool no_skill(const Misses& own, const SiteMisses& site, const model::Rules& rules, std::size_t i) {
  const double judged = static_cast<double>(own.method[i].size()) +
                        site.piles * rules(limits::foresee_site_weight).value;
  return judged >= kJudgedForSkill &&
         own.error[i] + site.misses.error[i] > own.naive[i] + site.misses.naive[i];
}

std::vector<science::PastMiss> reference_misses(const model::Rules& rules) {
  const double weight = rules(limits::foresee_reference_weight).value / kReferenceSteps;
  std::vector<science::PastMiss> made;
  for (int i = 0; i < kReferenceSteps; ++i) {
    made.push_back({std::log(1 - (i + 0.5) / kReferenceSteps) / std::log(1 - kChance), weight});
  }
  return made;
}

double width(std::vector<science::PastMiss> reference, const std::vector<science::PastMiss>& site,
             const std::vector<science::PastMiss>& own) {
  reference.insert(reference.end(), site.begin(), site.end());
  reference.insert(reference.end(), own.begin(), own.end());
  return science::conformal_half_width(std::move(reference), kChance);
}

}  // namespace

void Misses::add(const Misses& other, double weight) {
  const auto take = [weight](std::vector<science::PastMiss>& into,
                             const std::vector<science::PastMiss>& from) {
    for (const science::PastMiss& one : from) {
      into.push_back({one.size, weight / static_cast<double>(from.size())});
    }
  };
  for (std::size_t i = 0; i < kMostAhead; ++i) {
    if (other.method[i].empty()) continue;
    take(method[i], other.method[i]);
    take(as_today[i], other.as_today[i]);
    const double each = weight / static_cast<double>(other.method[i].size());
    error[i] += each * other.error[i];
    naive[i] += each * other.naive[i];
  }
}

std::shared_ptr<const model::Lesson> learn(const Finished& finished, const model::Rules& rules,
                                           model::Day as_of) {
  auto lesson = std::make_shared<HeatLesson>();
  lesson->finished = finished;
  lesson->rules = rules;
  lesson->as_of = as_of;
  lesson->site = misses_of(finished, rules, as_of);
  return lesson;
}

HeatView::HeatView(Stirring stirring, const Course& course, std::size_t index,
                   const model::Rules& rules, model::Day as_of)
    : stirring_(std::make_shared<const Stirring>(std::move(stirring))),
      outlook_(course, index, *stirring_, rules, as_of),
      rules_(&rules),
      as_of_(as_of) {}

std::optional<HeatView> HeatView::of(const model::History& history, const Course& course,
                                     const model::Rules& rules, model::Day as_of) {
  std::size_t read = 0;
  while (read < course.days.size() && course.days[read].day <= as_of) ++read;
  if (read == 0 || days_between(course.days[read - 1].day, as_of) > kFreshDays) return std::nullopt;
  HeatView view(Stirring::of(history, rules), course, read - 1, rules, as_of);
  const SiteMisses site = site_misses(history, rules, as_of);
  const Misses own =
      replayed(course, *view.stirring_, rules, as_of, rules(limits::foresee_half_life).value);
  const auto reference = reference_misses(rules);
  for (int step = 1; step <= kMostAhead; ++step) {
    const std::size_t i = at(step);
    view.as_today_[i] = no_skill(own, site, rules, i);
    view.share_[i] = first_share(rules, step) *
                     (view.as_today_[i] ? width(reference, site.misses.as_today[i], own.as_today[i])
                                        : width(reference, site.misses.method[i], own.method[i]));
  }
  view.site_piles_ = site.piles;
  view.replayed_ = own.judged;
  return view;
}

HeatForecast HeatView::ahead(int days_ahead) const {
  const int steps = days_ahead + days_between(outlook_.day(), as_of_);
  HeatForecast forecast;
  Leaning& leaning = forecast.leaning;
  leaning.site_piles = site_piles_;
  leaning.replayed = replayed_;
  leaning.warming_up = outlook_.warming_up();
  leaning.as_today = as_today_.front();
  if (outlook_.turning_foreseen(days_ahead) && outlook_.read() > outlook_.air()) {
    leaning.after_turning = outlook_.read() - (*rules_)(limits::foresee_turned_drop).value *
                                                  (outlook_.read() - outlook_.air());
  }
  for (int step = 1; step <= steps; ++step) {
    const std::size_t i = at(step);
    const Outlook::Ahead one = as_today_[i] ? outlook_.as_today(step) : outlook_.ahead(step);
    forecast.days.push_back({outlook_.day() + days{step}, one.likely,
                             one.likely - share_[i] * one.room_down,
                             one.likely + share_[i] * one.room_up, outlook_.disturbed(step)});
  }
  return forecast;
}

std::optional<HeatView::Cooled> HeatView::cooled(double below) const {
  const model::Rules& rules = *rules_;
  const double now = outlook_.read(), air = outlook_.air();
  if (now < below || below - air < 1) return std::nullopt;
  const double way = std::log((below - air) / (now - air)) /
                         std::log(1 - rules(limits::foresee_end_cooling).value) +
                     rules(limits::foresee_end_more).value;
  const auto day_after = [&](double share) {
    return std::max(as_of_ + days{1},
                    outlook_.day() + days{static_cast<int>(std::lround(share * way))});
  };
  return Cooled{day_after(rules(limits::foresee_end_least).value),
                day_after(rules(limits::foresee_end_likely).value),
                day_after(rules(limits::foresee_end_most).value)};
}

std::optional<HeatForecast> foresee(const model::History& history, const Course& course,
                                    const model::Rules& rules, model::Day as_of, int days_ahead) {
  const auto view = HeatView::of(history, course, rules, as_of);
  return view ? std::optional(view->ahead(days_ahead)) : std::nullopt;
}

}  // namespace kinds::pile
