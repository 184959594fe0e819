#include "kinds/digester_trend.h"

#include <algorithm>
#include <cmath>

#include "kinds/thresholds.h"
#include "kinds/words.h"
#include "measure/text.h"
#include "science/digester_chemistry.h"
#include "science/digestion.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Days;
using measure::Number;
using model::Day;
using model::Urgency;
using science::Crossing;
using science::RobustTrend;
using science::TrendPoint;

constexpr int kWeek = 7;
constexpr Days kFar{365};  // later than this is "much later"

// What is the same for each of the things followed.
struct Wording {
  const char* name;
  const char* unit;    // after its numbers
  int decimals;        // of its change in a week
  bool bad_above;      // its limit is the most, not the least
  bool by_weeks;       // a point is a week of feeding, not a reading
  const char* action;  // when it is at its limit soon
};

Wording wording(Followed what) {
  constexpr const char* kFeedLess =
      "feed a quarter less, leave out food and fat, and read pH every other day until it turns";
  switch (what) {
    case Followed::kPh:
      return {"pH", "", 2, false, false, kFeedLess};
    case Followed::kAcidsToAlkalinity:
      return {"acids to alkalinity", "", 2, true, false, kFeedLess};
    case Followed::kFreeAmmonia:
      return {"free ammonia",
              " mg/L",
              0,
              true,
              false,
              "thin it with water and feed straw or plants rather than manure, before it is there"};
    case Followed::kLoading:
      return {"loading", " kg VS/m3/d", 2,
              true,      true,          "feed no more a day than now, or warm it first"};
    case Followed::kRetention:
      return {"retention", " days", 1, false, true, "feed no more slurry a day than now"};
  }
  return {};
}

std::string shown(const Wording& words, double value) {
  return measure::print_number(value, words.decimals) + words.unit;
}

TrendPoint point(const model::History& history, Day day, double value) {
  return {Days{static_cast<double>(days_between(history.today, day))}, Number{value}};
}

bool is_in_window(const model::History& history, const model::Rules& rules, Day day) {
  return days_between(day, history.today) < rules(limits::trend_window).value;
}

std::vector<TrendPoint> ph_points(const model::History& history, const model::Rules& rules) {
  std::vector<TrendPoint> points;
  for (const model::DayRoll& roll : model::pooled_days(history.all("ph"))) {
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
  const auto* total = history.find("tan");
  if (total == nullptr) return points;
  const auto temperatures = model::pooled_days(history.all("temperature"));
  const auto acidity = model::pooled_days(history.all("ph"));
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
  const bool up = wording(trend.what).bad_above;
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
  if (now) trend.limit = next_limit(*now, wording(what).bad_above, limits_ahead);
  trend.points = std::move(points);
  look_ahead(rules, trend);
  return trend;
}

template <class T>
std::optional<double> bare(const std::optional<T>& scalar) {
  if (!scalar) return std::nullopt;
  return scalar->value;
}

bool is_clear(const RobustTrend& line) {
  return line.rises() || line.falls();
}

std::string a_week(const Wording& words, const RobustTrend& line) {
  return shown(words, std::fabs(line.slope.value) * kWeek) + " a week";
}

// "rising 0.08 a week", "steady", "no clear trend".
std::string direction(const Wording& words, const RobustTrend& line) {
  const auto is_nothing = [&](Number slope) {
    return measure::print_number(std::fabs(slope.value) * kWeek, words.decimals) == "0";
  };
  if (is_nothing(line.slope) &&
      (is_clear(line) || (is_nothing(line.slope_low) && is_nothing(line.slope_high)))) {
    return "steady";
  }
  if (!is_clear(line)) return "no clear trend";
  return fmt::format("{} {}", line.rises() ? "rising" : "falling", a_week(words, line));
}

std::string basis(const Wording& words, const Trend& trend) {
  const auto count = trend.points.size();
  if (words.by_weeks) return fmt::format("{} weeks of feeding", count);
  return fmt::format("{} readings in {}", count,
                     days_words(static_cast<int>(trend.line->span.value)));
}

// "in about 12 days (8 to 40)".
std::string ahead_words(const Crossing& ahead) {
  const int likely = whole(ahead.likely), earliest = whole(ahead.earliest);
  const std::string when = likely < 1 ? "about now" : "in about " + days_words(likely);
  const std::string early = earliest < 1 ? "now" : std::to_string(earliest);
  if (ahead.latest > kFar) return fmt::format("{} ({} to much later)", when, early);
  return fmt::format("{} ({} to {})", when, early, std::max(whole(ahead.latest), 1));
}

std::string at_limit(const Wording& words, const Trend& trend) {
  return fmt::format("is at {} {}", shown(words, trend.limit->value), ahead_words(*trend.ahead));
}

const Trend* find(const std::vector<Trend>& trends, Followed what) {
  const auto found = std::find_if(trends.begin(), trends.end(),
                                  [&](const Trend& trend) { return trend.what == what; });
  return found == trends.end() ? nullptr : &*found;
}

model::Finding trend_finding(const Trend& trend, Urgency urgency, model::Threshold<Days> rule,
                             const model::Rules& rules) {
  model::Finding made = finding("digester.trend", urgency, rule, rules);
  made.value = model::Measured{"time to the limit", measure::value_of(trend.ahead->likely), ""};
  return made;
}

// Acids that rise while pH falls: the slurry's buffer is going, and gas fails weeks later.
bool judge_pair(const std::vector<Trend>& trends, const model::Rules& rules,
                model::Assessment& into) {
  const Trend* ph = find(trends, Followed::kPh);
  const Trend* ratio = find(trends, Followed::kAcidsToAlkalinity);
  if (ph == nullptr || ratio == nullptr || !ph->line || !ratio->line) return false;
  if (!ph->line->falls() || !ratio->line->rises()) return false;
  const Trend* sooner = nullptr;
  for (const Trend* one : {ph, ratio}) {
    if (one->ahead && (sooner == nullptr || one->ahead->likely < sooner->ahead->likely)) {
      sooner = one;
    }
  }
  if (sooner == nullptr || sooner->ahead->likely > rules(limits::trend_pair)) return false;
  const Wording of_ph = wording(ph->what), of_ratio = wording(ratio->what);
  model::Finding made = trend_finding(*sooner, Urgency::kToday, limits::trend_pair, rules);
  made.says =
      fmt::format("pH falls {} while acids to alkalinity rise {}: {} {}", a_week(of_ph, *ph->line),
                  a_week(of_ratio, *ratio->line), sooner == ph ? "pH" : "the ratio",
                  at_limit(wording(sooner->what), *sooner));
  const std::string by_ph = basis(of_ph, *ph), by_ratio = basis(of_ratio, *ratio);
  made.why = "acids use up what holds the pH, and gas fails only after that; by " +
             (by_ph == by_ratio ? by_ph + " of each" : by_ph + " and " + by_ratio);
  made.action =
      "halve the feed now, leave out food and fat, keep it warm, and read both twice a week";
  into.findings.push_back(std::move(made));
  return true;
}

}  // namespace

