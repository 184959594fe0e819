#include "kinds/digester/cold.h"

#include <cmath>

#include "kinds/thresholds.h"
#include "kinds/finding.h"
#include "science/gas/temperature_rate.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Celsius;
using measure::Days;
using measure::Kelvins;
using measure::Printer;
using model::DayRoll;
using model::Urgency;

// "63.4 °F, below 68 °F": never "68 °F, below 68 °F".
std::string below_words(Celsius mean, Celsius limit, const Printer& print) {
  if (print(mean) == print(limit)) return fmt::format("just under {}", print(limit));
  return fmt::format("{}, below {}", print(mean), print(limit));
}

std::string spell_words(const Warmth& warmth, const model::Rules& rules, const Printer& print,
                        model::Day today) {
  const std::string limit = print(rules(limits::cold_below));
  const std::string trend = warmth.a_day ? trend_words(*warmth.a_day, print) : "";
  const bool rises = warmth.is_soon || (trend != "steady" && !warmth.recovers());
  std::string words;
  if (warmth.is_back) {
    words = fmt::format("the latest day's mean is back at {} or above", limit);
  } else if (warmth.back_on && rises) {
    words = fmt::format("{}, back at {} {}about {} if that goes on", trend, limit,
                        warmth.is_soon ? "" : "only ", measure::day_words(*warmth.back_on, today));
  } else if (warmth.recovers()) {
    words = fmt::format("by day it still reaches {}, on {} of {}", limit, warmth.warm_days,
                        days_words(warmth.days_read));
  } else {
    words = "it does not come back by itself";
    if (warmth.warm_days == 0) words += ": no day reached " + limit;
    if (!trend.empty()) words += ", " + trend;
  }
  if (warmth.read_once) words += "; read once a day, so the hour of reading counts";
  return words;
}

// What keeps it warm, in the order of what it costs; what is done already is left out.
std::string winter_steps(const model::History& history, bool running) {
  const std::string site = history.batch.text("site", "");
  std::vector<std::string> steps;
  const model::Deed* covered = history.last_deed("covered");
  const model::Deed* uncovered = history.last_deed("uncovered");
  if (covered == nullptr || (uncovered != nullptr && uncovered->at > covered->at)) {
    steps.emplace_back(
        "cover it: straw, bubble wrap or boards round the sides and over it at night");
  }
  if (running) steps.emplace_back("feed less, at midday, with sun-warmed water");
  if (site == "open" || site == "buried" || site.empty()) {
    steps.emplace_back("put glass or plastic over it");
  } else if (site == "glass") {
    steps.emplace_back("close the glass early and seal its gaps");
  } else {
    steps.emplace_back("see why the heating does not hold");
  }
  steps.emplace_back(
      running ? "or shut it down in good order: stop feeding, use up the gas and vent the rest, "
                "drain the trap and the gas line against frost, keep the slurry in as the starter "
                "for spring, and log rested"
              : "or let it rest till spring: drain the trap and the gas line against frost, keep "
                "the slurry in, and log rested");
  std::string text;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    text += fmt::format("{}{}) {}", i == 0 ? "" : "; ", i + 1, steps[i]);
  }
  return text;
}

}  // namespace

void judge_cold(const model::History& history, const model::Rules& rules, const Warmth& warmth,
                bool running, model::Assessment& into) {
  if (!warmth.cold) return;
  const Printer print(history.units);
  const bool winter = is_winter(history, rules, warmth);
  const bool by_itself = warmth.recovers();
  model::Told made =
      finding("digester.cold", winter || by_itself ? Urgency::kSoon : Urgency::kToday,
              limits::cold_below, rules);
  made.value = model::Measured{"temperature", measure::value_of(*warmth.mean), ""};
  made.words.says = fmt::format("too cold: {} is {}", window_words(warmth, rules),
                          below_words(*warmth.mean, rules(limits::cold_below), print));
  made.words.why = spell_words(warmth, rules, print, history.today);
  if (!running) {
    made.words.action = winter      ? "it has been so for long: see digester.winter"
                  : by_itself ? "a spell: close it in at night; it is not fed yet"
                              : "cover it, close it in at night; it is not fed yet";
    into.findings.push_back(std::move(made));
    return;
  }
  made.words.action = winter      ? "it has been so for long: see digester.winter"
                : by_itself ? "a spell: feed less until it is back, close it in at night"
                            : "cover it, close it in at night, feed less and with warm water";
  into.findings.push_back(std::move(made));
}

