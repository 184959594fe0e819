#include "kinds/larvae/foresee.h"

#include <algorithm>
#include <cmath>

#include "kinds/finding.h"
#include "kinds/larvae/learn.h"
#include "kinds/larvae/yield.h"
#include "kinds/thresholds.h"

namespace kinds::larvae {
namespace {

namespace limits = thresholds::larvae;
using measure::Celsius;
using measure::Days;
using measure::DegreeDays;
using measure::Kilograms;

// Standard normal quantile of 0.9, as in science::days_to_reach_range.
constexpr double kZ90 = 1.2816;

// The day on which a time from the start of `from` on ends.
model::Day day_after(model::Day from, Days wait) {
  constexpr double kLongest = 3650;
  return from + date::days{static_cast<int>(std::floor(std::min(wait.value, kLongest)))};
}

struct Range {
  Days likely;
  std::optional<Days> earliest, latest;
  bool has_interval = false;
};

std::optional<Range> range_of(const Warmth& warmth, const Learned& learned,
                              const science::DegreeDayLimits& bounds, Celsius mean) {
  const science::ThermalConstant constant{DegreeDays{learned.value}, DegreeDays{learned.spread}};
  if (const auto gain = science::daily_gain(warmth.recent, bounds)) {
    const auto range = science::days_to_reach_range(warmth.total, constant, *gain);
    if (!range) return std::nullopt;
    return Range{range->likely, range->earliest, range->latest, true};
  }
  const auto likely = science::days_to_reach(constant.value - warmth.total, mean, bounds);
  if (!likely) return std::nullopt;
  return Range{*likely, std::nullopt, std::nullopt, false};
}

std::string basis_words(const model::History& history, const Warmth& warmth, const Learned& learned,
                        const Course& course, Celsius mean) {
  const measure::Printer print(history.units);
  const auto days = static_cast<int>(warmth.recent.size());
  std::string words = fmt::format("if the days to come are like the {} read of late, {} on average",
                                  days_words(days), print(mean));
  if (learned.runs > 0) {
    words += fmt::format("; leans on {} of this site's finished runs", learned.runs);
  }
  if (!course.age && !course.from_eggs) words += "; larvae taken as newly hatched when seeded";
  return words;
}

std::string interval_words(const model::Forecast& forecast, bool has_interval, model::Day today) {
  std::string words = "likely " + measure::day_words(*forecast.likely, today);
  if (!has_interval) return words + ", no interval from a single day";
  // Near the threshold a little cold moves the late end by months: then it is no date to plan by.
  constexpr int kPlanned = 180;
  if (!forecast.latest || days_between(today, *forecast.latest) > kPlanned) {
    return words + fmt::format(", from {} on, or much later if it stays cool",
                               measure::day_words(*forecast.earliest, today));
  }
  return words + fmt::format(", between {} and {}", measure::day_words(*forecast.earliest, today),
                             measure::day_words(*forecast.latest, today));
}

void call_out(const model::History& history, const model::Rules& rules, const Diet& diet,
              const Warmth& warmth, model::Day likely, model::Assessment& into) {
  if (days_between(history.today, likely) > rules(limits::harvest_soon).value) return;
  const measure::Printer print(history.units);
  model::Told made = finding("larvae.harvest", model::Urgency::kSoon, diet.constant, rules);
  made.value = model::Measured{"warmth", measure::value_of(warmth.total), ""};
  made.words.says = fmt::format("close to harvest: {}", of_constant(warmth, print));
  made.words.why = filled_words(warmth, rules, print);
  made.due = likely;
  made.words.action = "give no more feed than is eaten by then, and look how many are dark";
  into.findings.push_back(std::move(made));
}

}  // namespace

void foresee_harvest(const model::History& history, const model::Rules& rules, const Course& course,
                     const Diet& diet, const Warmth& warmth, model::Assessment& into) {
  const auto mean = recent_mean(warmth);
  if (!warmth.days || !mean) return;
  const Learned learned = learned_constant(history, rules, diet);
  const auto range = range_of(warmth, learned, limits_of(diet, rules), *mean);
  model::Forecast forecast{"harvest", {}, {}, {}, ""};
  if (!range) {
    forecast.says =
        fmt::format("no day to foresee: at {} larvae {}", measure::Printer(history.units)(*mean),
                    *mean >= rules(limits::hot_lethal) ? "die" : "stand still");
    into.forecasts.push_back(std::move(forecast));
    return;
  }
  const model::Day from = std::max(history.today, course.counts_from);
  forecast.likely = day_after(from, range->likely);
  if (range->earliest) forecast.earliest = day_after(from, *range->earliest);
  if (range->latest) forecast.latest = day_after(from, *range->latest);
  forecast.says =
      fmt::format("{}, {}", interval_words(forecast, range->has_interval, history.today),
                  basis_words(history, warmth, learned, course, *mean));
  call_out(history, rules, diet, warmth, *forecast.likely, into);
  into.forecasts.push_back(std::move(forecast));
}

void foresee_larvae(const model::History& history, const model::Rules& rules, const Course& course,
                    model::Assessment& into) {
  const auto feed = yield_of(history, rules, course).run.feed;
  if (!feed) return;
  const Learned learned = learned_yield(history, rules);
  const measure::Printer print(history.units);
  const auto larvae = [&](double share) {
    return print(Kilograms{feed->value * std::max(share, 0.0)});
  };
  const double margin = kZ90 * learned.spread;
  std::string says =
      fmt::format("about {} of larvae from the {} of feed so far, {} to {}", larvae(learned.value),
                  print(*feed), larvae(learned.value - margin), larvae(learned.value + margin));
  if (learned.runs > 0) {
    says += fmt::format("; leans on {} of this site's finished runs", learned.runs);
  }
  into.forecasts.push_back({"larvae", {}, {}, {}, std::move(says)});
}

}  // namespace kinds::larvae
