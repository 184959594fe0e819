#include "kinds/pile/mix.h"

#include <algorithm>
#include <array>

#include "kinds/finding.h"
#include "kinds/pile/care.h"
#include "kinds/pile/says.h"
#include "kinds/pile/vocabulary.h"
#include "kinds/thresholds.h"

namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using measure::Fraction;
using measure::Kilograms;
using measure::Number;
using model::Urgency;

constexpr double kInside = 0.25;

double inside(double edge, double best) {
  return edge + kInside * (best - edge);
}

science::MixProgram program_for(const std::vector<science::Ingredient>& mix,
                                const model::Rules& rules) {
  const MixRanges ranges = mix_ranges(rules);
  science::MixProgram program;
  for (const science::Ingredient& one : mix) program.candidates.push_back(science::already_in(one));
  const double ratio = ranges.best_c_to_n.value, wet = ranges.best_moisture.value;
  program.c_to_n = {Number{inside(ranges.c_to_n.at_least->value, ratio)},
                    Number{inside(ranges.c_to_n.at_most->value, ratio)}};
  program.moisture = {Fraction{inside(ranges.moisture.at_least->value, wet)},
                      Fraction{inside(ranges.moisture.at_most->value, wet)}};
  return program;
}

bool usable(const science::Ingredient& one) {
  return one.moisture.value >= 1 || (one.carbon && one.nitrogen);
}

// Materials that most sites can get, for when what the pile was made of does not do it.
constexpr std::array<std::string_view, 7> kCommon{
    "water", "leaves", "straw", "coffee grounds", "grass clippings", "hen manure", "wood chips"};

std::vector<model::Material> at_hand(const Study& study) {
  std::vector<model::Material> found;
  const auto add = [&](const model::Material& material) {
    const bool has = std::any_of(found.begin(), found.end(),
                                 [&](const auto& one) { return one.name == material.name; });
    // No dead animal, meat or fish is ever advised: what to do with it is the law's to say.
    const bool animal = material.is(kFlagAnimal) && material.group != kGroupMineral;
    if (!has && !animal && !material.is(kFlagForbidden)) found.push_back(material);
  };
  for (const model::Material& one : study.inputs().materials) add(one);
  if (study.history().finished) {
    for (const model::History& other : *study.history().finished) {
      for (const model::Movement& one : other.in) add(one.material);
    }
  }
  for (const model::Material& one : model::catalogue()) {
    if (one.name == kWater) add(one);
  }
  return found;
}

std::vector<model::Material> common() {
  std::vector<model::Material> found;
  for (const std::string_view name : kCommon) {
    for (const model::Material& one : model::catalogue()) {
      if (one.name == name) found.push_back(one);
    }
  }
  return found;
}

// Of those, what any batch of the site was given.
std::vector<model::Material> used_of(const Study& study) {
  std::vector<model::Material> found = common();
  std::erase_if(found, [&](const model::Material& one) {
    return one.name != kWater &&
           (!study.history().used || study.history().used->count(one.name) == 0);
  });
  return found;
}

// What of an addition has never gone into any batch of the site.
std::vector<std::string> unused_of(const Study& study, const Addition& addition) {
  std::vector<std::string> unused;
  const auto& materials = study.inputs().materials;
  for (const auto& part : addition.materials) {
    const std::string& name = part.first;
    const bool here = name == kWater ||
                      (study.history().used && study.history().used->count(name) > 0) ||
                      std::any_of(materials.begin(), materials.end(),
                                  [&](const auto& one) { return one.name == name; });
    if (!here) unused.push_back(name);
  }
  return unused;
}

// Whether the mix still says how wet the pile is: nobody has read, felt or watered it since.
bool mix_tells_moisture(const Study& study) {
  if (study.inputs().left_out.value > 0 || !study.inputs().unweighed.empty()) return false;
  const model::Instant last = study.history().in.back().at;
  for (const model::Series* series : study.history().all(kMoisture)) {
    if (series->last->at >= last) return false;
  }
  const model::Sensed* felt = study.history().last_sensed(kSenseMoisture);
  const model::Deed* watered = study.history().last_deed(kWatered);
  return (felt == nullptr || felt->at < last) && (watered == nullptr || watered->at < last);
}

// The limits that the mix is outside of.
struct Off {
  std::optional<Number> ratio{};
  std::optional<Fraction> moisture{};
  bool high = false, wet = false;
};

Off off_range(const Study& study) {
  Off off;
  const MixRanges ranges = mix_ranges(study.rules());
  const StartRatio& ratio = study.ratio();
  if (ratio.value && !ratio.measured) {
    off.high = *ratio.value > *ranges.c_to_n.at_most;
    if (off.high) off.ratio = ranges.c_to_n.at_most;
    if (*ratio.value < *ranges.c_to_n.at_least) off.ratio = ranges.c_to_n.at_least;
  }
  if (study.inputs().blend && mix_tells_moisture(study)) {
    const Fraction moisture = study.inputs().blend->moisture;
    off.wet = moisture > *ranges.moisture.at_most;
    if (off.wet) off.moisture = ranges.moisture.at_most;
    if (moisture < *ranges.moisture.at_least) off.moisture = ranges.moisture.at_least;
  }
  return off;
}

