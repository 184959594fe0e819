#include "kinds/tank/care.h"

#include <span>

#include "kinds/finding.h"
#include "kinds/tank/facts.h"
#include "kinds/tank/study.h"
#include "kinds/tank/vocabulary.h"
#include "kinds/thresholds.h"
#include "model/purpose.h"

namespace kinds::tank {
namespace {

namespace limits = thresholds::tank;
using measure::Fraction;
using measure::Litres;
using model::Ending;
using model::Finding;
using model::Support;

Ending by_deed(const Word& word) {
  return {.by = Ending::By::kDeed, .name = std::string(word)};
}

Ending by_level() {
  return {.by = Ending::By::kReading, .name = std::string(kLevel)};
}

Ending by_day(model::Day day) {
  return {.by = Ending::By::kDay, .day = day};
}

// The day of the work, or of the batch's start.
model::Day last_done(const model::History& history, const Word& deed) {
  const model::Deed* last = history.last_deed(deed);
  return last == nullptr ? history.batch.started_day : last->day;
}

// What answers a level that did not fit, beside another level: what can only have been lost by a
// fault is answered by the work on it.
constexpr Word kAnswers[] = {kEmptied, kCleaned, kFlushed, kMended};

// Whether what the last level asked for was seen to since, or its water is by now another: it was
// full, or as much came and went as it held then.
bool is_behind(const Level& last, std::span<const Word> answers, const Study& study) {
  for (const Word& answer : answers) {
    const model::Deed* done = study.history().last_deed(answer);
    if (done != nullptr && done->at > last.at) return true;
  }
  const Expected since = expected_from(last, study.history().now, study);
  const bool filled = study.is_full(since.highest) && !study.is_full(last.held);
  const Litres moved = since.caught + since.added + since.drawn;
  return filled || (moved > Litres{0} && moved >= last.held);
}

// What a level below the least can come from, by what came in with the rain in between.
struct Loss {
  std::string_view case_of, job;
  std::vector<std::string_view> reasons;
};

Loss loss_by(Litres came, Litres caught, Litres slack) {
  if (caught <= Litres{0} || came <= slack * -1) {
    return {
        kCaseLost, kJobLevel, {kReasonLeak, kReasonOpenTap, kReasonDrawUnlogged, kReasonMisread}};
  }
  if (came < caught * 0.5)
    return {kCaseNoRainCame, kJobClean, {kReasonBlocked, kReasonDrawUnlogged}};
  return {kCaseRainCameShort, kJobLevel, {kReasonRunsOver, kReasonLeak, kReasonDrawUnlogged}};
}

bool is_for_a_mouth(std::string_view typed) {
  const auto purpose = model::purpose_of(typed);
  return purpose == model::Purpose::kDrinking || purpose == model::Purpose::kHousehold ||
         purpose == model::Purpose::kCooking;
}

void judge_foul(const Study& study, std::vector<Finding>& into) {
  const model::History& history = study.history();
  const model::Sensed* seen = history.last_sensed(kWaterLooks);
  const measure::Days holds = study.rules()(limits::foul_days);
  if (seen == nullptr || seen->word == kClear.word ||
      days_between(seen->day, history.today) > holds.value) {
    return;
  }
  Finding made = finding(kRuleFoul, model::Urgency::kToday, limits::foul_days, study.rules());
  for (const Word& word : kWords) {
    if (word.sense == kWaterLooks && word.word == seen->word) made.case_of = word;
  }
  made.job = kJobWater;
  made.since = seen->day;
  made.facts.set(kFactWater, seen->word);
  made.facts.set(kFactSeenOn, seen->day);
  made.ends = {{.by = Ending::By::kJudgement, .name = std::string(kClear)},
               by_day(seen->day + date::days{full_days(holds) + 1})};
  into.push_back(std::move(made));
}

void judge_drinking(const Study& study, std::vector<Finding>& into) {
  const model::History& history = study.history();
  const int holds = full_days(study.rules()(limits::foul_days));
  const model::Movement* drunk = nullptr;
  for (const model::Movement& movement : history.out) {
    const bool of_late = days_between(movement.day, history.today) <= holds;
    if (of_late && is_for_a_mouth(movement.purpose)) drunk = &movement;
  }
  const std::string uses = history.batch.text(kUses, "");
  const bool told = is_for_a_mouth(uses);
  if (drunk == nullptr && !told) return;
  Finding made = finding(kRuleDrink, model::Urgency::kNow, "common practice");
  made.job = kJobDrink;
  if (drunk != nullptr) {
    made.case_of = kCaseTaken;
    made.since = drunk->day;
    made.facts.set(kFactTaken, drunk->typed);
    made.facts.set(kFactPurpose, drunk->purpose);
    made.facts.set(kFactTakenOn, drunk->day);
    if (!told) made.ends = {by_day(drunk->day + date::days{holds + 1})};
  } else {
    made.case_of = kCaseTold;
    made.since = history.batch.started_day;
    made.facts.set(kFactUses, uses);
  }
  if (told) made.ends = {{.by = Ending::By::kSetting, .name = std::string(kUses)}};
  into.push_back(std::move(made));
}

// Work that comes round: after so many days it is due.
void judge_round(const Word& deed, std::string_view rule, model::Threshold<measure::Days> every,
                 const Study& study, std::vector<Finding>& into) {
  const model::Day done = last_done(study.history(), deed);
  const int days = days_between(done, study.history().today);
  const measure::Days limit = study.rules()(every);
  if (days <= limit.value) return;
  Finding made = finding(rule, model::Urgency::kSoon, every, study.rules());
  made.job = kJobClean;
  made.since = done + date::days{full_days(limit) + 1};
  made.facts.set(kFactDays, days);
  made.ends = {by_deed(deed)};
  into.push_back(std::move(made));
}

}  // namespace

void judge_level(const Study& study, std::vector<Finding>& into) {
  const auto& all = study.levels();
  const auto capacity = study.capacity();
  if (all.size() < 2 || !capacity) return;
  const Level& before = all[all.size() - 2];
  const Level& last = all.back();
  const Expected expected = expected_from(before, last.at, study);
  const Litres slack = *capacity * study.rules()(limits::level_slack).value;
  const bool is_low = last.held < expected.least - slack;
  const bool is_high = expected.most && last.held > *expected.most + slack;
  if (!is_low && !is_high) return;
  const std::span<const Word> answers =
      is_low ? std::span<const Word>(kAnswers) : std::span<const Word>(kAnswers).first(1);
  if (is_behind(last, answers, study)) return;
  const Litres bound = is_low ? expected.least : *expected.most;
  Finding made = finding(kRuleLevel, model::Urgency::kToday, limits::level_slack, study.rules());
  // Against the rule, which is a share of the capacity.
  const Litres off = is_low ? bound - last.held : last.held - bound;
  made.value = model::Measured{is_low ? "below the least expected" : "above the most expected",
                               measure::value_of(Fraction{off / *capacity}), ""};
  const Loss from = is_high
                        ? Loss{kCaseTooHigh, kJobLevel, {kReasonMisread, kReasonWaterUnlogged}}
                        : loss_by(last.held - before.held + expected.drawn, expected.caught, slack);
  made.case_of = from.case_of;
  made.job = from.job;
  made.since = last.day;
  for (const std::string_view reason : from.reasons) {
    made.reasons.push_back({reason, Support::kWorkedOut});
  }
  made.facts.set(kFactHeld, last.held);
  made.facts.set(kFactExpected, bound);
  made.facts.set(kFactCapacity, *capacity);
  made.facts.set(kFactReadOn, last.day);
  made.facts.set(kFactReadBefore, before.day);
  made.facts.set(kFactDrawn, expected.drawn);
  made.facts.set(kFactRain, expected.rain);
  made.ends = {by_level()};
  for (const Word& answer : answers) made.ends.push_back(by_deed(answer));
  into.push_back(std::move(made));
}

void judge_supply(const Study& study, std::vector<Finding>& into) {
  const auto& holds = study.holding();
  if (!holds) return;
  if (study.is_full(holds->held)) {
    Finding made = finding(kRuleFull, model::Urgency::kReady, limits::full_at, study.rules());
    made.job = kJobUse;
    made.value = model::Measured{"held", measure::value_of(holds->held), "", kWater};
    made.facts.set(kFactHeld, holds->held);
    made.facts.set(kFactCapacity, *study.capacity());
    made.facts.set(kFactCarriedOn, holds->carried_on);
    made.ends = {by_level(), {.by = Ending::By::kTaking, .name = "rainwater"}};
    into.push_back(std::move(made));
  }
  const auto& draw = study.draw();
  if (!draw) return;
  const measure::Days days{holds->held / draw->a_day};
  const measure::Days least = study.rules()(limits::low_days);
  if (days >= least) return;
  Finding made = finding(kRuleLow, model::Urgency::kToday, limits::low_days, study.rules());
  made.job = kJobUse;
  made.value = model::Measured{"supply", measure::value_of(days), "", {}};
  made.facts.set(kFactHeld, holds->held);
  made.facts.set(kFactCarriedOn, holds->carried_on);
  made.facts.set(kFactDays, full_days(days));
  made.facts.set(kFactLeastDays, full_days(least));
  made.facts.set(kFactDrawADay, draw->a_day);
  made.facts.set(kFactDraws, draw->draws);
  made.facts.set(kFactDrawDays, draw->days);
  made.facts.set(kFactDrawBasis, static_cast<int>(draw->basis));
  made.ends = {by_level(),
               {.by = Ending::By::kReading, .name = std::string(kRain)},
               {.by = Ending::By::kAdding, .name = "water"}};
  into.push_back(std::move(made));
}

void judge_care(const Study& study, std::vector<Finding>& into) {
  judge_round(kCleaned, kRuleClean, limits::clean_days, study, into);
  if (study.history().batch.number(kFlush)) {
    judge_round(kFlushed, kRuleFlush, limits::flush_days, study, into);
  }
  judge_foul(study, into);
  judge_drinking(study, into);
}

}  // namespace kinds::tank
