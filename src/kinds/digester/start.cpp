#include "kinds/digester/start.h"

#include <algorithm>

#include "kinds/digester/facts.h"
#include "kinds/digester/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Days;
using measure::Litres;
using model::Day;
using model::Support;
using model::Urgency;
using By = model::Ending::By;

// What brings the mix to its 1 to N: how much of what, within the room that is left; where there is
// too little room, how much to draw off first.
void set_mend(const Study& study, model::Facts& facts) {
  const Startup& startup = study.startup();
  const model::Rules& rules = study.rules();
  if (!mix_is_off(startup, rules)) return;
  const double wanted = rules(limits::start_water).value;
  const double most = rules(limits::start_water_most).value;
  const bool is_thin = startup.water > startup.manure * most;
  const auto lacking = [&](double parts) {
    return is_thin ? startup.water / parts - startup.manure
                   : startup.manure * parts - startup.water;
  };
  const Litres add = wanted > 0 ? lacking(wanted) : Litres{};
  if (!(add > Litres{0})) return;  // a rule of the site that asks for no such mix
  facts.set(kThin, is_thin);
  facts.set(kAdd, add);
  const auto volume = study.history().batch.number(kVolume);
  if (!volume || !(volume->si > 0)) return;
  const Litres room = std::max(Litres{volume->si} - startup.held, Litres{0});
  facts.set(kRoom, room);
  if (add <= room) return;
  // Less is in it by the share that is drawn off, and less is lacking by the same.
  const double left = volume->si / (startup.held + add).value;
  facts.set(kDrawOff, startup.held * (1 - left));
  facts.set(kAddAfter, add * left);
  facts.set(kSomeFits, lacking(is_thin ? most : rules(limits::start_water_least).value) <= room);
}

// Why there is no gas that burns, in the order in which it is worth looking: temperature first.
std::vector<model::Reason> reasons(const Study& study) {
  const Startup& startup = study.startup();
  const Warmth& warmth = study.warmth();
  std::vector<model::Reason> found;
  const auto add = [&](std::string_view id, Support support) -> model::Facts& {
    return found.emplace_back(model::Reason{id, support}).facts;
  };
  if (warmth.cold) {
    add(kReasonCold, Support::kRead).set(kMean, *warmth.mean);
  } else if (!warmth.mean) {
    add(kReasonUnread, Support::kWorkedOut);
  }
  if (!startup.hoofed && startup.inoculum <= Litres{0}) add(kReasonNoMicrobes, Support::kWorkedOut);
  if (mix_is_off(startup, study.rules()))
    add(kReasonMix, Support::kWorkedOut)
        .set(kParts, measure::Number{startup.water / startup.manure});
  if (!startup.other_feed.empty())
    add(kReasonOtherFeed, Support::kWorkedOut).set(kMaterial, startup.other_feed);
  const model::Series* ph = study.history().find(kAcidity);
  if (ph != nullptr && ph->last &&
      measure::Ph{ph->last->value} < study.rules()(limits::sour_ph_watch))
    add(kReasonSour, Support::kRead).set(kPhNow, measure::Ph{ph->last->value});
  return found;
}

}  // namespace

bool mix_is_off(const Startup& startup, const model::Rules& rules) {
  if (startup.manure <= Litres{0}) return false;
  const double parts = startup.water / startup.manure;
  return parts < rules(limits::start_water_least).value ||
         parts > rules(limits::start_water_most).value;
}

Found judge_start(const Study& study) {
  const Startup& startup = study.startup();
  if (study.running() || !startup.filled_on) return std::nullopt;
  const int days = days_between(*startup.filled_on, study.history().today);
  const bool late = days > startup.needed.value;
  const bool off = mix_is_off(startup, study.rules()) ||
                   (!startup.hoofed && startup.inoculum <= Litres{0}) ||
                   !startup.other_feed.empty();
  if (!late && !off) return std::nullopt;
  // Late by the calendar only: the cold explains it, and waiting or warming mends it.
  const bool only_cold = late && startup.waited_is_read && startup.waited < startup.needed && !off;
  // Nobody looked for long: whether its gas burns is not known, and no lateness of it.
  const auto& last = study.history().last_entry;
  const double silent = last ? elapsed_days(*last, study.history().now) : 0;
  const bool unknown = late && silent > study.rules()(limits::start_silent).value;
  if (unknown) {
    model::Finding made = finding(kRuleStart, Urgency::kToday, limits::start_silent, study.rules());
    made.case_of = kCaseUnknown;
    made.job = kJobStart;
    made.value = model::Measured{"silence", measure::value_of(Days{silent}), ""};
    made.facts.set(kDays, static_cast<int>(silent));
    made.ends = {{.by = By::kJudgement, .name = std::string(kStrong)},
                 {.by = By::kJudgement, .name = std::string(kNoFlame)},
                 {.by = By::kReading, .name = std::string(kTemperature)}};
    return made;
  }
  model::Finding made = finding(kRuleStart, late && !only_cold ? Urgency::kToday : Urgency::kSoon,
                                limits::start_days, study.rules());
  made.case_of = only_cold ? kCaseOnlyCold : late ? kCaseLate : kCaseOff;
  made.job = kJobStart;
  made.since = *startup.filled_on + date::days{late ? whole(startup.needed) + 1 : 0};
  made.value =
      model::Measured{"time since filling", measure::value_of(Days{static_cast<double>(days)}), ""};
  made.facts.set(kDays, days);
  set_mend(study, made.facts);
  made.reasons = reasons(study);
  made.ends = {{.by = By::kJudgement, .name = std::string(kStrong)},
               {.by = By::kReading, .name = std::string(kCooking)}};
  return made;
}

Found judge_first_gas(const Study& study) {
  const Startup& startup = study.startup();
  const model::History& history = study.history();
  if (!startup.gas_on || !startup.filled_on || startup.taken_over) return std::nullopt;
  const Day until = *startup.gas_on + date::days{full_days(study.rules()(limits::start_letoff))};
  const bool let_off = history.deeds_since(kVented, *startup.gas_on) > 0;
  if (history.today >= until && (let_off || study.running())) return std::nullopt;
  model::Finding made =
      finding(kRuleFirstGas, Urgency::kToday, limits::start_letoff, study.rules());
  made.job = kJobVent;
  made.since = *startup.gas_on;
  made.facts.set(kDay, *startup.gas_on);
  made.facts.set(kUntil, until);
  if (history.today >= until) {
    made.ends = {{.by = By::kDeed, .name = std::string(kVented)}};
  } else {
    made.ends = {{.by = By::kDay, .day = until}};
  }
  return made;
}

Found judge_restart(const Study& study) {
  const Warmth& warmth = study.warmth();
  if (!study.resting() || !warmth.mean || warmth.cold) return std::nullopt;
  model::Finding made = finding(kRuleRestart, Urgency::kReady, limits::cold_below, study.rules());
  made.job = kJobStart;
  made.value = model::Measured{"temperature", measure::value_of(*warmth.mean), ""};
  made.facts.set(kMean, *warmth.mean);
  made.ends = {{.by = By::kAdding}};
  return made;
}

}  // namespace kinds::digester
