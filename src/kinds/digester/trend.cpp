#include "kinds/digester/trend.h"

#include <algorithm>

#include "kinds/digester/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"
#include "science/gas/chemistry.h"
#include "science/gas/digestion.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Days;
using measure::Number;
using model::Day;
using science::Crossing;
using science::TrendPoint;

TrendPoint point(const model::History& history, Day day, double value) {
  return {Days{static_cast<double>(days_between(history.today, day))}, Number{value}};
}

bool is_in_window(const model::History& history, const model::Rules& rules, Day day) {
  return days_between(day, history.today) < rules(limits::trend_window).value;
}

std::vector<TrendPoint> ph_points(const model::History& history, const model::Rules& rules) {
  std::vector<TrendPoint> points;
  for (const model::DayRoll& roll : model::pooled_days(history.all(kAcidity))) {
    if (is_in_window(history, rules, roll.day)) {
      points.push_back(point(history, roll.day, roll.mean()));
    }
  }
  return points;
}

std::vector<TrendPoint> ratio_points(const model::History& history, const model::Rules& rules,
                                     bool titrated) {
  std::vector<TrendPoint> points;
  for (const RatioDay& one : ratio_days(history, titrated)) {
    if (is_in_window(history, rules, one.day)) {
      points.push_back(point(history, one.day, one.ratio.value));
    }
  }
  return points;
}

// Of each analysis with a pH of that day or of the days before it, at the slurry's mean then.
std::vector<TrendPoint> ammonia_points(const model::History& history, const model::Rules& rules) {
  std::vector<TrendPoint> points;
  const auto* total = history.find(kTotalAmmonia);
  if (total == nullptr) return points;
  const auto temperatures = model::pooled_days(history.all(kTemperature));
  const auto acidity = model::pooled_days(history.all(kAcidity));
  for (const model::DayRoll& analysis : total->days) {
    if (!is_in_window(history, rules, analysis.day)) continue;
    const auto mean = mean_to(temperatures, analysis.day, rules);
    const auto after = std::find_if(acidity.begin(), acidity.end(),
                                    [&](const auto& roll) { return roll.day > analysis.day; });
    if (!mean || after == acidity.begin()) continue;
    const model::DayRoll& ph = *std::prev(after);
    if (days_between(ph.day, analysis.day) > rules(limits::sour_fresh).value) continue;
    const auto free = science::free_ammonia(science::MilligramsPerLitre{analysis.mean()},
                                            measure::Ph{ph.mean()}, *mean);
    if (free) points.push_back(point(history, analysis.day, free->nitrogen.value));
  }
  return points;
}

// Whole weeks of feeding, the last one first: they end with the last day that is over, and begin
// after the filling and with the first feed after it.
struct Week {
  Day first, last;
};

std::vector<Week> weeks_of_feeding(const model::History& history, const model::Rules& rules,
                                   const Startup& startup, const Feed& feed) {
  const auto first = std::find_if(feed.loads.begin(), feed.loads.end(),
                                  [&](const Load& load) { return !startup.is_filling(load.day); });
  std::vector<Week> weeks;
  if (first == feed.loads.end()) return weeks;
  const bool fed_today = feed.loads.back().day == history.today;
  Day last = history.today - date::days{fed_today ? 0 : 1};
  while (true) {
    const Week week{last - date::days{kWeek - 1}, last};
    if (week.first < first->day || !is_in_window(history, rules, week.first)) return weeks;
    weeks.push_back(week);
    last -= date::days{kWeek};
  }
}

// One point a week, in its middle, where `figure` knows it.
template <class Figure>
std::vector<TrendPoint> week_points(const model::History& history, const std::vector<Week>& weeks,
                                    Figure figure) {
  std::vector<TrendPoint> points;
  for (auto week = weeks.rbegin(); week != weeks.rend(); ++week) {
    const std::optional<double> value = figure(*week);
    if (value) points.push_back(point(history, week->first + date::days{kWeek / 2}, *value));
  }
  return points;
}

std::optional<double> loading_in(const Week& week, const Feed& feed) {
  measure::Kilograms volatile_solids;
  for (const Load& load : feed.loads) {
    if (load.day < week.first || load.day > week.last) continue;
    volatile_solids += load.volatile_solids.value_or(measure::Kilograms{});
  }
  const auto loading = science::loading_rate(volatile_solids, Days{kWeek}, *feed.working_volume);
  if (!loading) return std::nullopt;
  return loading->value;
}

