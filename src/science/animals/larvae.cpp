#include "science/animals/larvae.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace science {

using measure::Days;
using measure::Fraction;
using measure::Kilograms;
using measure::Number;
using measure::SquareMetres;

namespace {

constexpr double kMilligramsPerKg = 1e6;
constexpr double kCm2PerM2 = 1e4;

template <class Unit>
std::optional<Unit> above_zero(std::optional<Unit> amount) {
  return amount && *amount > Unit{0} ? amount : std::nullopt;
}

std::optional<Kilograms> not_negative(std::optional<Kilograms> mass) {
  return mass && *mass >= Kilograms{0} ? mass : std::nullopt;
}

std::optional<Fraction> usable(std::optional<Fraction> moisture) {
  return moisture && *moisture >= Fraction{0} && *moisture < Fraction{1} ? moisture : std::nullopt;
}

// Empties what cannot be used, so that the rest need only ask what is there.
LarvaeRun usable(const LarvaeRun& run) {
  return {above_zero(run.feed),         not_negative(run.residue), not_negative(run.larvae_in),
          not_negative(run.larvae_out), above_zero(run.duration),  above_zero(run.larvae_count),
          above_zero(run.area),         not_negative(run.bulking)};
}

std::vector<LarvaeInput> missing_from(const LarvaeRun& run) {
  std::vector<LarvaeInput> missing;
  if (!run.feed) missing.push_back(LarvaeInput::Feed);
  if (!run.residue) missing.push_back(LarvaeInput::Residue);
  if (!run.larvae_in) missing.push_back(LarvaeInput::LarvaeIn);
  if (!run.larvae_out) missing.push_back(LarvaeInput::LarvaeOut);
  if (!run.duration) missing.push_back(LarvaeInput::Duration);
  if (!run.larvae_count) missing.push_back(LarvaeInput::LarvaeCount);
  if (!run.area) missing.push_back(LarvaeInput::Area);
  if (!run.bulking) missing.push_back(LarvaeInput::Bulking);
  return missing;
}

bool has_bulking(const LarvaeRun& run) {
  return run.bulking && *run.bulking > Kilograms{0};
}

void add_missing_moistures(std::vector<LarvaeInput>& missing, const LarvaeMoistures& moistures,
                           const LarvaeRun& run) {
  if (!usable(moistures.feed)) missing.push_back(LarvaeInput::FeedMoisture);
  if (!usable(moistures.residue)) missing.push_back(LarvaeInput::ResidueMoisture);
  if (!usable(moistures.larvae_in)) missing.push_back(LarvaeInput::LarvaeInMoisture);
  if (!usable(moistures.larvae_out)) missing.push_back(LarvaeInput::LarvaeOutMoisture);
  if (has_bulking(run) && !usable(moistures.bulking))
    missing.push_back(LarvaeInput::BulkingMoisture);
}

std::optional<Kilograms> without_water(std::optional<Kilograms> wet,
                                       std::optional<Fraction> moisture) {
  if (!wet || !usable(moisture)) return std::nullopt;
  return *wet * (1 - moisture->value);
}

// Every input of `run` is usable or empty, all masses on one basis. Leaves `missing` alone.
LarvaeMetrics metrics_of(const LarvaeRun& run) {
  LarvaeMetrics out;
  if (run.larvae_in && run.larvae_out) out.gain = *run.larvae_out - *run.larvae_in;
  if (!run.feed) return out;
  const Kilograms feed = *run.feed;
  const auto all = run.bulking ? std::optional(feed + *run.bulking) : std::nullopt;
  if (run.residue && all) out.waste_reduction = Fraction{1 - *run.residue / *all};
  if (out.waste_reduction && run.duration)
    out.waste_reduction_index = Number{100 * out.waste_reduction->value / run.duration->value};
  if (out.gain) {
    out.bioconversion = Fraction{*out.gain / feed};
    if (*out.gain > Kilograms{0}) out.feed_conversion_ratio = Number{feed / *out.gain};
  }
  if (out.gain && run.residue && all) {
    out.loss = *all - *run.residue - *out.gain;
    if (*all > *run.residue) out.ecd = Fraction{*out.gain / (*all - *run.residue)};
  }
  if (run.duration && run.larvae_count)
    out.feed_mg_per_larva_day =
        Number{feed.value * kMilligramsPerKg / (run.larvae_count->value * run.duration->value)};
  if (run.duration && run.area)
    out.feed_kg_per_m2_day = Number{feed.value / (run.area->value * run.duration->value)};
  return out;
}

std::optional<Kilograms> part_of(Kilograms whole, std::optional<Fraction> share) {
  if (!share) return std::nullopt;
  return whole * share->value;
}

bool within_factor(Kilograms a, Kilograms b, Number factor) {
  return a <= b * factor.value && b <= a * factor.value;
}

}  // namespace

