#include <algorithm>

#include "kinds/pile_care.h"
#include "kinds/thresholds.h"
#include "kinds/words.h"
#include "measure/text.h"

// Turning, and why a pile is cold.
namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using date::days;
using measure::Celsius;
using model::Urgency;

// A reason for the cold, and how well the records support it: what was measured before what was
// felt, before what follows from the recipe or the calendar.
struct Reason {
  int support;
  std::string text;
};
constexpr int kRead = 3, kFelt = 2, kWorkedOut = 1;

std::optional<measure::Litres> volume_of(const Known& known) {
  if (const auto read = known.history.all("volume"); !read.empty()) {
    return measure::Litres{read.front()->last->value};
  }
  if (const auto said = known.history.batch.number("volume")) return measure::Litres{said->si};
  return known.inputs.blend ? known.inputs.blend->volume : std::nullopt;
}

void add_damp(const Known& known, std::vector<Reason>& reasons) {
  const auto found = damp(known.history, known.rules);
  if (!found || found->is == Damp::Is::kFine) return;
  const std::string how = found->is == Damp::Is::kDry ? "too dry" : "too wet";
  if (found->measured) {
    reasons.push_back({kRead, fmt::format("{} ({} moisture)", how,
                                          known.print()(measure::Fraction{found->fraction}))});
  } else {
    reasons.push_back({kFelt, how + " by the hand"});
  }
}

void add_ratio(const Known& known, std::vector<Reason>& reasons) {
  const StartRatio ratio = start_ratio(known.history, known.rules, known.inputs);
  if (!ratio.value || ratio.value->value <= known.rules(limits::mix_cn_most).value) return;
  reasons.push_back({ratio.measured ? kRead : kWorkedOut,
                     fmt::format("too little nitrogen (its mix is {}:1)",
                                 measure::print_number(ratio.value->value, 0))});
}

std::vector<Reason> reasons_for_cold(const Known& known) {
  std::vector<Reason> reasons;
  add_damp(known, reasons);
  for (const model::Series* series : known.history.all("oxygen")) {
    const measure::Fraction oxygen{series->last->value};
    if (oxygen < known.rules(limits::cold_oxygen)) {
      reasons.push_back({kRead, fmt::format("too little air ({} oxygen)", known.print()(oxygen))});
    }
  }
  if (known.at.air && *known.at.air <= known.rules(limits::cold_frost)) {
    reasons.push_back({kRead, fmt::format("frost ({} in the air)", known.print()(*known.at.air))});
  }
  add_ratio(known, reasons);
  const auto volume = volume_of(known);
  if (volume && *volume < known.rules(limits::cold_small)) {
    reasons.push_back(
        {kWorkedOut, fmt::format("too small to hold heat ({})", known.print()(*volume))});
  }
  if (known.at.hot_days >= whole(known.rules(limits::cold_spent_days))) {
    reasons.push_back({kWorkedOut, fmt::format("its easy food is spent ({} hot)",
                                               days_words(known.at.hot_days))});
  }
  const auto turning = known.course.last_turning();
  if (turning &&
      days_between(*turning, known.history.today) <= whole(known.rules(limits::turn_recovers))) {
    reasons.push_back({kWorkedOut, "just turned, which cools it for a day or two"});
  }
  std::stable_sort(reasons.begin(), reasons.end(),
                   [](const Reason& a, const Reason& b) { return a.support > b.support; });
  return reasons;
}

std::string cold_action(const Known& known, const std::vector<Reason>& reasons) {
  if (reasons.empty()) return "squeeze a handful and log dry, damp or soggy";
  const std::string& first = reasons.front().text;
  if (first.starts_with("too dry")) return "water it as you turn it";
  if (first.starts_with("too wet")) return "turn it with dry coarse material, and keep rain off";
  if (first.starts_with("too little air")) return "turn it";
  if (first.starts_with("frost")) return "cover it, with straw or leaves over it";
  if (first.starts_with("too little nitrogen"))
    return "mix in something rich in nitrogen as you turn it";
  if (first.starts_with("too small")) return "add to it, or lay it up with another pile";
  if (first.starts_with("just turned")) return "read it again tomorrow";
  return known.shown() ? "let it cure" : "mix in fresh material if it has to heat again";
}

