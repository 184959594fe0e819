#include <algorithm>

#include "kinds/pile/care.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"
#include "measure/text.h"

// Why a pile is colder than it should be, and what that does to its treatment.
namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using measure::Celsius;
using model::Urgency;

// A reason for the cold, what helps against it, and how well the records support it: what was
// measured before what was felt, before what follows from the recipe or the calendar.
struct Reason {
  int support;
  std::string text;
  std::string remedy;
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
  const bool dry = found->is == Damp::Is::kDry;
  const std::string how = dry ? "too dry" : "too wet";
  const std::string remedy =
      dry ? "water it as you turn it" : "turn it with dry coarse material, and keep rain off";
  if (found->measured) {
    const std::string read = known.print()(measure::Fraction{found->fraction});
    reasons.push_back({kRead, fmt::format("{} ({} moisture)", how, read), remedy});
  } else {
    reasons.push_back({kFelt, how + " by the hand", remedy});
  }
}

void add_ratio(const Known& known, std::vector<Reason>& reasons) {
  const StartRatio ratio = start_ratio(known.history, known.rules, known.inputs);
  if (!ratio.value || ratio.value->value <= known.rules(limits::mix_cn_most).value) return;
  reasons.push_back({ratio.measured ? kRead : kWorkedOut,
                     fmt::format("too little nitrogen (its mix is {}:1)",
                                 measure::print_number(ratio.value->value, 0)),
                     "mix in something rich in nitrogen as you turn it"});
}

void add_turning(const Known& known, std::vector<Reason>& reasons) {
  const auto turning = known.course.last_turning();
  const model::Day today = known.history.today;
  if (turning && days_between(*turning, today) <= whole(known.rules(limits::turn_recovers))) {
    reasons.push_back(
        {kWorkedOut, "just turned, which cools it for a day or two", "read it again tomorrow"});
  } else if (known.at.first_hot && method_of(known.history.batch) == Method::kTurned) {
    const int since = days_between(turning.value_or(known.course.start), today);
    if (since < whole(known.rules(limits::turn_every))) return;
    reasons.push_back({kWorkedOut,
                       fmt::format("short of air (not turned for {})", days_words(since)),
                       "turn it, outside to inside"});
  }
}

std::vector<Reason> reasons_for_cold(const Known& known) {
  std::vector<Reason> reasons;
  add_damp(known, reasons);
  for (const model::Series* series : known.history.all("oxygen")) {
    const measure::Fraction oxygen{series->last->value};
    if (oxygen < known.rules(limits::cold_oxygen)) {
      reasons.push_back(
          {kRead, fmt::format("too little air ({} oxygen)", known.print()(oxygen)), "turn it"});
    }
  }
  if (known.at.air && *known.at.air <= known.rules(limits::cold_frost)) {
    reasons.push_back({kRead, fmt::format("frost ({} in the air)", known.print()(*known.at.air)),
                       "cover it, with straw or leaves over it"});
  }
  add_ratio(known, reasons);
  const auto volume = volume_of(known);
  if (volume && *volume < known.rules(limits::cold_small)) {
    reasons.push_back({kWorkedOut,
                       fmt::format("too small to hold heat ({})", known.print()(*volume)),
                       "add to it, lay it up with another pile, or cover it with straw or leaves"});
  }
  if (known.at.hot_days >= whole(known.rules(limits::cold_spent_days))) {
    reasons.push_back(
        {kWorkedOut, fmt::format("its easy food is spent ({} hot)", days_words(known.at.hot_days)),
         known.shown() ? "let it cure" : "mix in fresh material if it has to heat again"});
  }
  add_turning(known, reasons);
  std::stable_sort(reasons.begin(), reasons.end(),
                   [](const Reason& a, const Reason& b) { return a.support > b.support; });
  return reasons;
}

// What helps, in the order of the reasons; a turning that one of them brings is not told again.
std::string remedies_for(const std::vector<Reason>& reasons) {
  if (reasons.empty()) return "squeeze a handful and log dry, damp or soggy";
  std::string text;
  for (const Reason& one : reasons) {
    const bool turns = one.remedy.starts_with("turn it, ") || one.remedy == "turn it";
    if (turns && text.find("turn it") != std::string::npos) continue;
    text += (text.empty() ? "" : "; then ") + one.remedy;
  }
  return text;
}

void explain(const Known& known, model::Told& made) {
  const std::vector<Reason> reasons = reasons_for_cold(known);
  std::vector<std::string_view> texts;
  for (const Reason& one : reasons) texts.push_back(one.text);
  const std::string why =
      reasons.empty() ? "the records do not say why" : "likely " + measure::listed(texts, "then");
  made.words.why += (made.words.why.empty() ? "" : "; ") + why;
  made.words.action = remedies_for(reasons);
}

