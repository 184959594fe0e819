#include <algorithm>
#include <array>

#include "kinds/finding.h"
#include "kinds/pile/mix.h"
#include "kinds/pile/says.h"
#include "kinds/pile/study.h"
#include "kinds/pile/vocabulary.h"
#include "kinds/registry.h"
#include "kinds/thresholds.h"

// A compost pile, windrow or turning drum.
namespace kinds {
namespace {

namespace limits = thresholds::pile;
// Only the organic rule lifts the interval that it sets.
std::optional<std::string> still_raw(const model::Movement& /*in*/, const LookBack& look,
                                     const model::Rules& rules) {
  const model::History& history = look();
  const pile::Study study(history, rules);
  const pile::Treatment treatment = study.treatment(pile::Standard::kNop);
  if (treatment.outcome == pile::Outcome::kShown) return std::nullopt;
  return pile::still_raw_words(treatment, study);
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
  if (key != pile::kStandard) return std::nullopt;
  model::Batch batch;
  batch.settings.push_back({std::string(key), std::string(typed), std::nullopt});
  std::vector<std::string> unknown;
  pile::standards_of(batch, &unknown);
  if (unknown.empty()) return std::nullopt;
  return measure::Mistake{std::string(typed), pile::unknown_standard_words(unknown.front())};
}

constexpr std::array kPileRemedies{Remedy{model::Danger::kSmoke, {}, {}, pile::kRuleHot}};

}  // namespace

const Kind kPile{
    .name = "pile",
    .meaning = "a compost pile, windrow or turning drum",
    .one = "a pile",
    .begun = "heap-3 method=turned volume='1 yd3' --place 'lower yard'",
    .vocabulary = {.quantities = pile::kQuantities,
                   .words = pile::kWords,
                   .settings = pile::kSettings,
                   .positions = pile::kPositions,
                   .temperature = pile::kTemperature,
                   .percentage = pile::kMoisture,
                   .rhythm = pile::kTemperature,
                   .unread_after = &limits::unread_days_info,
                   .daily = pile::kTemperature,
                   .vague = pile::kVague,
                   .objects_to_setting = objects_to_setting},
    .drawing = {.limit = &limits::hot_above_info,
                .plot_limits = kPlotLimits,
                .chapter = Chapter::kHeat},
    .needs = {.finished = true, .provenance = true, .used = true, .learn = pile::learn},
    .carrying = {.product = "compost",
                 .objects_to = pile::objection_to,
                 .still_raw = still_raw,
                 .knows =
                     [](const model::Movement& out) {
                       return pile::goes_on_composting(out) ? Knows::kAsOfThen : Knows::kNothing;
                     },
                 .loss = pile_loss},
    .roles = {.holds_mass = true, .composts = true},
    .study = [](const model::History& history, const model::Rules& rules)
        -> std::unique_ptr<Study> { return std::make_unique<pile::Study>(history, rules); },
    .hazards = {.gas = HazardAnswer::rows(),
                .fire = HazardAnswer::rows(),
                .carbon_monoxide = HazardAnswer::none("what smoulders is left shut: see fire"),
                .germs = HazardAnswer::rows(),
                .pressure = HazardAnswer::none("nothing of it is sealed"),
                .height = HazardAnswer::none("it is worked from the ground"),
                .bites_and_dust = HazardAnswer::rows(),
                .drinking = HazardAnswer::none("nobody drinks of it"),
                .electric = HazardAnswer::none("it has no wiring")},
    .remedies = kPileRemedies,
};

}  // namespace kinds
