#pragma once

#include <optional>

#include "measure/scalar.h"
#include "science/numbers/units.h"

// Biochar: what a burn gives, how much of its carbon lasts, and how much char a bed gets.
namespace science {

// Mass without its water. Nothing where the mass is below zero or the moisture (of the mass as it
// was weighed) is not in 0 to under 1.
std::optional<measure::Kilograms> dry_part(measure::Kilograms as_weighed,
                                           measure::Fraction moisture);

// Dry char from its volume: char swells little with water, so that one bucketful that was dried and
// weighed stands for all of them. Nothing where the bucket or its dry weight is not above zero or
// the volume is below zero.
std::optional<measure::Kilograms> dry_char_by_bucket(measure::Litres volume, measure::Litres bucket,
                                                     measure::Kilograms dry_weight);

// Dry char of dry feedstock. Nothing where the feedstock is not above zero or the char is below.
std::optional<measure::Fraction> char_yield(measure::Kilograms char_dry,
                                            measure::Kilograms feedstock_dry);

// What was burnt, as IPCC (2019) table 4Ap.1 sorts it.
enum class CharFeedstock {
  kManure,
  kWood,
  kHerbaceous,  // grasses, forbs, leaves; not rice
  kRice,        // husks and straw
  kNutShells,   // shells, pits and stones
  kBiosolids,   // sludges of paper mills and sewage works
};

enum class CharProcess { kPyrolysis, kGasification };

// A published value with the half-width of its 95 % interval as a share of the value.
struct UncertainFraction {
  measure::Fraction value{};
  measure::Fraction relative_uncertainty{};
};

// Organic carbon of dry char where no laboratory measured it.
// Source: IPCC 2019 Refinement to the 2006 Guidelines, vol. 4 ch. 2 appendix 4, table 4Ap.1; the
// uncertainties from memory.
UncertainFraction char_carbon(CharFeedstock feedstock, CharProcess process);

// The share of char carbon still in mineral soil of cropland or grassland after 100 years, by the
// highest temperature it was made at: above 600 degC 0.89 +-13 %, above 450 up to 600 0.80 +-11 %,
// above 350 up to 450 0.65 +-15 %. Nothing at 350 degC or less: the method starts "in excess of 350
// degC", what is made below is not biochar to it. The table's classes share their edges (350-450,
// 450-600, > 600); here an edge belongs to the lower class, so that no doubt about it raises the
// result. Source: the same appendix, equation 4Ap.1 and table 4Ap.2; a "basis for future
// methodological development", not complete guidance.
std::optional<UncertainFraction> char_permanence(measure::Celsius hottest);

// What the two shares leave of their uncertainty when multiplied: in quadrature.
measure::Fraction combined_uncertainty(measure::Fraction one, measure::Fraction other);

// Carbon that lasts: dry char x carbon share x permanence (equation 4Ap.1).
measure::Kilograms lasting_carbon(measure::Kilograms char_dry, measure::Fraction carbon,
                                  measure::Fraction permanence);

// The carbon dioxide that an amount of carbon is: x 44/12, as the IPCC guidelines round it.
measure::Kilograms as_carbon_dioxide(measure::Kilograms carbon);

// A factor between two that are decades apart, `share` (0 to 1) of the way from one to the other in
// the logarithm: between 30 and 500 half way stands at 122, where the plain mean would say 265.
// Both are above 0.
KilogramsPerTonne between_in_logarithm(KilogramsPerTonne from, KilogramsPerTonne to,
                                       measure::Fraction share);

// What a burn keeps out of the air for 100 years against the methane it let go, in kg of CO2
// equivalent. The carbon dioxide of the burn itself is of this year's growth and is not counted.
struct CharBalance {
  measure::Kilograms stored{};       // CO2 of the lasting carbon
  measure::Kilograms methane{};      // CH4, as it is
  measure::Kilograms methane_co2{};  // CO2 equivalent of it
  measure::Kilograms net{};  // stored - methane_co2: below zero, the burn did more harm than good
};

// `methane_factor` is kg of CH4 a tonne of dry char (= g a kg), `warming_potential` kg of CO2 a kg
// of CH4 over 100 years.
CharBalance char_balance(measure::Kilograms char_dry, measure::Kilograms lasting_carbon,
                         KilogramsPerTonne methane_factor, measure::Number warming_potential);

// Molar ratios to organic carbon from shares of dry mass (standard atomic masses H 1.008, C 12.011,
// O 15.999). Nothing where carbon is not above zero.
std::optional<measure::Number> hydrogen_to_carbon(measure::Fraction hydrogen,
                                                  measure::Fraction carbon);
std::optional<measure::Number> oxygen_to_carbon(measure::Fraction oxygen, measure::Fraction carbon);

enum class CharGrade {
  kStable,     // H/Corg under 0.4
  kBiochar,    // H/Corg under 0.7
  kNotBiochar  // H/Corg of 0.7 or more, or O/Corg of 0.4 or more: charred too little
};

// By the molar ratios; without an O/Corg, by H/Corg alone. 0.7 exactly is not biochar: the IUPAC
// glossary says under 0.7 (other standards take 0.7 itself in). Source: IUPAC glossary,
// doi 10.1515/pac-2021-0106 (H/Corg < 0.7, O/Corg < 0.4); the 0.4 of stable char: European Biochar
// Certificate version 10.2, EBC-Feed.
CharGrade char_grade(measure::Number h_to_c, std::optional<measure::Number> o_to_c);

// Char mixed into the top of a bed, two ways that differ: as a share of the soil's volume, the char
// coming on top, or of the blend's. Settling leaves the truth between them.
struct CharVolumeShare {
  measure::Fraction of_soil{};
  measure::Fraction of_blend{};
  measure::Metres layer{};  // of the char spread on the bed before it is mixed in
};

// Nothing where the area or the depth is not above zero or the char is below.
std::optional<CharVolumeShare> char_share_by_volume(measure::Litres char_volume,
                                                    measure::SquareMetres area,
                                                    measure::Metres depth);

// Dry char as a share of the dry soil's mass, `soil` its bulk density (loam about 1300 kg/m3).
// Nothing where the area, the depth or the density is not above zero or the char is below.
std::optional<measure::Fraction> char_share_by_mass(measure::Kilograms char_dry,
                                                    measure::SquareMetres area,
                                                    measure::Metres depth,
                                                    KilogramsPerCubicMetre soil);

// The bed that a volume of char covers at a share of its soil's volume. Nothing where the share or
// the depth is not above zero or the char is below.
std::optional<measure::SquareMetres> bed_for_char(measure::Litres char_volume,
                                                  measure::Fraction of_soil, measure::Metres depth);

}  // namespace science
