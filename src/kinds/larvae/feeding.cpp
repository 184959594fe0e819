#include "kinds/larvae/feeding.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "kinds/finding.h"
#include "kinds/larvae/samples.h"
#include "kinds/thresholds.h"
#include "science/animals/larvae.h"

namespace kinds::larvae {
namespace {

namespace limits = thresholds::larvae;
using measure::Days;
using measure::Kilograms;
using measure::Number;
using model::Urgency;

struct Feeding {
  std::map<model::Day, Kilograms> by_day;  // what was weighed
  Kilograms window{};                      // of the last days
  int in_window = 0, unweighed_in_window = 0;
  bool any = false;
};

Feeding feeding_of(const model::History& history, const model::Rules& rules) {
  Feeding feeding;
  const double window = rules(limits::feed_window).value;
  for (const model::Movement& movement : history.in) {
    if (!is_feed(movement)) continue;
    feeding.any = true;
    const auto mass = movement.mass();
    if (mass) feeding.by_day[movement.day] += *mass;
    if (days_between(movement.day, history.today) >= window) continue;
    ++feeding.in_window;
    if (mass) {
      feeding.window += *mass;
    } else {
      ++feeding.unweighed_in_window;
    }
  }
  return feeding;
}

// What the larvae eat in a day by the rule, at their age on that day; none where neither their
// number nor the area is known.
std::optional<Kilograms> appetite(const model::History& history, const model::Rules& rules,
                                  const Course& course, model::Day day) {
  if (course.count) {
    const bool young = day < course.nursery_until;
    const Number each = young ? rules(limits::feed_nursery) : rules(limits::feed_a_day);
    return Kilograms{each.value * course.count->value / kMilligrams};
  }
  if (const auto area = history.batch.number("area")) {
    return Kilograms{rules(limits::feed_area).value * area->si};
  }
  return std::nullopt;
}

// What still lies in the bin this morning if they ate by the rule.
Kilograms uneaten(const model::History& history, const model::Rules& rules, const Course& course,
                  const Feeding& feeding) {
  Kilograms lying;
  for (const auto& [day, mass] : feeding.by_day) {
    if (day < course.seeded) lying += mass;
  }
  for (model::Day day = course.seeded; day < history.today; day += date::days{1}) {
    const auto given = feeding.by_day.find(day);
    if (given != feeding.by_day.end()) lying += given->second;
    const auto eaten = appetite(history, rules, course, day).value_or(Kilograms{});
    lying = std::max(lying - eaten, Kilograms{});
  }
  const auto today = feeding.by_day.find(history.today);
  return today == feeding.by_day.end() ? lying : lying + today->second;
}

std::string advice(const model::History& history, const model::Rules& rules, const Course& course,
                   const Feeding& feeding, Comfort comfort, bool ready) {
  if (ready) return "no more feed: harvest first";
  if (comfort == Comfort::kDormant) return "no feed while it is this cold";
  if (comfort == Comfort::kHot) return "no feed until it has cooled";
  if (history.today < course.seeded) return "none before it is seeded";
  if (history.today < course.counts_from)
    return "none until the eggs hatch, but a little under them";
  const auto day = appetite(history, rules, course, history.today);
  if (!day) return "not known: neither the number of larvae nor the area was told";
  const measure::Printer print(history.units);
  const Kilograms lying = uneaten(history, rules, course, feeding);
  const std::string a_day = course.count
                                ? fmt::format("{} a day for {} larvae", print(*day),
                                              measure::print_number(course.count->value, 0))
                                : fmt::format("at the most {} a day on its area", print(*day));
  if (feeding.unweighed_in_window > 0) {
    return fmt::format("{}; {} of {} feeds lately without a weight, so look how much is left",
                       a_day, feeding.unweighed_in_window, feeding.in_window);
  }
  if (lying >= *day) {
    return fmt::format("none today: about {} of feed lies in it ({})",
                       days_words(static_cast<int>(lying / *day + 1e-9)), a_day);
  }
  return fmt::format("about {} today ({})", print(*day - lying), a_day);
}

// What was fed is reckoned eaten, and nobody has fed since: sooner told of than the mean of a week.
void judge_empty(const model::History& history, const model::Rules& rules, const Course& course,
                 const Feeding& feeding, model::Assessment& into) {
  if (feeding.by_day.empty() || uneaten(history, rules, course, feeding) > Kilograms{0}) return;
  const model::Day last = feeding.by_day.rbegin()->first;
  if (days_between(last, history.today) < rules(limits::empty_after).value) return;
  const measure::Printer print(history.units);
  model::Told made = finding("larvae.empty", Urgency::kToday, limits::empty_after, rules);
  made.value = model::Measured{
      "time since it was fed",
      measure::value_of(Days{static_cast<double>(days_between(last, history.today))}), ""};
  made.words.says = fmt::format("last fed {}, and that is eaten by now if they eat as usual",
                                measure::day_words(last, history.today));
  made.words.action = fmt::format("look how much is left, and feed about {}",
                                  print(*appetite(history, rules, course, history.today)));
  into.findings.push_back(std::move(made));
}

void judge_hunger(const model::History& history, const model::Rules& rules, const Course& course,
                  const Feeding& feeding, model::Assessment& into) {
  const int since = days_between(std::max(course.nursery_until, course.counts_from), history.today);
  if (since < rules(limits::underfed_after).value || feeding.unweighed_in_window > 0) return;
  const Days span{std::min(1.0 * days_between(course.seeded, history.today) + 1,
                           rules(limits::feed_window).value)};
  model::Told made = finding("larvae.underfed", Urgency::kToday, limits::underfed_below, rules);
  const measure::Printer print(history.units);
  if (!course.count) {
    // Without a number only an empty plate can be told from a full one.
    if (feeding.in_window > 0 || since < rules(limits::feed_window).value) return;
    made = finding("larvae.underfed", Urgency::kToday, limits::feed_window, rules);
    made.words.says = fmt::format("no feed logged in the last {}",
                                  days_words(static_cast<int>(rules(limits::feed_window).value)));
    made.words.action = "look whether anything is left, and feed";
    into.findings.push_back(std::move(made));
    return;
  }
  const double each = feeding.window.value * kMilligrams / (course.count->value * span.value);
  if (each >= rules(limits::underfed_below).value) {
    judge_empty(history, rules, course, feeding, into);
    return;
  }
  made.value = model::Measured{"feed", {measure::Dimension::kNumber, each}, "mg/larva/d"};
  made.words.says =
      fmt::format("too little feed: {} in {}, {} a larva a day, below {}", print(feeding.window),
                  days_words(static_cast<int>(span.value)), measure::Printer::labelled(each, "mg"),
                  measure::Printer::labelled(rules(limits::underfed_below).value, "mg"));
  made.words.why = course.count_basis;
  made.words.action =
      fmt::format("feed about {} a day", print(*appetite(history, rules, course, history.today)));
  into.findings.push_back(std::move(made));
}

void judge_excess(const model::History& history, const model::Rules& rules, const Course& course,
                  const Feeding& feeding, model::Assessment& into) {
  // Always over the whole window: what was given on the first day is meant for the days after it.
  const Days window = rules(limits::feed_window);
  science::LarvaeRun run{.feed = feeding.window, .duration = window, .larvae_count = course.count};
  if (const auto area = history.batch.number("area")) run.area = measure::SquareMetres{area->si};
  const auto metrics = science::metrics_as_weighed(run);
  const auto& each = metrics.feed_mg_per_larva_day;
  const auto& area = metrics.feed_kg_per_m2_day;
  const bool by_larva =
      each && *each > rules(limits::overfed_above) && !(history.today < course.nursery_until);
  const bool by_area = area && *area > rules(limits::overfed_area);
  if (!by_larva && !by_area) return;
  const measure::Printer print(history.units);
  model::Told made = by_larva
                         ? finding("larvae.overfed", Urgency::kToday, limits::overfed_above, rules)
                         : finding("larvae.overfed", Urgency::kToday, limits::overfed_area, rules);
  const std::string given =
      fmt::format("{} in {}", print(feeding.window), days_words(static_cast<int>(window.value)));
  if (by_larva) {
    made.value = model::Measured{"feed", measure::value_of(*each), "mg/larva/d"};
    made.words.says =
        fmt::format("too much feed: {}, {} a larva a day, above {}", given,
                    measure::Printer::labelled(each->value, "mg"),
                    measure::Printer::labelled(rules(limits::overfed_above).value, "mg"));
    made.words.why = course.count_basis;
  } else {
    made.value = model::Measured{"feed", measure::value_of(*area), "kg/m2/d"};
    made.words.says = fmt::format(
        "too much feed for its area: {} on {}, more than {} a day", given, print(*run.area),
        print(Kilograms{rules(limits::overfed_area).value * run.area->value}));
  }
  made.words.action = "wait until the last feed is eaten, take out what smells, and stir air in";
  into.findings.push_back(std::move(made));
}

}  // namespace

void judge_feeding(const model::History& history, const model::Rules& rules, const Course& course,
                   Comfort comfort, bool ready, model::Assessment& into) {
  const Feeding feeding = feeding_of(history, rules);
  into.progress.push_back(
      {"feed", advice(history, rules, course, feeding, comfort, ready), std::nullopt});
  judge_excess(history, rules, course, feeding, into);
  const bool wants_feed = !ready && comfort != Comfort::kDormant && comfort != Comfort::kSlow &&
                          comfort != Comfort::kHot;
  if (wants_feed) judge_hunger(history, rules, course, feeding, into);
}

}  // namespace kinds::larvae
