#include <algorithm>

#include "kinds/finding.h"
#include "kinds/larvae/care.h"
#include "kinds/larvae/facts.h"
#include "kinds/larvae/law.h"
#include "kinds/larvae/measures.h"
#include "kinds/larvae/sale.h"
#include "kinds/larvae/says.h"
#include "kinds/larvae/study.h"
#include "kinds/larvae/vocabulary.h"
#include "kinds/registry.h"
#include "kinds/rhythm.h"
#include "kinds/thresholds.h"
#include "model/purpose.h"

// A bin of black soldier fly larvae.
namespace kinds::larvae {
namespace {

namespace limits = thresholds::larvae;

std::optional<std::string> still_raw(const model::Movement& /*in*/, const LookBack& /*look*/,
                                     const model::Rules& /*rules*/) {
  return "larvae do not kill all of its germs";
}

constexpr std::array kPlotLimits{&limits::cold_below_info, &limits::hot_above_info};

ExpectedLoss loss(model::Stuff stuff, const model::Movement& /*in*/, model::Day /*until*/,
                  const model::Rules& rules) {
  namespace loop = thresholds::loop;
  return loss_of(stuff, {rules(loop::loss_larvae_mass), "as water vapour and gas"},
                 {rules(loop::loss_larvae_carbon), "breathed out as carbon dioxide"},
                 {rules(loop::loss_larvae_nitrogen), "as ammonia"});
}

constexpr std::string_view kNothingBurns = "nothing in it burns";

// The piece, worked out when it is first asked for.
template <class T, class Make>
const T& once(std::optional<T>& kept, const Make& make) {
  if (!kept) kept = make();
  return *kept;
}

}  // namespace

const std::vector<Weighing>& Study::weighings() const {
  return once(weighings_, [&] { return weighings_of(history_, rules_); });
}

const Course& Study::course() const {
  return once(course_, [&] { return course_of(history_, rules_, weighings()); });
}

const Diet& Study::diet() const {
  return once(diet_, [&] { return diet_of(history_.batch); });
}

const Warmth& Study::warmth() const {
  return once(warmth_,
              [&] { return warmth_of(history_, rules_, course(), diet(), last_day(history_)); });
}

const DarkShare& Study::dark() const {
  return once(dark_, [&] { return dark_share_of(history_, rules_); });
}

const Readiness& Study::readiness() const {
  return once(readiness_, [&] {
    return Readiness{warmth().reached, dark().stands ? dark().reached : std::nullopt};
  });
}

const std::optional<Ordeal>& Study::ordeal() const {
  return once(ordeal_, [&] { return ordeal_of(history_, rules_, course()); });
}

const std::optional<Warmest>& Study::warmest() const {
  return once(warmest_, [&] { return warmest_of(history_, rules_); });
}

const Feeding& Study::feeding() const {
  return once(feeding_, [&] { return feeding_of(history_, rules_, course()); });
}

const Yield& Study::yield() const {
  return once(yield_, [&] { return yield_of(history_, rules_, course(), weighings()); });
}

const Learned& Study::learned() const {
  return once(learned_, [&] { return learned_constant(history_, rules_, diet()); });
}

const std::optional<Foreseen>& Study::foreseen() const {
  return once(foreseen_, [&]() -> std::optional<Foreseen> {
    if (readiness().ready()) return std::nullopt;
    return foresee_harvest(history_, rules_, course(), diet(), warmth(), learned());
  });
}

std::vector<std::string> Study::kept_from_animals() const {
  return larvae::kept_from_animals(history_, history_.now);
}

std::string Study::stage() const {
  if (history_.today < course().seeded) return "waiting";
  if (comfort() == Comfort::kHot) return "too hot";
  if (readiness().ready())
    return first_harvest(history_, *readiness().since()) ? "harvesting" : "ready";
  if (comfort() == Comfort::kDormant) return "dormant";
  if (history_.today < course().counts_from) return "hatching";
  if (comfort() == Comfort::kSlow) return "slow";
  return warmth().days ? "growing" : "unread";
}

std::vector<model::Finding> Study::findings() const {
  std::vector<model::Finding> all;
  const auto add = [&](std::optional<model::Finding> one) {
    if (one) all.push_back(std::move(*one));
  };
  for (auto* judge : {judge_harvest, judge_temperature, judge_survival}) add(judge(*this));
  judge_feeding(*this, all);
  judge_care(*this, all);
  add(judge_samples(rules_, weighings()));
  judge_records(*this, all);
  add(judge_banned(*this));
  judge_sale(*this, all);
  return all;
}

std::vector<model::Finding> Study::by_calendar() const {
  std::vector<model::Finding> all;
  judge_renewals(*this, all);
  return all;
}

std::optional<Rhythm> Study::feed_rhythm() const {
  switch (advice_of(*this)) {
    case Advice::kHarvestFirst:
    case Advice::kTooCold:
    case Advice::kTooHot:
    case Advice::kNotSeeded:
    case Advice::kNotHatched:
    case Advice::kLookFirst:
      return std::nullopt;
    case Advice::kUnknown:
    case Advice::kLiesThere:
    case Advice::kFeed:
      break;
  }
  // A cool bin is fed little, as the morning says.
  if (comfort() == Comfort::kSlow) return std::nullopt;
  return feeding_of_late(history_, is_feed);
}

model::Words Study::words(const model::Finding& finding) const {
  return words_of(finding, *this);
}

std::string Study::well() const {
  return well_words(*this, stage());
}

std::vector<model::Progress> Study::progress() const {
  std::vector<model::Progress> lines;
  if (warmth().days) {
    lines.push_back(kinds::progress("harvest", warmth().total.value, warmth().constant.value,
                                    harvest_words(*this)));
    lines.back().briefly = harvest_briefly(*this);
  } else {
    lines.push_back({"harvest", harvest_words(*this), std::nullopt});
  }
  if (!history_.batch.ended) lines.push_back({"feed", feed_advice(*this), std::nullopt});
  if (!yield().complete) return lines;
  const auto dry = science::metrics_on_dry_matter(yield().run, yield().moistures);
  const std::string missing = missing_words(dry, *this);
  if (!missing.empty()) lines.push_back({"conversion", "not known: " + missing, std::nullopt});
  return lines;
}

std::vector<model::Forecast> Study::forecasts() const {
  if (readiness().ready()) return {};
  std::vector<model::Forecast> all;
  if (const auto& day = foreseen())
    all.push_back({"harvest",
                   day->earliest,
                   day->likely,
                   day->latest,
                   foreseen_words(*day, *this),
                   {},
                   harvest_line(),
                   "harvest"});
  if (const auto larvae = expected_of(yield().run.feed, learned_yield(history_, rules_)))
    all.push_back({"larvae", {}, {}, {}, expected_words(*larvae, *this)});
  return all;
}

std::vector<model::Measure> Study::figures() const {
  return measures_of(*this);
}

std::optional<Objection> Study::against_taking(const model::Movement& load) const {
  const auto purpose = model::purpose_of(load.purpose);
  if (purpose == model::Purpose::kEating || purpose == model::Purpose::kPets)
    return Objection{true, std::string(kRuleEaten), not_by_records_words(load.purpose),
                     "21 CFR part 117; FDA on insects as food, from memory"};
  return against_feeding(load, *this);
}

}  // namespace kinds::larvae

