#include <array>

#include "kinds/old_kind.h"
#include "kinds/registry.h"
#include "kinds/tank/care.h"
#include "kinds/tank/measures.h"
#include "kinds/tank/water.h"
#include "kinds/thresholds.h"
#include "kinds/uses.h"
#include "kinds/finding.h"
#include "measure/text.h"

// A rain tank and the roof that fills it.
namespace kinds {
namespace {

namespace limits = thresholds::tank;
using measure::Dimension;
using measure::Litres;

constexpr std::array kQuantities{
    Quantity{"rain", "gauge", Dimension::kLength, 0, 0.5,
             "rain since the gauge was last emptied; several of a day add up", tank::kRain, 0,
             false, false, true},
    Quantity{"level", "full", Dimension::kFraction, 0, 1,
             "how full it is: a share, or a volume where its capacity was told"},
    Quantity{"held", "volume", Dimension::kVolume, 0, 1e6, "how much it holds", tank::kWater},
    Quantity{"depth", "", Dimension::kLength, 0, 10,
             "depth of its water, in a tank with upright walls whose height was told"},
};

constexpr std::array kWords{
    Word{"cleaned", "", "", "gutters, screens and lid were cleaned and looked at"},
    Word{"flushed", "", "", "the first-flush pipe was emptied"},
    Word{"emptied", "drained", "", "the tank was run empty"},
    Word{"mended", "repaired", "", "a leak or a part was mended"},
    Word{"clear", "", "water", "its water is clear"},
    Word{"cloudy", "murky", "water", "its water is cloudy"},
    Word{"green", "", "water", "its water is green"},
    Word{"foul", "smelly", "water", "its water smells"},
    Word{"wrigglers", "mosquitoes", "water", "mosquito larvae are in it"},
};

constexpr std::array kSettings{
    SettingSpec{"roof", Dimension::kArea, "", "the roof's outline on the ground, not its slope"},
    SettingSpec{"surface", Dimension::kNumber, "metal tile shingle flat green", "of the roof",
                "any of them, with the range wide"},
    SettingSpec{"runoff", Dimension::kFraction, "", "the share that runs off, where it is known",
                "by the surface"},
    SettingSpec{"capacity", Dimension::kVolume, "", "what the tank holds"},
    SettingSpec{"height", Dimension::kLength, "", "inside, up to the overflow"},
    SettingSpec{"flush", Dimension::kVolume, "", "what the first-flush pipe holds"},
    SettingSpec{"uses", Dimension::kNumber, "text",
                "what it is to give a day: 'beds 40gal, hens 3gal'"},
};

std::optional<Objection> objects_to_water(const model::Material& material, const model::Batch&,
                                          const model::Rules&) {
  if (material.group == "water") return std::nullopt;
  return Objection{true, "tank.banned",
                   fmt::format("{} has no place in a rain tank", material.name), "common practice"};
}

std::optional<measure::Mistake> objects_to_setting(std::string_view key, std::string_view typed) {
  if (key != "uses") return std::nullopt;
  const auto read = read_uses(typed, Dimension::kVolume, "beds 40gal, hens 3gal");
  return read ? std::nullopt : std::optional(read.mistake());
}

std::optional<Litres> capacity(const model::Batch& batch) {
  const auto told = batch.number("capacity");
  return told && told->si > 0 ? std::optional(Litres{told->si}) : std::nullopt;
}

std::string more_than_it_holds(Litres full, const model::Batch& batch,
                               const measure::Printer& print) {
  return fmt::format("more than the {} that {} holds", print(measure::value_of(full), tank::kWater),
                     batch.code);
}

// A level in gallons or litres is a share of the capacity.
measure::Result<double> reading_from(const Quantity& quantity, measure::Value typed,
                                     const model::Batch& batch, const measure::Printer& print) {
  if (quantity.name != "level" || typed.dimension != Dimension::kVolume) {
    return measure::Mistake{"", fmt::format("{} takes {}{}, not {}", quantity.name,
                                            measure::described(quantity.dimension),
                                            quantity.name == "level" ? " or a volume" : "",
                                            measure::described(typed.dimension))};
  }
  const auto full = capacity(batch);
  if (!full) {
    return measure::Mistake{
        "", fmt::format("the capacity of {} was not told, so a volume is no share of it; held= "
                        "records the volume",
                        batch.code)};
  }
  if (Litres{typed.si} > *full) {
    return measure::Mistake{
        "", print(typed, tank::kWater) + " is " + more_than_it_holds(*full, batch, print)};
  }
  return typed.si / full->value;
}

std::optional<std::string> objects_to_reading(const Quantity& quantity, double si,
                                              const model::Batch& batch,
                                              const measure::Printer& print) {
  const auto full = capacity(batch);
  if (quantity.name == "held" && full && Litres{si} > *full) {
    return more_than_it_holds(*full, batch, print);
  }
  const auto height = batch.number("height");
  if (quantity.name == "depth" && height && height->si > 0 && si > height->si) {
    return fmt::format("more than the {} that {} is high inside", print(*height), batch.code);
  }
  return std::nullopt;
}

model::Assessment assess_tank(const model::History& history, const model::Rules& rules) {
  model::Assessment assessment;
  tank::judge_care(history, rules, assessment);
  tank::judge_level(history, rules, assessment);
  tank::judge_supply(history, rules, assessment);
  tank::measure_water(history, rules, assessment);
  const auto holds = tank::holding(history, rules);
  const auto capacity = tank::capacity_of(history);
  if (!holds) {
    assessment.stage = "level unread";
  } else if (holds->held <= measure::Litres{0}) {
    assessment.stage = "empty";
  } else {
    const bool full = capacity && holds->held >= *capacity * rules(limits::full_at).value;
    assessment.stage = full ? "full" : "in use";
  }
  for (const model::Progress& one : assessment.progress) {
    if (one.goal == "water") assessment.well = one.says;
  }
  if (assessment.well.empty()) assessment.well = assessment.stage;
  assessment.well += tank::missing_words(history);
  return assessment;
}

}  // namespace

const OldKind kTankOld{
    .name = "tank",
    .meaning = "a rain tank",
    .begun = "tank-1 roof=400ft2 surface=metal capacity=500gal",
    .quantities = kQuantities,
    .words = kWords,
    .settings = kSettings,
    .positions = "",
    .temperature = "",
    .percentage = "level",
    .product = "rainwater",
    .rhythm = "",
    .unread_after = &limits::unread_days_info,
    .keeps_mass = false,  // rain makes it
    .assess = assess_tank,
    .objects_to = objects_to_water,
    .objects_to_setting = objects_to_setting,
    .reading_from = reading_from,
    .objects_to_reading = objects_to_reading,
    .sizing = tank::sizing,
    .charted = "level",
};

}  // namespace kinds
