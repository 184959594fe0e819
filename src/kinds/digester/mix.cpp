#include "kinds/digester/mix.h"

#include <cmath>
#include <vector>

#include "kinds/digester/words.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"
#include "measure/text.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Fraction;
using measure::Kilograms;
using measure::Number;

struct Sums {
  Kilograms wet, dry, carbon, nitrogen;
};

void add(const model::Movement& movement, Sums& sums, FeedMix& mix) {
  const model::Material& material = movement.material;
  if (is_water(material)) {
    sums.wet += Kilograms{movement.volume().value_or(measure::Litres{}).value};
    return;
  }
  const auto mass = movement.mass();
  const auto moisture = material.moisture();
  if (!mass || !moisture) {
    mix.no_solids.insert(material.name);
    mix.no_c_to_n.insert(material.name);
    return;
  }
  const Kilograms dry = *mass * (1 - moisture->value);
  sums.wet += *mass;
  sums.dry += dry;
  const auto carbon = material.carbon();
  const auto nitrogen = material.nitrogen();
  if (!carbon || !nitrogen) {
    mix.no_c_to_n.insert(material.name);
    return;
  }
  sums.carbon += dry * carbon->value;
  sums.nitrogen += dry * nitrogen->value;
}

std::string without(const std::set<std::string>& names) {
  if (names.empty()) return "";
  const std::vector<std::string> words(names.begin(), names.end());
  return fmt::format("without {}, not known of it", measure::joined(words, ", "));
}

std::string ratio_words(Number ratio) {
  return measure::print_number(std::round(ratio.value * 10) / 10, 1) + ":1";
}

}  // namespace

FeedMix feed_mix_of(const model::History& history, const Feed& feed, const Startup& startup) {
  FeedMix mix;
  Sums sums;
  for (const model::Movement& movement : history.in) {
    if (is_gas(movement.material) || is_inoculum(movement.material)) continue;
    const bool lately = days_between(movement.day, history.today) < feed.window.value &&
                        !startup.is_filling(movement.day);
    if (startup.running() && !lately) continue;
    add(movement, sums, mix);
  }
  if (sums.dry > Kilograms{0} && mix.no_solids.empty()) mix.solids = Fraction{sums.dry / sums.wet};
  if (sums.nitrogen > Kilograms{0}) mix.c_to_n = Number{sums.carbon / sums.nitrogen};
  return mix;
}

std::optional<model::Progress> mix_line(const model::Rules& rules, const FeedMix& mix,
                                        bool at_leisure) {
  if (!mix.solids && !mix.c_to_n) return std::nullopt;
  const measure::Printer print(measure::UnitSystem::kMetric);
  std::string says;
  if (mix.solids) {
    const Fraction least = rules(limits::mix_solids_least), most = rules(limits::mix_solids_most);
    says = fmt::format("{} solids with its water ({} to {}{})", print(*mix.solids), print(least),
                       print(most),
                       *mix.solids < least  ? "; thin: less water"
                       : *mix.solids > most ? "; thick: more water"
                                            : "");
  }
  if (mix.c_to_n) {
    const Number least = rules(limits::mix_cn_least), most = rules(limits::mix_cn_most);
    says += fmt::format("{}{} carbon to nitrogen ({:.0f} to {:.0f} is favourable{})",
                        says.empty() ? "" : ", ", ratio_words(*mix.c_to_n), least.value, most.value,
                        *mix.c_to_n < least  ? "; straw or plants raise it"
                        : *mix.c_to_n > most ? "; manure lowers it"
                                             : "");
    const std::string gaps = without(mix.no_c_to_n);
    if (!gaps.empty()) says += ", " + gaps;
  }
  return model::Progress{"mix", std::move(says), std::nullopt, at_leisure};
}

std::optional<model::Progress> chemistry_line(const model::History& history,
                                              const model::Rules& rules, const Slurry& slurry) {
  std::vector<std::string> parts;
  if (slurry.acids_to_alkalinity) {
    std::string ratio =
        fmt::format("acids to alkalinity {} by {} (watched above {})",
                    measure::print_number(slurry.acids_to_alkalinity->value, 2),
                    slurry.titrated ? "titration" : "laboratory",
                    measure::print_number(rules(limits::sour_ratio_watch).value, 2));
    const auto ratios = ratio_days(history, slurry.titrated);
    if (ratios.size() > 1) {
      const RatioDay& before = ratios[ratios.size() - 2];
      ratio += fmt::format(", {} on {}", measure::print_number(before.ratio.value, 2),
                           measure::day_words(before.day, history.today));
    }
    parts.push_back(std::move(ratio));
  }
  if (slurry.free_ammonia) {
    parts.push_back(
        fmt::format("free ammonia about {} as nitrogen (watched above {})",
                    measure::Printer::labelled(std::round(slurry.free_ammonia->value), "mg/L"),
                    measure::Printer::labelled(rules(limits::ammonia_watch).value, "mg/L")));
  }
  if (parts.empty()) return std::nullopt;
  const auto is_of_today = [&](const char* quantity) {
    const model::Series* read = history.find(quantity);
    return read != nullptr && !read->days.empty() && read->days.back().day == history.today;
  };
  const bool read_today = is_of_today("vfa") || is_of_today("first-acid") || is_of_today("tan");
  return model::Progress{"chemistry", measure::joined(parts, "; "), std::nullopt, !read_today};
}

void measure_mix(const FeedMix& mix, const Slurry& slurry, model::Assessment& into) {
  const auto add_measure = [&](const char* key, const char* name, measure::Value value,
                               std::string basis, std::string label = "") {
    into.measures.push_back({key, name, {name, value, std::move(label)}, std::move(basis)});
  };
  if (mix.solids) {
    add_measure("digester.feed_solids", "solids of feed and water", measure::value_of(*mix.solids),
                "of the last days, or of the filling");
  }
  if (mix.c_to_n) {
    add_measure("digester.feed_cn", "carbon to nitrogen of the feed",
                measure::value_of(*mix.c_to_n), without(mix.no_c_to_n));
  }
  if (slurry.acids_to_alkalinity) {
    add_measure("digester.acids_to_alkalinity", "acids to alkalinity",
                measure::value_of(*slurry.acids_to_alkalinity),
                slurry.titrated ? "by titration, after Nordmann 1977" : "by a laboratory");
  }
  if (slurry.free_ammonia) {
    add_measure("digester.free_ammonia", "free ammonia, as nitrogen",
                {measure::Dimension::kNumber, slurry.free_ammonia->value},
                "reckoned for dilute water; in slurry it is rather less", "mg/L");
  }
}

}  // namespace kinds::digester
