#include <array>

#include "kinds/brew/care.h"
#include "kinds/brew/facts.h"
#include "kinds/brew/says.h"
#include "kinds/brew/study.h"
#include "kinds/brew/taking.h"
#include "kinds/brew/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/hold.h"
#include "kinds/registry.h"
#include "kinds/thresholds.h"

// A drum of liquid fertilizer: plants or manure steeped in water, with or without air.
namespace kinds::brew {
namespace {

namespace limits = thresholds::brew;

std::optional<std::string> still_raw(const model::Movement& /*in*/, const LookBack& /*look*/,
                                     const model::Rules& /*rules*/) {
  return "brewing does not kill its germs";
}

// What the drum is said to be made of, or nothing tells: no load that went in has a trail of it.
std::optional<model::ManureTrail> own_raw(const LookBack& look) {
  const auto raw = contents_of(look()).raw;
  if (!raw || raw->recorded) return std::nullopt;
  return model::ManureTrail{raw->material, {}, because_words(*raw)};
}

ExpectedLoss loss(model::Stuff stuff, const model::Movement& /*in*/, model::Day /*until*/,
                  const model::Rules& rules) {
  if (stuff != model::Stuff::kNitrogen) return {};
  return {rules(limits::extract_nitrogen) * rules(limits::extract_lost).value, "as ammonia"};
}

// The piece, worked out when it is first asked for.
template <class T, class Make>
const T& once(std::optional<T>& kept, const Make& make) {
  if (!kept) kept = make();
  return *kept;
}

}  // namespace

const Clock& Study::clock() const {
  return once(clock_, [&] { return clock_of(history_, rules_, contents_); });
}

const Nutrients& Study::nutrients() const {
  return once(nutrients_, [&] { return nutrients_of(history_, rules_); });
}

const Dilution& Study::dilution() const {
  return once(dilution_, [&] { return dilution_of(*this); });
}

std::optional<Nitrogen> Study::nitrogen() const {
  if (const auto read = latest(history_, kNitrogen)) {
    return Nitrogen{science::MilligramsPerLitre{*read}, true};
  }
  if (nutrients().went_in.nitrogen.value <= 0) return std::nullopt;
  const auto content =
      science::nutrient_concentration(nutrients().dissolved.nitrogen, contents_.liquid);
  if (!content) return std::nullopt;
  return Nitrogen{*content, false};
}

bool Study::is_turned() const {
  if (!is_aerated(history_.batch)) return false;
  return time_without_air(history_, rules_) || is_foul(history_, rules_);
}

std::string Study::stage() const {
  if (contents_.used_up()) return "used up";
  if (is_turned()) {
    if (is_foul(history_, rules_)) return "foul";
    return history_.last_deed(kAerated) != nullptr ? "without air" : "air not logged";
  }
  if (is_old(*this)) return "old";
  if (waits_until()) return "still bubbling";
  return clock().full() ? "ready" : "brewing";
}

std::vector<model::Finding> Study::findings() const {
  std::vector<model::Finding> all;
  for (const auto judge :
       {judge_ready, judge_vent, judge_stir, judge_open, judge_old, judge_smell, judge_alkaline}) {
    if (auto one = judge(*this)) all.push_back(std::move(*one));
  }
  judge_manure(*this, all);
  return all;
}

std::vector<model::Finding> Study::by_calendar() const {
  std::vector<model::Finding> all;
  for (auto* judge : {judge_vent, judge_stir, judge_open, judge_old}) {
    if (auto one = judge(*this)) all.push_back(std::move(*one));
  }
  return all;
}

model::Words Study::words(const model::Finding& finding) const {
  return words_of(finding, *this);
}

std::string Study::well() const {
  return fmt::format("{}, {}", stage(), how_far_words(*this));
}

std::vector<model::Progress> Study::progress() const {
  if (contents_.used_up()) return {};
  std::vector<model::Progress> lines{kinds::progress("brewing", clock().equivalent.value,
                                                     clock().wanted.value, brewing_words(*this))};
  lines.front().briefly = left_words(*this);
  if (clock().full() && !history_.batch.ended && !is_turned()) {
    for (model::Progress& line : use_lines(*this)) lines.push_back(std::move(line));
  }
  lines.push_back(nutrient_line(*this));
  return lines;
}

std::vector<model::Forecast> Study::forecasts() const {
  const auto days = foresee_ready(history_, rules_, clock());
  if (!days) return {};
  return {{"ready",
           days->earliest,
           days->likely,
           days->latest,
           foreseen_words(*days, *this),
           {},
           ready_line(),
           "ready"}};
}

std::vector<model::Measure> Study::figures() const {
  return measures_of(*this);
}

std::string_view Study::product() const {
  if (!contents_.raw || contents_.raw->sort == Raw::Sort::kUnknown) return kPlantBrew;
  return contents_.raw->sort == Raw::Sort::kAnimal ? kAnimalBrew : kManureBrew;
}

// On crops; a pile takes what they do not.
bool Study::is_meant(model::Forbids what, const model::Movement& load) const {
  return what == model::Forbids::kProduct && is_to_crops(load);
}

std::optional<Objection> Study::against_taking(const model::Movement& load) const {
  return objects_to_taking(load, *this);
}

std::optional<Objection> Study::against_ending() const {
  return brew::against_ending(*this);
}

std::optional<model::Load> Study::holds(const model::Movement& load) const {
  return load_of(load, *this);
}

std::vector<std::string> Study::at_use(const model::Movement& load) const {
  // What must not be poured is not told how.
  return against_hold(*this, load) ? std::vector<std::string>{} : pouring_lines(load, *this);
}

std::vector<std::string_view> Study::circumstances(const Handled& /*handled*/) const {
  std::vector<std::string_view> all;
  if (is_sealed(history_)) all.push_back(kWhenSealed);
  if (is_aerated(history_.batch)) all.push_back(kWhenAerated);
  if (contents_.raw) all.push_back(kWhenRaw);
  return all;
}

}  // namespace kinds::brew

