#include "kinds/brew/care.h"

#include <algorithm>
#include <initializer_list>

#include "kinds/brew/facts.h"
#include "kinds/brew/says.h"
#include "kinds/brew/study.h"
#include "kinds/brew/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"
#include "model/material_groups.h"

namespace kinds::brew {
namespace {

namespace limits = thresholds::brew;
using measure::Days;
using model::Deed;
using model::Ending;
using model::Finding;
using model::Urgency;

const Deed* last_of(const model::History& history, std::initializer_list<std::string_view> words) {
  const Deed* found = nullptr;
  for (const std::string_view word : words) {
    const Deed* deed = history.last_deed(word);
    if (deed != nullptr && (found == nullptr || deed->at >= found->at)) found = deed;
  }
  return found;
}

// The deed that took the lid off, where it has not been put on since.
const Deed* standing_open(const model::History& history) {
  const Deed* last = last_of(history, {kOpened, kClosed});
  return last != nullptr && last->word == kOpened.word ? last : nullptr;
}

bool is_quiet(const Study& study) {
  const model::Sensed* seen = study.history().last_sensed(kBubbling);
  return study.clock().full() && (seen == nullptr || seen->word != kLively.word);
}

std::vector<Ending> by_deeds(std::initializer_list<std::string_view> words) {
  std::vector<Ending> ends;
  for (const std::string_view word : words) {
    ends.push_back({.by = Ending::By::kDeed, .name = std::string(word)});
  }
  return ends;
}

// A finding of something that was last so many days ago, and holds from `limit` days on.
Finding overdue(std::string_view rule, std::string_view job, Urgency urgency,
                model::Threshold<Days> limit, model::Day last, const char* measured,
                const Study& study) {
  const int days = days_between(last, study.history().today);
  Finding made = finding(rule, urgency, limit, study.rules());
  made.job = job;
  made.value = model::Measured{measured, measure::value_of(Days{static_cast<double>(days)}), ""};
  made.facts.set(kDays, days);
  made.facts.set(kLongest, static_cast<int>(study.rules()(limit).value));
  return made;
}

// Since the deed, or since the drum was filled where that is later or nothing was done.
model::Day since(const Deed* last, const Study& study) {
  const model::Day filled = study.clock().from;
  return last == nullptr ? filled : std::max(last->day, filled);
}

// What smelt last, where that is not too long ago.
const model::Sensed* smelt(const model::History& history, const model::Rules& rules) {
  const model::Sensed* smell = history.last_sensed(kSmell);
  if (smell == nullptr) return nullptr;
  return days_between(smell->day, history.today) > rules(limits::smell_days).value ? nullptr
                                                                                   : smell;
}

}  // namespace

bool is_sealed(const model::History& history) {
  return lid_of(history.batch) == Lid::kSealed && standing_open(history) == nullptr;
}

std::optional<Finding> judge_ready(const Study& study) {
  const Clock& clock = study.clock();
  // That an aerated brew had air is for a log of it to say, which brew.open asks for.
  if (!clock.full() || study.waits_until() || study.contents().used_up() || study.is_turned()) {
    return std::nullopt;
  }
  const model::History& history = study.history();
  Finding made =
      finding(kRuleReady, Urgency::kReady, model::Threshold<Days>{clock.rule}, study.rules());
  const auto& raw = study.contents().raw;
  const bool sugar = feeds_germs(history);
  if (raw) made.case_of = sugar ? kCaseRawAndSugar : kCaseRaw;
  if (!raw && sugar) made.case_of = kCaseSugar;
  made.job = kJobUse;
  made.since = clock.full_day();
  made.value = model::Measured{"brewing time", measure::value_of(clock.equivalent), ""};
  made.facts.set(kFullOn, clock.full_day());
  made.facts.set(kTook, days_between(clock.from, clock.full_day()));
  made.facts.set(kRestartBy, clock.restart_by);
  made.facts.set(kStillLively, was_lively(history, study.rules()));
  made.facts.set(kToStrain, history.last_deed(kStrained) == nullptr);
  made.facts.set(kWaterParts, study.dilution().parts.water);
  if (raw) made.facts.set(kRawMatter, raw->material);
  made.ends = {{.by = Ending::By::kTaking}, {.by = Ending::By::kEndOfBatch}};
  return made;
}

std::optional<Finding> judge_vent(const Study& study) {
  const model::History& history = study.history();
  if (!is_sealed(history) || study.contents().used_up()) return std::nullopt;
  const auto rule = is_quiet(study) ? limits::vent_after : limits::vent_days;
  // Each of these lets the gas out too.
  const auto lets_out = {kVented.word,  kOpened.word,   kClosed.word,
                         kStirred.word, kStrained.word, kTopped.word};
  const model::Day last = since(last_of(history, lets_out), study);
  const int days = days_between(last, history.today);
  const Days limit = study.rules()(rule);
  if (days < limit.value) return std::nullopt;
  const bool danger = days >= limit.value * study.rules()(limits::vent_danger).value;
  Finding made = overdue(kRuleVent, kJobTend, danger ? Urgency::kNow : Urgency::kToday, rule, last,
                         "time since it was vented", study);
  made.since = last + date::days{static_cast<int>(std::ceil(limit.value))};
  made.ends = by_deeds(lets_out);
  return made;
}

std::optional<Finding> judge_stir(const Study& study) {
  const model::History& history = study.history();
  const Lid lid = lid_of(history.batch);
  if (study.clock().full() || is_aerated(history.batch) || lid == Lid::kAirlock)
    return std::nullopt;
  const auto rule = lid == Lid::kLoose ? limits::stir_open : limits::stir_sealed;
  const model::Day last = since(history.last_deed(kStirred), study);
  const double limit = study.rules()(rule).value;
  if (days_between(last, history.today) < limit) return std::nullopt;
  Finding made =
      overdue(kRuleStir, kJobTend, Urgency::kToday, rule, last, "time since it was stirred", study);
  made.since = last + date::days{static_cast<int>(std::ceil(limit))};
  made.ends = by_deeds({kStirred});
  return made;
}

std::optional<Days> time_without_air(const model::History& history, const model::Rules& rules) {
  if (!is_aerated(history.batch)) return std::nullopt;
  const Deed* aired = history.last_deed(kAerated);
  const Days stood{elapsed_days(aired == nullptr ? history.batch.started : aired->at, history.now)};
  // A day to the second is no longer than a day.
  if (stood.value <= rules(limits::open_aerated).value + 1e-9) return std::nullopt;
  return stood;
}

bool is_foul(const model::History& history, const model::Rules& rules) {
  const model::Sensed* smell = smelt(history, rules);
  if (smell == nullptr) return false;
  return is_aerated(history.batch) ? smell->word != kEarthy.word : smell->word == kRotten.word;
}

std::optional<Finding> judge_open(const Study& study) {
  const model::History& history = study.history();
  if (study.contents().used_up()) return std::nullopt;
  if (is_aerated(history.batch)) {
    const auto stood = time_without_air(history, study.rules());
    if (!stood) return std::nullopt;
    Finding made = finding(kRuleOpen, Urgency::kToday, limits::open_aerated, study.rules());
    made.case_of = kCaseNoAir;
    made.job = kJobAir;
    made.value = model::Measured{"time without logged air", measure::value_of(*stood), ""};
    made.facts.set(kWithoutAir, *stood);
    made.ends = by_deeds({kAerated});
    return made;
  }
  const Deed* opened = standing_open(history);
  if (opened == nullptr || lid_of(history.batch) == Lid::kLoose) return std::nullopt;
  const double limit = study.rules()(limits::open_days).value;
  if (days_between(opened->day, history.today) <= limit) return std::nullopt;
  Finding made = overdue(kRuleOpen, kJobClose, Urgency::kToday, limits::open_days, opened->day,
                         "time open", study);
  made.case_of = kCaseLidOff;
  made.since = opened->day + date::days{full_days(Days{limit}) + 1};
  made.ends = by_deeds({kClosed});
  return made;
}

bool is_old(const Study& study) {
  const auto full_on = study.clock().full_on;
  if (!full_on || study.contents().used_up() || is_aerated(study.history().batch)) return false;
  return days_between(*full_on, study.history().today) > study.rules()(limits::old_days).value;
}

std::optional<Objection> against_ending(const Study& study) {
  if (!is_sealed(study.history()) || study.contents().used_up()) return std::nullopt;
  return Objection{true, std::string(kRuleVent), ending_words(), "common practice"};
}

std::optional<Finding> judge_old(const Study& study) {
  if (!is_old(study)) return std::nullopt;
  Finding made = overdue(kRuleOld, kJobUse, Urgency::kSoon, limits::old_days,
                         *study.clock().full_on, "time since it was ready", study);
  made.since = *study.clock().full_on + date::days{full_days(study.rules()(limits::old_days)) + 1};
  made.ends = {{.by = Ending::By::kTaking}, {.by = Ending::By::kEndOfBatch}};
  return made;
}

std::optional<Finding> judge_smell(const Study& study) {
  const model::Sensed* smell = smelt(study.history(), study.rules());
  if (smell == nullptr || smell->word == kEarthy.word || study.contents().used_up())
    return std::nullopt;
  Finding made = finding(kRuleSmell, Urgency::kSoon, "common practice");
  made.since = smell->day;
  made.facts.set(kSmelt, smell->word);
  made.facts.set(kFull, study.clock().full());
  made.ends = {{.by = Ending::By::kJudgement, .name = std::string(kSmell)},
               {.by = Ending::By::kDay,
                .day = smell->day + date::days{full_days(study.rules()(limits::smell_days)) + 1}}};
  if (is_aerated(study.history().batch)) {
    made.urgency = Urgency::kToday;
    made.case_of = kCaseNoAir;
    made.job = kJobAir;
  } else if (smell->word == kAmmonia.word) {
    made.case_of = kCaseAmmonia;
    made.job = kJobClose;
  } else if (smell->word == kRotten.word && study.clock().full()) {
    made.case_of = kCaseRotten;
    made.job = kJobWait;
  } else {
    return std::nullopt;  // sour or rotten on the way: a stage that a closed brew goes through
  }
  return made;
}

std::optional<Finding> judge_alkaline(const Study& study) {
  const auto read = latest(study.history(), kPh);
  if (!read || study.contents().used_up()) return std::nullopt;
  if (measure::Ph{*read} <= study.rules()(limits::alkaline_above)) return std::nullopt;
  Finding made = finding(kRuleAlkaline, Urgency::kNow, limits::alkaline_above, study.rules());
  made.job = kJobKeepOff;
  made.forbids = model::Forbids::kProduct;
  made.value = model::Measured{std::string(kPh), measure::value_of(measure::Ph{*read}), ""};
  made.facts.set(kPhNow, measure::Ph{*read});
  made.ends = {{.by = Ending::By::kReading, .name = std::string(kPh)}};
  return made;
}

void judge_manure(const Study& study, std::vector<Finding>& into) {
  const auto& raw = study.contents().raw;
  if (!raw || raw->sort == Raw::Sort::kUnknown) return;  // said where it is taken
  const model::History& history = study.history();
  const auto add = [&](std::string_view case_of, std::string_view job, Ending end) {
    Finding made = finding(kRuleManure, Urgency::kToday, limits::manure_contact, study.rules());
    made.case_of = case_of;
    made.job = job;
    made.facts.set(kRawMatter, raw->material);
    made.ends = {std::move(end)};
    into.push_back(std::move(made));
  };
  if (is_for_leaf(history.batch) && !study.contents().used_up()) {
    add(kCaseLeaf, kJobUse, {.by = Ending::By::kSetting, .name = std::string(kMadeFor)});
  }
  const auto as_plants = std::count_if(history.out.begin(), history.out.end(), [](const auto& one) {
    return one.material.group == model::group::kBrew && !one.material.is(kFlagManure) &&
           !one.material.is(kFlagAnimal);
  });
  if (as_plants > 0) {
    add(kCaseMisnamed, kJobCorrect,
        {.by = Ending::By::kTaking, .name = std::string(study.product())});
    into.back().facts.set(kLoads, static_cast<int>(as_plants));
  }
}

}  // namespace kinds::brew
