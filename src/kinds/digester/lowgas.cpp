#include "kinds/digester/lowgas.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "kinds/digester/words.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"
#include "measure/text.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Days;
using measure::Printer;
using model::Day;
using model::Urgency;
using science::NormalLitres;

struct Compared {
  GasRate measured;
  std::optional<NormalLitres> expected;
  std::optional<GasRate> before;  // of the same length, before it
};

date::days window_of(const model::Rules& rules) {
  return date::days{static_cast<int>(rules(limits::lowgas_window).value)};
}

bool is_enough(const std::optional<GasRate>& rate, const model::Rules& rules) {
  return rate && rate->days() >= rules(limits::lowgas_days).value;
}

// None while too little was measured.
std::optional<Compared> compared(const model::History& history, const model::Rules& rules,
                                 const GasRecords& records) {
  const Day from = history.today - window_of(rules);
  const auto lately = gas_rate(records.gas, from, history.today);
  if (!is_enough(lately, rules)) return std::nullopt;
  Compared made{*lately, std::nullopt, std::nullopt};
  const auto expected = expected_gas(history, rules, records.feed, records.warmth);
  if (expected) made.expected = expected->mean(lately->from, lately->to);
  if (made.expected && made.expected->value < rules(limits::lowgas_least).value)
    made.expected.reset();
  const auto before = gas_rate(records.gas, lately->from - window_of(rules), lately->from);
  if (is_enough(before, rules)) made.before = before;
  return made;
}

// A likely reason and what to do about it.
struct Reason {
  std::string why;
  std::string action;
};

std::optional<Reason> souring(const Slurry& slurry) {
  if (slurry.souring == Souring::kNo) return std::nullopt;
  return Reason{"the slurry turns sour", "see digester.sour before anything else"};
}

std::optional<Reason> cold(const model::History& history, const model::Rules& rules,
                           const Warmth& warmth) {
  if (!warmth.cold) return std::nullopt;
  const Printer print(history.units);
  return Reason{
      fmt::format("it is cold, {} is {}", window_words(warmth, rules), print(*warmth.mean)),
      "keep it warm and feed less"};
}

std::optional<Reason> underfed(const model::Rules& rules, const Feed& feed) {
  if (!feed.loading || feed.loading->value >= rules(limits::underfed_below).value)
    return std::nullopt;
  if (feed.loading->value <= 0) {
    return Reason{fmt::format("it is fed little, nothing in the last {}",
                              days_words(static_cast<int>(feed.window.value))),
                  "feed it a little every day"};
  }
  return Reason{fmt::format("it is fed little, {}",
                            Printer::labelled(std::round(feed.loading->value * 100) / 100,
                                              limits::underfed_below.info->label)),
                "feed it a little more every day"};
}

// What is left when the slurry is well: gas gets lost, or is not counted.
Reason leak(const model::History& history, const Slurry& slurry) {
  const model::Deed* checked = history.last_deed("checked");
  std::string why = checked == nullptr
                        ? "no check for leaks is logged"
                        : fmt::format("last checked for leaks on {}",
                                      measure::day_words(checked->day, history.today));
  why = "a leak, a blocked line or the meter (" + why + ")";
  if (!slurry.is_read()) why += "; or souring: no pH was read lately";
  return {std::move(why),
          "brush soapy water on every joint and look for bubbles, drain the trap, read pH"};
}

void explain(const std::vector<Reason>& reasons, model::Told& finding) {
  for (const Reason& reason : reasons) {
    finding.words.why += (finding.words.why.empty() ? "likely " : "; ") + reason.why;
    finding.words.action += (finding.words.action.empty() ? "" : "; ") + reason.action;
  }
  finding.old_caution = kGasCaution;
}

std::vector<Reason> reasons_for(const model::History& history, const model::Rules& rules,
                                const GasRecords& records, bool against_expected) {
  std::vector<Reason> found;
  if (auto one = souring(records.slurry)) found.push_back(*one);
  if (auto one = cold(history, rules, records.warmth)) found.push_back(*one);
  // What is due already follows from the feed.
  if (!against_expected) {
    if (auto one = underfed(rules, records.feed)) found.push_back(*one);
  }
  if (found.empty() || (against_expected && records.slurry.souring == Souring::kNo)) {
    found.push_back(leak(history, records.slurry));
  }
  return found;
}

