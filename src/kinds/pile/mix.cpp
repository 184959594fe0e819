#include "kinds/pile/mix.h"

#include <algorithm>
#include <array>

#include "kinds/thresholds.h"
#include "kinds/finding.h"
#include "measure/text.h"

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

std::vector<model::Material> at_hand(const Known& known) {
  std::vector<model::Material> found;
  const auto add = [&](const model::Material& material) {
    const bool has = std::any_of(found.begin(), found.end(),
                                 [&](const auto& one) { return one.name == material.name; });
    if (!has && !material.is("forbidden")) found.push_back(material);
  };
  for (const model::Material& one : known.inputs.materials) add(one);
  if (known.history.finished) {
    for (const model::History& other : *known.history.finished) {
      for (const model::Movement& one : other.in) add(one.material);
    }
  }
  for (const model::Material& one : model::catalogue()) {
    if (one.name == "water") add(one);
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
std::vector<model::Material> used_of(const Known& known) {
  std::vector<model::Material> found = common();
  std::erase_if(found, [&](const model::Material& one) {
    return one.name != "water" && (!known.history.used || known.history.used->count(one.name) == 0);
  });
  return found;
}

// What of an addition has never gone into any batch of the site.
std::string unused_words(const Known& known, const Addition& addition) {
  std::vector<std::string_view> unused;
  for (const auto& part : addition.materials) {
    const std::string& name = part.first;
    const bool here = name == "water" ||
                      (known.history.used && known.history.used->count(name) > 0) ||
                      std::any_of(known.inputs.materials.begin(), known.inputs.materials.end(),
                                  [&](const auto& one) { return one.name == name; });
    if (!here) unused.push_back(name);
  }
  if (unused.empty()) return "";
  if (unused.size() == addition.materials.size()) return ", which this site has not used so far";
  return fmt::format("; this site has not used {} so far", measure::listed(unused, "or"));
}

std::string addition_words(const Addition& addition, const measure::Printer& print) {
  std::vector<std::string> parts;
  for (const auto& [name, mass] : addition.materials) {
    parts.push_back(fmt::format("{} of {}", print(mass), name));
  }
  return fmt::format("{} (then {})", measure::listed(parts, "and"),
                     blend_words(addition.then, print));
}

// Whether the mix still says how wet the pile is: nobody has read, felt or watered it since.
bool mix_tells_moisture(const Known& known) {
  if (known.inputs.left_out.value > 0 || !known.inputs.unweighed.empty()) return false;
  const model::Instant last = known.history.in.back().at;
  for (const model::Series* series : known.history.all("moisture")) {
    if (series->last->at >= last) return false;
  }
  const model::Sensed* felt = known.history.last_sensed("moisture");
  const model::Deed* watered = known.history.last_deed("watered");
  return (felt == nullptr || felt->at < last) && (watered == nullptr || watered->at < last);
}

struct Off {
  bool ratio = false, high = false, moisture = false, wet = false;
};

Off off_range(const Known& known) {
  Off off;
  const MixRanges ranges = mix_ranges(known.rules);
  const StartRatio ratio = start_ratio(known.history, known.rules, known.inputs);
  if (ratio.value && !ratio.measured) {
    off.high = *ratio.value > *ranges.c_to_n.at_most;
    off.ratio = off.high || *ratio.value < *ranges.c_to_n.at_least;
  }
  if (known.inputs.blend && mix_tells_moisture(known)) {
    const Fraction moisture = known.inputs.blend->moisture;
    off.wet = moisture > *ranges.moisture.at_most;
    off.moisture = off.wet || moisture < *ranges.moisture.at_least;
  }
  return off;
}

std::string off_words(const Known& known, const Off& off) {
  const measure::Printer print = known.print();
  const MixRanges ranges = mix_ranges(known.rules);
  const science::Blend& blend = *known.inputs.blend;
  std::string says;
  if (off.ratio) {
    says = fmt::format("what went in is {}:1 carbon to nitrogen, {} {}",
                       measure::print_number(blend.c_to_n->value, 1), off.high ? "above" : "below",
                       measure::print_number(
                           (off.high ? ranges.c_to_n.at_most : ranges.c_to_n.at_least)->value, 1));
  }
  if (off.moisture) {
    says += says.empty() ? "what went in is " : ", and ";
    says += fmt::format("{} moisture, {} {}", print(blend.moisture), off.wet ? "above" : "below",
                        print(*(off.wet ? ranges.moisture.at_most : ranges.moisture.at_least)));
  }
  return says;
}

model::Told mix_finding(const Off& off, const Known& known) {
  const model::Day last = known.history.in.back().day;
  const Urgency urgency = last == known.history.today ? Urgency::kSoon : Urgency::kToday;
  const science::Blend& blend = *known.inputs.blend;
  model::Told made;
  if (off.ratio) {
    made = finding("pile.mix", urgency, off.high ? limits::mix_cn_most : limits::mix_cn_least,
                   known.rules);
    made.limit->quantity = "cn";
    made.value = model::Measured{"cn", measure::value_of(*blend.c_to_n), "C:N"};
  } else {
    made = finding("pile.mix", urgency,
                   off.wet ? limits::mix_moisture_most : limits::mix_moisture_least, known.rules);
    made.limit->quantity = "moisture";
    made.value = model::Measured{"moisture", measure::value_of(blend.moisture), ""};
  }
  return made;
}

}  // namespace

MixRanges mix_ranges(const model::Rules& rules) {
  return {{rules(limits::mix_cn_least), rules(limits::mix_cn_most)},
          {rules(limits::mix_moisture_least), rules(limits::mix_moisture_most)},
          {science::KilogramsPerCubicMetre{rules(limits::mix_bulk_least).value},
           science::KilogramsPerCubicMetre{rules(limits::mix_bulk_most).value}},
          rules(limits::mix_cn_best),
          rules(limits::mix_moisture_best)};
}

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

void judge_mix(const Known& known, model::Assessment& into) {
  if (!known.inputs.blend || known.history.in.empty()) return;
  const bool early = known.at.hot_days < static_cast<int>(known.rules(limits::mix_days).value) &&
                     known.at.stage != Stage::kCuring && known.at.stage != Stage::kReady;
  if (!early || method_of(known.history.batch) == Method::kCold) return;
  const Off off = off_range(known);
  if (!off.ratio && !off.moisture) return;
  const measure::Printer print = known.print();
  model::Told made = mix_finding(off, known);
  made.words.says = off_words(known, off);
  // What piles are made of here, before what other batches were given, before what is common.
  auto addition = addition_for(known.inputs.ingredients, at_hand(known), known.rules);
  if (!addition) addition = addition_for(known.inputs.ingredients, used_of(known), known.rules);
  if (!addition) addition = addition_for(known.inputs.ingredients, common(), known.rules);
  if (addition) {
    made.words.action = fmt::format("mix in {}{}", addition_words(*addition, print),
                              unused_words(known, *addition));
  } else {
    made.words.action = "build it anew: no addition of what is at hand brings it right";
  }
  into.findings.push_back(std::move(made));
}

std::optional<Objection> objection_to(const model::Material& material, const model::Batch&,
                                      const model::Rules&) {
  const auto never = [&](std::string why, std::string source) {
    return Objection{true, "pile.banned",
                     fmt::format("{} never goes into a pile: {}", material.name, why),
                     std::move(source)};
  };
  const auto care = [&](std::string why) {
    return Objection{false, "pile.banned", fmt::format("{}: {}", material.name, why),
                     "common practice"};
  };
  if (material.is("forbidden")) {
    std::string why = material.meaning.empty() ? "it does not become soil" : material.meaning;
    if (why.back() == '.') why.pop_back();
    why[0] = static_cast<char>(why[0] >= 'A' && why[0] <= 'Z' ? why[0] - 'A' + 'a' : why[0]);
    return never(std::move(why),
                 "common practice; 7 CFR 205.203(e) for an organic site, from memory");
  }
  if (material.is("synthetic")) {
    return never("a synthetic chemical makes the compost unfit for organic growing",
                 "7 CFR 205.203(e), from memory");
  }
  const bool meal = material.group == "mineral";
  if (material.is("animal") && !meal) {
    return care(
        "meat, bones and fish draw rats and flies; bury them deep in a hot pile or leave them out");
  }
  if ((material.is("oil") || material.is("dairy")) && !meal) {
    return care("fat and milk keep air and water out and smell; little, and deep in a hot pile");
  }
  if (material.is("woody-large"))
    return care("large wood rots for years; chip it first or burn it to char");
  if (material.is("diseased"))
    return care("only a pile that gets hot all through kills what it carries");
  return std::nullopt;
}

std::string blend_words(const science::Blend& blend, const measure::Printer& print) {
  const std::string moisture = print(blend.moisture) + " moisture";
  if (!blend.c_to_n) return moisture;
  return fmt::format("{}:1 carbon to nitrogen, {}", measure::print_number(blend.c_to_n->value, 1),
                     moisture);
}

}  // namespace kinds::pile
