#include "kinds/pile/use.h"

#include <fmt/format.h>

#include <algorithm>

#include "kinds/pile/standards.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"
#include "measure/text.h"

namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using measure::Celsius;
using model::Urgency;

// What a pile lacks before its compost may go on a bed; empty: nothing.
struct Lack {
  std::string stage;      // "it was still hot (148 °F)"
  std::string treatment;  // "NOP was not shown"
  std::string reason;     // why it was not
  std::string text;       // the paragraph of that treatment

  bool any() const { return !stage.empty() || !treatment.empty(); }
  std::string briefly() const {
    return stage.empty() || treatment.empty() ? stage + treatment : stage + ", and " + treatment;
  }
};

std::string stage_lack(const Standing& at, const measure::Printer& print) {
  const std::string heat = fmt::format("({})", print(Celsius{at.peak_now}));
  switch (at.stage) {
    case Stage::kUnread:
      return "its temperature was never read";
    case Stage::kWarming:
      return fmt::format("it had just begun to warm {}", heat);
    case Stage::kNotHeating:
      return fmt::format("it never heated {}", heat);
    case Stage::kWarm:
    case Stage::kHot:
      return at.dipped ? fmt::format("it was still in its heat, just turned {}", heat)
                       : fmt::format("it was still {} {}", word(at.stage), heat);
    case Stage::kCooling:
      return fmt::format("it was cooling and had not cured {}", heat);
    case Stage::kCuring:
    case Stage::kResting:
      return "it had not cured: it wanted " + at.not_ready;
    case Stage::kReady:
      return "";
  }
  return "";
}

// Leaves and stalks alone may go on a bed uncomposted (7 CFR 205.203(c)(3)): of a ripe pile of them
// only a treatment that was asked for is missed.
bool has_to_be_treated(const model::History& history) {
  return history.batch.setting("standard") != nullptr ||
         std::any_of(history.in.begin(), history.in.end(), [](const model::Movement& one) {
           const model::Material& material = one.material;
           return material.is("manure") || material.is("animal") || material.is("unproven");
         });
}

Lack lack_of(const model::History& history, const model::Rules& rules) {
  const measure::Printer print(history.units);
  const Course course = course_of(history);
  const Inputs inputs = inputs_of(history);
  const Standing at = standing(history, rules, course);
  Lack lack{stage_lack(at, print), "", "", ""};
  if (lack.stage.empty() && !has_to_be_treated(history)) return lack;
  const Evidence evidence{
      history, rules, course, inputs, at.stage == Stage::kReady, curing_words(at, rules)};
  for (const Standard one : standards_of(history.batch, nullptr)) {
    const Treatment treatment = treat(one, evidence);
    if (treatment.outcome == Outcome::kShown) continue;
    lack.treatment = treatment.name + " was not shown";
    if (at.stage != Stage::kUnread) lack.reason = treatment.reason;
    lack.text = treatment.text;
    break;
  }
  return lack;
}

std::string harm_words(const Lack& lack) {
  return lack.stage.empty()
             ? "nothing shows that germs and weed seeds in it are dead"
             : "unfinished compost takes nitrogen from the soil and harms seeds and young roots";
}

bool is_compost(const model::Movement& out) {
  return out.material.group == "compost";
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

std::vector<std::string> at_use(const model::Movement& out, const model::History& history,
                                const model::Rules& rules) {
  if (!is_compost(out)) return {};
  const Lack lack = lack_of(history, rules);
  if (!lack.any()) return {};
  const std::string reason = lack.reason.empty() ? "" : fmt::format(" ({})", lack.reason);
  return {fmt::format("{}: {}{}. {}. {} (common practice)",
                      lack.stage.empty() ? "untreated by the records" : "not done yet",
                      lack.briefly(), reason, measure::capitalised(harm_words(lack)),
                      lack.stage.empty()
                          ? "Where manure went in, keep the bed as after raw manure"
                          : "Leave it in the pile until that is done, or keep seeds and young "
                            "plants away from it")};
}

void judge_unready(const model::History& history, const model::Rules& rules,
                   model::Assessment& into) {
  std::vector<std::string> told;
  for (auto at = history.out.rbegin(); at != history.out.rend(); ++at) {
    const model::Movement& out = *at;
    if (!is_compost(out) || out.to_kind != "bed") continue;
    if (days_between(out.day, history.today) > whole(rules(limits::unready_told))) break;
    if (std::find(told.begin(), told.end(), out.to) != told.end()) continue;
    const Lack lack = lack_of(as_it_was(history, out), rules);
    if (!lack.any()) continue;
    told.push_back(out.to);
    model::Told made =
        finding("pile.unready", Urgency::kToday,
                lack.text.empty() ? "common practice" : lack.text + "; common practice");
    made.words.says = fmt::format("{} went to {} on {} {}: {}", out.material.name, out.to,
                            measure::day_words(out.day, history.today),
                            lack.stage.empty() ? "untreated by the records" : "before it was done",
                            lack.briefly());
    made.words.why = harm_words(lack);
    made.words.action = lack.stage.empty()
                      ? fmt::format("where manure went in, keep {} as after raw manure", out.to)
                      : fmt::format(
                            "sow and plant nothing tender in {} for some weeks, and carry no more "
                            "until the pile is done",
                            out.to);
    into.findings.push_back(std::move(made));
  }
}

}  // namespace kinds::pile