namespace kinds {

const Kind kLarvae{
    .name = "larvae",
    .meaning = "a bin of black soldier fly larvae",
    .one = "a larvae bin",
    .begun = "bin-1 area=4ft2 seeded=5000 age=5d diet=rich",
    .vocabulary = {.quantities = larvae::kQuantities,
                   .words = larvae::kWords,
                   .settings = larvae::kSettings,
                   .positions = "core edge top",
                   .temperature = larvae::kTemperature.name,
                   .rhythm = larvae::kTemperature.name,
                   .unread_after = &thresholds::larvae::unread_days_info,
                   .daily = larvae::kTemperature.name,
                   .vague = larvae::kVague},
    .drawing = {.plot_limits = larvae::kPlotLimits, .chapter = Chapter::kFeeding},
    .needs = {.finished = true, .provenance = true},
    .carrying = {.product = larvae::kLiveLarvae,
                 .objects_to = larvae::objects_to_feed,
                 .still_raw = larvae::still_raw,
                 .loss = larvae::loss},
    .roles = {.holds_mass = true},
    .study = [](const model::History& history, const model::Rules& rules)
        -> std::unique_ptr<Study> { return std::make_unique<larvae::Study>(history, rules); },
    .hazards = {.gas = HazardAnswer::none("an open bin gives off no more than a smell"),
                .fire = HazardAnswer::none(larvae::kNothingBurns),
                .carbon_monoxide = HazardAnswer::none(larvae::kNothingBurns),
                .germs = HazardAnswer::rows(),
                .pressure = HazardAnswer::none("it is open"),
                .height = HazardAnswer::none("it is worked from the ground"),
                .bites_and_dust = HazardAnswer::rows(),
                .drinking = HazardAnswer::none("nobody drinks of it"),
                .electric = HazardAnswer::none("it has no wiring")},
};

}  // namespace kinds