// None in a week without feed: then it stays for ever.
std::optional<double> retention_in(const Week& week, const model::History& history,
                                   const Feed& feed) {
  const auto days = science::retention_time(
      *feed.working_volume, slurry_fed(history, week.first, week.last), Days{kWeek});
  if (!days) return std::nullopt;
  return days->value;
}

bool is_enough(const std::vector<TrendPoint>& points, const model::Rules& rules) {
  if (points.empty() || static_cast<double>(points.size()) < rules(limits::trend_points).value) {
    return false;
  }
  const Days span = points.back().at - points.front().at;
  const Days age = Days{0} - points.back().at;
  return span >= rules(limits::trend_span) && age <= rules(limits::trend_span);
}

// Its first limit that the present value is not past.
std::optional<Number> next_limit(double now, bool bad_above, std::initializer_list<double> ahead) {
  for (const double limit : ahead) {
    if (bad_above ? now <= limit : now >= limit) return Number{limit};
  }
  return std::nullopt;
}

void look_ahead(const model::Rules& rules, Trend& trend) {
  const bool up = limit_is_the_most(trend.what);
  if (!trend.line || !trend.limit || !(up ? trend.line->rises() : trend.line->falls())) return;
  const auto found = science::crossing(*trend.line, *trend.limit);
  if (!found || found->likely > rules(limits::trend_window)) return;
  const auto ahead = [](Days days) { return std::max(days, Days{0}); };
  trend.ahead = Crossing{ahead(found->earliest), ahead(found->likely), ahead(found->latest)};
}

Trend trend_of(Followed what, std::vector<TrendPoint> points, std::optional<double> now,
               const model::Rules& rules, std::initializer_list<double> limits_ahead) {
  Trend trend;
  trend.what = what;
  if (is_enough(points, rules)) trend.line = science::robust_trend(points);
  if (now) trend.limit = next_limit(*now, limit_is_the_most(what), limits_ahead);
  trend.points = std::move(points);
  look_ahead(rules, trend);
  return trend;
}

template <class T>
std::optional<double> bare(const std::optional<T>& scalar) {
  if (!scalar) return std::nullopt;
  return scalar->value;
}

}  // namespace

bool limit_is_the_most(Followed what) {
  switch (what) {
    case Followed::kAcidsToAlkalinity:
    case Followed::kFreeAmmonia:
    case Followed::kLoading:
      return true;
    case Followed::kPh:
    case Followed::kRetention:
      return false;
  }
  return false;
}

std::vector<Trend> trends_of(const model::History& history, const model::Rules& rules,
                             const Startup& startup, const Feed& feed, const Slurry& slurry,
                             const Warmth& warmth) {
  std::vector<Trend> trends;
  const auto follow = [&](Followed what, std::vector<TrendPoint> points, std::optional<double> now,
                          std::initializer_list<double> limits_ahead) {
    if (!points.empty()) {
      trends.push_back(trend_of(what, std::move(points), now, rules, limits_ahead));
    }
  };
  follow(Followed::kPh, ph_points(history, rules), bare(slurry.ph),
         {rules(limits::sour_ph_watch).value, rules(limits::sour_ph).value});
  follow(Followed::kAcidsToAlkalinity, ratio_points(history, rules, slurry.titrated),
         bare(slurry.acids_to_alkalinity),
         {rules(limits::sour_ratio_watch).value, rules(limits::sour_ratio).value});
  follow(Followed::kFreeAmmonia, ammonia_points(history, rules), bare(slurry.free_ammonia),
         {rules(limits::ammonia_watch).value, rules(limits::ammonia_above).value});
  if (!feed.working_volume) return trends;
  const auto weeks = weeks_of_feeding(history, rules, startup, feed);
  const auto at = warmth.mean.value_or(rules(limits::overfed_at));
  follow(Followed::kLoading,
         week_points(history, weeks, [&](const Week& week) { return loading_in(week, feed); }),
         bare(feed.loading), {loading_limit(at, rules).value});
  const bool winter = is_winter(history, rules, warmth);
  follow(Followed::kRetention,
         week_points(history, weeks,
                     [&](const Week& week) { return retention_in(week, history, feed); }),
         bare(feed.retention), {rules(winter ? limits::short_cold : limits::short_below).value});
  return trends;
}

}  // namespace kinds::digester
