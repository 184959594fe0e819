#include "kinds/digester/safety.h"

#include <algorithm>
#include <array>

#include "kinds/digester/facts.h"
#include "kinds/digester/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"
#include "model/danger.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using model::Day;
using model::Urgency;
using By = model::Ending::By;

// The last day on which gas was burned.
std::optional<Day> last_use(const model::History& history) {
  std::optional<Day> last;
  const auto note = [&](Day day) { last = std::max(last.value_or(day), day); };
  for (const model::DayRoll& roll : model::pooled_days(history.all(kCooking))) note(roll.day);
  for (const model::Sensed& sensed : history.sensed) {
    if (sensed.sense == kSenseFlame && sensed.word != kNoFlame.word) note(sensed.day);
  }
  for (const model::Movement& movement : history.out) {
    if (is_burned(movement)) note(movement.day);
  }
  return last;
}

std::optional<Day> last_done(const model::History& history, std::string_view deed) {
  const model::Deed* done = history.last_deed(deed);
  return done == nullptr ? std::nullopt : std::optional(done->day);
}

bool is_logged(const Handled& handled, std::string_view name) {
  return std::find(handled.logged.begin(), handled.logged.end(), name) != handled.logged.end();
}

// The readings of the air since it was last too high: how high it was, when, and on how many later
// days it was read and never was.
struct SulfideSpell {
  measure::Fraction high;
  Day day;
  int low_days = 0;
  bool is_high = false;  // by the latest reading
};

std::optional<SulfideSpell> sulfide_spell(const model::History& history, measure::Fraction most) {
  std::optional<SulfideSpell> spell;
  for (const model::DayRoll& roll : model::pooled_days(history.all(kSulfide))) {
    if (measure::Fraction{roll.greatest} > most) {
      spell = SulfideSpell{measure::Fraction{roll.greatest}, roll.day};
      spell->is_high = measure::Fraction{roll.last} > most;
      if (spell->is_high) spell->high = measure::Fraction{roll.last};
    } else if (spell) {
      ++spell->low_days;
      spell->is_high = false;
    }
  }
  return spell;
}

// What is minded whenever it is done.
constexpr std::array<std::string_view, 5> kAlwaysMinded{kVented.word, kDrained.word, kRenewed.word,
                                                        kRested.word, kCleaned.word};

}  // namespace

std::optional<Leak> leak_of(const model::History& history) {
  std::optional<Leak> leak;
  for (const model::Sensed& sensed : history.sensed) {
    if (sensed.sense != kSenseLeak) continue;
    if (sensed.word == kMended.word) {
      leak.reset();
    } else if (!leak) {
      leak = Leak{sensed.at, sensed.day};
    }
  }
  if (leak) return leak;
  const model::Sensed* mended = history.last_sensed(kSenseLeak);
  for (const model::Note& note : history.notes) {
    if (mended != nullptr && note.at <= mended->at) continue;
    if (model::tells_of(note.text, model::Danger::kGasSmell)) return Leak{note.at, note.day, true};
  }
  return std::nullopt;
}

Found judge_leak(const Study& study) {
  const model::History& history = study.history();
  const auto leak = leak_of(history);
  if (!leak) return std::nullopt;
  model::Finding made = finding(kRuleLeak, Urgency::kNow, "common practice");
  made.case_of = leak->remarked ? kCaseRemarked : kCaseLogged;
  made.job = kJobLeak;
  made.since = leak->day;
  made.facts.set(kDay, leak->day);
  made.facts.set(kUnderGlass, site_of(history.batch) == Site::kGlass);
  const model::Deed* checked = history.last_deed(kChecked);
  if (checked != nullptr && checked->at > leak->at) {
    made.reasons.push_back({kReasonChecked, model::Support::kRead});
  }
  made.ends = {{.by = By::kJudgement, .name = std::string(kMended)}};
  return made;
}

