#include <array>

#include "kinds/bed/given.h"
#include "kinds/bed/load.h"
#include "kinds/bed/measures.h"
#include "kinds/bed/needs.h"
#include "kinds/bed/wait.h"
#include "kinds/old_kind.h"
#include "kinds/registry.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"

// A bed, from one crop to the next: what was put on, when its harvest is safe, what it gave.
namespace kinds {
namespace {

namespace limits = thresholds::bed;
using measure::Dimension;

constexpr std::array kQuantities{
    standing_still({"temperature", "temp", Dimension::kTemperature, -20, 60, "of the soil", {}, 8}),
    Quantity{"moisture", "", Dimension::kFraction, 0, 0.9, "of the soil"},
    Quantity{"ph", "", Dimension::kAcidity, 3, 10, "of the soil"},
};

constexpr std::array kWords{
    Word{"planted", "sown sowed transplanted seeded", "", "the crop was sown or planted out"},
    Word{"weeded", "hoed", "", "weeds were taken out"},
    Word{"mulched", "", "", "the soil was covered"},
    Word{"watered", "irrigated", "", "it was watered"},
    Word{"dug", "incorporated tilled forked", "", "what lay on it was worked into the soil"},
    Word{"cleared", "", "", "the crop was taken off"},
    Word{"dry", "", "moisture", "the soil is dry a finger deep"},
    Word{"damp", "moist", "moisture", "it holds together and does not stick"},
    Word{"soggy", "wet", "moisture", "it sticks, or water stands on it"},
};

constexpr std::array kSettings{
    SettingSpec{"area", Dimension::kArea, "", "of the bed"},
    SettingSpec{"crop", Dimension::kNumber, "text", "what grows on it"},
    SettingSpec{"touches_soil", Dimension::kNumber, "yes no",
                "whether the part that is eaten touches soil", "yes"},
    SettingSpec{"eaten", Dimension::kNumber, "yes no", "whether people eat the crop", "yes"},
    SettingSpec{"days_to_harvest", Dimension::kDuration, "", "from planting to the first harvest"},
    SettingSpec{"expected", Dimension::kMass, "", "the harvest that is expected of it, fresh"},
    SettingSpec{"needs", Dimension::kNumber, "text",
                "what a soil test asks for: 'N 160, P2O5 50, K2O 75 lb/acre'"},
};

std::string stage_of(const model::History& history, const model::Rules& rules) {
  const auto wait = bed::wait_of(history, rules);
  if (wait && history.today < wait->safe) return "waiting";
  const model::Deed* planted = history.last_deed("planted");
  const model::Deed* cleared = history.last_deed("cleared");
  if (planted == nullptr || (cleared != nullptr && cleared->at > planted->at)) return "bare";
  for (const model::Movement& out : history.out) {
    if (out.material.group == "crop" && out.at >= planted->at) return "in harvest";
  }
  return "growing";
}

model::Assessment assess_bed(const model::History& history, const model::Rules& rules) {
  model::Assessment assessment;
  assessment.stage = stage_of(history, rules);
  bed::judge_wait(history, rules, assessment);
  bed::judge_nutrients(history, rules, assessment);
  bed::measure_bed(history, rules, assessment);
  const std::string crop = history.batch.text("crop", "");
  assessment.well = crop.empty() ? assessment.stage : crop + ", " + assessment.stage;
  return assessment;
}

std::optional<Objection> objects_to(const model::Material& material, const model::Batch& /*batch*/,
                                    const model::Rules& /*rules*/) {
  if (material.is("forbidden")) {
    return Objection{true, "bed.banned", material.name + " must not go on a bed that feeds people",
                     "common practice"};
  }
  if (material.is("synthetic")) {
    return Objection{false, "bed.banned", material.name + " ends organic growing on this bed",
                     "7 CFR 205.105: synthetic substances in organic production"};
  }
  return std::nullopt;
}

std::optional<Objection> objects_to_taking(const model::Movement& out,
                                           const model::History& history,
                                           const model::Rules& rules) {
  if (!out.material.is("edible-crop")) return std::nullopt;
  const auto wait = bed::wait_of(history, rules);
  if (!wait || history.today >= wait->safe) return std::nullopt;
  return Objection{
      true, "bed.wait",
      fmt::format("{} of {} is not to be eaten before {}, {} days after {} went on: {}; {}",
                  out.material.name, history.batch.code, measure::full_day_words(wait->safe),
                  wait->days, wait->load.material.name,
                  bed::chain_words(wait->trail, history.batch.code), wait->trail.because),
      wait->source};
}

std::vector<std::string> on_arrival(const model::Movement& in, const model::History& history,
                                    const model::Rules& rules) {
  std::vector<std::string> lines;
  if (auto brings = bed::brings_words(in, history, rules); !brings.empty()) {
    lines.push_back(std::move(brings));
  }
  if (auto rates = bed::rate_words(in, history, rules); !rates.empty()) {
    lines.push_back(std::move(rates));
  }
  if (const auto wait = bed::wait_after(in, history.batch, rules)) {
    lines.push_back(fmt::format(
        "raw manure: {}; {}. Dig it in; no harvest from {} before {} ({} days, {})",
        bed::chain_words(wait->trail, history.batch.code), wait->trail.because, history.batch.code,
        measure::full_day_words(wait->safe), wait->days, wait->source));
    if (in.from.empty() && in.material.is("unproven")) {
      lines.push_back(
          "does its supplier state a treatment (7 CFR 205.203(c)(2))? Make it a material of "
          "its own and add that: roundbook material NAME --new --group compost --treated 'the "
          "statement'");
    }
  } else if (!in.manure.empty()) {
    lines.push_back("raw manure: " + bed::chain_words(in.manure.front(), history.batch.code) +
                    "; nobody eats this crop, so no harvest waits");
  } else if (!in.material.statement.empty()) {
    lines.push_back(
        fmt::format("treated, by its supplier's statement ({}): no harvest waits for it (7 CFR "
                    "205.203(c)(2)). Keep the statement itself for whoever asks",
                    in.material.statement));
  } else if (in.material.is("treated")) {
    lines.push_back(
        "taken as treated by its maker, so no harvest waits for it: keep the maker's statement (7 "
        "CFR 205.203(c)(2))");
  } else if (in.material.group != "water") {
    lines.push_back("no raw manure in it by the records: no harvest waits for it");
  }
  return lines;
}

std::optional<measure::Mistake> objects_to_setting(std::string_view key, std::string_view typed) {
  if (key != "needs") return std::nullopt;
  const auto read = bed::read_needs(typed);
  return read ? std::nullopt : std::optional(read.mistake());
}

}  // namespace

const OldKind kBedOld{
    .name = "bed",
    .meaning = "a bed, from one crop to the next",
    .begun = "bed-1 crop=kale area=100ft2",
    .quantities = kQuantities,
    .words = kWords,
    .settings = kSettings,
    .positions = "",
    .temperature = "temperature",
    .percentage = "moisture",
    .product = "",
    .rhythm = "",
    .unread_after = nullptr,  // a bed rests for months; its harvests and feeds are its records
    .wants_provenance = true,
    .keeps_ground = true,
    .assess = assess_bed,
    .objects_to = objects_to,
    .objects_to_taking = objects_to_taking,
    .on_arrival = on_arrival,
    .objects_to_setting = objects_to_setting,
};

}  // namespace kinds
