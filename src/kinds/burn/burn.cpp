#include <array>

#include "kinds/burn/account.h"
#include "kinds/burn/charge.h"
#include "kinds/burn/course.h"
#include "kinds/burn/ember.h"
#include "kinds/burn/measures.h"
#include "kinds/old_kind.h"
#include "kinds/registry.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"

// A biochar burn, from the stacked feedstock to charged char.
namespace kinds {
namespace {

namespace limits = thresholds::burn;
using burn::Course;
using measure::Days;
using measure::Dimension;
using measure::Fraction;
using model::Urgency;

constexpr std::array kQuantities{
    Quantity{"temperature", "temp", Dimension::kTemperature, -40, 1400,
             "in the kiln while it burns, in the char after the quench"},
    Quantity{"moisture", "", Dimension::kFraction, 0, 0.8,
             "of the feedstock, of its mass as it lies"},
    Quantity{"char-volume", "", Dimension::kVolume, 0, 1e5, "of all the char that the burn gave"},
    Quantity{"char-mass", "", Dimension::kMass, 0, 1e5,
             "of all the char that the burn gave, wet or dry"},
    Quantity{"char-moisture", "", Dimension::kFraction, 0, 0.95,
             "of the char, of its mass as it lies"},
    Quantity{"carbon", "corg", Dimension::kFraction, 0.05, 1,
             "organic, of dry char, by a laboratory"},
    Quantity{"hydrogen", "", Dimension::kFraction, 0, 0.15, "of dry char, by a laboratory"},
    Quantity{"oxygen", "", Dimension::kFraction, 0, 0.6, "of dry char, by a laboratory"},
    Quantity{"hc", "h:c h/c", Dimension::kNumber, 0, 2,
             "hydrogen to organic carbon in moles, by a laboratory"},
};

constexpr std::array kWords{
    Word{"lit", "light lighted ignited", "", "the fire was lit"},
    Word{"quenched", "quench doused snuffed", "", "the fire was put out, with water or a lid"},
    Word{"opened", "open emptied", "", "the kiln was opened"},
    Word{"crushed", "crush", "", "the char was crushed"},
    Word{"charged", "charge soaked inoculated", "", "the char was put into liquid feed or compost"},
    Word{"watered", "wetted", "", "water was put on the char"},
    Word{"cold", "", "heat", "the char is cold to the hand, to the bottom"},
    Word{"warm", "hot", "heat", "the char is warm to the hand"},
    Word{"smoking", "glowing smoke", "heat", "the char smokes or glows"},
    Word{"dry", "", "moisture", "the feedstock snaps; the char dusts"},
    Word{"damp", "moist", "moisture", "it holds water and gives none"},
    Word{"wet", "soggy", "moisture", "it drips, or the feedstock is green"},
};

constexpr std::array kSettings{
    SettingSpec{
        "method", Dimension::kNumber, "pit cone drum retort mound gasifier",
        "how it is burnt: an open pit, cone or drum from the top, a closed retort, an earth mound, "
        "a gasifier stove"},
    SettingSpec{"kiln", Dimension::kNumber, "text", "which kiln"},
    SettingSpec{"feedstock", Dimension::kNumber, "text",
                "what is burnt, where no load of it is logged"},
    SettingSpec{"bucket", Dimension::kVolume, "",
                "what the bucket holds that char is measured with"},
    SettingSpec{"dry_weight", Dimension::kMass, "",
                "of one such bucketful of this char, dried and weighed"},
};

model::Told laid_finding(std::string_view rule, Urgency urgency, Fraction moisture,
                            const model::Rules& rules) {
  model::Told made = finding(rule, urgency, limits::wet_above, rules);
  made.value = model::Measured{"moisture", measure::value_of(moisture), ""};
  made.old_caution = burn::kFireCaution;
  return made;
}

model::Told too_wet(const model::History& history, const model::Rules& rules, Fraction moisture,
                       model::Day again) {
  const measure::Printer print(history.units);
  model::Told made = laid_finding(
      "burn.wet", history.today >= again ? Urgency::kToday : Urgency::kSoon, moisture, rules);
  made.words.says = fmt::format("the feedstock is too wet to burn clean: {}, above {}", print(moisture),
                          print(rules(limits::wet_above)));
  made.words.why = moisture > rules(limits::wet_methane)
                 ? fmt::format("above {} a burn lets off more methane than its char makes good",
                               print(rules(limits::wet_methane)))
                 : "it smokes, and its water takes the heat that would char it";
  made.words.action = "do not light it; split it, stack it under cover and read it again";
  made.due = again;
  return made;
}

// `burn.wet` and its opposite, `burn.ready`, while the feedstock lies unlit.
void judge_feedstock(const model::History& history, const model::Rules& rules,
                     model::Assessment& into) {
  const measure::Printer print(history.units);
  const model::DayRoll* read = burn::latest_day(history, "moisture");
  const model::Sensed* felt = history.last_sensed("moisture");
  if (felt != nullptr && felt->word == "wet" && (read == nullptr || felt->at > read->last_at)) {
    model::Told made = finding("burn.wet", Urgency::kSoon, limits::wet_above, rules);
    made.words.says = "the feedstock feels too wet to burn clean";
    made.words.why = "it smokes, and its water takes the heat that would char it";
    made.words.action =
        fmt::format("do not light it; dry it under cover and read its moisture: at most {}",
                    print(rules(limits::wet_above)));
    made.old_caution = burn::kFireCaution;
    into.findings.push_back(std::move(made));
    return;
  }
  if (read == nullptr) {
    into.progress.push_back(
        {"dry enough to light",
         fmt::format("feedstock moisture is not read: at most {}, below {} burns "
                     "cleanest",
                     print(rules(limits::wet_above)), print(rules(limits::wet_best))),
         std::nullopt});
    return;
  }
  const Fraction moisture{read->last};
  const int stands = static_cast<int>(rules(limits::wet_again).value);
  const model::Day again = read->day + date::days{stands};
  if (moisture > rules(limits::wet_above)) {
    into.findings.push_back(too_wet(history, rules, moisture, again));
    return;
  }
  if (history.today >= again) {
    into.progress.push_back(
        {"dry enough to light",
         fmt::format("feedstock was {}, {} ago: read it again before lighting", print(moisture),
                     days_words(days_between(read->day, history.today))),
         std::nullopt});
    return;
  }
  model::Told made = laid_finding("burn.ready", Urgency::kReady, moisture, rules);
  made.words.says = fmt::format("the feedstock is dry enough to light: {}, at most {}", print(moisture),
                          print(rules(limits::wet_above)));
  if (moisture >= rules(limits::wet_best)) {
    made.words.why =
        fmt::format("below {} it would let off least methane", print(rules(limits::wet_best)));
  }
  made.words.action = "light it on a day with little wind and no burn ban, then log lit";
  into.findings.push_back(std::move(made));
}

std::string stage_of(const Course& course, bool out, const model::History& history,
                     const model::Rules& rules) {
  if (course.lit && !course.quenched && !course.charge) return "burning";
  if (const auto days = burn::days_charged(course, history.today)) {
    return Days{static_cast<double>(*days)} < rules(limits::charged_days) ? "charging" : "charged";
  }
  if (course.quenched) return out ? "cold" : "quenched";
  return course.opened ? "opened" : "laid";
}

std::string well_words(const std::string& stage, const Course& course,
                       const model::History& history, const model::Rules& rules) {
  const measure::Printer print(history.units);
  const int charged = burn::days_charged(course, history.today).value_or(0);
  if (stage == "cold") return "cold and wet, to be crushed damp and charged";
  if (stage == "charging") {
    return fmt::format("charging, {} of {}", charged, print(rules(limits::charged_days)));
  }
  if (stage == "charged") return "charged for " + days_words(charged);
  if (stage != "laid") return stage;
  const auto moisture = burn::latest(history, "moisture");
  return moisture ? "laid, feedstock at " + print(Fraction{*moisture})
                  : "laid, feedstock moisture not read";
}

model::Assessment assess_burn(const model::History& history, const model::Rules& rules) {
  model::Assessment assessment;
  const Course course = burn::course_of(history);
  const burn::Account account = burn::account_of(history, course);
  burn::judge_fire(history, rules, course, assessment);
  const auto out = burn::judge_embers(history, rules, course, assessment);
  assessment.stage = stage_of(course, out.has_value(), history, rules);
  if (assessment.stage == "laid") judge_feedstock(history, rules, assessment);
  burn::judge_raw(history, rules, course, assessment);
  burn::judge_charged_here(history, rules, course, account, assessment);
  burn::judge_charged_elsewhere(history, rules, account, assessment);
  burn::judge_dry(history, rules, course, account, assessment);
  burn::tell_yield(history, rules, course, account, assessment);
  burn::measure_burn(history, rules, course, account, assessment);
  assessment.well = well_words(assessment.stage, course, history, rules);
  return assessment;
}

std::optional<Objection> object(const model::Material& material, const model::Batch& /*batch*/,
                                const model::Rules& /*rules*/) {
  if (material.is("forbidden")) {
    return Objection{
        true, "burn.banned",
        material.name + " must not be burnt: its smoke and its ash can be poisonous",
        "common practice; open burning of such waste is against the law in most places"};
  }
  if (material.is("synthetic")) {
    return Objection{false, "burn.banned",
                     material.name + " makes char that organic beds may not take",
                     "7 CFR 205.105: synthetic substances in organic production"};
  }
  return std::nullopt;
}

// Fire ends what was stacked; what the char was charged with afterwards stays raw.
std::optional<std::string> still_raw(const model::Movement& in, const LookBack& look,
                                     const model::Rules& /*rules*/) {
  const Course course = burn::course_of(look());
  if (burn::is_feedstock(in, course)) return std::nullopt;
  return "char that was charged with it holds its germs";
}

ExpectedLoss burn_loss(model::Stuff stuff, const model::Movement&, model::Day,
                       const model::Rules& rules) {
  namespace loop = thresholds::loop;
  return loss_of(stuff, {rules(loop::loss_burn_mass), "burnt off, with the feedstock's water"},
                 {rules(loop::loss_burn_carbon), "burnt off as carbon dioxide"},
                 {rules(loop::loss_burn_nitrogen), "burnt off"});
}

std::optional<std::string> doubts_deed(const Word& word, model::Instant at,
                                       const model::History& history) {
  const model::Deed* lit = history.last_deed("lit");
  if (word.word != "quenched" || lit == nullptr || at >= lit->at) return std::nullopt;
  return fmt::format("that is before {} was lit", history.batch.code);
}

// Nothing burns before it is lit.
bool was_lit(const model::History& history) {
  return history.last_deed("lit") != nullptr || history.batch.ended;
}

}  // namespace

const OldKind kBurnOld{
    .name = "burn",
    .meaning = "a biochar burn, from stacked feedstock to charged char",
    .begun = "burn-1 method=cone bucket=5gal",
    .quantities = kQuantities,
    .words = kWords,
    .settings = kSettings,
    .positions = "top middle bottom",
    .temperature = "temperature",
    .percentage = "",  // of the feedstock or of the char: it must be said
    .product = "char",
    .rhythm = "",
    .unread_after =
        nullptr,  // after the quench burn.ember asks within hours; cold char can lie for months
    .assess = assess_burn,
    .objects_to = object,
    .objects_to_taking = burn::objects_to_taking,
    .still_raw = still_raw,
    .loss = burn_loss,
    .loses_yet = was_lit,
    .counts_up = true,
    .doubts_deed = doubts_deed,
};

}  // namespace kinds
