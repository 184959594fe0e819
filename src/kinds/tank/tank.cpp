#include <array>

#include "kinds/finding.h"
#include "kinds/registry.h"
#include "kinds/tank/care.h"
#include "kinds/tank/facts.h"
#include "kinds/tank/figures.h"
#include "kinds/tank/says.h"
#include "kinds/tank/sizing.h"
#include "kinds/tank/study.h"
#include "kinds/tank/vocabulary.h"
#include "kinds/thresholds.h"
#include "kinds/uses.h"
#include "model/material_groups.h"

// A rain tank and the roof that fills it.
namespace kinds {
namespace tank {

namespace limits = thresholds::tank;
using measure::Dimension;
using measure::Litres;

namespace {

std::optional<Objection> objects_to_water(const model::Material& material, const model::Batch&,
                                          const model::Rules&) {
  if (material.group == model::group::kWater) return std::nullopt;
  return Objection{true, std::string(kRuleBanned),
                   fmt::format("{} has no place in a rain tank", material.name), "common practice"};
}

std::optional<measure::Mistake> objects_to_setting(std::string_view key, std::string_view typed) {
  if (key != kUses.key) return std::nullopt;
  const auto read = read_uses(typed, Dimension::kVolume, "beds 40gal, hens 3gal");
  return read ? std::nullopt : std::optional(read.mistake());
}

std::string more_than_it_holds(Litres full, const Study& study) {
  return fmt::format("more than the {} that {} holds", water_words(full, study.print()),
                     study.history().batch.code);
}

// More than one day brings: a month's total typed as a day's would fill the tank on paper.
std::optional<std::string> doubts_rain(measure::Metres rain, const Study& study) {
  const model::Rules& rules = study.rules();
  if (rain > rules(limits::rain_day_most)) return much_rain_words(std::nullopt, study);
  if (rain <= rules(limits::rain_total_most)) return std::nullopt;
  const model::Series* before = study.history().find(kRain);
  if (before == nullptr || before->days.empty()) return much_rain_words(0, study);
  const int gap = days_between(before->days.back().day, study.history().today);
  if (gap < rules(limits::rain_gap).value) return std::nullopt;
  return much_rain_words(gap, study);
}

}  // namespace

bool Study::is_full(Litres held) const {
  const auto full = capacity();
  return full && held >= *full * rules_(limits::full_at).value;
}

std::string Study::stage() const {
  if (!holding()) return "level unread";
  if (holding()->held <= Litres{0}) return "empty";
  return is_full(holding()->held) ? "full" : "in use";
}

std::vector<model::Finding> Study::findings() const {
  std::vector<model::Finding> made;
  judge_care(*this, made);
  judge_level(*this, made);
  judge_supply(*this, made);
  return made;
}

std::vector<model::Finding> Study::by_calendar() const {
  std::vector<model::Finding> made;
  judge_care(*this, made);
  return made;
}

model::Words Study::words(const model::Finding& finding) const {
  return words_of(finding, *this);
}

std::string Study::well() const {
  return well_words(*this);
}

std::vector<model::Progress> Study::progress() const {
  return progress_of(*this);
}

std::vector<model::Forecast> Study::forecasts() const {
  return forecasts_of(*this);
}

std::vector<model::Measure> Study::figures() const {
  return figures_of(*this);
}

std::optional<model::Record> Study::record(RecordOf of) const {
  if (of != RecordOf::kSizing) return std::nullopt;
  return sizing_record(sizing_of(*this), *this);
}

// A level in gallons or litres is a share of the capacity.
std::optional<measure::Result<double>> Study::reading_from(const Quantity& quantity,
                                                           measure::Value typed) const {
  if (quantity.name != kLevel.name) return std::nullopt;
  if (typed.dimension != Dimension::kVolume) {
    return measure::Mistake{"", fmt::format("{} takes {} or a volume, not {}", quantity.name,
                                            measure::described(quantity.dimension),
                                            measure::described(typed.dimension))};
  }
  const auto full = capacity();
  if (!full) {
    return measure::Mistake{"", fmt::format("the capacity of {} was not given, so a volume cannot "
                                            "be turned into a share of it; held= "
                                            "records the volume",
                                            history_.batch.code)};
  }
  const Litres held{typed.si};
  if (held > *full) {
    return measure::Mistake{"",
                            water_words(held, print()) + " is " + more_than_it_holds(*full, *this)};
  }
  return held / *full;
}

std::optional<std::string> Study::doubts(const Quantity& quantity, double si) const {
  const auto full = capacity();
  if (quantity.name == kHeld.name && full && Litres{si} > *full) {
    return more_than_it_holds(*full, *this);
  }
  if (quantity.name == kRain.name) return doubts_rain(measure::Metres{si}, *this);
  const auto height = height_of(history_.batch);
  if (quantity.name == kDepth.name && height && measure::Metres{si} > *height) {
    return fmt::format("more than the {} that {} is high inside", print()(*height),
                       history_.batch.code);
  }
  return std::nullopt;
}

bool Study::is_meant(model::Forbids what, const model::Movement& load) const {
  return what == model::Forbids::kProduct && load.material.group == model::group::kWater;
}

std::optional<Objection> Study::against_taking(const model::Movement& load) const {
  constexpr std::string_view kRule = "tank.taken";
  if (load.material.group != model::group::kWater) {
    return Objection{true, std::string(kRule), not_of_a_tank_words(load.material.name),
                     "common practice"};
  }
  const auto full = capacity();
  const auto volume = load.volume();
  if (!full || !volume || *volume <= *full) return std::nullopt;
  return Objection{
      true, std::string(kRule),
      fmt::format("{} is {}", water_words(*volume, print()), more_than_it_holds(*full, *this)),
      "common practice"};
}

std::vector<std::string_view> Study::circumstances(const Handled& handled) const {
  if (handled.out == nullptr || !has_role(handled.out->to_kind, &Roles::ground)) return {};
  return {kToGround};
}

}  // namespace tank

namespace {

constexpr std::array kTankRemedies{Remedy{model::Danger::kDeadInWater, tank::kEmptied}};

}  // namespace

const Kind kTank{
    .name = "tank",
    .meaning = "a rain tank",
    .one = "",
    .begun = "tank-1 roof=400ft2 surface=metal capacity=500gal",
    .vocabulary = {.quantities = tank::kQuantities,
                   .words = tank::kWords,
                   .settings = tank::kSettings,
                   .percentage = tank::kLevel,
                   .unread_after = &thresholds::tank::unread_days_info,
                   .daily = tank::kLevel,
                   .objects_to_setting = tank::objects_to_setting},
    .drawing = {.quantity = tank::kLevel, .chapter = Chapter::kWater, .beside = tank::kBeside},
    .carrying = {.product = "rainwater", .objects_to = tank::objects_to_water},
    .roles = {.stores_water = true},
    .study = [](const model::History& history, const model::Rules& rules)
        -> std::unique_ptr<Study> { return std::make_unique<tank::Study>(history, rules); },
    .hazards = {.gas = HazardAnswer::rows(),
                .fire = HazardAnswer::none("nothing in it burns"),
                .carbon_monoxide = HazardAnswer::none("nothing in it burns"),
                .germs = HazardAnswer::rows(),
                .pressure = HazardAnswer::none("it stands open at its overflow"),
                .height = HazardAnswer::rows(),
                .bites_and_dust = HazardAnswer::none("nothing in it bites or makes dust"),
                .drinking = HazardAnswer::rows(),
                .electric =
                    HazardAnswer::none("no wiring belongs to it; a pump has its own label")},
    .remedies = kTankRemedies,
};

}  // namespace kinds
