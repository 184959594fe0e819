#include "kinds/pile/measures.h"

#include <algorithm>
#include <array>

#include "kinds/finding.h"
#include "kinds/pile/says.h"
#include "kinds/pile/standards.h"
#include "measure/text.h"

namespace kinds::pile {
namespace {

using measure::Kilograms;
using measure::Litres;
using measure::Number;

struct Adder {
  std::vector<model::Measure>& into;

  template <class T>
  void operator()(std::string_view key, std::string_view name, T value, std::string basis,
                  std::string_view label = "") const {
    into.push_back({"pile." + std::string(key),
                    std::string(name),
                    {"", measure::value_of(value), std::string(label)},
                    std::move(basis)});
  }
};

std::string without(const std::vector<std::string>& names) {
  return names.empty() ? "" : "without " + measure::listed(names, "and");
}

// Materials that could not be counted at all.
std::vector<std::string> uncounted(const Inputs& inputs) {
  std::vector<std::string> names = inputs.unweighed;
  names.insert(names.end(), inputs.unknown.begin(), inputs.unknown.end());
  return names;
}

struct Sum {
  Kilograms mass;
  Litres volume;
  int movements = 0;
  std::vector<std::string> unweighed, unmeasured;
  bool estimated = false;
};

Sum sum_of(const std::vector<model::Movement>& movements) {
  Sum sum;
  const auto once = [](std::vector<std::string>& names, const std::string& name) {
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  };
  for (const model::Movement& one : movements) {
    ++sum.movements;
    const auto mass = one.mass();
    const auto volume = one.volume();
    if (mass) sum.mass += *mass;
    if (volume) sum.volume += *volume;
    if (!mass) once(sum.unweighed, one.material.name);
    if (!volume) once(sum.unmeasured, one.material.name);
    sum.estimated = sum.estimated || !one.weighed();
  }
  return sum;
}

void add_masses(const Study& study, const Adder& add) {
  const Sum in = sum_of(study.history().in), out = sum_of(study.history().out);
  const auto basis = [](const Sum& sum) {
    return joined(sum.estimated ? "some by bulk density" : "", without(sum.unweighed));
  };
  const std::string open = study.history().batch.ended ? "" : "so far";
  if (in.mass.value > 0) add("in", "put in", in.mass, basis(in));
  if (in.volume.value > 0) {
    add("in_volume", "put in, by volume", in.volume,
        joined("each material by itself; they settle into each other", without(in.unmeasured)));
  }
  if (out.mass.value > 0) add("out", "taken out", out.mass, joined(open, basis(out)));
  if (out.volume.value > 0) {
    add("out_volume", "taken out, by volume", out.volume, joined(open, without(out.unmeasured)));
  }
}

void add_blend(const Study& study, const Adder& add) {
  const auto& blend = study.inputs().blend;
  if (!blend) return;
  const std::string water =
      "what was weighed in; rain and what was watered without a weight are not in it";
  add("moisture", "moisture of the mix", blend->moisture,
      joined(water, without(uncounted(study.inputs()))));
  if (blend->c_to_n) {
    add("cn", "carbon to nitrogen of the mix", *blend->c_to_n,
        without(study.inputs().lacking_c_to_n()));
  }
}

void add_heat(const Study& study, const Adder& add) {
  if (study.course().days.empty()) return;
  const int span = days_between(study.course().start, study.course().until) + 1;
  const int unread = span - static_cast<int>(study.course().days.size());
  const std::string gaps = unread > 0 ? fmt::format("{} had no reading", days_words(unread)) : "";
  add("hot_days", "days read warm or hot", Number{static_cast<double>(study.at().hot_days)}, gaps,
      "days");
  const PositionDay* hottest = nullptr;
  for (const DaySeen& day : study.course().days) {
    const PositionDay& one = day.hottest();
    if (hottest == nullptr || one.greatest > hottest->greatest) hottest = &one;
  }
  add("peak", "hottest reading", measure::Celsius{hottest->greatest},
      hottest->position.empty() ? "" : "at the " + hottest->position);
}

void add_treatments(const Study& study, const Adder& add) {
  add("turnings", "turnings", Number{static_cast<double>(study.course().turnings.size())},
      "one a day at most", "turnings");
  for (const Treatment& one : study.treatments()) {
    const bool shown = one.outcome == Outcome::kShown;
    add(fmt::format("treatment_{}", setting_word(one.standard)), fmt::format("{} shown", one.name),
        Number{shown ? 1.0 : 0.0},
        shown ? fmt::format("on {}, {}", measure::iso_date(*one.shown_on), one.text)
              : reason_words(one, study),
        "1 yes, 0 no");
    add.into.back().value.words = shown ? "yes" : std::string(outcome_words(one.outcome));
  }
  for (const Treatment& one : study.treatments()) {
    if (one.standard != Standard::kPfrp && one.standard != Standard::kPsrp) continue;
    add("time_temperature", "time and temperature against 40 CFR 503.32(a)(3)",
        time_temperature(study.course()),
        "1 is a whole treatment of sludge; as information, it proves nothing for compost", "times");
    break;
  }
}

// Nutrients that went in and came out, each with its own gaps; what was kept is their share.
void add_nutrients(const Study& study, const Adder& add) {
  struct Element {
    std::string_view key, name;
    std::optional<science::ElementContent> science::Blend::*content;
    std::vector<std::size_t> science::BlendGaps::*gaps;
  };
  static constexpr std::array kElements{
      Element{"nitrogen", "nitrogen", &science::Blend::nitrogen, &science::BlendGaps::nitrogen},
      Element{"phosphorus", "phosphorus (P)", &science::Blend::phosphorus,
              &science::BlendGaps::phosphorus},
      Element{"potassium", "potassium (K)", &science::Blend::potassium,
              &science::BlendGaps::potassium},
      Element{"carbon", "carbon", &science::Blend::carbon, &science::BlendGaps::carbon},
  };
  model::History taken = study.history();
  taken.in = study.history().out;
  const Inputs out = inputs_of(taken);
  const auto lacking = [](const Inputs& inputs, const Element& element) {
    std::vector<std::string> names = uncounted(inputs);
    for (const std::size_t i : inputs.blend->left_out.*element.gaps) {
      names.push_back(inputs.materials[i].name);
    }
    return names;
  };
  for (const Element& element : kElements) {
    if (!study.inputs().blend || !((*study.inputs().blend).*element.content)) continue;
    const science::ElementContent in = *((*study.inputs().blend).*element.content);
    add(fmt::format("{}_in", element.key), fmt::format("{} put in", element.name), in.mass,
        joined("by the materials' figures", without(lacking(study.inputs(), element))));
    if (!study.history().batch.ended || !out.blend || !((*out.blend).*element.content)) continue;
    const science::ElementContent got = *((*out.blend).*element.content);
    add(fmt::format("{}_out", element.key), fmt::format("{} taken out", element.name), got.mass,
        joined("by the materials' figures, not by a laboratory", without(lacking(out, element))));
    if (in.mass.value > 0) {
      add(fmt::format("{}_kept", element.key), fmt::format("{} kept", element.name),
          measure::Fraction{got.mass / in.mass},
          "taken out against put in, by the materials' figures");
    }
  }
}

}  // namespace

std::vector<model::Measure> figures_of(const Study& study) {
  std::vector<model::Measure> all;
  const Adder add{all};
  add_masses(study, add);
  add_blend(study, add);
  add_heat(study, add);
  add_treatments(study, add);
  add_nutrients(study, add);
  if (study.at().stage == Stage::kReady) {
    const int since = days_between(study.course().start, study.history().today);
    add("days_to_ready", "days from start to ready", measure::Days{static_cast<double>(since)},
        "as of today; the first day that it was found ready may be earlier");
  } else if (study.history().batch.ended_day) {
    add("days", "days from start to end",
        measure::Days{
            static_cast<double>(days_between(study.course().start, study.course().until))},
        "");
  }
  return all;
}

}  // namespace kinds::pile
