#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "kinds/pile/facts.h"
#include "kinds/pile/says.h"
#include "measure/text.h"

// What is said of a mix that is off, and of what would put it right, in what the site carries.
namespace kinds::pile {
namespace {

using measure::Printer;
using model::Facts;
using model::Finding;
using model::Words;

constexpr std::size_t kLineColumns = 46;

std::size_t columns(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char one) { return (one & '\xC0') != '\x80'; }));
}

// The first that fits a line; the last is the one that always does.
std::string fitting(std::initializer_list<std::string> wordings) {
  const auto fits = std::find_if(wordings.begin(), wordings.end(), [](const std::string& one) {
    return columns(one) <= kLineColumns;
  });
  return fits == wordings.end() ? *std::prev(wordings.end()) : *fits;
}

// Two digits: nobody forks 959 lb.
measure::Value rounded(measure::Value mass, measure::UnitSystem units) {
  const double unit = measure::usual_unit(mass.dimension, units).factor;
  const double shown = mass.si / unit;
  if (shown <= 0) return mass;
  const double step = std::pow(10, std::floor(std::log10(shown)) - 1);
  return {mass.dimension, std::round(shown / step) * step * unit};
}

// The material's volume in the site's largest vessel that takes two or more of it; none where no
// vessel or no bulk density is known.
std::string vessels_words(const model::Part& part, const Study& study) {
  const auto& vessels = study.history().containers;
  if (!vessels || part.amount.dimension != measure::Dimension::kMass) return "";
  std::optional<double> a_litre;
  // The site's own figures stand before the catalogue's.
  for (const auto* known : {&study.inputs().materials, &model::catalogue()}) {
    for (const model::Material& one : *known) {
      if (!a_litre && one.name == part.name) a_litre = one.kilograms_per_litre();
    }
  }
  if (!a_litre) return "";
  const double litres = part.amount.si / *a_litre;
  const measure::Container* best = nullptr;
  for (const measure::Container& one : *vessels) {
    if (litres / one.content.value < 2) continue;
    if (best == nullptr || one.content > best->content) best = &one;
  }
  if (best == nullptr) return "";
  return fmt::format("{:.0f} {}s", litres / best->content.value, best->name);
}

std::string amount_words(const model::Part& part, const Study& study) {
  const std::string vessels = vessels_words(part, study);
  return (vessels.empty() ? study.print()(rounded(part.amount, study.history().units)) : vessels) +
         " of " + part.name;
}

std::string mix_line(const Facts& facts, const Study& study) {
  const auto ratio = facts.get(kRatio);
  const std::string proof =
      ratio ? fmt::format(": {}:1", measure::print_number(ratio->value, 0))
            : fmt::format(": {:.0f} % moisture", facts(kMoistureOfMix).value * 100);
  const auto parts = facts.get(kAddition);
  if (!parts) return "rebuild it" + proof;
  const model::Part& first = parts->front();
  const std::string more = parts->size() > 1 ? fmt::format(" and {} more", parts->size() - 1) : "";
  std::vector<std::string> names;
  for (const model::Part& one : *parts) names.push_back(one.name);
  return fitting({fmt::format("mix in {}{}{}", amount_words(first, study), more, proof),
                  fmt::format("mix in {}{}", measure::listed(names, "and"), proof),
                  fmt::format("mix in {}{}{}", first.name, more, proof),
                  "put the mix right" + proof});
}

}  // namespace

Words mix_words(const Finding& finding, const Study& study) {
  const Printer print = study.print();
  const Facts& facts = finding.facts;
  Words words;
  if (const auto ratio = facts.get(kRatio)) {
    const measure::Number limit = facts(kRatioLimit);
    words.says =
        fmt::format("what went in is {}:1 carbon to nitrogen, {} {}", ratio_words(*ratio, limit),
                    *ratio > limit ? "above" : "below", ratio_words(limit));
  }
  if (const auto moisture = facts.get(kMoistureOfMix)) {
    const measure::Fraction limit = facts(kMoistureLimit);
    words.says += words.says.empty() ? "what went in is " : ", and ";
    words.says += fmt::format("{} moisture, {} {}", print(*moisture),
                              *moisture > limit ? "above" : "below", print(limit));
  }
  words.line = mix_line(facts, study);
  const auto parts = facts.get(kAddition);
  if (!parts) {
    words.action = "rebuild it: nothing at hand puts it right";
    return words;
  }
  std::vector<std::string> listed;
  for (const model::Part& one : *parts) {
    listed.push_back(amount_words(one, study));
  }
  science::Blend then;
  then.c_to_n = facts.get(kRatioThen);
  then.moisture = facts(kMoistureThen);
  words.action =
      fmt::format("mix in {} (then {})", measure::listed(listed, "and"), blend_words(then, print));
  const std::vector<std::string> unused = facts(kUnusedHere);
  if (unused.size() == parts->size()) {
    words.action += ", which this site has not used so far";
  } else if (!unused.empty()) {
    words.action +=
        fmt::format("; this site has not used {} so far", measure::listed(unused, "or"));
  }
  return words;
}

}  // namespace kinds::pile
