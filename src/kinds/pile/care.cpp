#include "kinds/pile/care.h"

#include <algorithm>

#include "kinds/thresholds.h"
#include "kinds/finding.h"
#include "measure/text.h"

namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using measure::Celsius;
using model::Urgency;

std::string hot_action(Celsius hottest, bool stale, const model::Rules& rules,
                       measure::UnitSystem units) {
  if (hottest >= rules(limits::hot_fire)) {
    return fmt::format(
        "keep it closed until water under pressure and a second person stand by, or the fire "
        "service does; then spread it thin, wetting as you go, away from anything that burns; no "
        "other work on it until every place reads {} or less",
        measure::Printer(units)(rules(limits::hot_above)));
  }
  if (stale) return "read it again now, and turn or open it if it is still so";
  return "turn it or open it, water it if it is dry, and read that place again";
}

std::string others_words(const std::vector<const model::Series*>& hot,
                         const measure::Printer& print) {
  std::vector<std::string> names;
  for (std::size_t i = 1; i < hot.size(); ++i) {
    names.push_back(fmt::format("{} {}",
                                hot[i]->position.empty() ? "an unnamed place" : hot[i]->position,
                                print(Celsius{hot[i]->last->value})));
  }
  return names.empty() ? ""
                       : "; so " + std::string(names.size() == 1 ? "is " : "are ") +
                             measure::listed(names, "and");
}

double days_since(const model::History& history, model::Instant at) {
  return elapsed_days(at, history.now);
}

}  // namespace

bool Known::shown() const {
  return std::all_of(treatments.begin(), treatments.end(),
                     [](const Treatment& one) { return one.outcome == Outcome::kShown; });
}

bool Known::days_shown() const {
  return std::all_of(treatments.begin(), treatments.end(), [](const Treatment& one) {
    return one.outcome == Outcome::kShown || one.tally.met;
  });
}

void judge_hot(const Known& known, model::Assessment& into) {
  const measure::Printer print = known.print();
  const double limit = known.rules(limits::hot_above).value;
  std::vector<const model::Series*> hot;
  for (const model::Series* series : known.history.all("temperature")) {
    if (series->last->value > limit + kSameKelvins) hot.push_back(series);
  }
  if (hot.empty()) return;
  std::stable_sort(hot.begin(), hot.end(),
                   [](const auto* a, const auto* b) { return a->last->value > b->last->value; });
  const Celsius now{hot.front()->last->value};
  const double age = days_since(known.history, hot.front()->last->at);
  const bool stale = age > known.rules(limits::hot_fresh).value;
  const bool fire = near_fire(known) && now >= known.rules(limits::hot_fire);
  model::Told made =
      finding("pile.hot", Urgency::kNow, fire ? limits::hot_fire : limits::hot_above, known.rules);
  made.limit->quantity = "temperature";
  made.value = model::Measured{"temperature", measure::value_of(now), ""};
  made.words.says =
      stale  ? fmt::format("{} was too hot when it was last read, {} ago: {}, above {}",
                           place_words(hot.front()->position), days_words(static_cast<int>(age)),
                           print(now), print(Celsius{limit}))
      : fire ? fmt::format("{} is at {}, where a pile can catch fire by itself ({} or more)",
                           place_words(hot.front()->position), print(now),
                           print(known.rules(limits::hot_fire)))
             : fmt::format("{} is too hot: {}, above {}", place_words(hot.front()->position),
                           print(now), print(Celsius{limit}));
  if (!stale && hot.front()->days.back().day != known.history.today) {
    made.words.says += fmt::format(" (read {})",
                             measure::day_words(hot.front()->days.back().day, known.history.today));
  }
  made.words.says += others_words(hot, print);
  made.words.action = hot_action(now, stale, known.rules, known.history.units);
  if (fire) {
    made.old_caution =
        "Compost this hot can catch fire by itself, and air let into one that smoulders makes it "
        "flare up. Smoke, a burnt smell or a glow: leave it shut, keep everybody away and call the "
        "fire service. Local fire code stands above this.";
  } else if (now >= known.rules(limits::hot_severe)) {
    made.words.why = "at this heat the microbes die back and the treatment window is left";
  }
  into.findings.push_back(std::move(made));
}

bool near_fire(const Known& known) {
  const auto all = known.history.all("temperature");
  const Celsius fire = std::max(known.rules(limits::hot_fire), known.rules(limits::hot_above));
  return std::any_of(all.begin(), all.end(), [&](const model::Series* series) {
    return Celsius{series->last->value} >= fire;
  });
}

