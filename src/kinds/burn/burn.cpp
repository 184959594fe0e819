#include <algorithm>
#include <array>
#include <cmath>

#include "kinds/burn/charge.h"
#include "kinds/burn/ember.h"
#include "kinds/burn/facts.h"
#include "kinds/burn/feedstock.h"
#include "kinds/burn/says.h"
#include "kinds/burn/study.h"
#include "kinds/burn/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/registry.h"
#include "kinds/thresholds.h"
#include "measure/text.h"

// A biochar burn, from the stacked feedstock to charged char.
namespace kinds::burn {
namespace {

namespace limits = thresholds::burn;
using measure::Days;
using measure::Fraction;
using model::Ending;
using model::Finding;
using model::Urgency;

template <class T, class Make>
const T& kept(std::optional<T>& piece, const Make& make) {
  if (!piece) piece = make();
  return *piece;
}

Finding laid(std::string_view rule, std::string_view job, Urgency urgency, const Study& study) {
  Finding made = finding(rule, urgency, limits::wet_above, study.rules());
  made.job = job;
  made.facts.set(kMoistureMost, study.rules()(limits::wet_above));
  made.ends = {{.by = Ending::By::kReading, .name = std::string(kMoisture)},
               {.by = Ending::By::kDeed, .name = std::string(kLit)}};
  return made;
}

// Whether it was felt to be wet, and not read since.
bool feels_wet(const model::History& history, const model::DayRoll* read) {
  const model::Sensed* felt = history.last_sensed(kWetness);
  return felt != nullptr && felt->word == kWet.word &&
         (read == nullptr || felt->at > read->last_at);
}

// Until when a reading of the stacked feedstock stands.
model::Day read_again_on(const model::DayRoll& read, const model::Rules& rules) {
  return read.day + date::days{full_days(rules(limits::wet_again))};
}

// `burn.wet` and its opposite, `burn.ready`, while the feedstock lies unlit.
std::optional<Finding> judge_feedstock(const Study& study) {
  const model::History& history = study.history();
  const model::Rules& rules = study.rules();
  const model::DayRoll* read = latest_day(history, kMoisture);
  if (feels_wet(history, read)) {
    Finding made = laid(kRuleWet, kJobDry, Urgency::kSoon, study);
    made.case_of = kCaseFelt;
    made.since = history.last_sensed(kWetness)->day;
    return made;
  }
  if (read == nullptr) return std::nullopt;
  const Fraction moisture{read->last};
  const model::Day again = read_again_on(*read, rules);
  const bool wet = moisture > rules(limits::wet_above);
  if (!wet && history.today >= again) return std::nullopt;
  Finding made = wet ? laid(kRuleWet, kJobDry,
                            history.today >= again ? Urgency::kToday : Urgency::kSoon, study)
                     : laid(kRuleReady, kJobLight, Urgency::kReady, study);
  made.value = model::Measured{"moisture", measure::value_of(moisture), ""};
  made.since = read->day;
  made.facts.set(kMoistureNow, moisture);
  made.facts.set(kMoistureBest, rules(limits::wet_best));
  made.facts.set(kMuchMethane, rules(limits::wet_methane));
  if (wet) {
    made.case_of = kCaseRead;
    made.due = again;
  } else {
    made.ends.push_back({.by = Ending::By::kDay, .day = again});
  }
  return made;
}

std::optional<Objection> objects_to(const model::Material& material, const model::Batch&,
                                    const model::Rules&) {
  if (is_foul(material)) {
    return Objection{
        true, std::string(kRuleBanned), foul_words(material.name),
        "common practice; open burning of such waste is against the law in most places"};
  }
  if (material.is(kFlagSynthetic)) {
    return Objection{false, std::string(kRuleBanned),
                     material.name + " makes char that organic beds may not take",
                     "7 CFR 205.105: synthetic substances in organic production"};
  }
  return std::nullopt;
}

// Fire ends what was stacked; what the char was charged with afterwards stays raw.
std::optional<std::string> still_raw(const model::Movement& in, const LookBack& look,
                                     const model::Rules&) {
  if (is_feedstock(in, course_of(look()))) return std::nullopt;
  return "char that was charged with it holds its germs";
}

// `burn.banned`: what is foul is taken out, put out, or its char kept off all that is eaten.
std::optional<Finding> judge_foul(const Study& study) {
  const std::string foul = foul_in(study.history(), study.course());
  if (foul.empty()) return std::nullopt;
  Finding made = finding(kRuleBanned, study.is_burning() ? Urgency::kNow : Urgency::kToday,
                         "common practice; OAR 340-264-0060");
  made.case_of = study.is_burning() ? kCaseAlight : study.is_laid() ? kCaseLaid : kCaseChar;
  made.job = kJobFoul;
  made.facts.set(kFoul, foul);
  made.ends = {{.by = Ending::By::kEndOfBatch}};
  return made;
}

// The name of a place with a roof or walls where it stands; empty: none that is known as such.
std::string indoors_at(const model::Batch& batch) {
  for (const std::string& word : measure::split(measure::folded(batch.place), ' ')) {
    if (std::find(kRoofed.begin(), kRoofed.end(), word) != kRoofed.end()) return batch.place;
  }
  return {};
}

// `burn.indoors`: what burns or glows under a roof fills it with carbon monoxide.
std::optional<Finding> judge_indoors(const Study& study) {
  const std::string where = indoors_at(study.history().batch);
  if (where.empty() || (!study.is_laid() && !study.may_hold_embers())) return std::nullopt;
  Finding made = finding(kRuleIndoors, Urgency::kNow, "CDC on carbon monoxide; common practice");
  made.job = kJobMove;
  made.facts.set(kWhere, where);
  made.ends = {{.by = Ending::By::kEndOfBatch}};
  return made;
}

ExpectedLoss burn_loss(model::Stuff stuff, const model::Movement&, model::Day,
                       const model::Rules& rules) {
  namespace loop = thresholds::loop;
  return loss_of(stuff, {rules(loop::loss_burn_mass), "burnt off, with the feedstock's water"},
                 {rules(loop::loss_burn_carbon), "burnt off as carbon dioxide"},
                 {rules(loop::loss_burn_nitrogen), "burnt off"});
}

Objection refused(std::string says, const model::Rules& rules) {
  return {true, std::string(kRuleEmber), std::move(says),
          rules.in_force(*limits::ember_settle.info).source};
}

}  // namespace

const Embers& Study::embers() const {
  return kept(embers_, [&] { return embers_of(history_, rules_, course_); });
}

const Account& Study::account() const {
  return kept(account_, [&] { return account_of(history_, course_); });
}

const Lasting& Study::lasting() const {
  return kept(lasting_, [&] { return lasting_of(*this); });
}

bool Study::is_burning() const {
  return course_.lit && !course_.quenched;
}

bool Study::is_laid() const {
  return !course_.had_fire() && !days_charged();
}

std::string Study::stage() const {
  if (is_burning() && !course_.charge) return "burning";
  if (const auto days = days_charged()) {
    return Days{static_cast<double>(*days)} < rules_(limits::charged_days) ? "charging" : "charged";
  }
  if (is_laid()) return "laid";
  if (embers().out) return "cold";
  return course_.quenched ? "quenched" : "opened";
}

std::vector<Finding> Study::findings() const {
  std::vector<Finding> all;
  const auto add = [&](std::optional<Finding> one) {
    if (one) all.push_back(std::move(*one));
  };
  add(judge_indoors(*this));
  add(judge_foul(*this));
  add(judge_fire(*this));
  add(judge_embers(*this));
  if (is_laid()) add(judge_feedstock(*this));
  judge_raw(*this, all);
  add(judge_charged_here(*this));
  judge_charged_elsewhere(*this, all);
  add(judge_dry(*this));
  return all;
}

std::vector<Finding> Study::by_calendar() const {
  std::vector<Finding> all;
  const auto add = [&](std::optional<Finding> one) {
    if (one) all.push_back(std::move(*one));
  };
  add(judge_fire(*this));
  add(judge_embers(*this));
  if (is_laid()) add(judge_feedstock(*this));
  add(judge_charged_here(*this));
  judge_charged_elsewhere(*this, all);
  return all;
}

model::Words Study::words(const Finding& finding) const {
  return words_of(finding, *this);
}

std::string Study::well() const {
  return well_words(*this);
}

std::vector<model::Progress> Study::progress() const {
  std::vector<model::Progress> lines;
  if (const auto from = course_.watched_from(); from && !embers().out && !history_.batch.ended) {
    lines.push_back(kinds::progress("cold and wet", hours_between(*from, history_.now),
                                    rules_(limits::ember_settle).value * 24,
                                    ember_progress(*this)));
  }
  const model::DayRoll* read = latest_day(history_, kMoisture);
  if (is_laid() && !feels_wet(history_, read)) {
    const bool stale = read != nullptr && Fraction{read->last} <= rules_(limits::wet_above) &&
                       history_.today >= read_again_on(*read, rules_);
    if (read == nullptr || stale)
      lines.push_back({"dry enough to light", moisture_progress(*this), std::nullopt});
  }
  if (const auto days = days_charged(); days && !account().all_gone()) {
    const Days wanted = rules_(limits::charged_days);
    lines.push_back(
        kinds::progress("charged", *days, wanted.value, charging_words(*days, wanted, *this)));
  }
  for (const Elsewhere& one : charging_elsewhere(*this)) {
    lines.push_back(kinds::progress("charged in " + one.load->to, one.days, rules_(one.needs).value,
                                    elsewhere_words(one, *this)));
  }
  if (!account().char_dry.value) return lines;
  lines.push_back({"char", yield_words(*this), std::nullopt});
  if (const auto balance = balance_of(*this))
    lines.push_back({"carbon", balance_words(*balance, *this), std::nullopt});
  return lines;
}

std::vector<model::Forecast> Study::forecasts() const {
  const auto days = days_charged();
  const Days wanted = rules_(limits::charged_days);
  if (!days || account().all_gone() || Days{static_cast<double>(*days)} >= wanted) return {};
  const auto whole_days = [](Days of) { return date::days{static_cast<int>(std::ceil(of.value))}; };
  const model::Day ready = course_.charge->day + whole_days(wanted);
  const date::days longest = std::max(whole_days(wanted), whole_days(rules_(limits::charged_pile)));
  return {{"charged",
           ready,
           ready,
           course_.charge->day + longest,
           charged_on_words(ready, *this),
           {},
           charged_line()}};
}

std::vector<model::Measure> Study::figures() const {
  return measures_of(*this);
}

std::optional<Objection> Study::against_taking(const model::Movement& load) const {
  if (!is_char(load)) return std::nullopt;
  if (const std::string foul = foul_in(history_, course_); !foul.empty())
    return Objection{true, std::string(kRuleBanned), foul_char_words(foul),
                     "US EPA on treated wood, from memory; common practice"};
  if (may_hold_embers()) return refused(not_out_words(*this), rules_);
  if (course_.had_fire()) return std::nullopt;
  return Objection{false, std::string(kRuleEmber), no_fire_words(*this), "common practice", true};
}

// What smokes, is warm or was not found cold and wet is not left to itself.
std::optional<Objection> Study::against_ending() const {
  if (!may_hold_embers()) return std::nullopt;
  return refused(ending_words(*this), rules_);
}

// Nothing burns before it is lit.
bool Study::loses_yet() const {
  return course_.lit || history_.batch.ended;
}

std::optional<std::string> Study::doubts(const Word& word, model::Instant at) const {
  const model::Deed* lit = history_.last_deed(kLit);
  if (word.word != kQuenched.word || lit == nullptr || at >= lit->at) return std::nullopt;
  return fmt::format("that is before {} was lit", history_.batch.code);
}

std::vector<std::string_view> Study::circumstances(const Handled& /*handled*/) const {
  std::vector<std::string_view> all;
  if (may_hold_embers()) all.push_back(kWhenNotOut);
  const Method method = method_of(history_.batch);
  if (method == Method::kRetort || method == Method::kUnsaid) all.push_back(kWhenClosed);
  if (course_.raw_manure) all.push_back(kWhenRaw);
  if (!indoors_at(history_.batch).empty()) all.push_back(kWhenIndoors);
  return all;
}

}  // namespace kinds::burn