std::vector<Trend> trends_of(const model::History& history, const model::Rules& rules,
                             const Startup& startup, const GasRecords& records) {
  const Slurry& slurry = records.slurry;
  const Feed& feed = records.feed;
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
  const auto at = records.warmth.mean.value_or(rules(limits::overfed_at));
  follow(Followed::kLoading,
         week_points(history, weeks, [&](const Week& week) { return loading_in(week, feed); }),
         bare(feed.loading), {loading_limit(at, rules).value});
  const bool winter = is_winter(history, rules, records.warmth);
  follow(Followed::kRetention,
         week_points(history, weeks,
                     [&](const Week& week) { return retention_in(week, history, feed); }),
         bare(feed.retention), {rules(winter ? limits::short_cold : limits::short_below).value});
  return trends;
}

void judge_trends(const model::Rules& rules, const Slurry& slurry, const std::vector<Trend>& trends,
                  model::Assessment& into) {
  const bool is_sour = slurry.souring == Souring::kSour;
  const bool is_told = is_sour || judge_pair(trends, rules, into);
  for (const Trend& trend : trends) {
    const bool of_acids = trend.what == Followed::kPh || trend.what == Followed::kAcidsToAlkalinity;
    if (of_acids && is_told) continue;
    if (!trend.ahead || trend.ahead->likely > rules(limits::trend_ahead)) continue;
    const Wording words = wording(trend.what);
    model::Finding made = trend_finding(trend, Urgency::kSoon, limits::trend_ahead, rules);
    made.says = fmt::format("{} is {}, and {}", words.name, direction(words, *trend.line),
                            at_limit(words, trend));
    made.why = "by " + basis(words, trend) + ", if it goes on so";
    const bool is_watched = of_acids && slurry.souring == Souring::kWatch;
    made.action = is_watched ? "do what digester.sour says, before it is there" : words.action;
    into.findings.push_back(std::move(made));
  }
}

std::optional<model::Progress> trend_line(const model::Rules& rules,
                                          const std::vector<Trend>& trends) {
  std::vector<std::string> parts;
  for (const Trend& trend : trends) {
    const Wording words = wording(trend.what);
    if (trend.line) {
      parts.push_back(fmt::format("{} {} ({})", words.name, direction(words, *trend.line),
                                  basis(words, trend)));
      continue;
    }
    if (words.by_weeks) continue;  // they come by themselves
    parts.push_back(fmt::format("{}: {} reading{} of late, {:.0f} over {} tell a trend", words.name,
                                trend.points.size(), trend.points.size() == 1 ? "" : "s",
                                rules(limits::trend_points).value,
                                days_words(static_cast<int>(rules(limits::trend_span).value))));
  }
  if (parts.empty()) return std::nullopt;
  return model::Progress{"trend", measure::joined(parts, "; "), std::nullopt};
}

std::vector<model::Forecast> foresee_limits(const model::History& history,
                                            const std::vector<Trend>& trends) {
  std::vector<model::Forecast> made;
  const auto day = [&](Days days) { return history.today + date::days{whole(days)}; };
  for (const Trend& trend : trends) {
    if (!trend.ahead) continue;
    const Wording words = wording(trend.what);
    const auto latest =
        trend.ahead->latest > kFar ? std::nullopt : std::optional(day(trend.ahead->latest));
    made.push_back({fmt::format("{} at {}", words.name, shown(words, trend.limit->value)),
                    day(trend.ahead->earliest), day(trend.ahead->likely), latest,
                    fmt::format("{}, if it goes on {}", ahead_words(*trend.ahead),
                                direction(words, *trend.line))});
  }
  return made;
}

}  // namespace kinds::digester
