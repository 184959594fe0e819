#include "kinds/larvae/measures.h"

#include <algorithm>
#include <set>

#include "kinds/larvae/says.h"
#include "kinds/larvae/study.h"
#include "kinds/larvae/vocabulary.h"
#include "kinds/thresholds.h"
#include "science/animals/hens.h"

namespace kinds::larvae {
namespace {

using measure::Fraction;
using measure::Kilograms;
using measure::Number;

struct Adder {
  std::vector<model::Measure>& into;

  template <class T>
  void operator()(std::string_view key, std::string_view name, std::optional<T> value,
                  std::string basis, std::string_view label = "") const {
    if (!value) return;
    into.push_back({"larvae." + std::string(key),
                    std::string(name),
                    {"", measure::value_of(*value), std::string(label)},
                    std::move(basis)});
  }
};

std::optional<Kilograms> some(Kilograms mass) {
  return mass > Kilograms{0} ? std::optional(mass) : std::nullopt;
}

void add_masses(const Study& study, const Adder& add) {
  const Yield& yield = study.yield();
  if (yield.feeds > 0) {
    add("feed", "feed given", std::optional(yield.feed), unweighed_words(yield));
  }
  if (yield.run.bulking) add("bulking", "mixed in beside it", some(*yield.run.bulking), "");
  const std::string basis = harvest_basis(yield);
  add("out", "larvae out", some(yield.light + yield.dark + yield.dried), basis);
  add("dark", "of these dark larvae", some(yield.dark), basis);
  add("dried", "of these dried larvae", some(yield.dried), basis);
  add("frass", "frass out", yield.run.residue, open_words(study.history()));
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
      read.moisture && material.name != kDriedLarvae ? read.moisture : material.moisture();
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
  return left_out_words({unknown.begin(), unknown.end()});
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

void measure_conversion(const Study& study, const Adder& add) {
  const Yield& yield = study.yield();
  add_masses(study, add);
  if (!yield.complete) return;
  const auto wet = science::metrics_as_weighed(yield.run);
  add_metrics(wet, "", wet_basis(study), add);
  add_metrics(science::metrics_on_dry_matter(yield.run, yield.moistures), "_dry", dry_basis(study),
              add);
  add("feed_per_larva", "feed a larva a day", wet.feed_mg_per_larva_day, "", "mg/larva/d");
  add("feed_per_area", "feed for the area a day", wet.feed_kg_per_m2_day, "", "kg/m2/d");
}

// What one weighed when it was seeded says nothing of how many were harvested.
void measure_survival(const Study& study, const Adder& add) {
  const Yield& yield = study.yield();
  const auto& count = study.course().count;
  const auto& each = yield.larva_at_harvest;
  if (!yield.complete || !yield.run.larvae_out || !count || !each || yield.dried > Kilograms{0})
    return;
  const auto survival = science::survival_estimate(*yield.run.larvae_out, *each, *count);
  if (!survival) return;
  add("survival", "larvae that lived (estimate)", survival,
      survival_basis(study.course(), *survival));
}

void measure_growth(const Study& study, const Adder& add) {
  const Warmth& warmth = study.warmth();
  const Course& course = study.course();
  const science::LarvaeRun& run = study.yield().run;
  if (warmth.days) {
    add("degree_days", "warmth since seeding", std::optional(warmth.total),
        warmth.by_air ? "by the air" : "");
  }
  const std::string counted = count_words(course);
  add("days", "days from seeding to the last harvest", run.duration, "");
  add("seeded", "larvae seeded", course.count, counted, "larvae");
  if (course.count && run.area) {
    add("density", "larvae for the area", science::larvae_per_cm2(*course.count, *run.area),
        counted, "larvae/cm2");
  }
  const auto last = last_sound(study.weighings());
  if (!last) return;
  add("larva_mass", "a larva when last weighed", std::optional(last->mass), "");
  const auto first = first_sound(study.weighings(), last->day - date::days{1});
  if (!first) return;
  const measure::Days between{1.0 * (last->day - first->day).count()};
  add("growth", "growth between weighings",
      science::specific_growth_rate(first->mass, last->mass, between), "", "%/d");
}

void measure_worth(const Study& study, const Adder& add) {
  const model::History& history = study.history();
  Worth worth;
  const Read read{read_moisture(history, kLarvaeMoisture), read_moisture(history, kLarvaeNitrogen)};
  for (const model::Movement& movement : history.out) {
    const auto mass = mass_of(movement, study.weighings(), study.rules());
    if (is_harvest(movement, study.course()) && mass) add_movement(movement, *mass, read, worth);
  }
  const std::string protein_basis = read.nitrogen ? laboratory_basis() : left_out(worth.no_protein);
  if (read.nitrogen) add_laboratory_protein(*read.nitrogen, add);
  add("protein", "protein in the larvae", some(worth.protein), protein_basis);
  add("fat", "fat in the larvae", some(worth.fat), left_out(worth.no_fat));
  add("calcium", "calcium in the larvae", some(worth.calcium), left_out(worth.no_calcium));
  if (worth.protein <= Kilograms{0}) return;
  const Kilograms need{study.rules()(thresholds::flock::need_protein).value / 1000};
  add("hen_days", "hen-days of protein", science::hen_days_of_protein(worth.protein, need),
      hen_days_basis(need.value * 1000, protein_basis), "hen-days");
}

}  // namespace

std::vector<model::Measure> measures_of(const Study& study) {
  std::vector<model::Measure> measures;
  const Adder add{measures};
  measure_conversion(study, add);
  measure_growth(study, add);
  measure_survival(study, add);
  measure_worth(study, add);
  return measures;
}

}  // namespace kinds::larvae