model::Finding mix_finding(const Off& off, const Study& study) {
  const model::Day last = study.history().in.back().day;
  const Urgency urgency = last == study.history().today ? Urgency::kSoon : Urgency::kToday;
  const science::Blend& blend = *study.inputs().blend;
  model::Finding made;
  if (off.ratio) {
    made = finding(kRuleMix, urgency, off.high ? limits::mix_cn_most : limits::mix_cn_least,
                   study.rules());
    made.limit->quantity = kStartRatio.key;
    set_value(made, kStartRatio, measure::value_of(*blend.c_to_n), "C:N");
    made.facts.set(kRatio, *blend.c_to_n);
    made.facts.set(kRatioLimit, *off.ratio);
  } else {
    made = measured(kRuleMix, urgency,
                    off.wet ? limits::mix_moisture_most : limits::mix_moisture_least, study,
                    kMoisture);
    set_value(made, kMoisture, measure::value_of(blend.moisture));
  }
  if (off.moisture) {
    made.facts.set(kMoistureOfMix, blend.moisture);
    made.facts.set(kMoistureLimit, *off.moisture);
  }
  made.since = last;
  made.job = kJobMix;
  made.ends = {{model::Ending::By::kAdding}};
  return made;
}

}  // namespace

std::optional<Addition> addition_for(const std::vector<science::Ingredient>& mix,
                                     const std::vector<model::Material>& hand,
                                     const model::Rules& rules) {
  science::MixProgram program = program_for(mix, rules);
  std::vector<std::string> names;
  std::vector<science::MixCandidate> offers;
  for (const model::Material& one : hand) {
    const auto ingredient = ingredient_of(one, Kilograms{0});
    if (!ingredient || !usable(*ingredient)) continue;
    names.push_back(one.name);
    offers.push_back(science::to_buy(*ingredient, Number{1}));
  }
  const std::size_t own = program.candidates.size();
  std::optional<Addition> best;
  double least = 0;
  for (std::size_t i = 0; i < offers.size(); ++i) {
    program.candidates.push_back(offers[i]);
    const science::MixResult result = science::find_mix(program);
    program.candidates.pop_back();
    if (result.outcome != science::MixOutcome::Found || !result.blend) continue;
    const Kilograms mass = result.masses.back();
    if (best && mass.value >= least) continue;
    least = mass.value;
    best = Addition{{{names[i], mass}}, *result.blend};
  }
  if (best) return best;
  program.candidates.insert(program.candidates.end(), offers.begin(), offers.end());
  const science::MixResult result = science::find_mix(program);
  if (result.outcome != science::MixOutcome::Found || !result.blend) return std::nullopt;
  Addition addition{{}, *result.blend};
  for (std::size_t i = 0; i < offers.size(); ++i) {
    const Kilograms mass = result.masses[own + i];
    if (mass.value > 1e-3) addition.materials.emplace_back(names[i], mass);
  }
  return addition;
}

std::optional<model::Finding> judge_mix(const Study& study) {
  if (study.history().in.empty() || study.method() == Method::kCold) return std::nullopt;
  const Standing& at = study.at();
  const bool early = at.hot_days < static_cast<int>(study.rules()(limits::mix_days).value) &&
                     at.stage != Stage::kCooling && at.stage != Stage::kCuring &&
                     at.stage != Stage::kReady && !at.dipped;
  if (!early || !study.inputs().blend) return std::nullopt;
  const double age = elapsed_days(study.history().in.back().at, study.history().now);
  if (age > study.rules()(limits::mix_told).value) return std::nullopt;
  const Off off = off_range(study);
  if (!off.ratio && !off.moisture) return std::nullopt;
  model::Finding made = mix_finding(off, study);
  // What piles are made of here, before what other batches were given, before what is common.
  const auto& mix = study.inputs().ingredients;
  auto addition = addition_for(mix, at_hand(study), study.rules());
  if (!addition) addition = addition_for(mix, used_of(study), study.rules());
  if (!addition) addition = addition_for(mix, common(), study.rules());
  if (!addition) return made;
  std::vector<model::Part> parts;
  for (const auto& [name, mass] : addition->materials) {
    parts.push_back({name, measure::value_of(mass)});
  }
  made.facts.set(kAddition, std::move(parts));
  if (addition->then.c_to_n) made.facts.set(kRatioThen, *addition->then.c_to_n);
  made.facts.set(kMoistureThen, addition->then.moisture);
  made.facts.set(kUnusedHere, unused_of(study, *addition));
  return made;
}

std::optional<Objection> objection_to(const model::Material& material, const model::Batch&,
                                      const model::Rules&) {
  const auto made = [&](Banned why, std::string_view source = "common practice") {
    const bool never = why == Banned::kForbidden || why == Banned::kSynthetic ||
                       why == Banned::kPetWaste || why == Banned::kHumanWaste;
    return Objection{never, std::string(kRuleBanned), banned_words(material, why),
                     std::string(source)};
  };
  if (material.is(kFlagForbidden)) {
    if (material.is(kFlagPetWaste)) return made(Banned::kPetWaste);
    if (material.is(kFlagHumanWaste)) {
      return made(Banned::kHumanWaste, "21 CFR 112.53; 7 CFR 205.203(e)(2)");
    }
    if (!material.is(kFlagSynthetic)) return made(Banned::kForbidden);
    return made(Banned::kForbidden, "common practice; 7 CFR 205.203(e)(1) for an organic site");
  }
  if (material.is(kFlagSynthetic)) {
    return made(Banned::kSynthetic, "7 CFR 205.203(e)(1)");
  }
  const bool meal = material.group == kGroupMineral;
  if (material.is(kFlagCarcass)) {
    return made(Banned::kCarcass, "state rules on dead stock; common practice");
  }
  if (material.is(kFlagAnimal) && !meal) return made(Banned::kAnimal);
  if ((material.is(kFlagOil) || material.is(kFlagDairy)) && !meal) return made(Banned::kFat);
  if (material.is(kFlagWoodyLarge)) return made(Banned::kLargeWood);
  if (material.is(kFlagDiseased)) return made(Banned::kDiseased);
  return std::nullopt;
}

}  // namespace kinds::pile
