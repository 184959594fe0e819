#include <algorithm>
#include <array>

#include "kinds/pile/care.h"
#include "kinds/pile/foresight.h"
#include "kinds/pile/measures.h"
#include "kinds/pile/mix.h"
#include "kinds/pile/record.h"
#include "kinds/pile/score.h"
#include "kinds/pile/use.h"
#include "kinds/old_kind.h"
#include "kinds/registry.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"
#include "measure/text.h"

// A compost pile, windrow or turning drum.
namespace kinds {
namespace {

namespace limits = thresholds::pile;
using measure::Celsius;
using measure::Dimension;

constexpr std::array kQuantities{
    Quantity{"temperature",
             "temp",
             Dimension::kTemperature,
             -30,
             95,
             "in the pile, at a probe position",
             {},
             15},
    Quantity{"air", "ambient", Dimension::kTemperature, -40, 50, "of the air beside it"},
    Quantity{"moisture", "", Dimension::kFraction, 0, 1, "of mass as it lies"},
    Quantity{"oxygen", "o2", Dimension::kFraction, 0, 0.21, "of the air in the pile"},
    Quantity{"ph", "", Dimension::kAcidity, 3, 11, "of a slurry of it"},
    Quantity{"height", "", Dimension::kLength, 0, 6, "of the pile", {"ft", "m"}},
    Quantity{"volume", "", Dimension::kVolume, 0, 1e6, "of the pile"},
    Quantity{"selfheating", "dewar", Dimension::kTemperatureDifference, 0, 60,
             "the most that a sample in a vacuum flask warmed above the room"},
};

constexpr std::array kWords{
    Word{"turned", "turn", "", "mixed through, outside to inside"},
    Word{"watered", "wetted", "", "water was put on"},
    Word{"covered", "", "", "a cover was put on"},
    Word{"uncovered", "", "", "the cover was taken off"},
    Word{"aerated", "", "", "air was blown or poked in"},
    Word{"screened", "sieved", "", "sieved"},
    Word{"capped", "", "", "a layer of finished compost or chips was put over it"},
    Word{"dry", "", "moisture", "a squeezed handful falls apart"},
    Word{"damp", "moist", "moisture", "a squeezed handful holds and gives a drop"},
    Word{"soggy", "wet", "moisture", "water runs from a squeezed handful"},
    Word{"earthy", "sweet", "smell", "like a forest floor"},
    Word{"sour", "", "smell", "like vinegar"},
    Word{"ammonia", "", "smell", "sharp, of ammonia"},
    Word{"rotten", "putrid", "smell", "of rotten eggs or worse"},
};

constexpr std::string_view kStandards = "nop, fsma, pfrp, psrp, vector and none, joined by +";

constexpr std::array kSettings{
    SettingSpec{"method", Dimension::kNumber, "turned static vessel cold", "how it is made",
                "turned"},
    SettingSpec{"volume", Dimension::kVolume, "", "its volume when it was built"},
    SettingSpec{"standard", Dimension::kNumber, "text",
                "the treatment to show: nop, fsma, pfrp, psrp, vector or none; several joined by +",
                "nop"},
    SettingSpec{"cn", Dimension::kNumber, "", "carbon to nitrogen at the start, by a laboratory"},
};

void judge_standards(const std::vector<std::string>& unknown, model::Assessment& into) {
  if (unknown.empty()) return;
  model::Told made = finding("pile.standard", model::Urgency::kToday, "");
  made.words.says = fmt::format("its setting standard names {}, which is not known",
                          measure::listed(unknown, "and"));
  made.words.action = fmt::format("the known ones are {}", kStandards);
  into.findings.push_back(std::move(made));
}

model::Progress progress_of(const pile::Treatment& one, const model::History& history) {
  const measure::Printer print(history.units);
  std::string says;
  switch (one.outcome) {
    case pile::Outcome::kShown:
      says = fmt::format("shown on {}: {}", measure::day_words(*one.shown_on, history.today),
                         pile::count_words(one, print));
      break;
    case pile::Outcome::kNotYet:
      says = one.reason;
      if (one.earliest) {
        says +=
            fmt::format("; {} at the earliest", measure::day_words(*one.earliest, history.today));
      }
      break;
    case pile::Outcome::kCannot:
      says = fmt::format("{}: {}", pile::words(one.outcome), one.reason);
      break;
  }
  if (!one.other_reading.empty()) says += "; " + one.other_reading;
  const double share = one.window ? static_cast<double>(one.window->days) / one.wanted.days : 0;
  model::Progress made{one.name, says, std::nullopt};
  if (one.outcome != pile::Outcome::kCannot) made.share = std::min(1.0, share);
  return made;
}

std::string well_words(const pile::Known& known) {
  const measure::Printer print(known.history.units);
  std::string text(pile::word(known.at.stage));
  if (known.at.stage == pile::Stage::kUnread || known.at.stage == pile::Stage::kResting)
    return text;
  text += fmt::format(" at {}", print(Celsius{known.at.peak_now}));
  for (const pile::Treatment& one : known.treatments) {
    if (one.outcome == pile::Outcome::kShown) {
      text += fmt::format(", {} shown", one.name);
    } else if (one.window && one.outcome == pile::Outcome::kNotYet && !one.tally.met) {
      text += fmt::format(", {} of {} days for {}", one.window->days, one.wanted.days, one.name);
    }
  }
  if (known.at.stage == pile::Stage::kCuring) text += ", wants " + known.at.not_ready;
  return text;
}

// A pile's days, contents and treatments: what its findings and its forecasts start from.
class Judging {
 public:
  Judging(const model::History& history, const model::Rules& rules)
      : course_(pile::course_of(history)),
        inputs_(pile::inputs_of(history)),
        at_(pile::standing(history, rules, course_)),
        known_{history, rules, course_, inputs_, at_, treatments_} {
    const pile::Evidence evidence{history,
                                  rules,
                                  course_,
                                  inputs_,
                                  at_.stage == pile::Stage::kReady,
                                  pile::curing_words(at_, rules)};
    for (const pile::Standard one : pile::standards_of(history.batch, &unknown_)) {
      treatments_.push_back(pile::treat(one, evidence));
    }
  }
  Judging(const Judging&) = delete;
  Judging& operator=(const Judging&) = delete;