// Whether the turnings of a treatment lag: one every few days of those that count.
const Treatment* wants_turning(const Known& known, int since) {
  for (const Treatment& one : known.treatments) {
    if (one.wanted.turnings == 0 || one.tally.met || !one.window || !one.tally.open) continue;
    const int done = known.course.turnings_between(one.window->first, known.course.until);
    if (done < one.wanted.turnings && since >= whole(known.rules(limits::turn_every))) return &one;
  }
  return nullptr;
}

// The highest day since the last turning.
double highest_since(const Course& course, model::Day since) {
  double highest = -1e9;
  for (const DaySeen& day : course.days) {
    if (day.day > since) highest = std::max(highest, day.peak());
  }
  return highest;
}

}  // namespace

void judge_cold(const Known& known, model::Assessment& into) {
  const Standing& at = known.at;
  const bool active = at.stage == Stage::kNotHeating || at.stage == Stage::kHot ||
                      at.stage == Stage::kCooling || at.stage == Stage::kCuring;
  if (!active || known.days_shown() || known.course.days.empty()) return;
  const double limit = known.rules(limits::cold_below).value;
  if (at.peak_now >= limit - kSameKelvins || at.dipped) return;
  const measure::Printer print = known.print();
  const std::vector<Reason> reasons = reasons_for_cold(known);
  model::Finding made = finding("pile.cold", Urgency::kToday, limits::cold_below, known.rules);
  made.limit->quantity = "temperature";
  made.value = model::Measured{"temperature", measure::value_of(Celsius{at.peak_now}), ""};
  made.says =
      fmt::format("it is {}, below {}, and ", print(Celsius{at.peak_now}), print(Celsius{limit}));
  made.says += at.stage == Stage::kNotHeating
                   ? fmt::format("never heated in {}",
                                 days_words(days_between(known.course.start, known.history.today)))
                   : "its treatment is not shown yet";
  if (reasons.empty()) {
    made.why = "the records do not say why";
  } else {
    std::vector<std::string_view> texts;
    for (const Reason& one : reasons) texts.push_back(one.text);
    made.why = "likely " + measure::listed(texts, "then");
  }
  made.action = cold_action(known, reasons);
  into.findings.push_back(std::move(made));
}

void judge_turning(const Known& known, model::Assessment& into) {
  if (method_of(known.history.batch) != Method::kTurned || known.course.days.empty()) return;
  if (known.at.stage != Stage::kHot && known.at.stage != Stage::kCooling) return;
  const measure::Printer print = known.print();
  const model::Day from =
      known.course.last_turning().value_or(known.at.first_hot.value_or(known.course.start));
  const int since = days_between(from, known.history.today);
  const std::string when =
      known.course.last_turning()
          ? fmt::format("it was turned {} ago", days_words(since))
          : fmt::format("it has been hot for {} and was not turned", days_words(since));
  if (const Treatment* one = wants_turning(known, since)) {
    model::Finding made = finding("pile.turn", Urgency::kToday, limits::turn_every, known.rules);
    made.says = fmt::format("{}, and {} wants {} turnings within its days: {} so far", when,
                            one->name, one->wanted.turnings,
                            known.course.turnings_between(one->window->first, known.course.until));
    made.action = "turn it, outside to inside";
    into.findings.push_back(std::move(made));
    return;
  }
  const double fallen = highest_since(known.course, from) - known.at.peak_now;
  if (!known.at.dipped && since >= whole(known.rules(limits::turn_every)) &&
      fallen >= known.rules(limits::turn_fallen).value) {
    model::Finding made = finding("pile.turn", Urgency::kToday, limits::turn_fallen, known.rules);
    made.says = fmt::format("{} and has fallen {} since its highest", when,
                            print.difference(measure::Kelvins{fallen}));
    made.action = "turn it to give it air, and water it if it is dry";
    into.findings.push_back(std::move(made));
  } else if (since >= whole(known.rules(limits::turn_longest))) {
    model::Finding made = finding("pile.turn", Urgency::kToday, limits::turn_longest, known.rules);
    made.says = when;
    made.action = "turn it";
    into.findings.push_back(std::move(made));
  }
}

}  // namespace kinds::pile
