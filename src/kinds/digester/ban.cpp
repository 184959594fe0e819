#include "kinds/digester/ban.h"

#include <algorithm>

#include "kinds/digester/facts.h"
#include "kinds/digester/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using model::Urgency;
using By = model::Ending::By;

}  // namespace

Ban ban_on(const model::Material& material, const model::Batch& batch) {
  if (std::find(kSulfurous.begin(), kSulfurous.end(), material.name) != kSulfurous.end())
    return Ban::kSulfur;
  if (material.is(kFlagForbidden) || material.is(kFlagSynthetic)) return Ban::kPoison;
  if (material.is(kFlagPoultry)) return takes_poultry(batch) ? Ban::kPoultryTaken : Ban::kPoultry;
  if (is_limited(material)) return Ban::kLimited;
  if (material.group == kGroupWood || material.is(kFlagWoody) || material.group == kGroupChar)
    return Ban::kWoody;
  if (std::find(kSettlingOut.begin(), kSettlingOut.end(), material.name) != kSettlingOut.end() ||
      material.is(kFlagGlossy))
    return Ban::kSettling;
  return material.is(kFlagAnimal) ? Ban::kAnimal : Ban::kNone;
}

std::string source_of(Ban ban, const model::Rules& rules) {
  switch (ban) {
    case Ban::kPoison:
      return "common practice; 7 CFR 205.105 for synthetics in organic growing";
    case Ban::kSulfur:
      return "NIOSH Pocket Guide (hydrogen sulfide); common practice";
    case Ban::kPoultry:
    case Ban::kPoultryTaken:
      return "common practice; GTZ 1989 table 3.4 runs poultry up with cattle manure";
    case Ban::kLimited:
      return rules.in_force(*limits::limited_most.info).source;
    case Ban::kNone:
    case Ban::kWoody:
    case Ban::kSettling:
    case Ban::kAnimal:
      break;
  }
  return "common practice";
}

Found judge_banned(const Study& study) {
  const model::History& history = study.history();
  const measure::Days told = study.rules()(limits::banned_told);
  const model::Movement* banned = nullptr;
  for (const model::Movement& movement : history.in) {
    if (refuses(ban_on(movement.material, history.batch)) &&
        days_between(movement.day, history.today) < told.value)
      banned = &movement;
  }
  if (banned == nullptr) return std::nullopt;
  const Ban ban = ban_on(banned->material, history.batch);
  model::Finding made = finding(kRuleBanned, Urgency::kToday, source_of(ban, study.rules()));
  made.case_of = kCaseNever;
  made.job = kJobFeed;
  made.since = banned->day;
  made.facts.set(kMaterial, banned->material.name);
  made.facts.set(kDay, banned->day);
  made.facts.set(kBan, ban);
  made.ends = {{.by = By::kDay, .day = banned->day + date::days{full_days(told)}}};
  return made;
}

Found judge_limited(const Study& study) {
  const Feed& feed = study.feed();
  if (!feed.limited || *feed.limited <= study.rules()(limits::limited_most)) return std::nullopt;
  model::Finding made = finding(kRuleBanned, Urgency::kToday, limits::limited_most, study.rules());
  made.case_of = kCaseTooMuch;
  made.job = kJobFeed;
  made.value = model::Measured{"oil and citrus", measure::value_of(*feed.limited), ""};
  made.facts.set(kShare, *feed.limited);
  made.facts.set(kDays, full_days(feed.window));
  made.ends = {{.by = By::kAdding}};
  return made;
}

}  // namespace kinds::digester
