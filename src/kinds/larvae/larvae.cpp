#include <array>

#include "kinds/finding.h"
#include "kinds/larvae/care.h"
#include "kinds/larvae/feeding.h"
#include "kinds/larvae/foresee.h"
#include "kinds/larvae/harvest.h"
#include "kinds/larvae/law.h"
#include "kinds/larvae/measures.h"
#include "kinds/larvae/sale.h"
#include "kinds/larvae/survival.h"
#include "kinds/registry.h"
#include "kinds/thresholds.h"

// A bin of black soldier fly larvae.
namespace kinds {
namespace {

namespace limits = thresholds::larvae;
using measure::Dimension;

constexpr measure::ShownIn kInMilligrams{"mg", "mg"};

constexpr std::array kQuantities{
    Quantity{"temperature",
             "temp",
             Dimension::kTemperature,
             -10,
             55,
             "of the feed the larvae live in, at a probe position",
             {},
             8},
    Quantity{"air", "ambient", Dimension::kTemperature, -40, 50, "of the air beside it"},
    Quantity{"moisture", "", Dimension::kFraction, 0, 1, "of what is in the bin"},
    Quantity{"dark", "prepupae", Dimension::kFraction, 0, 1,
             "share of larvae that have turned dark"},
    Quantity{"sample", "larva", Dimension::kMass, 1e-8, 400e-6,
             "mass of one larva: a counted handful, weighed, over its number", kInMilligrams},
    Quantity{"ph", "", Dimension::kAcidity, 2, 11, "of what is in the bin"},
    Quantity{"flies", "", Dimension::kCount, 0, 1e5, "other flies counted at it"},
    Quantity{"feed_moisture", "", Dimension::kFraction, 0, 1, "of the feed given"},
    Quantity{"frass_moisture", "", Dimension::kFraction, 0, 1, "of the frass taken out"},
    Quantity{"larvae_moisture", "", Dimension::kFraction, 0, 1, "of the larvae taken out"},
    Quantity{"young_moisture", "", Dimension::kFraction, 0, 1, "of the young larvae put in"},
    Quantity{"larvae_nitrogen", "", Dimension::kFraction, 0, 0.2,
             "nitrogen in the larvae's dry matter, by a laboratory"},
    Quantity{"dried_moisture", "", Dimension::kFraction, 0, 1, "of dried larvae"},
    Quantity{"frass_heat", "", Dimension::kTemperature, 0, 200, "that frass was heated to"},
    Quantity{"frass_held",
             "",
             Dimension::kDuration,
             0,
             30,
             "how long frass was held at that heat",
             {"hours", "hours"}},
    Quantity{"dead_weight", "", Dimension::kFraction, 0, 1, "dead insects in frass, by weight"},
    Quantity{"dead_volume", "", Dimension::kFraction, 0, 1, "dead insects in frass, by volume"},
};

constexpr std::array kWords{
    Word{"seeded", "stocked", "", "young larvae or eggs were put in"},
    Word{"stirred", "mixed", "", "stirred through, to let heat and wet out"},
    Word{"bedded", "bedding", "", "the bedding was renewed"},
    Word{"carded", "cardboard", "", "the cardboard that flies lay in was renewed"},
    Word{"cleaned", "", "", "the bin was emptied and cleaned"},
    Word{"dry", "", "moisture", "a squeezed handful falls apart"},
    Word{"damp", "moist", "moisture", "a squeezed handful holds and gives a drop"},
    Word{"wet", "soggy", "moisture", "water runs from a squeezed handful, or stands"},
    Word{"earthy", "sweet", "smell", "like soil or bran"},
    Word{"sour", "", "smell", "like vinegar"},
    Word{"ammonia", "", "smell", "sharp, of ammonia"},
    Word{"rotten", "putrid", "smell", "of rotten eggs or worse"},
};

constexpr std::array kSettings{
    SettingSpec{
        "area", Dimension::kArea, "", "of the container, seen from above", {}, {0.01, 1000}},
    SettingSpec{"bedding", Dimension::kNumber, "text", "what it is bedded with"},
    told_anew({"bedding_date", Dimension::kNumber, "date", "when the bedding was last renewed"}),
    told_anew({"seeded", Dimension::kCount, "", "how many young larvae were put in", {}, {1, 1e8}}),
    told_anew({"young", Dimension::kMass, "", "mass of the young larvae put in", {}, {1e-6, 100}}),
    told_anew({"eggs", Dimension::kMass, "", "mass of the eggs put in", {}, {1e-7, 10}}),
    told_anew({"age",
               Dimension::kDuration,
               "",
               "how old the young larvae were when put in",
               {},
               {0, 60}}),
    told_anew({"seed_date", Dimension::kNumber, "date", "when they were put in",
               "the day it is started"}),
    SettingSpec{"diet", Dimension::kNumber, "rich plain",
                "rich (grain with yeast, bread, mixed scraps) or plain (grain, peels, manure)",
                "rich"},
    SettingSpec{"law", Dimension::kNumber, "none us eu",
                "whose rules on feed hold, where larvae go to animals", "none"},
};

constexpr std::array kVague{Vague{
    "stinks", "stink smells smelly reeks smells-bad smells-off stinks-bad", "rotten ammonia sour"}};

std::string stage_of(const larvae::Course& course, const larvae::Warmth& warmth,
                     larvae::Comfort comfort, const larvae::Readiness& readiness,
                     const model::History& history) {
  if (history.today < course.seeded) return "waiting";
  if (comfort == larvae::Comfort::kHot) return "too hot";
  if (readiness.ready()) {
    return larvae::first_harvest(history, *readiness.since()) ? "harvesting" : "ready";
  }
  if (comfort == larvae::Comfort::kDormant) return "dormant";
  if (history.today < course.counts_from) return "hatching";
  if (comfort == larvae::Comfort::kSlow) return "slow";
  return warmth.days ? "growing" : "unread";
}

std::string well_words(const model::History& history, const larvae::Warmth& warmth,
                       const std::string& stage) {
  const measure::Printer print(history.units);
  std::string words = stage;
  const auto rolls = model::pooled_days(history.all("temperature"));
  if (!rolls.empty()) words += " at " + print(measure::Celsius{rolls.back().last});
  if (warmth.days) words += ", " + larvae::of_constant(warmth, print);
  return words;
}

model::Assessment assess_larvae(const model::History& history, const model::Rules& rules) {
  model::Assessment assessment;
  const auto weighings = larvae::weighings_of(history, rules);
  const larvae::Course course = larvae::course_of(history, rules, weighings);
  const larvae::Diet diet = larvae::diet_of(history.batch);
  const larvae::Warmth warmth =
      larvae::warmth_of(history, rules, course, diet, larvae::last_day(history));
  const auto ordeal = larvae::ordeal_of(history, rules, course);
  const auto readiness = larvae::judge_harvest(
      history, rules, course, diet, warmth, larvae::banned_caution(history, rules),
      ordeal ? larvae::ordeal_words(*ordeal, history, rules) : "", assessment);
  const bool ready = readiness.ready();
  const larvae::Comfort comfort = larvae::judge_temperature(history, rules, diet, assessment);
  larvae::judge_survival(history, rules, ordeal, assessment);
  if (!ready && !history.batch.ended) {
    larvae::foresee_harvest(history, rules, course, diet, warmth, assessment);
    larvae::foresee_larvae(history, rules, course, assessment);
  }
  if (!history.batch.ended) {
    larvae::judge_feeding(history, rules, course, comfort, ready, assessment);
  }
  larvae::judge_care(history, rules, warmth, ready, assessment);
  larvae::judge_samples(history, rules, weighings, assessment);
  larvae::judge_records(history, rules, course, assessment);
  larvae::judge_banned(history, rules, assessment);
  larvae::judge_sale(history, rules, assessment);
  const larvae::Yield yield = larvae::yield_of(history, rules, course);
  larvae::measure_conversion(history, yield, assessment);
  larvae::measure_growth(course, warmth, yield, weighings, assessment);
  larvae::measure_worth(history, rules, course, assessment);
  assessment.stage = stage_of(course, warmth, comfort, readiness, history);
  assessment.well = well_words(history, warmth, assessment.stage);
  return assessment;
}

std::optional<std::string> still_raw(const model::Movement& /*in*/, const LookBack& /*look*/,
                                     const model::Rules& /*rules*/) {
  return "larvae do not kill all of its germs";
}

constexpr std::array kPlotLimits{&limits::cold_below_info, &limits::hot_above_info};

ExpectedLoss larvae_loss(model::Stuff stuff, const model::Movement&, model::Day,
                         const model::Rules& rules) {
  namespace loop = thresholds::loop;
  return loss_of(stuff, {rules(loop::loss_larvae_mass), "as water vapour and gas"},
                 {rules(loop::loss_larvae_carbon), "breathed out as carbon dioxide"},
                 {rules(loop::loss_larvae_nitrogen), "as ammonia"});
}

// Worked out whole when it is first asked for; its sentences are written where they are found.
class LarvaeStudy final : public Study {
 public:
  using Study::Study;

