#include "kinds/larvae/measures.h"

#include <algorithm>
#include <set>

#include "kinds/finding.h"
#include "kinds/thresholds.h"
#include "measure/text.h"
#include "science/animals/hens.h"

namespace kinds::larvae {
namespace {

using measure::Fraction;
using measure::Kilograms;
using measure::Number;

struct Adder {
  model::Assessment& into;

  template <class T>
  void operator()(std::string_view key, std::string_view name, std::optional<T> value,
                  std::string basis, std::string_view label = "") const {
    if (!value) return;
    into.measures.push_back({"larvae." + std::string(key),
                             std::string(name),
                             {"", measure::value_of(*value), std::string(label)},
                             std::move(basis)});
  }
};

std::string open_words(const model::History& history) {
  return history.batch.ended ? "" : "so far, the bin is still open";
}

std::string harvest_basis(const Yield& yield) {
  std::string basis;
  if (yield.counted_harvests > 0) basis = "counted ones by the last sample";
  if (yield.unweighed_harvests > 0) {
    basis = joined(basis, fmt::format("{} without a weight left out", yield.unweighed_harvests));
  }
  return basis;
}

void add_masses(const model::History& history, const Yield& yield, const Adder& add) {
  if (yield.feeds > 0) {
    add("feed", "feed given", std::optional(yield.feed), unweighed_words(yield));
  }
  const auto some = [](Kilograms mass) {
    return mass > Kilograms{0} ? std::optional(mass) : std::nullopt;
  };
  const std::string basis = harvest_basis(yield);
  add("out", "larvae out", some(yield.light + yield.dark + yield.dried), basis);
  add("dark", "of these dark larvae", some(yield.dark), basis);
  add("dried", "of these dried larvae", some(yield.dried), basis);
  add("frass", "frass out", yield.run.residue, open_words(history));
}

void add_metrics(const science::LarvaeMetrics& metrics, const std::string& suffix,
                 const std::string& basis, const Adder& add) {
  const std::string words = suffix.empty() ? " (as weighed)" : " (dry)";
  add("waste_reduction" + suffix, "waste reduction" + words, metrics.waste_reduction, basis);
  add("wri" + suffix, "waste reduction index" + words, metrics.waste_reduction_index, basis, "%/d");
  add("bioconversion" + suffix, "bioconversion" + words, metrics.bioconversion, basis);
  add("ecd" + suffix, "conversion of digested feed" + words, metrics.ecd, basis);
  add("fcr" + suffix, "feed conversion ratio" + words, metrics.feed_conversion_ratio, basis,
      "kg/kg");
  add("loss" + suffix, suffix.empty() ? "lost, mostly water" : "breathed away (dry)", metrics.loss,
      basis);
}

void name_missing(const science::LarvaeMetrics& metrics, const Yield& yield,
                  model::Assessment& into) {
  std::vector<std::string> missing;
  for (const science::LarvaeInput input : metrics.missing) {
    std::string name(science::plain_name(input));
    if (input == science::LarvaeInput::Feed && yield.unweighed_feeds > 0) {
      name += ", " + unweighed_words(yield);
    }
    missing.push_back(std::move(name));
  }
  if (missing.empty()) return;
  into.progress.push_back(
      {"conversion", "not known: " + measure::joined(missing, "; "), std::nullopt});
}

// What the larvae taken out hold, and of which materials the catalogue does not say.
struct Worth {
  Kilograms protein{}, fat{}, calcium{};
  std::set<std::string> no_protein, no_fat, no_calcium;
};

void add_part(const std::optional<Kilograms>& part, const std::string& material, Kilograms& sum,
              std::set<std::string>& unknown) {
  if (part) {
    sum += *part;
  } else {
    unknown.insert(material);
  }
}

// What was found of the larvae themselves, where it was.
struct Read {
  std::optional<Fraction> moisture, nitrogen;
};

void add_movement(const model::Movement& movement, Kilograms mass, const Read& read, Worth& worth) {
  const model::Material& material = movement.material;
  const auto moisture =
      read.moisture && material.name != "dried larvae" ? read.moisture : material.moisture();
  const auto protein = read.nitrogen ? std::optional(science::protein_from_nitrogen(
                                           *read.nitrogen, science::kLarvaNitrogenFactor))
                                     : material.share(model::Property::kProtein);
  science::LarvaNutrients held;
  if (moisture) {
    held = science::nutrients_in_larvae(
        mass, {Fraction{1 - moisture->value}, protein, material.share(model::Property::kFat),
               material.share(model::Property::kCalcium), std::nullopt});
  }
  add_part(held.protein, material.name, worth.protein, worth.no_protein);
  add_part(held.fat, material.name, worth.fat, worth.no_fat);
  add_part(held.calcium, material.name, worth.calcium, worth.no_calcium);
}

std::string left_out(const std::set<std::string>& unknown) {
  if (unknown.empty()) return "contents from the catalogue";
  const std::vector<std::string> names(unknown.begin(), unknown.end());
  return fmt::format("contents from the catalogue; {} left out, not known there",
                     measure::joined(names, ", "));
}

void add_laboratory_protein(Fraction nitrogen, const Adder& add) {
  const auto by = [&](const science::NitrogenFactor& factor) {
    return std::optional(science::protein_from_nitrogen(nitrogen, factor));
  };
  add("true_protein", "protein of the larvae's dry matter", by(science::kLarvaNitrogenFactor),
      std::string(science::kLarvaNitrogenFactor.name));
  add("crude_protein", "the same as a feed label counts it", by(science::kCrudeProteinFactor),
      std::string(science::kCrudeProteinFactor.name));
}

}  // namespace

void measure_conversion(const model::History& history, const Yield& yield,
                        model::Assessment& into) {
  const Adder add{into};
  add_masses(history, yield, add);
  if (!yield.complete) return;
  const auto wet = science::metrics_as_weighed(yield.run);
  const auto dry = science::metrics_on_dry_matter(yield.run, yield.moistures);
  std::string basis = open_words(history);
  if (!yield.young_weighed) basis = joined(basis, "young larvae not weighed, taken as nothing");
  if (yield.counted_harvests > 0) basis = joined(basis, "counted larvae by the last sample");
  add_metrics(wet, "",
              joined(basis, yield.dried > Kilograms{0} ? "some larvae were weighed dried" : ""),
              add);
  add_metrics(dry, "_dry", joined(basis, yield.moisture_basis), add);
  add("feed_per_larva", "feed a larva a day", wet.feed_mg_per_larva_day, "", "mg/larva/d");
  add("feed_per_area", "feed for the area a day", wet.feed_kg_per_m2_day, "", "kg/m2/d");
  name_missing(dry, yield, into);
}

void measure_growth(const Course& course, const Warmth& warmth, const Yield& yield,
                    const std::vector<Weighing>& weighings, model::Assessment& into) {
  const Adder add{into};
  if (warmth.days) {
    add("degree_days", "warmth since seeding", std::optional(warmth.total),
        warmth.by_air ? "by the air" : "");
  }
  add("days", "days from seeding to the last harvest", yield.run.duration, "");
  add("seeded", "larvae seeded", course.count, course.count_basis, "larvae");
  if (course.count && yield.run.area) {
    add("density", "larvae for the area", science::larvae_per_cm2(*course.count, *yield.run.area),
        course.count_basis, "larvae/cm2");
  }
  const auto last = last_sound(weighings);
  if (!last) return;
  add("larva_mass", "a larva when last weighed", std::optional(last->mass), "");
  if (const auto first = first_sound(weighings, last->day - date::days{1})) {
    add("growth", "growth between weighings",
        science::specific_growth_rate(first->mass, last->mass,
                                      measure::Days{1.0 * days_between(first->day, last->day)}),
        "", "%/d");
  }
  if (!yield.complete || !yield.run.larvae_out || !course.count || yield.dried > Kilograms{0})
    return;
  const auto survival =
      science::survival_estimate(*yield.run.larvae_out, last->mass, *course.count);
  std::string basis = joined("larvae out over the last sample", course.count_basis);
  if (survival && *survival > Fraction{1}) {
    basis = joined(basis, "above 100 %: the sample or the count is off, nothing was corrected");
  }
  add("survival", "larvae that lived (estimate)", survival, basis);
}

void measure_worth(const model::History& history, const model::Rules& rules, const Course& course,
                   model::Assessment& into) {
  Worth worth;
  const auto sample = last_sound(weighings_of(history, rules));
  const Read read{read_moisture(history, "larvae_moisture"),
                  read_moisture(history, "larvae_nitrogen")};
  for (const model::Movement& movement : history.out) {
    const auto mass = mass_of(movement, sample);
    if (is_harvest(movement, course) && mass) add_movement(movement, *mass, read, worth);
  }
  const Adder add{into};
  const auto some = [](Kilograms mass) {
    return mass > Kilograms{0} ? std::optional(mass) : std::nullopt;
  };
  const std::string protein_basis = read.nitrogen ? fmt::format("nitrogen by a laboratory, {}",
                                                                science::kLarvaNitrogenFactor.name)
                                                  : left_out(worth.no_protein);
  if (read.nitrogen) add_laboratory_protein(*read.nitrogen, add);
  add("protein", "protein in the larvae", some(worth.protein), protein_basis);
  add("fat", "fat in the larvae", some(worth.fat), left_out(worth.no_fat));
  add("calcium", "calcium in the larvae", some(worth.calcium), left_out(worth.no_calcium));
  if (worth.protein <= Kilograms{0}) return;
  const Kilograms need{rules(thresholds::flock::need_protein).value / 1000};
  add("hen_days", "hen-days of protein", science::hen_days_of_protein(worth.protein, need),
      joined(fmt::format("at {} of protein a hen a day",
                         measure::Printer::labelled(need.value * 1000, "g")),
             protein_basis),
      "hen-days");
}

}  // namespace kinds::larvae
