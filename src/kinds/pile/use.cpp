#include "kinds/pile/use.h"

#include <algorithm>

#include "kinds/finding.h"
#include "kinds/pile/facts.h"
#include "kinds/pile/vocabulary.h"
#include "kinds/thresholds.h"

namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using model::Urgency;

// How a pile stood, for its words.
void set_standing(model::Facts& facts, const Standing& at) {
  facts.set(kStageThen, at.stage);
  facts.set(kNow, measure::Celsius{at.peak_now});
  facts.set(kJustDipped, at.dipped);
  facts.set(kWants, at.wants.what);
  facts.set(kWantsDays, at.wants.days);
  facts.set(kAboveAir, at.wants.above);
  facts.set(kCuringDays, at.curing_days);
}

// Manure, animal matter, and what nobody can say the treatment of.
bool brings_germs(const model::Movement& in) {
  const model::Material& material = in.material;
  return material.is(kFlagManure) || material.is(kFlagUnproven) || !in.manure.empty() ||
         (material.is(kFlagAnimal) && material.group != kGroupMineral);
}

// Leaves and stalks alone may go on a bed uncomposted (7 CFR 205.203(c)(3)): of a ripe pile of them
// only a treatment that was asked for is missed.
bool has_to_be_treated(const model::History& history) {
  return history.batch.setting(kStandard) != nullptr ||
         std::any_of(history.in.begin(), history.in.end(), brings_germs);
}

// The pile as it was at an earlier moment; of that day's temperatures all are taken.
model::History as_it_was(const model::History& history, const model::Movement& when) {
  model::History then = history;
  then.now = when.at;
  then.today = when.day;
  if (then.batch.ended && *then.batch.ended > when.at) {
    then.batch.ended.reset();
    then.batch.ended_day.reset();
  }
  const auto later = [&](const auto& one) { return one.at > when.at; };
  std::erase_if(then.in, later);
  std::erase_if(then.out, later);
  std::erase_if(then.deeds, later);
  std::erase_if(then.sensed, later);
  for (model::Series& series : then.series) {
    std::erase_if(series.days, [&](const model::DayRoll& day) { return day.day > when.day; });
    series.last.reset();
    if (!series.days.empty()) {
      series.last = model::Reading{series.days.back().last_at, series.days.back().last};
    }
  }
  std::erase_if(then.series, [](const model::Series& one) { return one.days.empty(); });
  return then;
}

}  // namespace

Lack lack_of(const Study& study) {
  Lack lack{study.at().stage != Stage::kReady};
  if (!lack.unripe && !has_to_be_treated(study.history())) return lack;
  for (const Treatment& one : study.treatments()) {
    if (one.outcome == Outcome::kShown) continue;
    lack.treatment = one;
    break;
  }
  return lack;
}

Carryover carryover_of(const model::History& history) {
  Carryover found;
  const model::Sensed* tested = history.last_sensed(kSenseBioassay);
  found.failed = tested != nullptr && kBioassayFailed.word == tested->word;
  for (const model::Movement& one : history.in) {
    const bool bought = one.material.group == kGroupCompost && one.from.empty();
    if (!one.material.is(kFlagCarryover) && !bought) continue;
    if (tested != nullptr && !found.failed && tested->at > one.at) continue;
    const std::string& name = one.material.name;
    if (std::find(found.of.begin(), found.of.end(), name) == found.of.end())
      found.of.push_back(name);
  }
  return found;
}

const model::Material* raw_in(const Study& study) {
  const auto& in = study.history().in;
  const auto found = std::find_if(in.begin(), in.end(), brings_germs);
  if (found == in.end() || study.treatment(Standard::kNop).outcome == Outcome::kShown)
    return nullptr;
  return &found->material;
}

bool is_compost(const model::Movement& out) {
  return out.material.group == kGroupCompost;
}

void judge_unready(const Study& study, std::vector<model::Finding>& into) {
  const model::History& history = study.history();
  const int told_for = whole(study.rules()(limits::unready_told));
  std::vector<std::string> told;
  for (auto at = history.out.rbegin(); at != history.out.rend(); ++at) {
    const model::Movement& out = *at;
    if (!is_compost(out) || !has_role(out.to_kind, &Roles::ground)) continue;
    if (days_between(out.day, history.today) > told_for) break;
    if (std::find(told.begin(), told.end(), out.to) != told.end()) continue;
    const model::History past = as_it_was(history, out);
    const Study then(past, study.rules());
    const Lack lack = lack_of(then);
    if (!lack.any()) continue;
    told.push_back(out.to);
    const std::string source = lack.treatment ? std::string(lack.treatment->text) + "; " : "";
    model::Finding made = finding(kRuleUnready, Urgency::kToday, source + "common practice");
    made.case_of = lack.unripe ? kCaseUnfinished : kCaseUntreated;
    made.job = kJobBed;
    made.since = out.day;
    // On the day itself there is still something to do about it.
    made.hold = out.day != history.today;
    made.due = out.day + date::days{told_for + 1};
    made.facts.set(kMaterial, out.material.name);
    made.facts.set(kBed, out.to);
    made.facts.set(kCarried, out.day);
    if (lack.unripe) set_standing(made.facts, then.at());
    if (lack.treatment) made.facts.set(kNotShown, std::string(lack.treatment->name));
    made.ends = {{.by = model::Ending::By::kDay, .day = out.day + date::days{told_for + 1}}};
    into.push_back(std::move(made));
  }
}

}  // namespace kinds::pile