  std::string stage() const override { return assessed().stage; }
  std::vector<model::Finding> findings() const override {
    return {assessed().findings.begin(), assessed().findings.end()};
  }
  model::Words words(const model::Finding& finding) const override {
    for (const model::Told& one : assessed().findings) {
      if (one.rule == finding.rule) return one.words;
    }
    return {};
  }
  std::string well() const override { return assessed().well; }
  std::vector<model::Progress> progress() const override { return assessed().progress; }
  std::vector<model::Forecast> forecasts() const override { return assessed().forecasts; }
  std::vector<model::Measure> figures() const override { return assessed().measures; }

 protected:
  std::vector<model::Told> worded() const override { return assessed().findings; }

 private:
  const model::Assessment& assessed() const {
    if (!assessed_) assessed_ = assess_larvae(history_, rules_);
    return *assessed_;
  }
  mutable std::optional<model::Assessment> assessed_;
};

constexpr std::string_view kNothingBurns = "nothing in it burns";

}  // namespace

const Kind kLarvae{
    .name = "larvae",
    .meaning = "a bin of black soldier fly larvae",
    .one = "a larvae bin",
    .begun = "bin-1 area=4ft2 seeded=5000 age=5d diet=rich",
    .vocabulary = {.quantities = kQuantities,
                   .words = kWords,
                   .settings = kSettings,
                   .positions = "core edge top",
                   .temperature = "temperature",
                   .rhythm = "temperature",
                   .unread_after = &limits::unread_days_info,
                   .daily = "temperature",
                   .vague = kVague},
    .drawing = {.plot_limits = kPlotLimits},
    .needs = {.finished = true},
    .carrying = {.product = "larvae",
                 .objects_to = larvae::objects_to_feed,
                 .still_raw = still_raw,
                 .loss = larvae_loss},
    .roles = {.holds_mass = true},
    .study = [](const model::History& history, const model::Rules& rules)
        -> std::unique_ptr<Study> { return std::make_unique<LarvaeStudy>(history, rules); },
    .hazards = {.gas = HazardAnswer::none("an open bin gives off no more than a smell"),
                .fire = HazardAnswer::none(kNothingBurns),
                .carbon_monoxide = HazardAnswer::none(kNothingBurns),
                .germs = HazardAnswer::rows(),
                .pressure = HazardAnswer::none("it is open"),
                .height = HazardAnswer::none("it is worked from the ground"),
                .bites_and_dust = HazardAnswer::rows(),
                .drinking = HazardAnswer::none("nobody drinks of it"),
                .electric = HazardAnswer::none("it has no wiring")},
};

}  // namespace kinds