void judge_winter(const model::History& history, const model::Rules& rules, const Warmth& warmth,
                  bool running, model::Assessment& into) {
  if (!is_winter(history, rules, warmth)) return;
  const Printer print(history.units);
  const int days = days_between(*warmth.below_since, history.today) + 1;
  model::Told made = finding("digester.winter", Urgency::kSoon, limits::winter_days, rules);
  made.value =
      model::Measured{"time below", measure::value_of(Days{static_cast<double>(days)}), ""};
  made.words.says = fmt::format("more than a cold spell: the mean has been below {} for {}, since {}",
                          print(rules(limits::cold_below)), days_words(days),
                          measure::day_words(*warmth.below_since, history.today));
  if (warmth.below_judged < days) {
    made.words.says += fmt::format(" ({} of them read enough to judge)", warmth.below_judged);
  }
  const science::TemperatureRate response{.theta = rules(limits::gas_theta),
                                          .reference = rules(limits::cold_below),
                                          .ceiling = rules(limits::gas_ceiling)};
  if (const auto rate = science::relative_rate(*warmth.mean, response)) {
    made.words.why = fmt::format("at {} it digests at about {:.0f} % of its pace at {}, and {}",
                           print(*warmth.mean), rate->value * 100, print(rules(limits::cold_below)),
                           running ? "feed piles up" : "starts so much later");
  }
  made.words.action = winter_steps(history, running);
  made.old_caution =
      "Vent gas outdoors, away from any flame; a line that is opened lets gas out or air in.";
  into.findings.push_back(std::move(made));
}

void judge_swing(const model::History& history, const model::Rules& rules,
                 model::Assessment& into) {
  const Printer print(history.units);
  const auto add = [&](auto rule, Kelvins size, std::string says) {
    model::Told made = finding("digester.swing", Urgency::kToday, rule, rules);
    made.value = model::Measured{"change", measure::value_of(size), ""};
    made.words.says = std::move(says);
    made.words.why = "the microbes bear a steady cold better than a jump";
    made.words.action = "shade or cover it, and bring feed and water near the slurry's own temperature";
    into.findings.push_back(std::move(made));
  };
  for (const model::Series* series : history.all("temperature")) {
    if (!series->before_last || series->last->at < history.now - std::chrono::hours{24}) continue;
    const double hours =
        std::chrono::duration<double, std::ratio<3600>>(series->last->at - series->before_last->at)
            .count();
    // Over half a day a steady change and a jump look alike; within minutes a probe settles.
    if (hours < 0.5 || hours > 12) continue;
    const Kelvins change{std::fabs(series->last->value - series->before_last->value)};
    const bool cold = Celsius{series->last->value} < rules(limits::cold_below);
    const auto rule = cold ? limits::swing_hour_cold : limits::swing_hour;
    const Kelvins hourly = change / hours;
    if (hourly <= rules(rule)) continue;
    return add(rule, hourly,
               fmt::format("changed by {} an hour, above {}", print.difference(hourly),
                           print.difference(rules(rule))));
  }
  const auto rolls = whole_days(history, rules).rolls;
  if (rolls.size() < 2) return;
  const DayRoll& last = rolls.back();
  const DayRoll& before = rolls[rolls.size() - 2];
  const int apart = days_between(before.day, last.day);
  if (days_between(last.day, history.today) > 1 || apart > 2) return;
  const Kelvins daily{std::fabs(last.mean() - before.mean()) / apart};
  if (daily <= rules(limits::swing_day)) return;
  add(limits::swing_day, daily,
      fmt::format("its daily mean changed by {} a day, above {}", print.difference(daily),
                  print.difference(rules(limits::swing_day))));
}

}  // namespace kinds::digester