std::optional<Damp> damp(const model::History& history, const model::Rules& rules) {
  const double fresh = rules(limits::sensed_days).value;
  std::optional<Damp> found;
  model::Instant at{};
  for (const model::Series* series : history.all("moisture")) {
    if (days_since(history, series->last->at) > fresh || series->last->at < at) continue;
    at = series->last->at;
    const measure::Fraction moisture{series->last->value};
    Damp::Is is = Damp::Is::kFine;
    if (moisture < rules(limits::dry_below)) is = Damp::Is::kDry;
    if (moisture > rules(limits::soggy_above)) is = Damp::Is::kSoggy;
    found = Damp{is, true, moisture.value};
  }
  const model::Sensed* felt = history.last_sensed("moisture");
  if (felt != nullptr && felt->at > at && days_since(history, felt->at) <= fresh) {
    at = felt->at;
    found = Damp{felt->word == "dry"     ? Damp::Is::kDry
                 : felt->word == "soggy" ? Damp::Is::kSoggy
                                         : Damp::Is::kFine,
                 false, 0};
  }
  // A hand's word of wetness holds until it is turned: then it wants another squeeze.
  const model::Deed* turned = history.last_deed("turned");
  if (found && found->is == Damp::Is::kSoggy && !found->measured && turned != nullptr &&
      turned->at > at) {
    return std::nullopt;
  }
  const model::Deed* watered = history.last_deed("watered");
  if (found && found->is == Damp::Is::kDry && watered != nullptr && watered->at >= at) {
    return std::nullopt;
  }
  return found;
}

void judge_moisture(const Known& known, model::Assessment& into) {
  const auto found = damp(known.history, known.rules);
  // Cured compost may be drier: it is to be sieved and kept.
  if (!found || found->is == Damp::Is::kFine) return;
  const bool cured = known.at.stage == Stage::kReady || known.at.stage == Stage::kCuring;
  const bool dry = found->is == Damp::Is::kDry;
  if (dry && cured) return;
  const measure::Printer print = known.print();
  model::Told made =
      dry ? finding("pile.dry", Urgency::kToday, limits::dry_below, known.rules)
          : finding("pile.soggy", Urgency::kToday, limits::soggy_above, known.rules);
  made.limit->quantity = "moisture";
  const measure::Fraction value{found->fraction};
  if (found->measured) made.value = model::Measured{"moisture", measure::value_of(value), ""};
  if (dry) {
    made.words.says = found->measured ? fmt::format("it is too dry: {} moisture, below {}", print(value),
                                              print(known.rules(limits::dry_below)))
                                : "a squeezed handful fell apart: it is too dry to work";
    made.words.action = "water it as you turn it, until a squeezed handful holds and gives a drop";
  } else {
    made.words.says = found->measured
                    ? fmt::format("it is too wet: {} moisture, above {}", print(value),
                                  print(known.rules(limits::soggy_above)))
                    : "water ran from a squeezed handful: it is too wet for air to get in";
    made.words.action =
        "turn it with dry coarse material such as straw, leaves or chips, and keep rain off";
  }
  into.findings.push_back(std::move(made));
}

void judge_smell(const Known& known, model::Assessment& into) {
  const model::Sensed* smell = known.history.last_sensed("smell");
  if (smell == nullptr || smell->word == "earthy" ||
      days_since(known.history, smell->at) > known.rules(limits::sensed_days).value) {
    return;
  }
  const model::Deed* turned = known.history.last_deed("turned");
  if (turned != nullptr && turned->at > smell->at) return;
  model::Told made = finding("pile.smell", Urgency::kToday, "common practice");
  if (smell->word == "ammonia") {
    made.words.says = "it smells of ammonia: there is more nitrogen than it can use, and it is going off";
    made.words.action = "mix in dry brown material such as leaves, straw or sawdust";
    const StartRatio ratio = start_ratio(known.history, known.rules, known.inputs);
    if (ratio.value) {
      made.words.why = fmt::format("what went in has a carbon to nitrogen of {}",
                             measure::print_number(ratio.value->value, 1));
    }
    made.old_caution =
        "Ammonia stings eyes and lungs: work upwind, and air a closed drum or shed first.";
  } else {
    made.words.says = smell->word == "sour" ? "it smells sour: it has too little air"
                                      : "it smells rotten: it has too little air";
    made.words.action = "turn it, with dry coarse material if it is wet";
  }
  into.findings.push_back(std::move(made));
}

void judge_ready(const Known& known, model::Assessment& into) {
  if (known.at.stage != Stage::kReady) return;
  const measure::Printer print = known.print();
  const bool cold = method_of(known.history.batch) == Method::kCold && !known.at.last_hot;
  model::Told made =
      cold ? finding("pile.ready", Urgency::kReady, limits::ready_cold_days, known.rules)
           : finding("pile.ready", Urgency::kReady, limits::ready_curing, known.rules);
  made.value = model::Measured{
      "curing", measure::value_of(measure::Days{static_cast<double>(known.at.curing_days)}), ""};
  made.limit->quantity = "curing";
  if (cold) {
    made.words.says = fmt::format("it has lain {}, at least {}", days_words(known.at.curing_days),
                            days_words(whole(known.rules(limits::ready_cold_days))));
    made.words.action = "look whether what went in can still be told apart; sieve and use it if not";
    made.words.why = "it never heated, so it counts as raw where manure went in";
  } else {
    made.words.says =
        fmt::format("it has cured {} and does not warm again", days_words(known.at.curing_days));
    if (known.at.air) {
      made.words.says += fmt::format("; it is {} with the air at {}", print(Celsius{known.at.peak_now}),
                               print(*known.at.air));
    }
    made.words.action = "sieve and use it";
    for (const Treatment& one : known.treatments) {
      if (one.outcome == Outcome::kShown) continue;
      made.words.why = fmt::format(
          "{} is not shown, so keep it from crops as raw manure is kept, if any went in", one.name);
      break;
    }
  }
  into.findings.push_back(std::move(made));
}

}  // namespace kinds::pile
