#include "kinds/larvae/heat.h"

#include <algorithm>
#include <cmath>

#include "kinds/finding.h"
#include "kinds/thresholds.h"

namespace kinds::larvae {
namespace {

namespace limits = thresholds::larvae;
using measure::Celsius;
using measure::Days;
using model::Urgency;

// The warmest place by fresh readings.
struct Now {
  Celsius warmest;
  std::string where;  // "its core", "it", "the bin, by the air plus 2.7 °F,"
  const model::Series* series;
};

bool is_fresh(const model::Series& series, const model::History& history, Days limit) {
  return history.now - series.last->at <=
         std::chrono::duration<double, date::days::period>(limit.value);
}

std::optional<Now> warmest_of(const model::History& history, const model::Rules& rules,
                              std::string_view quantity) {
  std::optional<Now> now;
  for (const model::Series* series : history.all(quantity)) {
    if (!is_fresh(*series, history, rules(limits::fresh_days))) continue;
    const Celsius here{series->last->value};
    if (!now) now = Now{here, position_words(*series), series};
    if (here > now->warmest) {
      now->warmest = here;
      now->where = position_words(*series);
      now->series = series;
    }
  }
  return now;
}

std::optional<Now> temperature_now(const model::History& history, const model::Rules& rules) {
  if (auto bin = warmest_of(history, rules, "temperature")) return bin;
  auto air = warmest_of(history, rules, "air");
  if (!air) return std::nullopt;
  const measure::Kelvins offset = rules(limits::air_offset);
  air->warmest = air->warmest + offset;
  air->where = fmt::format("the bin (by the air plus {})",
                           measure::Printer(history.units).difference(offset));
  return air;
}

model::Told temperature_finding(std::string_view rule, Urgency urgency, auto threshold,
                                const model::Rules& rules, Celsius value) {
  model::Told made = finding(rule, urgency, threshold, rules);
  made.value = model::Measured{"temperature", measure::value_of(value), ""};
  return made;
}

void add_hot(const model::History& history, const model::Rules& rules, const Now& now,
             model::Assessment& into) {
  const measure::Printer print(history.units);
  model::Told made =
      temperature_finding("larvae.hot", Urgency::kNow, limits::hot_above, rules, now.warmest);
  made.words.says = fmt::format("{} is too hot: {}, above {}", now.where, print(now.warmest),
                                print(rules(limits::hot_above)));
  made.words.why =
      now.warmest >= rules(limits::hot_lethal)
          ? fmt::format("larvae die from {} on", print(rules(limits::hot_lethal)))
          : "larvae crawl off, and few that stay live to turn into flies; heat makes no harvest "
            "sooner";
  made.words.action =
      "shade it, stir it and spread it thinner to let the heat out, give it air, and do not "
      "feed until it has cooled";
  into.findings.push_back(std::move(made));
}

// A rise within the day: two readings at one place, hours apart, followed on.
std::optional<double> hours_to_limit(const model::History& history, const model::Rules& rules,
                                     const model::Series& series, Celsius limit, double offset) {
  if (!series.before_last) return std::nullopt;
  const auto hours = [](auto time) {
    return std::chrono::duration<double, std::ratio<3600>>(time).count();
  };
  const double ahead = rules(limits::hot_ahead).value * 24;
  const double between = hours(series.last->at - series.before_last->at);
  const double since = hours(history.now - series.last->at);
  const double rise = series.last->value - series.before_last->value;
  // Closer together than this, a thermometer's own last digit makes a slope.
  constexpr double kLeastHours = 0.5;
  if (between < kLeastHours || between > 2 * ahead || since > ahead || rise <= 0)
    return std::nullopt;
  const double to_go = (limit.value - offset - series.last->value) / (rise / between) - since;
  if (to_go > ahead) return std::nullopt;
  return std::max(to_go, 0.0);
}

// What tomorrow's highest reading would be if the last days' went on in a straight line.
std::optional<Celsius> tomorrows_high(const model::History& history, const model::Rules& rules,
                                      std::string_view quantity, double offset) {
  const int spell = static_cast<int>(rules(limits::hot_spell).value);
  std::vector<std::pair<double, double>> highs;  // days from today (negative), highest
  for (const model::DayRoll& roll : model::pooled_days(history.all(quantity))) {
    const int back = days_between(roll.day, history.today);
    if (back >= 0 && back <= spell) highs.push_back({-back, roll.greatest + offset});
  }
  if (spell < 2 || static_cast<int>(highs.size()) < spell) return std::nullopt;
  double mean_x = 0, mean_y = 0, up = 0, across = 0;
  for (const auto& [x, y] : highs) {
    mean_x += x / static_cast<double>(highs.size());
    mean_y += y / static_cast<double>(highs.size());
  }
  for (const auto& [x, y] : highs) {
    up += (x - mean_x) * (y - mean_y);
    across += (x - mean_x) * (x - mean_x);
  }
  if (up <= 0) return std::nullopt;
  return Celsius{mean_y + up / across * (1 - mean_x)};
}

void warn_of_heat(const model::History& history, const model::Rules& rules, const Now& now,
                  model::Assessment& into) {
  const measure::Printer print(history.units);
  const Celsius limit = rules(limits::hot_above);
  const double offset = now.warmest.value - now.series->last->value;
  if (const auto hours = hours_to_limit(history, rules, *now.series, limit, offset)) {
    model::Told made = temperature_finding("larvae.heating", Urgency::kToday, limits::hot_above,
                                           rules, now.warmest);
    made.words.says =
        fmt::format("{} is at {} and rising: above {} in about {:.0f} hours if it goes on",
                    now.where, print(now.warmest), print(limit), std::ceil(*hours));
    made.due = history.today;
    made.words.action = "shade it and give it air before the afternoon, and feed in the evening";
    into.findings.push_back(std::move(made));
    return;
  }
  const auto high = tomorrows_high(history, rules, now.series->quantity, offset);
  if (!high || *high <= limit) return;
  model::Told made =
      temperature_finding("larvae.heating", Urgency::kSoon, limits::hot_above, rules, *high);
  made.words.says =
      fmt::format("each day has been hotter: about {} tomorrow if it goes on, above {}",
                  print(*high), print(limit));
  made.due = history.today + date::days{1};
  made.words.action = "shade it and thin the feed today";
  into.findings.push_back(std::move(made));
}

void add_cold(const model::History& history, const model::Rules& rules, const Diet& diet,
              const Now& now, model::Assessment& into) {
  const measure::Printer print(history.units);
  const bool harm = now.warmest <= rules(limits::cold_harm);
  const bool dormant = now.warmest <= rules(diet.from);
  model::Told made =
      harm
          ? temperature_finding("larvae.cold", Urgency::kNow, limits::cold_harm, rules, now.warmest)
      : dormant ? temperature_finding("larvae.cold", Urgency::kToday, diet.from, rules, now.warmest)
                : temperature_finding("larvae.cold", Urgency::kToday, limits::cold_below, rules,
                                      now.warmest);
  if (harm) {
    made.words.says = fmt::format("{} is near frost: {}, {} or less", now.where, print(now.warmest),
                                  print(rules(limits::cold_harm)));
    made.words.why = "eggs and small larvae die within days, large ones bear it for a while";
    made.words.action = "bring it in or wrap it now; no feed";
  } else if (dormant) {
    made.words.says =
        fmt::format("{} is too cold: {}, at or below {} larvae lie still and grow no further",
                    now.where, print(now.warmest), print(rules(diet.from)));
    made.words.action = "warm or wrap it, or let it rest; no feed, which would only rot";
  } else {
    made.words.says = fmt::format("{} is cold: {}, below {} larvae hardly feed", now.where,
                                  print(now.warmest), print(rules(limits::cold_below)));
    made.words.action = "wrap or warm it, and feed little";
  }
  into.findings.push_back(std::move(made));
}

}  // namespace

Comfort judge_temperature(const model::History& history, const model::Rules& rules,
                          const Diet& diet, model::Assessment& into) {
  const auto now = temperature_now(history, rules);
  if (!now) return Comfort::kUnknown;
  if (now->warmest > rules(limits::hot_above)) {
    add_hot(history, rules, *now, into);
    return Comfort::kHot;
  }
  // Larvae move to the warmest place: the bin is cold only where that is.
  if (now->warmest < rules(limits::cold_below)) {
    add_cold(history, rules, diet, *now, into);
    return now->warmest <= rules(diet.from) ? Comfort::kDormant : Comfort::kSlow;
  }
  warn_of_heat(history, rules, *now, into);
  return Comfort::kWell;
}

}  // namespace kinds::larvae
