#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "measure/scalar.h"

// Black soldier fly larvae: how fast they grow, what they make of their feed. Masses are kilograms
// throughout, a single larva too (140 mg is 1.4e-4). A function that divides gives nothing where
// the divisor is not above zero.
namespace science {

// --- What became of the feed ---

// One batch from seeding to harvest, as far as it was weighed.
struct LarvaeRun {
  std::optional<measure::Kilograms> feed{};        // all that was given
  std::optional<measure::Kilograms> residue{};     // frass and what was not eaten
  std::optional<measure::Kilograms> larvae_in{};   // the young larvae put in
  std::optional<measure::Kilograms> larvae_out{};  // larvae and dark larvae harvested
  std::optional<measure::Days> duration{};
  std::optional<measure::Number> larvae_count{};  // put in
  std::optional<measure::SquareMetres> area{};
  // Coir, sawdust or char mixed in, which leaves with the frass; none: some was, of unknown weight.
  std::optional<measure::Kilograms> bulking = measure::Kilograms{0};
};

// Water as a share of the wet mass, from 0 to under 1.
struct LarvaeMoistures {
  std::optional<measure::Fraction> feed{};
  std::optional<measure::Fraction> residue{};
  std::optional<measure::Fraction> larvae_in{};
  std::optional<measure::Fraction> larvae_out{};
  std::optional<measure::Fraction> bulking{};
};

enum class LarvaeInput {
  Feed,
  Residue,
  LarvaeIn,
  LarvaeOut,
  Duration,
  LarvaeCount,
  Area,
  FeedMoisture,
  ResidueMoisture,
  LarvaeInMoisture,
  LarvaeOutMoisture,
  Bulking,
  BulkingMoisture,
};

std::string_view plain_name(LarvaeInput input);  // "frass left", for "missing: frass left"

// Every figure that the inputs allow, on one basis. None is clamped: a residue heavier than the
// feed (water was added) is a negative waste reduction, larvae that lost mass a negative gain. An
// efficiency or a conversion ratio that has no meaning then (nothing eaten, nothing gained) is
// empty. Bulking is no feed, but it is in the residue: what is held against the residue is both
// together.
struct LarvaeMetrics {
  std::optional<measure::Kilograms> gain{};            // larvae out - larvae in
  std::optional<measure::Fraction> waste_reduction{};  // 1 - residue / (feed + bulking)
  std::optional<measure::Fraction> bioconversion{};    // gain / feed
  std::optional<measure::Fraction>
      ecd{};  // gain / (feed + bulking - residue), all that was digested
  std::optional<measure::Number> waste_reduction_index{};  // percent of both, per day
  std::optional<measure::Number> feed_conversion_ratio{};  // feed / gain
  // What is in neither residue nor larvae. Dry: breathed out. Wet: mostly water evaporated.
  std::optional<measure::Kilograms> loss{};
  std::optional<measure::Number> feed_mg_per_larva_day{};
  std::optional<measure::Number> feed_kg_per_m2_day{};
  // What keeps a figure empty: inputs absent, or not usable (a feed of zero, a negative mass, a
  // moisture outside its range). In the order of the enumeration.
  std::vector<LarvaeInput> missing{};
};

// Waste reduction, bioconversion and loss as in the analysis code of Fuhrmann et al. 2024;
// waste reduction index and ECD after Diener et al. 2009, Waste Manag. Res. 27:603-610 (from
// memory).
// All on the basis as weighed, or all without water.
LarvaeMetrics metrics_as_weighed(const LarvaeRun& run);
LarvaeMetrics metrics_on_dry_matter(const LarvaeRun& run, const LarvaeMoistures& moistures);

// Larvae harvested (their mass over the mean larva) as a share of those put in. Sampling error can
// take it above 1: warn, do not correct.
std::optional<measure::Fraction> survival_estimate(measure::Kilograms larvae_out,
                                                   measure::Kilograms mean_larva,
                                                   measure::Number larvae_in);

// --- Counts and growth ---

// Larvae a square centimetre.
std::optional<measure::Number> larvae_per_cm2(measure::Number larvae, measure::SquareMetres area);

// Young larvae to expect from a mass of eggs. Nothing when a figure is negative or the hatch
// above 1.
std::optional<measure::Number> larvae_from_eggs(measure::Kilograms eggs,
                                                measure::Number eggs_per_gram,
                                                measure::Fraction hatch);

std::optional<measure::Number> larvae_from_mass(measure::Kilograms larvae,
                                                measure::Kilograms mean_larva);

// Percent a day: 100 (ln end - ln start) / days. Negative when the larvae lighten, as they do
// before they darken. Eggink et al. 2022, PLoS ONE 17(9): e0275213.
std::optional<measure::Number> specific_growth_rate(measure::Kilograms mean_at_start,
                                                    measure::Kilograms mean_at_end,
                                                    measure::Days between);

// Whether a mean larva mass lies further than `factor` times above or below every neighbour (the
// other weighings of the day, or those before and after): a slipped decimal point, not growth.
// Larvae may grow fivefold in two days, so use a factor near ten. True of a mass not above zero;
// false without neighbours, as there is nothing to judge by.
bool is_far_from_neighbours(measure::Kilograms mass, std::span<const measure::Kilograms> neighbours,
                            measure::Number factor);

// --- Composition ---

// A factor from nitrogen to protein, with the words to show beside any figure made with it.
struct NitrogenFactor {
  measure::Number value{};
  std::string_view name{};
};

// As the analysis code of Gold, Fuhrmann and co-workers has it for larvae (2020-2024). The larvae's
// chitin holds nitrogen too, hence less than 6.25.
inline constexpr NitrogenFactor kLarvaNitrogenFactor{measure::Number{4.67},
                                                     "N x 4.67, larvae less chitin"};
inline constexpr NitrogenFactor kCrudeProteinFactor{measure::Number{6.25},
                                                    "N x 6.25, crude protein"};

// Protein on the basis on which nitrogen is given.
measure::Fraction protein_from_nitrogen(measure::Fraction nitrogen, const NitrogenFactor& factor);

// Dry matter as a share of live mass, the others as shares of dry matter, as far as known.
struct LarvaComposition {
  measure::Fraction dry_matter{};
  std::optional<measure::Fraction> protein{};
  std::optional<measure::Fraction> fat{};
  std::optional<measure::Fraction> calcium{};
  std::optional<measure::Fraction> phosphorus{};
};

struct LarvaNutrients {
  measure::Kilograms dry_matter{};
  std::optional<measure::Kilograms> protein{};
  std::optional<measure::Kilograms> fat{};
  std::optional<measure::Kilograms> calcium{};
  std::optional<measure::Kilograms> phosphorus{};
};

LarvaNutrients nutrients_in_larvae(measure::Kilograms live, const LarvaComposition& composition);

}  // namespace science