  const pile::Known& known() const { return known_; }
  const std::vector<std::string>& unknown_standards() const { return unknown_; }

 private:
  pile::Course course_;
  pile::Inputs inputs_;
  pile::Standing at_;
  std::vector<std::string> unknown_;
  std::vector<pile::Treatment> treatments_;
  pile::Known known_;  // refers to those above
};

model::Assessment assess_pile(const model::History& history, const model::Rules& rules) {
  const Judging judging(history, rules);
  const pile::Known& known = judging.known();
  model::Assessment assessment;
  assessment.stage = pile::word(known.at.stage);
  pile::judge_hot(known, assessment);
  // Turning, mixing or opening a pile that may smoulder gives it air: one order only, the safe one.
  if (!pile::near_fire(known)) {
    pile::judge_heating(known, assessment);
    pile::judge_moisture(known, assessment);
    pile::judge_smell(known, assessment);
    pile::judge_mix(known, assessment);
    pile::judge_cold(known, assessment);
    pile::judge_stopped(known, assessment);
    pile::judge_turning(known, assessment);
    pile::judge_ready(known, assessment);
  }
  pile::judge_unready(history, rules, assessment);
  judge_standards(judging.unknown_standards(), assessment);
  for (const pile::Treatment& one : known.treatments) {
    assessment.progress.push_back(progress_of(one, history));
  }
  if (known.at.stage == pile::Stage::kCuring) {
    assessment.progress.push_back({"curing", pile::curing_words(known.at, rules), std::nullopt});
  }
  assessment.well = well_words(known);
  return assessment;
}

void look_further(const model::History& history, const model::Rules& rules,
                  model::Assessment& into) {
  const Judging judging(history, rules);
  pile::foretell(judging.known(), into);
  pile::add_figures(judging.known(), into);
}

// Only the organic rule lifts the interval that it sets.
std::optional<std::string> still_raw(const model::Movement& /*in*/, const LookBack& look,
                                     const model::Rules& rules) {
  const model::History history = look();
  const pile::Course course = pile::course_of(history);
  const pile::Inputs inputs = pile::inputs_of(history);
  const pile::Standing at = pile::standing(history, rules, course);
  const pile::Treatment treatment = pile::treat(
      pile::Standard::kNop, {history, rules, course, inputs, at.stage == pile::Stage::kReady,
                             pile::curing_words(at, rules)});
  if (treatment.outcome == pile::Outcome::kShown) return std::nullopt;
  return fmt::format("{} was not shown to be treated when it was taken ({})", history.batch.code,
                     treatment.text);
}

constexpr std::array kPlotLimits{&limits::treat_from_info, &limits::hot_above_info};

ExpectedLoss pile_loss(model::Stuff stuff, const model::Movement& in, model::Day until,
                       const model::Rules& rules) {
  namespace loop = thresholds::loop;
  const double done =
      std::clamp(days_between(in.day, until) / rules(loop::loss_pile_days).value, 0.0, 1.0);
  return loss_of(stuff, {rules(loop::loss_pile_mass) * done, "as water vapour and gas"},
                 {rules(loop::loss_pile_carbon) * done, "as carbon dioxide"},
                 {rules(loop::loss_pile_nitrogen) * done, "as ammonia"});
}

std::optional<measure::Mistake> objects_to_setting(std::string_view key, std::string_view typed) {
  if (key != "standard") return std::nullopt;
  model::Batch batch;
  batch.settings.push_back({"standard", std::string(typed), std::nullopt});
  std::vector<std::string> unknown;
  pile::standards_of(batch, &unknown);
  if (unknown.empty()) return std::nullopt;
  return measure::Mistake{std::string(typed),
                          fmt::format("{} is no treatment standard known here; it takes {}",
                                      measure::quoted(unknown.front()), kStandards)};
}

}  // namespace

const OldKind kPileOld{
    .name = "pile",
    .meaning = "a compost pile, windrow or turning drum",
    .begun = "heap-3 method=turned volume='1 yd3' --place 'lower yard'",
    .quantities = kQuantities,
    .words = kWords,
    .settings = kSettings,
    .positions = "core edge top north south east west",
    .temperature = "temperature",
    .percentage = "moisture",
    .product = "compost",
    .rhythm = "temperature",
    .unread_after = &limits::unread_days_info,
    .keeps_mass = true,
    .learns = true,
    .wants_used = true,
    .assess = assess_pile,
    .look_further = look_further,
    .learn = pile::learn,
    .objects_to = pile::objection_to,
    .still_raw = still_raw,
    .loss = pile_loss,
    .at_use = pile::at_use,
    .objects_to_setting = objects_to_setting,
    .record = pile::record,
    .replay = pile::replay,
    .chart_limit = &limits::hot_above_info,
    .plot_limits = kPlotLimits,
};

}  // namespace kinds
