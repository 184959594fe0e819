#include <algorithm>
#include <cmath>

#include "kinds/digester/facts.h"
#include "kinds/digester/outlook.h"
#include "kinds/digester/says.h"
#include "kinds/digester/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"
#include "measure/text.h"

// Of how it stands and whither it goes: warmth, mix, chemistry and trends.
namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Celsius;
using measure::Days;
using measure::Fraction;
using measure::Number;
using measure::Printer;
using model::Finding;
using model::Progress;
using model::Words;
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
  const char* brief;   // the same in a few words
};

Wording wording(Followed what) {
  constexpr const char* kFeedLess =
      "feed a quarter less, leave out food and fat, and read pH every other day until it turns";
  switch (what) {
    case Followed::kPh:
      return {"pH", "", 2, false, kFeedLess, "feed a quarter less"};
    case Followed::kAcidsToAlkalinity:
      return {"acids to alkalinity", "", 2, false, kFeedLess, "feed a quarter less"};
    case Followed::kFreeAmmonia:
      return {"free ammonia",
              " mg/L",
              0,
              false,
              "thin it with water and feed straw or plants rather than manure, before it is there",
              "thin it"};
    case Followed::kLoading:
      return {
          "loading",     " kg VS/m3/d", 2, true, "feed no more a day than now, or warm it first",
          "feed no more"};
    case Followed::kRetention:
      return {"retention",     " days", 1, true, "feed no more slurry a day than now",
              "no more slurry"};
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
    const double step = std::pow(10, -words.decimals);
    return std::round(std::fabs(slope.value) * kWeek / step) == 0;
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
  return fmt::format("{} readings in {}", count, days_words(full_days(trend.line->span)));
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

std::string line_of(std::string_view action, const Wording& words, const Finding& finding) {
  const int days = whole(finding.facts(kAhead));
  const std::string when = days < 1 ? "now" : "in " + days_words(days);
  const double limit = finding.facts(kTrendLimit).value;
  return fitting({fmt::format("{}: {} {} {}", action, words.name, shown(words, limit), when),
                  fmt::format("{}: {} at limit {}", action, words.name, when),
                  fmt::format("{}: at its limit {}", action, when)});
}

Words pair_words(const Finding& finding, const Study& study) {
  const Trend& ph = *find_trend(study.trends(), Followed::kPh);
  const Trend& ratio = *find_trend(study.trends(), Followed::kAcidsToAlkalinity);
  const Followed sooner = finding.facts(kFollowed);
  const Trend& first = sooner == Followed::kPh ? ph : ratio;
  const Wording of_ph = wording(ph.what), of_ratio = wording(ratio.what);
  // Of each its own where they differ.
  const bool alike = ph.points.size() == ratio.points.size() &&
                     full_days(ph.line->span) == full_days(ratio.line->span);
  return {.line = line_of("halve the feed", wording(sooner), finding),
          .says = fmt::format("pH falls {} while acids to alkalinity rise {}: {} {}",
                              a_week(of_ph, *ph.line), a_week(of_ratio, *ratio.line),
                              sooner == Followed::kPh ? "pH" : "the ratio",
                              at_limit(wording(sooner), first)),
          .why = "acids use up what holds the pH, and gas fails only after that; by " +
                 basis(of_ph, ph) + (alike ? " of each" : " and " + basis(of_ratio, ratio)),
          .action =
              "halve the feed now, leave out food and fat, keep it warm, and read both twice "
              "a week"};
}

}  // namespace

Words trend_words(const Finding& finding, const Study& study) {
  if (finding.case_of == kCasePair) return pair_words(finding, study);
  const Trend& trend = *find_trend(study.trends(), finding.facts(kFollowed));
  const Wording words = wording(trend.what);
  return {.line = line_of(words.brief, words, finding),
          .says = fmt::format("{} is {}, and {}", words.name, direction(words, *trend.line),
                              at_limit(words, trend)),
          .why = "by " + basis(words, trend) + ", if it goes on so",
          .action = finding.facts.is(kWatched) ? "do what digester.sour says, before it is there"
                                               : words.action};
}

std::optional<Progress> trend_line(const Study& study) {
  std::vector<std::string> parts;
  for (const Trend& trend : study.trends()) {
    const Wording words = wording(trend.what);
    if (trend.line) {
      parts.push_back(fmt::format("{} {} ({})", words.name, direction(words, *trend.line),
                                  basis(words, trend)));
      continue;
    }
    if (words.by_weeks) continue;  // they come by themselves
    parts.push_back(fmt::format("{}: {} reading{} of late, {:.0f} over {} tell a trend", words.name,
                                trend.points.size(), trend.points.size() == 1 ? "" : "s",
                                study.rules()(limits::trend_points).value,
                                days_words(full_days(study.rules()(limits::trend_span)))));
  }
  if (parts.empty()) return std::nullopt;
  return Progress{"trend", measure::joined(parts, "; "), std::nullopt, true};
}

std::vector<model::Forecast> limit_forecasts(const Study& study) {
  std::vector<model::Forecast> made;
  const auto day = [&](Days days) { return study.history().today + date::days{whole(days)}; };
  for (const Trend& trend : study.trends()) {
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

std::string without_words(const std::set<std::string>& names) {
  if (names.empty()) return "";
  const std::vector<std::string> words(names.begin(), names.end());
  return fmt::format("without {}, not known of it", measure::joined(words, ", "));
}

std::optional<Progress> mix_line(const Study& study) {
  const FeedMix& mix = study.mix();
  const model::Rules& rules = study.rules();
  if (!mix.solids && !mix.c_to_n) return std::nullopt;
  const Printer print(measure::UnitSystem::kMetric);
  std::string says;
  if (mix.solids) {
    const Fraction least = rules(limits::mix_solids_least), most = rules(limits::mix_solids_most);
    says = fmt::format("{} solids with its water ({} to {}{})", print(*mix.solids), print(least),
                       print(most),
                       *mix.solids < least  ? "; thin: less water"
                       : *mix.solids > most ? "; thick: more water"
                                            : "");
  }
  if (mix.c_to_n) {
    const Number least = rules(limits::mix_cn_least), most = rules(limits::mix_cn_most);
    says += fmt::format("{}{} carbon to nitrogen ({:.0f} to {:.0f} is favourable{})",
                        mix.solids ? ", " : "", ratio_words(*mix.c_to_n), least.value, most.value,
                        *mix.c_to_n < least  ? "; straw or plants raise it"
                        : *mix.c_to_n > most ? "; manure lowers it"
                                             : "");
    if (!mix.no_c_to_n.empty()) says += ", " + without_words(mix.no_c_to_n);
  }
  const auto& in = study.history().in;
  const bool fed_today = !in.empty() && in.back().day == study.history().today;
  return Progress{"mix", std::move(says), std::nullopt, !fed_today};
}

std::string ratio_words(Number ratio) {
  return measure::print_number(std::round(ratio.value * 10) / 10, 1) + ":1";
}

std::optional<Progress> chemistry_line(const Study& study) {
  const Slurry& slurry = study.slurry();
  const model::History& history = study.history();
  std::vector<std::string> parts;
  if (slurry.acids_to_alkalinity) {
    std::string ratio =
        fmt::format("acids to alkalinity {} by {} (watched above {})",
                    measure::print_number(slurry.acids_to_alkalinity->value, 2),
                    slurry.titrated ? "titration" : "laboratory",
                    measure::print_number(study.rules()(limits::sour_ratio_watch).value, 2));
    const auto ratios = ratio_days(history, slurry.titrated);
    if (ratios.size() > 1) {
      const RatioDay& before = ratios[ratios.size() - 2];
      ratio += fmt::format(", {} on {}", measure::print_number(before.ratio.value, 2),
                           measure::day_words(before.day, history.today));
    }
    parts.push_back(std::move(ratio));
  }
  if (slurry.free_ammonia) {
    parts.push_back(
        fmt::format("free ammonia about {} as nitrogen (watched above {})",
                    Printer::labelled(std::round(slurry.free_ammonia->value), "mg/L"),
                    Printer::labelled(study.rules()(limits::ammonia_watch).value, "mg/L")));
  }
  if (parts.empty()) return std::nullopt;
  const auto is_of_today = [&](const Quantity& quantity) {
    const model::Series* read = history.find(quantity);
    return read != nullptr && !read->days.empty() && read->days.back().day == history.today;
  };
  const bool read_today =
      is_of_today(kAcids) || is_of_today(kFirstAcid) || is_of_today(kTotalAmmonia);
  return Progress{"chemistry", measure::joined(parts, "; "), std::nullopt, !read_today};
}

bool is_steady(double a_day, const Printer& print) {
  return print.difference(measure::Kelvins{std::fabs(a_day)}) ==
         print.difference(measure::Kelvins{0});
}

std::string change_words(double a_day, const Printer& print) {
  if (is_steady(a_day, print)) return "steady";
  return fmt::format("{} {} a day", a_day > 0 ? "rising" : "falling",
                     print.difference(measure::Kelvins{std::fabs(a_day)}));
}

std::string window_words(const Study& study) {
  const int window = full_days(study.rules()(limits::cold_window));
  const int read = study.warmth().days_read;
  if (read == window) return fmt::format("the mean of {}", days_words(window));
  return fmt::format("the mean of {} of the last {}", read, days_words(window));
}

std::string well_words(const Study& study) {
  const Warmth& warmth = study.warmth();
  if (warmth.mean)
    return fmt::format("{} at {} ({})", study.stage(), study.print()(*warmth.mean),
                       window_words(study));
  return fmt::format("{}, too few readings to judge its temperature ({} in {})", study.stage(),
                     warmth.days_read, days_words(full_days(study.rules()(limits::cold_window))));
}

Progress warmth_line(const Study& study) {
  const Printer print = study.print();
  const Warmth& warmth = study.warmth();
  if (!warmth.mean) {
    return {"slurry temperature",
            fmt::format("{} of the last {} read; {} are needed to judge it", warmth.days_read,
                        days_words(full_days(study.rules()(limits::cold_window))),
                        full_days(study.rules()(limits::cold_days))),
            std::nullopt, true};
  }
  std::string says = fmt::format("{} is {}, needs {}", window_words(study), print(*warmth.mean),
                                 print(study.rules()(limits::cold_below)));
  if (warmth.a_day) says += ", " + change_words(*warmth.a_day, print);
  return {"slurry temperature", says, std::nullopt, true};
}

std::vector<model::Forecast> warmth_forecasts(const Study& study) {
  const auto ahead = foresee_warmth(study.history(), study.rules());
  if (!ahead) return {};
  const Printer print = study.print();
  const std::string condition =
      fmt::format("if the trend of the last {} goes on and eases off ({} of them read)",
                  days_words(full_days(study.rules()(limits::forecast_window))), ahead->days_read);
  std::vector<model::Forecast> made;
  made.push_back({"mean slurry temperature", std::nullopt, ahead->day, std::nullopt,
                  fmt::format("about {} ({} to {}) {}", print(ahead->likely),
                              print(ahead->likely - ahead->half_width),
                              print(ahead->likely + ahead->half_width), condition)});
  if (ahead->crosses) {
    made.push_back({fmt::format("daily mean {} {}", ahead->rises ? "back at" : "below",
                                print(study.rules()(limits::cold_below))),
                    ahead->crosses_earliest, ahead->crosses, ahead->crosses_latest, ""});
    made.back().line = "its " + made.back().what;
    made.back().says =
        fmt::format("{}, {}", foreseen_words(made.back(), study.history().today), condition);
  }
  return made;
}

std::string fitting(std::initializer_list<std::string> lines) {
  constexpr int kColumns = 46;
  for (const std::string& line : lines) {
    const auto points =
        std::count_if(line.begin(), line.end(), [](char byte) { return (byte & 0xC0) != 0x80; });
    if (points <= kColumns) return line;
  }
  return *std::prev(lines.end());
}

}  // namespace kinds::digester
