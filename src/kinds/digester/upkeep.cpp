#include "kinds/digester/upkeep.h"

#include <algorithm>
#include <array>

#include "kinds/digester/words.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;

struct Duty {
  const char* rule;
  const char* deed;
  model::Threshold<measure::Days> every;
  bool always;  // else only once it was logged
  const char* says;
  const char* action;
};

constexpr std::array kDuties{
    Duty{"digester.check", "checked", limits::check_days, true,
         "joints and hoses not checked for leaks",
         "brush soapy water on every joint, look for bubbles, log checked"},
    Duty{"digester.trap", "drained", limits::trap_days, false, "the water trap not drained",
         "drain it and log drained: water in the line makes the flame flicker and blocks it in "
         "frost"},
    Duty{"digester.scrubber", "renewed", limits::scrubber_days, false, "the scrubber not renewed",
         "renew its filling and log renewed: spent, it lets hydrogen sulfide through"},
};

}  // namespace

void judge_upkeep(const model::History& history, const model::Rules& rules, model::Day gas_since,
                  model::Assessment& into) {
  for (const Duty& duty : kDuties) {
    const model::Deed* last = history.last_deed(duty.deed);
    if (last == nullptr && !duty.always) continue;
    const model::Day since = last == nullptr ? gas_since : last->day;
    const int days = days_between(since, history.today);
    if (days <= rules(duty.every).value) continue;
    model::Told made = finding(duty.rule, model::Urgency::kSoon, duty.every, rules);
    made.value = model::Measured{"time since",
                                 measure::value_of(measure::Days{static_cast<double>(days)}), ""};
    made.words.says = fmt::format("{} for {}", duty.says, days_words(days));
    made.words.action = duty.action;
    made.old_caution = kGasCaution;
    into.findings.push_back(std::move(made));
  }
}

}  // namespace kinds::digester
