#include <algorithm>

#include "kinds/finding.h"
#include "kinds/panel/care.h"
#include "kinds/panel/facts.h"
#include "kinds/panel/says.h"
#include "kinds/panel/study.h"
#include "kinds/panel/vocabulary.h"
#include "kinds/registry.h"
#include "kinds/thresholds.h"
#include "measure/amount.h"
#include "model/material_groups.h"
#include "science/weather/sun.h"

// A small set of solar panels with its battery.
namespace kinds::panel {
namespace {

namespace limits = thresholds::panel;
using measure::Fraction;
using measure::KilowattHours;

std::optional<measure::Mistake> objects_to_setting(std::string_view key, std::string_view typed) {
  if (key == kSun) {
    const auto read = read_sun(typed);
    return read ? std::nullopt : std::optional(read.mistake());
  }
  if (key == kLosses || key == kUses) {
    const bool losses = key == kLosses;
    const auto read = read_uses(typed, losses ? Dimension::kFraction : Dimension::kPower,
                                losses ? "soiling 3%, wiring 2%" : "pump 60W, lamp 10W");
    if (!read) return read.mistake();
    for (const Use& one : *read) {
      if (losses && one.si > 1) {
        return measure::Mistake{std::string(typed), one.name + " cannot lose more than 100 %"};
      }
    }
  }
  if (key == kTilt) {
    const auto degrees = measure::parse_number(typed);
    if (!degrees || *degrees < 0 || *degrees > 90) {
      return measure::Mistake{std::string(typed), "a tilt is 0 (flat) to 90 (upright), in degrees"};
    }
  }
  return std::nullopt;
}

std::optional<Objection> objects_to_all(const model::Material& material, const model::Batch&,
                                        const model::Rules&) {
  return Objection{
      true, "panel.banned",
      fmt::format("{} does not go into panels; what they made is logged: energy=1.2kWh",
                  material.name),
      "common practice"};
}

KilowattHours used_since(const model::History& history, model::Day first) {
  KilowattHours used;
  for (const model::Movement& movement : history.out) {
    if (movement.day < first || movement.amount.dimension != Dimension::kEnergy) continue;
    used += KilowattHours{movement.amount.si};
  }
  return used;
}

}  // namespace

const std::map<model::Day, Made>& Study::made() const {
  if (!made_) made_ = made_by_day(history_);
  return *made_;
}

std::optional<measure::Watts> Study::rated() const {
  const auto watts = history_.batch.number(kWatts);
  return watts && watts->si > 0 ? std::optional(measure::Watts{watts->si}) : std::nullopt;
}

std::optional<KilowattHours> Study::battery() const {
  const auto told = history_.batch.number(kBattery);
  return told && told->si > 0 ? std::optional(KilowattHours{told->si}) : std::nullopt;
}

Chemistry Study::chemistry() const {
  return history_.batch.text(kChemistry, "") == kOfLithium ? Chemistry::kLithium
                                                           : Chemistry::kLeadAcid;
}

Fraction Study::usable() const {
  return rules_(chemistry() == Chemistry::kLithium ? limits::battery_lithium
                                                   : limits::battery_lead_acid);
}

const std::vector<double>& Study::sun_hours() const {
  if (sun_hours_) return *sun_hours_;
  const std::string told = history_.batch.text(kSun, "");
  const auto read =
      told.empty() ? measure::Result<std::vector<double>>(std::vector<double>{}) : read_sun(told);
  sun_hours_ = read ? *read : std::vector<double>{};
  return *sun_hours_;
}

const std::vector<Use>& Study::losses() const {
  if (!losses_) losses_ = uses_or_none(history_.batch.text(kLosses, ""), Dimension::kFraction);
  return *losses_;
}

const std::vector<Use>& Study::uses() const {
  if (!uses_) uses_ = uses_or_none(history_.batch.text(kUses, ""), Dimension::kPower);
  return *uses_;
}

Fraction Study::loss() const {
  if (losses().empty()) return rules_(limits::loss_unsaid);
  std::vector<Fraction> shares;
  for (const Use& one : losses()) shares.push_back(Fraction{one.si});
  return science::combined_loss(shares);
}

std::optional<KilowattHours> Study::expected_on(model::Day day) const {
  const auto watts = rated();
  if (!watts || sun_hours().empty()) return std::nullopt;
  const auto month = static_cast<unsigned>(date::year_month_day{day}.month());
  return science::panel_energy(*watts, science::Hours{sun_hours()[month - 1]}, loss());
}

std::optional<KilowattHours> Study::a_day() const {
  if (const auto today = expected_on(history_.today)) return today;
  if (made().empty()) return std::nullopt;
  KilowattHours sum;
  for (const auto& [day, of_day] : made()) sum += of_day.energy;
  return sum / static_cast<double>(made().size());
}

std::optional<Carrying> Study::carrying() const {
  if (!battery()) return std::nullopt;
  Carrying made{};
  made.days = std::min(static_cast<int>(rules_(limits::use_days).value), history_.day_number());
  made.use = used_since(history_, history_.today - date::days{made.days - 1}) / made.days;
  if (made.use <= KilowattHours{0}) return std::nullopt;
  made.carries = *science::battery_days(*battery(), usable(), made.use);
  made.wanted = rules_(limits::battery_days);
  made.needed = science::battery_needed(made.use, made.wanted, usable());
  return made;
}

std::string Study::stage() const {
  return made().empty() ? "unread" : "running";
}

std::vector<model::Finding> Study::findings() const {
  std::vector<model::Finding> all;
  for (const auto judge : {judge_latest, judge_sun, judge_battery, judge_output}) {
    if (auto one = judge(*this)) all.push_back(std::move(*one));
  }
  return all;
}

model::Words Study::words(const model::Finding& finding) const {
  return words_of(finding, *this);
}

std::string Study::well() const {
  return made().empty() ? stage() : made_words(*this);
}

std::vector<model::Progress> Study::progress() const {
  std::vector<model::Progress> lines;
  if (const auto of_use = carrying()) {
    lines.push_back(kinds::progress("battery", of_use->carries.value, of_use->wanted.value,
                                    carrying_words(*of_use, *this)));
  }
  if (!made().empty()) {
    const auto& [day, of_day] = *made().rbegin();
    const auto should = expected_on(day);
    std::optional<double> share;
    if (should && *should > KilowattHours{0}) share = std::min(of_day.energy / *should, 1.0);
    lines.push_back({"made", made_words(*this), share});
  }
  if (const auto day = a_day()) {
    if (std::string says = uses_words(*day, *this); !says.empty())
      lines.push_back({"uses", std::move(says), std::nullopt});
  } else if (rated() && history_.latitude) {
    const KilowattHours most = science::panel_energy(
        *rated(), science::Hours{most_sun_hours(history_.today, history_)}, loss());
    lines.push_back({"at most", at_most_words(most, *this), std::nullopt});
  }
  return lines;
}

std::vector<model::Measure> Study::figures() const {
  std::vector<model::Measure> all;
  const auto add = [&](std::string key, std::string name, measure::Value value, std::string basis,
                       std::string label = "") {
    all.push_back(
        {"panel." + key, std::move(name), {"", value, std::move(label), {}}, std::move(basis)});
  };
  KilowattHours sum, of_expected, expected;
  for (const auto& [day, of_day] : made()) {
    sum += of_day.energy;
    const auto should = expected_on(day);
    if (!should) continue;
    of_expected += of_day.energy;
    expected += *should;
  }
  if (!made().empty()) add("made", "energy made", measure::value_of(sum), made_basis(*this));
  if (expected > KilowattHours{0}) {
    add("expected", "expected on those days", measure::value_of(expected), expected_basis(*this));
    add("share", "made of what was expected", measure::value_of(Fraction{of_expected / expected}),
        "");
  }
  const KilowattHours used = used_since(history_, model::Day::min());
  if (used > KilowattHours{0}) add("used", "energy used", measure::value_of(used), "as logged");
  for (const Use& use : uses()) {
    if (use.si <= 0 || made().empty()) continue;
    add("hours." + use.name, "hours of " + use.name + " it could carry",
        measure::value_of(measure::Number{sum.value * 1000 / use.si}),
        "all of what was made, by itself", "hours");
  }
  return all;
}

std::optional<Objection> Study::against_taking(const model::Movement& load) const {
  if (load.material.group == model::group::kEnergy) return std::nullopt;
  return Objection{true, "panel.banned",
                   fmt::format("{} does not come from panels", load.material.name),
                   "common practice"};
}

std::vector<std::string_view> Study::circumstances(const Handled& /*handled*/) const {
  if (!battery()) return {};
  return {kWhenBattery, chemistry() == Chemistry::kLithium ? kWhenLithium : kWhenLeadAcid};
}

}  // namespace kinds::panel