std::string_view plain_name(LarvaeInput input) {
  switch (input) {
    case LarvaeInput::Feed:
      return "feed given";
    case LarvaeInput::Residue:
      return "frass left";
    case LarvaeInput::LarvaeIn:
      return "mass of young larvae put in";
    case LarvaeInput::LarvaeOut:
      return "larvae harvested";
    case LarvaeInput::Duration:
      return "days from seeding to harvest";
    case LarvaeInput::LarvaeCount:
      return "number of larvae put in";
    case LarvaeInput::Area:
      return "area of the bin";
    case LarvaeInput::FeedMoisture:
      return "moisture of the feed";
    case LarvaeInput::ResidueMoisture:
      return "moisture of the frass";
    case LarvaeInput::LarvaeInMoisture:
      return "moisture of the young larvae";
    case LarvaeInput::LarvaeOutMoisture:
      return "moisture of the larvae harvested";
    case LarvaeInput::Bulking:
      return "weight of what was mixed in";
    case LarvaeInput::BulkingMoisture:
      return "moisture of what was mixed in";
  }
  assert(false);
  return {};
}

LarvaeMetrics metrics_as_weighed(const LarvaeRun& run) {
  const LarvaeRun clean = usable(run);
  LarvaeMetrics out = metrics_of(clean);
  out.missing = missing_from(clean);
  return out;
}

LarvaeMetrics metrics_on_dry_matter(const LarvaeRun& run, const LarvaeMoistures& moistures) {
  const LarvaeRun wet = usable(run);
  LarvaeRun dry = wet;
  dry.feed = without_water(wet.feed, moistures.feed);
  dry.residue = without_water(wet.residue, moistures.residue);
  dry.larvae_in = without_water(wet.larvae_in, moistures.larvae_in);
  dry.larvae_out = without_water(wet.larvae_out, moistures.larvae_out);
  if (has_bulking(wet)) dry.bulking = without_water(wet.bulking, moistures.bulking);
  LarvaeMetrics out = metrics_of(dry);
  out.missing = missing_from(wet);
  add_missing_moistures(out.missing, moistures, wet);
  return out;
}

std::optional<Fraction> survival_estimate(Kilograms larvae_out, Kilograms mean_larva,
                                          Number larvae_in) {
  const auto harvested = larvae_from_mass(larvae_out, mean_larva);
  if (!harvested || larvae_in <= Number{0}) return std::nullopt;
  return Fraction{*harvested / larvae_in};
}

std::optional<Number> larvae_per_cm2(Number larvae, SquareMetres area) {
  if (area <= SquareMetres{0}) return std::nullopt;
  return larvae / (area.value * kCm2PerM2);
}

std::optional<Number> larvae_from_eggs(Kilograms eggs, Number eggs_per_gram, Fraction hatch) {
  if (eggs < Kilograms{0} || eggs_per_gram < Number{0}) return std::nullopt;
  if (hatch < Fraction{0} || hatch > Fraction{1}) return std::nullopt;
  return eggs_per_gram * (eggs.value * 1000 * hatch.value);
}

std::optional<Number> larvae_from_mass(Kilograms larvae, Kilograms mean_larva) {
  if (larvae < Kilograms{0} || mean_larva <= Kilograms{0}) return std::nullopt;
  return Number{larvae / mean_larva};
}

std::optional<Number> specific_growth_rate(Kilograms mean_at_start, Kilograms mean_at_end,
                                           Days between) {
  const Kilograms none{0};
  if (mean_at_start <= none || mean_at_end <= none || between <= Days{0}) return std::nullopt;
  return Number{100 * std::log(mean_at_end / mean_at_start) / between.value};
}

bool is_far_from_neighbours(Kilograms mass, std::span<const Kilograms> neighbours, Number factor) {
  if (mass <= Kilograms{0}) return true;
  if (neighbours.empty()) return false;
  return std::none_of(neighbours.begin(), neighbours.end(),
                      [&](Kilograms neighbour) { return within_factor(mass, neighbour, factor); });
}

Fraction protein_from_nitrogen(Fraction nitrogen, const NitrogenFactor& factor) {
  return nitrogen * factor.value.value;
}

LarvaNutrients nutrients_in_larvae(Kilograms live, const LarvaComposition& composition) {
  const Kilograms dry = live * composition.dry_matter.value;
  return {dry, part_of(dry, composition.protein), part_of(dry, composition.fat),
          part_of(dry, composition.calcium), part_of(dry, composition.phosphorus)};
}

}  // namespace science