bool judge_against_expected(const model::History& history, const model::Rules& rules,
                            const GasRecords& records, const Compared& gas,
                            model::Assessment& into) {
  if (!gas.expected) return false;
  const measure::Fraction share{gas.measured.a_day / *gas.expected};
  if (share >= rules(limits::lowgas_below)) return false;
  const Printer print(history.units);
  model::Told made = finding("digester.lowgas", Urgency::kToday, limits::lowgas_below, rules);
  made.value = model::Measured{"share of the gas due", measure::value_of(share), ""};
  made.words.says =
      fmt::format("{} of gas a day over {}, {} of the {} that its feed and temperature should give",
                  gas_words(gas.measured.a_day, print), days_words(gas.measured.days()),
                  print(measure::Fraction{std::round(share.value * 100) / 100}),
                  gas_words(*gas.expected, print));
  explain(reasons_for(history, rules, records, true), made);
  into.findings.push_back(std::move(made));
  return true;
}

bool judge_against_before(const model::History& history, const model::Rules& rules,
                          const GasRecords& records, const Compared& gas, model::Assessment& into) {
  if (!gas.before || gas.before->a_day.value < rules(limits::lowgas_least).value) return false;
  const measure::Fraction share{gas.measured.a_day / gas.before->a_day};
  if (share >= rules(limits::lowgas_fell)) return false;
  const Printer print(history.units);
  model::Told made = finding("digester.lowgas", Urgency::kSoon, limits::lowgas_fell, rules);
  made.value = model::Measured{"share of the gas before", measure::value_of(share), ""};
  made.words.says = fmt::format("gas has fallen to {} a day, from {} over the {} before",
                          gas_words(gas.measured.a_day, print), gas_words(gas.before->a_day, print),
                          days_words(gas.before->days()));
  explain(reasons_for(history, rules, records, false), made);
  into.findings.push_back(std::move(made));
  return true;
}

void judge_flame(const model::History& history, const model::Rules& rules,
                 const GasRecords& records, bool enough_gas, model::Assessment& into) {
  const model::Sensed* flame = history.last_sensed("flame");
  if (flame == nullptr || flame->word == "strong") return;
  if (days_between(flame->day, history.today) > rules(limits::lowgas_flame).value) return;
  const bool none = flame->word == "none";
  model::Told made = finding("digester.lowgas", none ? Urgency::kToday : Urgency::kSoon,
                                limits::lowgas_flame, rules);
  made.limit.reset();
  made.words.says = none ? "the gas did not burn" : "the flame is weak";
  made.words.says += enough_gas ? ", though there is enough gas: too little methane in it"
                          : ", and too little gas is measured to say how much there is";
  explain(reasons_for(history, rules, records, false), made);
  into.findings.push_back(std::move(made));
}

}  // namespace

void judge_low_gas(const model::History& history, const model::Rules& rules,
                   const GasRecords& records, bool first_gas, model::Assessment& into) {
  const auto gas = compared(history, rules, records);
  if (gas && judge_against_expected(history, rules, records, *gas, into)) return;
  if (gas && judge_against_before(history, rules, records, *gas, into)) return;
  if (!first_gas) judge_flame(history, rules, records, gas.has_value(), into);
}

std::optional<model::Progress> gas_line(const model::History& history, const model::Rules& rules,
                                        const GasRecords& records) {
  const auto gas = compared(history, rules, records);
  if (!gas) return std::nullopt;
  const Printer print(history.units);
  std::string says =
      fmt::format("{} a day over {}, at 0 °C and dry", gas_words(gas->measured.a_day, print),
                  days_words(gas->measured.days()));
  if (gas->expected) {
    const double share = gas->measured.a_day / *gas->expected;
    says += share < 2 ? fmt::format("; {:.0f} % of what its feed and temperature should give",
                                    share * 100)
                      : fmt::format(
                            "; {:.0f} times what its feed and temperature should give: look at "
                            "the meter, its unit, and whether all feed was logged",
                            share);
  }
  if (const auto holder = history.batch.number("holder"); holder && gas->measured.a_day.value > 0) {
    says += fmt::format("; the holder takes {:.0f} hours of it",
                        holder->si / gas->measured.metered_a_day.value * 24);
  }
  if (!records.feed.unknown.empty()) {
    says += "; gas of " + measure::joined(records.feed.unknown, ", ") + " is not reckoned";
  }
  return model::Progress{"gas", std::move(says), std::nullopt};
}

}  // namespace kinds::digester
