#include "kinds/digester/upkeep.h"

#include <array>

#include "kinds/digester/facts.h"
#include "kinds/digester/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;

struct Duty {
  std::string_view rule, job;
  const Word& deed;
  model::Threshold<measure::Days> every;
  bool always;  // else only once it was logged
};

constexpr std::array kDuties{
    Duty{kRuleCheck, kJobCheck, kChecked, limits::check_days, true},
    Duty{kRuleTrap, kJobDrain, kDrained, limits::trap_days, false},
    Duty{kRuleScrubber, kJobRenew, kRenewed, limits::scrubber_days, false},
};

}  // namespace

void judge_upkeep(const Study& study, std::vector<model::Finding>& into) {
  for (const Duty& duty : kDuties) {
    const model::Deed* last = study.history().last_deed(duty.deed);
    if (last == nullptr && !duty.always) continue;
    const model::Day since = last == nullptr ? *study.startup().gas_on : last->day;
    const int days = days_between(since, study.history().today);
    const measure::Days every = study.rules()(duty.every);
    if (days <= every.value) continue;
    model::Finding made = finding(duty.rule, model::Urgency::kSoon, duty.every, study.rules());
    made.job = duty.job;
    made.since = since + date::days{full_days(every) + 1};
    made.value = model::Measured{"time since",
                                 measure::value_of(measure::Days{static_cast<double>(days)}), ""};
    made.facts.set(kDays, days);
    made.ends = {{.by = model::Ending::By::kDeed, .name = std::string(duty.deed)}};
    into.push_back(std::move(made));
  }
}

}  // namespace kinds::digester