namespace kinds {
namespace {

// While it is watched, smoke is what the fire's own rules are about.
constexpr std::array kBurnRemedies{Remedy{model::Danger::kSmoke, burn::kQuenched, burn::kRuleLit},
                                   Remedy{model::Danger::kSmoke, burn::kCold, burn::kRuleEmber}};

}  // namespace

const Kind kBurn{
    .name = "burn",
    .meaning = "a biochar burn, from stacked feedstock to charged char",
    .one = "",
    .begun = "burn-1 method=cone bucket=5gal",
    // A bare share is of the feedstock or of the char: it must be said. And nothing is asked for by
    // silence: after the quench burn.ember asks within hours, and cold char can lie for months.
    .vocabulary = {.quantities = burn::kQuantities,
                   .words = burn::kWords,
                   .settings = burn::kSettings,
                   .positions = "top middle bottom",
                   .temperature = burn::kTemperature},
    .drawing = {.chapter = Chapter::kHeat},
    .carrying = {.product = burn::kChar,
                 .objects_to = burn::objects_to,
                 .still_raw = burn::still_raw,
                 .loss = burn::burn_loss},
    .roles = {.makes_char = true, .counts_up = true},
    .study = [](const model::History& history, const model::Rules& rules)
        -> std::unique_ptr<Study> { return std::make_unique<burn::Study>(history, rules); },
    .hazards = {.gas = HazardAnswer::rows(),
                .fire = HazardAnswer::rows(),
                .carbon_monoxide = HazardAnswer::rows(),
                .germs = HazardAnswer::rows(),
                .pressure = HazardAnswer::rows(),
                .height = HazardAnswer::none("it is worked from the ground"),
                .bites_and_dust = HazardAnswer::rows(),
                .drinking = HazardAnswer::none("its water is for the quench"),
                .electric = HazardAnswer::none("no wire leads to it")},
    .remedies = kBurnRemedies,
};

}  // namespace kinds