namespace kinds {

const Kind kPanel{
    .name = "panel",
    .meaning = "a small set of solar panels",
    .one = "",
    .begun = "shed-pv watts=300W battery=1.2kWh",
    .vocabulary = {.quantities = panel::kQuantities,
                   .words = panel::kWords,
                   .settings = panel::kSettings,
                   .percentage = panel::kCharge,
                   .unread_after = &thresholds::panel::unread_days_info,
                   .daily = panel::kDaily,
                   .objects_to_setting = panel::objects_to_setting},
    .drawing = {.quantity = panel::kEnergy, .chapter = Chapter::kWater, .beside = panel::kBeside},
    .carrying = {.product = "electricity", .objects_to = panel::objects_to_all},
    .study = [](const model::History& history, const model::Rules& rules)
        -> std::unique_ptr<Study> { return std::make_unique<panel::Study>(history, rules); },
    .hazards = {.gas = HazardAnswer::rows(),
                .fire = HazardAnswer::rows(),
                .carbon_monoxide = HazardAnswer::none("nothing in it is burnt for use"),
                .germs = HazardAnswer::none("it touches no manure or animal matter"),
                .pressure = HazardAnswer::none("nothing in it is held under pressure"),
                .height = HazardAnswer::rows(),
                .bites_and_dust = HazardAnswer::none("no more than wherever one works outdoors"),
                .drinking = HazardAnswer::none("it holds no water"),
                .electric = HazardAnswer::rows()},
};

}  // namespace kinds
