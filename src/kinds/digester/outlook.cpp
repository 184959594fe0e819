#include "kinds/digester/outlook.h"

#include <algorithm>
#include <cmath>

#include "kinds/thresholds.h"
#include "kinds/finding.h"
#include "measure/text.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Days;
using measure::Number;
using model::Urgency;
using science::Crossing;
using science::RobustTrend;

constexpr Days kFar{365};  // later than this is "much later"

// What is the same for each of the things followed.
struct Wording {
  const char* name;
  const char* unit;    // after its numbers
  int decimals;        // of its change in a week
  bool by_weeks;       // a point is a week of feeding, not a reading
  const char* action;  // when it is at its limit soon
};

Wording wording(Followed what) {
  constexpr const char* kFeedLess =
      "feed a quarter less, leave out food and fat, and read pH every other day until it turns";
  switch (what) {
    case Followed::kPh:
      return {"pH", "", 2, false, kFeedLess};
    case Followed::kAcidsToAlkalinity:
      return {"acids to alkalinity", "", 2, false, kFeedLess};
    case Followed::kFreeAmmonia:
      return {"free ammonia", " mg/L", 0, false,
              "thin it with water and feed straw or plants rather than manure, before it is there"};
    case Followed::kLoading:
      return {"loading", " kg VS/m3/d", 2, true, "feed no more a day than now, or warm it first"};
    case Followed::kRetention:
      return {"retention", " days", 1, true, "feed no more slurry a day than now"};
  }
  return {};
}

std::string shown(const Wording& words, double value) {
  return measure::print_number(value, words.decimals) + words.unit;
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

model::Told trend_finding(const Trend& trend, Urgency urgency, model::Threshold<Days> rule,
                             const model::Rules& rules) {
  model::Told made = finding("digester.trend", urgency, rule, rules);
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
  model::Told made = trend_finding(*sooner, Urgency::kToday, limits::trend_pair, rules);
  made.words.says =
      fmt::format("pH falls {} while acids to alkalinity rise {}: {} {}", a_week(of_ph, *ph->line),
                  a_week(of_ratio, *ratio->line), sooner == ph ? "pH" : "the ratio",
                  at_limit(wording(sooner->what), *sooner));
  const std::string by_ph = basis(of_ph, *ph), by_ratio = basis(of_ratio, *ratio);
  made.words.why = "acids use up what holds the pH, and gas fails only after that; by " +
             (by_ph == by_ratio ? by_ph + " of each" : by_ph + " and " + by_ratio);
  made.words.action =
      "halve the feed now, leave out food and fat, keep it warm, and read both twice a week";
  into.findings.push_back(std::move(made));
  return true;
}

}  // namespace

void judge_trends(const model::Rules& rules, const Slurry& slurry, const std::vector<Trend>& trends,
                  model::Assessment& into) {
  const bool is_sour = slurry.souring == Souring::kSour;
  const bool is_told = is_sour || judge_pair(trends, rules, into);
  for (const Trend& trend : trends) {
    const bool of_acids = trend.what == Followed::kPh || trend.what == Followed::kAcidsToAlkalinity;
    if (of_acids && is_told) continue;
    if (!trend.ahead || trend.ahead->likely > rules(limits::trend_ahead)) continue;
    const Wording words = wording(trend.what);
    model::Told made = trend_finding(trend, Urgency::kSoon, limits::trend_ahead, rules);
    made.words.says = fmt::format("{} is {}, and {}", words.name, direction(words, *trend.line),
                            at_limit(words, trend));
    made.words.why = "by " + basis(words, trend) + ", if it goes on so";
    const bool is_watched = of_acids && slurry.souring == Souring::kWatch;
    made.words.action = is_watched ? "do what digester.sour says, before it is there" : words.action;
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
  return model::Progress{"trend", measure::joined(parts, "; "), std::nullopt, true};
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
