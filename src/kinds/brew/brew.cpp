#include <algorithm>
#include <array>

#include "kinds/brew/care.h"
#include "kinds/brew/clock.h"
#include "kinds/brew/contents.h"
#include "kinds/brew/taking.h"
#include "kinds/brew/use.h"
#include "kinds/old_kind.h"
#include "kinds/registry.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"

// A drum of liquid fertilizer: plants or manure steeped in water, with or without air.
namespace kinds {
namespace {

namespace limits = thresholds::brew;
using measure::Dimension;

constexpr std::array kQuantities{
    standing_still({"temperature", "temp", Dimension::kTemperature, -10, 60, "of the brew", {}, 5}),
    Quantity{"air", "ambient", Dimension::kTemperature, -40, 50, "of the air beside the drum"},
    Quantity{"ph", "", Dimension::kAcidity, 2.5, 10, "of the brew"},
    Quantity{"ec", "conductivity", Dimension::kConductivity, 0, 60,
             "of the brew, undiluted, at 25 °C"},
    Quantity{"nitrogen", "n", Dimension::kNumber, 0, 20000,
             "total N by a laboratory, mg/L undiluted"},
    Quantity{"phosphorus", "p", Dimension::kNumber, 0, 10000, "P by a laboratory, mg/L undiluted"},
    Quantity{"potassium", "k", Dimension::kNumber, 0, 30000, "K by a laboratory, mg/L undiluted"},
};

constexpr std::array kWords{
    Word{"stirred", "stir", "", "stirred to the bottom"},
    Word{"vented", "vent burped", "", "the gas was let out"},
    Word{"strained", "strain filtered", "", "the solids were strained out"},
    Word{"aerated", "aired", "", "air was bubbled through"},
    Word{"topped", "topped-up", "", "topped up with water"},
    Word{"opened", "", "", "the lid was taken off and left off"},
    Word{"closed", "sealed", "", "the lid was put on"},
    Word{"lively", "bubbling fizzing", "bubbling", "it bubbles by itself all the time"},
    Word{"slow", "", "bubbling", "a bubble now and then, or when stirred"},
    Word{"still", "quiet", "bubbling", "no bubbles, even when stirred"},
    Word{"earthy", "sweet", "smell", "like a forest floor"},
    Word{"sour", "", "smell", "like vinegar or silage"},
    Word{"ammonia", "", "smell", "sharp, of ammonia"},
    Word{"rotten", "putrid", "smell", "of rotten eggs or worse"},
};

constexpr std::array kSettings{
    SettingSpec{"method", Dimension::kNumber, "anaerobic aerated",
                "without air, or with air bubbled in", "anaerobic"},
    SettingSpec{"volume", Dimension::kVolume, "", "of the drum"},
    SettingSpec{"made_for", Dimension::kNumber, "soil leaf", "where it is to go", "soil"},
    SettingSpec{"base", Dimension::kNumber, "plant manure fish frass effluent",
                "what it is made of", "by what goes in"},
    SettingSpec{"lid", Dimension::kNumber, "sealed airlock loose", "what the gas has to pass",
                "sealed; loose where air is bubbled in"},
};

std::string stage_of(const brew::Contents& contents, const brew::Clock& clock, bool waits,
                     bool old) {
  if (contents.used_up()) return "used up";
  if (old) return "old";
  if (waits) return "still bubbling";
  return clock.full() ? "ready" : "brewing";
}

model::Assessment assess_brew(const model::History& history, const model::Rules& rules) {
  model::Assessment assessment;
  const brew::Contents contents = brew::contents_of(history, rules);
  const brew::Clock clock = brew::clock_of(history, rules, contents);
  // An aerated brew that was left without air, or smells so, is for no crop any more; that it had
  // air is for a log of it to say, which brew.open asks for.
  const bool stood = brew::hours_without_air(history, rules).has_value();
  const bool turned = brew::is_aerated(history.batch) && (stood || brew::is_foul(history, rules));
  if (auto ready = brew::judge_ready(history, rules, contents, clock); ready && !turned) {
    assessment.findings.push_back(std::move(*ready));
  }
  brew::judge_vent(history, rules, contents, clock, assessment);
  brew::judge_stir(history, rules, clock, assessment);
  brew::judge_open(history, rules, contents, assessment);
  const bool old = brew::judge_old(history, rules, contents, clock, assessment);
  brew::judge_smell(history, rules, contents, clock, assessment);
  brew::judge_manure(history, rules, contents, assessment);

  const bool waits = brew::waits_for_bubbling(history, rules, clock);
  assessment.stage = stage_of(contents, clock, waits, old);
  if (turned && !contents.used_up()) {
    const bool aired = history.last_deed("aerated") != nullptr;
    assessment.stage = brew::is_foul(history, rules) ? "foul"
                       : aired                       ? "without air"
                                                     : "air not logged";
  }
  const model::Progress brewing = brew::progress_of(history, rules, clock);
  assessment.well =
      fmt::format("{}, {}", assessment.stage, brewing.says.substr(0, brewing.says.find(';')));
  if (!contents.used_up()) {
    assessment.progress.push_back(brewing);
    if (clock.full() && !history.batch.ended && !turned) {
      for (auto& line : brew::use_lines(history, rules, contents))
        assessment.progress.push_back(line);
    }
    assessment.progress.push_back(brew::nutrient_line(history, contents));
  }
  if (auto ready = brew::foresee_ready(history, rules, clock))
    assessment.forecasts.push_back(*ready);
  assessment.measures = brew::measures_of(history, contents, clock);
  return assessment;
}

std::optional<Objection> object(bool refuses, std::string says, std::string_view source) {
  return Objection{refuses, "brew.banned", std::move(says), std::string(source)};
}

std::string_view product_now(const model::History& history) {
  const bool raw = std::any_of(history.in.begin(), history.in.end(), [](const auto& load) {
    return brew::is_raw_manure(load.material) || !load.manure.empty();
  });
  return raw ? "manure brew" : kBrew.carrying.product;
}

std::optional<Objection> brew_objects_to(const model::Material& material, const model::Batch& batch,
                                         const model::Rules&) {
  if (material.is("forbidden") || material.is("synthetic")) {
    return object(
        true,
        fmt::format("{} must not go into a brew: it would reach the beds with it", material.name),
        "common practice; 7 CFR 205.105 for synthetics in organic growing");
  }
  if (brew::is_raw_manure(material)) {
    const char* law = "7 CFR 205.203(c)(1)";
    if (brew::is_for_leaf(batch)) {
      return object(
          true,
          fmt::format(
              "this brew is made for leaves, and {} {} raw manure", material.name,
              material.is("unproven") ? "is not shown to be treated, so it counts as" : "is"),
          law);
    }
    return Objection{false, "brew.manure",
                     fmt::format("with {} in it the brew counts as raw manure: soil only, and the "
                                 "harvest waits",
                                 material.name),
                     law};
  }
  if (brew::feeds_germs(material, batch)) {
    return object(
        false,
        fmt::format("{} feeds harmful germs as well: such a brew is tested before it goes "
                    "on a crop",
                    material.name),
        brew::kSugarSource);
  }
  if (material.is("oil") || (material.is("animal") && !material.is("fish"))) {
    return object(false,
                  fmt::format("{} turns rancid in a brew and draws pests; a pile takes it better",
                              material.name),
                  "common practice");
  }
  if (material.is("salty")) {
    return object(false,
                  fmt::format("{} brings salt: read the EC before you pour it", material.name),
                  "common practice");
  }
  if (material.is("diseased")) {
    return object(
        false,
        fmt::format("{} may carry disease to the next bed: a brew does not heat", material.name),
        "common practice");
  }
  return std::nullopt;
}

std::optional<std::string> still_raw(const model::Movement& /*in*/, const LookBack& /*look*/,
                                     const model::Rules& /*rules*/) {
  return "brewing does not kill its germs";
}

std::optional<model::Load> brew_holds(const model::Movement& out, const LookBack& look,
                                      const model::Rules& rules) {
  const model::History history = look();
  return brew::load_of(out, history, brew::contents_of(history, rules));
}

std::vector<std::string> brew_at_use(const model::Movement& out, const model::History& history,
                                     const model::Rules& rules) {
  return brew::pouring_lines(out, history, rules, brew::contents_of(history, rules));
}

ExpectedLoss brew_loss(model::Stuff stuff, const model::Movement&, model::Day,
                       const model::Rules& rules) {
  if (stuff != model::Stuff::kNitrogen) return {};
  return {rules(limits::extract_nitrogen) * rules(limits::extract_lost).value, "as ammonia"};
}

}  // namespace

const OldKind kBrewOld{
    .name = "brew",
    .meaning = "a drum of liquid fertilizer",
    .begun = "drum-1 volume=55gal lid=airlock base=plant",
    .quantities = kQuantities,
    .words = kWords,
    .settings = kSettings,
    .positions = "",
    .temperature = "temperature",
    .percentage = "",
    .product = "plant brew",
    .rhythm = "",
    .unread_after = &limits::unread_days_info,
    .keeps_mass = true,
    .wants_provenance = true,
    .assess = assess_brew,
    .objects_to = brew_objects_to,
    .product_now = product_now,
    .objects_to_taking = brew::objects_to_taking,
    .still_raw = still_raw,
    .holds = brew_holds,
    .loss = brew_loss,
    .at_use = brew_at_use,
};

}  // namespace kinds