// A number grown old does not say that the air is good now, and one low reading not that no more
// comes: it stands until the air was read low on several days.
Found judge_sulfide(const Study& study) {
  const model::Rules& rules = study.rules();
  const auto spell =
      sulfide_spell(study.history(), measure::Fraction{rules(limits::sulfide_above)});
  const int wanted = full_days(rules(limits::sulfide_cleared));
  if (!spell || spell->low_days >= wanted) return std::nullopt;
  const bool old = !fresh(study.history(), kSulfide, rules(limits::sulfide_fresh));
  const bool deadly = spell->high > measure::Fraction{rules(limits::sulfide_deadly)};
  model::Finding made = finding(kRuleSulfide, old ? Urgency::kToday : Urgency::kNow,
                                deadly ? limits::sulfide_deadly : limits::sulfide_above, rules);
  made.case_of = !spell->is_high ? kCaseNotCleared
                 : old           ? kCaseOldReading
                 : deadly        ? kCaseDeadly
                                 : kCaseAbove;
  made.job = kJobLeak;
  made.since = spell->day;
  made.value =
      model::Measured{std::string(kSulfide), measure::value_of(spell->high), "", kSulfide.shown_in};
  made.limit->shown_in = kSulfide.shown_in;
  made.facts.set(kSulfideNow, spell->high);
  made.facts.set(kLowDays, spell->low_days);
  made.facts.set(kWanted, wanted);
  made.ends = {{.by = By::kReading, .name = std::string(kSulfide)}};
  return made;
}

bool may_hold_gas(const Study& study) {
  const model::History& history = study.history();
  if (history.in.empty() && !study.startup().gas_on) return false;
  const model::Deed* vented = history.last_deed(kVented);
  if (vented == nullptr) return true;
  // Slurry goes on giving gas: what was let off the other day is there again.
  if (days_between(vented->day, history.today) > study.rules()(limits::vent_lasts).value)
    return true;
  return std::any_of(history.in.begin(), history.in.end(),
                     [&](const model::Movement& in) { return in.at > vented->at; });
}

std::vector<std::string_view> circumstances_of(const Handled& handled, const Study& study) {
  const model::History& history = study.history();
  const auto is_anew = [&](std::optional<Day> last) {
    return !last || days_between(*last, history.today) > study.rules()(limits::caution_again).value;
  };
  std::vector<std::string_view> all;
  bool minded = handled.starts || handled.ends ||
                std::any_of(kAlwaysMinded.begin(), kAlwaysMinded.end(),
                            [&](auto word) { return is_logged(handled, word); });
  const auto add = [&](std::string_view circumstance) {
    all.push_back(circumstance);
    minded = true;
  };
  if (is_logged(handled, kStirred) && is_anew(last_done(history, kStirred))) add(kWhenStirsAnew);
  if (is_logged(handled, kChecked) && is_anew(last_done(history, kChecked))) add(kWhenChecksAnew);
  const bool burns = is_logged(handled, kCooking) || is_logged(handled, kWeak) ||
                     is_logged(handled, kStrong) ||
                     (handled.out != nullptr && is_burned(*handled.out));
  if (burns && is_anew(last_use(history))) add(kWhenBurnsAnew);
  if (handled.in != nullptr) {
    std::optional<Day> last;
    for (const model::Movement& one : history.in) {
      if (is_manure(one.material)) last = one.day;
    }
    if (is_anew(last)) add(kWhenFeedsAnew);
  }
  if (handled.out != nullptr) {
    if (is_let_off(*handled.out)) add(kWhenLetOff);
    minded = minded || is_inoculum(handled.out->material);
  }
  if (minded && site_of(history.batch) == Site::kGlass) all.push_back(kWhenGlass);
  if (site_of(history.batch) == Site::kBuried) all.push_back(kWhenBuried);
  if (history.batch.number(kHolder)) all.push_back(kWhenHolder);
  return all;
}

}  // namespace kinds::digester
