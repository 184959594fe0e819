#include "kinds/digester/lowgas.h"

#include <vector>

#include "kinds/digester/facts.h"
#include "kinds/digester/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Fraction;
using measure::Litres;
using model::Day;
using model::Support;
using model::Urgency;
using science::NormalLitres;
using By = model::Ending::By;

bool is_enough(const std::optional<GasRate>& rate, const model::Rules& rules) {
  return rate && rate->days() >= rules(limits::lowgas_days).value;
}

Litres at_standard(NormalLitres gas) {
  return Litres{gas.value};
}

// What is left when the slurry is well: gas gets lost, or is not counted.
model::Reason leak(const Study& study) {
  model::Reason made{kReasonLeak, Support::kWorkedOut};
  if (const model::Deed* checked = study.history().last_deed(kChecked))
    made.facts.set(kDay, checked->day);
  made.facts.set(kPhUnread, !study.slurry().is_read());
  return made;
}

std::vector<model::Reason> reasons_for(const Study& study, bool against_expected) {
  std::vector<model::Reason> found;
  const bool sour = study.slurry().souring != Souring::kNo;
  if (sour) found.push_back({kReasonSour, Support::kRead});
  if (study.warmth().cold) {
    found.push_back({kReasonCold, Support::kRead});
    found.back().facts.set(kMean, *study.warmth().mean);
  }
  // What is due already follows from the feed.
  const Feed& feed = study.feed();
  if (!against_expected && !sour && feed.loading &&
      feed.loading->value < study.rules()(limits::underfed_below).value) {
    found.push_back({kReasonUnderfed, Support::kWorkedOut});
    found.back().facts.set(kLoadingNow, measure::Number{feed.loading->value});
    found.back().facts.set(kDays, full_days(feed.window));
  }
  if (found.empty() || (against_expected && !sour)) found.push_back(leak(study));
  return found;
}

Found low(const Study& study, std::string_view which, Urgency urgency,
          model::Threshold<Fraction> rule, Fraction share) {
  const Compared& gas = *study.compared();
  model::Finding made = finding(kRuleLowGas, urgency, rule, study.rules());
  made.case_of = which;
  made.job = kJobGas;
  made.facts.set(kGasADay, at_standard(gas.measured.a_day));
  made.facts.set(kDays, gas.measured.days());
  made.facts.set(kShare, share);
  made.reasons = reasons_for(study, which == kCaseBelowDue);
  made.ends = {{.by = By::kReading, .name = std::string(kGas)},
               {.by = By::kReading, .name = std::string(kMeter)}};
  return made;
}

Found against_expected(const Study& study, const Compared& gas) {
  if (!gas.expected) return std::nullopt;
  const Fraction share{gas.measured.a_day / *gas.expected};
  if (share >= study.rules()(limits::lowgas_below)) return std::nullopt;
  auto made = low(study, kCaseBelowDue, Urgency::kToday, limits::lowgas_below, share);
  made->value = model::Measured{"share of the gas due", measure::value_of(share), ""};
  made->facts.set(kGasDue, at_standard(*gas.expected));
  return made;
}

Found against_before(const Study& study, const Compared& gas) {
  if (!gas.before || gas.before->a_day.value < study.rules()(limits::lowgas_least).value)
    return std::nullopt;
  const Fraction share{gas.measured.a_day / gas.before->a_day};
  if (share >= study.rules()(limits::lowgas_fell)) return std::nullopt;
  auto made = low(study, kCaseFell, Urgency::kSoon, limits::lowgas_fell, share);
  made->value = model::Measured{"share of the gas before", measure::value_of(share), ""};
  made->facts.set(kGasBefore, at_standard(gas.before->a_day));
  made->facts.set(kDaysBefore, gas.before->days());
  return made;
}

Found bad_flame(const Study& study) {
  const model::Sensed* flame = study.history().last_sensed(kSenseFlame);
  if (flame == nullptr || flame->word == kStrong.word) return std::nullopt;
  const measure::Days told = study.rules()(limits::lowgas_flame);
  if (days_between(flame->day, study.history().today) > told.value) return std::nullopt;
  const bool none = flame->word == kNoFlame.word;
  model::Finding made = finding(kRuleLowGas, none ? Urgency::kToday : Urgency::kSoon,
                                limits::lowgas_flame, study.rules());
  made.limit.reset();
  made.case_of = none ? kCaseNoFlame : kCaseWeak;
  made.job = kJobGas;
  made.since = flame->day;
  made.facts.set(kEnoughGas, study.compared().has_value());
  made.reasons = reasons_for(study, false);
  made.ends = {{.by = By::kJudgement, .name = std::string(kStrong)},
               {.by = By::kDay, .day = flame->day + date::days{full_days(told) + 1}}};
  return made;
}

}  // namespace

std::optional<Compared> compare_gas(const Study& study) {
  const model::Rules& rules = study.rules();
  const Day today = study.history().today;
  const date::days window{full_days(rules(limits::lowgas_window))};
  const auto lately = gas_rate(study.gas(), today - window, today);
  if (!is_enough(lately, rules)) return std::nullopt;
  Compared made{*lately, std::nullopt, std::nullopt};
  if (study.expected()) made.expected = study.expected()->mean(lately->from, lately->to);
  if (made.expected && made.expected->value < rules(limits::lowgas_least).value)
    made.expected.reset();
  const auto before = gas_rate(study.gas(), lately->from - window, lately->from);
  if (is_enough(before, rules)) made.before = before;
  return made;
}

Found judge_low_gas(const Study& study, bool first_gas) {
  if (const auto& gas = study.compared()) {
    if (auto made = against_expected(study, *gas)) return made;
    if (auto made = against_before(study, *gas)) return made;
  }
  return first_gas ? std::nullopt : bad_flame(study);
}

}  // namespace kinds::digester