namespace kinds {
namespace {

constexpr std::array kBrewRemedies{
    Remedy{model::Danger::kBulging, brew::kVented, {}, brew::kRuleVent}};

}  // namespace

const Kind kBrew{
    .name = "brew",
    .meaning = "a drum of liquid fertilizer",
    .one = "",
    .begun = "drum-1 volume=55gal lid=airlock base=plant",
    .vocabulary = {.quantities = brew::kQuantities,
                   .words = brew::kWords,
                   .settings = brew::kSettings,
                   .temperature = brew::kTemperature.name,
                   .unread_after = &thresholds::brew::unread_days_info,
                   .daily = brew::kTemperature.name,
                   .vague = brew::kVague},
    .drawing = {.chapter = Chapter::kFeeding},
    .needs = {.provenance = true},
    .carrying = {.product = brew::kPlantBrew,
                 .objects_to = brew::objects_to,
                 .still_raw = brew::still_raw,
                 .own_raw = brew::own_raw,
                 .knows = [](const model::Movement&) { return Knows::kAsOfThen; },
                 .loss = brew::loss},
    .roles = {.holds_mass = true},
    .study = [](const model::History& history, const model::Rules& rules)
        -> std::unique_ptr<Study> { return std::make_unique<brew::Study>(history, rules); },
    .hazards = {.gas = HazardAnswer::rows(),
                .fire = HazardAnswer::none("what can burn is its gas, and the gas rows say so"),
                .carbon_monoxide = HazardAnswer::none("nothing in it burns or smoulders"),
                .germs = HazardAnswer::rows(),
                .pressure = HazardAnswer::rows(),
                .height = HazardAnswer::none("a drum is reached from the ground"),
                .bites_and_dust = HazardAnswer::none("it is wet and closed"),
                .drinking = HazardAnswer::none("nobody takes it for water: it stinks"),
                .electric = HazardAnswer::rows()},
    .remedies = kBrewRemedies,
};

}  // namespace kinds