// What its rule makes of a break in the days at heat.
std::string break_words(const Treatment& one) {
  if (one.outcome == Outcome::kCannot) {
    return fmt::format(
        "{} cannot be shown by these records anyhow, but it is the heat that kills "
        "germs and weed seeds",
        one.name);
  }
  if (one.wanted.in_a_row && !one.tally.open) {
    return fmt::format("{} wants its days in a row, so the count begins anew", one.name);
  }
  const int to_go = std::max(0, one.wanted.days - one.window->days);
  std::string text = fmt::format("these days stay counted, {} more wanted", to_go);
  if (one.standard == Standard::kNop && !one.wanted.in_a_row) {
    text += "; a certifier may want them in a row";
  }
  return text;
}

// The day on which the pile was found below the heat of a treatment and has been since.
std::optional<model::Day> below_since(const Known& known, const DayRule& rule) {
  std::optional<model::Day> since;
  for (const DaySeen& day : known.course.days) {
    if (rule.warm_enough(day.peak())) {
      since.reset();
    } else if (!since) {
      since = day.day;
    }
  }
  return since;
}

// A turning cools a pile for a day or two: the first one since it was last at heat is waited out.
bool recovers(const Known& known, model::Day since) {
  for (const model::Day turning : known.course.turnings) {
    if (turning < since - date::days{1}) continue;
    return days_between(turning, known.history.today) <= whole(known.rules(limits::turn_recovers));
  }
  return false;
}

// The first treatment asked for whose days are not there and whose heat the pile has not.
const Treatment* halted(const Known& known) {
  if (method_of(known.history.batch) == Method::kCold) return nullptr;
  for (const Treatment& one : known.treatments) {
    if (!one.tally.met && !one.rule.warm_enough(known.at.peak_now)) return &one;
  }
  return nullptr;
}

}  // namespace

void judge_cold(const Known& known, model::Assessment& into) {
  const Standing& at = known.at;
  const bool active = at.stage == Stage::kNotHeating || in_heat(at.stage) ||
                      at.stage == Stage::kCooling || at.stage == Stage::kCuring;
  if (!active || known.days_shown() || known.course.days.empty()) return;
  const double limit = known.rules(limits::cold_below).value;
  if (at.peak_now >= limit - kSameKelvins || at.dipped) return;
  const measure::Printer print = known.print();
  model::Told made = finding("pile.cold", Urgency::kToday, limits::cold_below, known.rules);
  made.limit->quantity = "temperature";
  made.value = model::Measured{"temperature", measure::value_of(Celsius{at.peak_now}), ""};
  made.words.says =
      fmt::format("it is {}, below {}, and ", print(Celsius{at.peak_now}), print(Celsius{limit}));
  made.words.says += at.stage == Stage::kNotHeating
                   ? fmt::format("never heated in {}",
                                 days_words(days_between(known.course.start, known.history.today)))
                   : "its treatment is not shown yet";
  const Treatment* one = halted(known);
  if (one != nullptr && one->window) {
    made.words.why = fmt::format("{} so far; {}", count_words(*one, print), break_words(*one));
  }
  explain(known, made);
  into.findings.push_back(std::move(made));
}

void judge_stopped(const Known& known, model::Assessment& into) {
  if (known.at.stage != Stage::kWarm || known.at.dipped || is_rising(known.course)) return;
  const Treatment* one = halted(known);
  if (one == nullptr) return;
  const auto since = below_since(known, one->rule);
  if (!since || recovers(known, *since)) return;
  const int age = days_between(known.course.start, known.history.today);
  if (!one->window && age <= whole(known.rules(limits::cold_after))) return;
  const measure::Printer print = known.print();
  model::Told made = finding("pile.stopped", Urgency::kToday, limits::treat_from, known.rules);
  made.limit->quantity = "temperature";
  made.value = model::Measured{"temperature", measure::value_of(Celsius{known.at.peak_now}), ""};
  made.words.says =
      fmt::format("it is {}, below the {} that {} asks for, ", print(Celsius{known.at.peak_now}),
                  print(Celsius{one->rule.from}), one->name);
  if (one->window) {
    made.words.says += fmt::format("since {}: {} so far", measure::day_words(*since, known.history.today),
                             count_words(*one, print));
    made.words.why = break_words(*one);
  } else {
    made.words.says += fmt::format("and no day in {} counts yet", days_words(age));
  }
  explain(known, made);
  into.findings.push_back(std::move(made));
}

}  // namespace kinds::pile
