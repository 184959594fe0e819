#include <array>

#include "kinds/panel/care.h"
#include "kinds/panel/sun.h"
#include "kinds/old_kind.h"
#include "kinds/registry.h"
#include "kinds/thresholds.h"
#include "kinds/uses.h"
#include "kinds/finding.h"
#include "measure/amount.h"

// A small set of solar panels with its battery.
namespace kinds {
namespace {

namespace limits = thresholds::panel;
using measure::Dimension;

constexpr std::array kQuantities{
    Quantity{"energy",
             "",
             Dimension::kEnergy,
             0,
             1000,
             "made on the day; several of a day add up",
             {},
             0,
             false,
             false,
             true},
    Quantity{"meter",
             "",
             Dimension::kEnergy,
             0,
             1e7,
             "the running total on the meter",
             {},
             0,
             false,
             true},
    Quantity{"charge", "battery", Dimension::kFraction, 0, 1, "how full the battery is"},
};

constexpr std::array kWords{
    Word{"cleaned", "wiped", "", "the panels were wiped clean"},
    Word{"checked", "", "", "mounts, cables and connectors were looked at"},
    Word{"clear", "sunny", "sky", "clear sky all day"},
    Word{"mixed", "", "sky", "sun and clouds"},
    Word{"overcast", "dull cloudy", "sky", "no sun to speak of"},
    Word{"snow", "", "sky", "snow on the panels"},
};

constexpr std::array kSettings{
    SettingSpec{"watts", Dimension::kPower, "", "what all panels together are rated"},
    SettingSpec{"tilt", Dimension::kNumber, "text", "degrees from level, 0 lying flat",
                "facing the sun"},
    SettingSpec{"sun", Dimension::kNumber, "text", "twelve peak sun hours a day, January first"},
    SettingSpec{"losses", Dimension::kNumber, "text", "what is lost: 'soiling 3%, wiring 2%'",
                "the rule panel.loss.unsaid"},
    SettingSpec{"battery", Dimension::kEnergy, "", "what the battery holds"},
    SettingSpec{"chemistry", Dimension::kNumber, "lead-acid lithium", "of the battery",
                "lead-acid"},
    SettingSpec{"uses", Dimension::kNumber, "text", "what hangs on it: 'pump 60W, lamp 10W'"},
};

std::optional<measure::Mistake> objects_to_setting(std::string_view key, std::string_view typed) {
  if (key == "sun") {
    const auto read = panel::read_sun(typed);
    return read ? std::nullopt : std::optional(read.mistake());
  }
  if (key == "losses" || key == "uses") {
    const bool losses = key == "losses";
    const auto read = read_uses(typed, losses ? Dimension::kFraction : Dimension::kPower,
                                losses ? "soiling 3%, wiring 2%" : "pump 60W, lamp 10W");
    if (!read) return read.mistake();
    for (const Use& one : *read) {
      if (losses && one.si > 1) {
        return measure::Mistake{std::string(typed), one.name + " cannot lose more than 100 %"};
      }
    }
  }
  if (key == "tilt") {
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

model::Assessment assess_panel(const model::History& history, const model::Rules& rules) {
  model::Assessment assessment;
  panel::judge_numbers(history, rules, assessment);
  panel::judge_battery(history, rules, assessment);
  panel::judge_output(history, rules, assessment);
  panel::measure_output(history, rules, assessment);
  assessment.stage = panel::made_by_day(history).empty() ? "unread" : "running";
  for (const model::Progress& one : assessment.progress) {
    if (one.goal == "made") assessment.well = one.says;
  }
  if (assessment.well.empty()) assessment.well = assessment.stage;
  return assessment;
}

}  // namespace

const OldKind kPanelOld{
    .name = "panel",
    .meaning = "a small set of solar panels",
    .begun = "shed-pv watts=300W battery=1.2kWh",
    .quantities = kQuantities,
    .words = kWords,
    .settings = kSettings,
    .positions = "",
    .temperature = "",
    .percentage = "charge",
    .product = "electricity",
    .rhythm = "",
    .unread_after = &limits::unread_days_info,
    .keeps_mass = false,
    .assess = assess_panel,
    .objects_to = objects_to_all,
    .objects_to_setting = objects_to_setting,
    .charted = "energy",
};

}  // namespace kinds
