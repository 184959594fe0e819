#include "science/soil/char.h"

#include <cmath>

#include "science/numbers/constants.h"

namespace science {

using measure::Celsius;
using measure::Fraction;
using measure::Kilograms;
using measure::Litres;
using measure::Metres;
using measure::Number;
using measure::SquareMetres;

std::optional<Kilograms> dry_part(Kilograms as_weighed, Fraction moisture) {
  if (as_weighed < Kilograms{0} || moisture < Fraction{0} || moisture >= Fraction{1}) {
    return std::nullopt;
  }
  return as_weighed * (1 - moisture.value);
}

std::optional<Kilograms> dry_char_by_bucket(Litres volume, Litres bucket, Kilograms dry_weight) {
  if (volume < Litres{0} || bucket <= Litres{0} || dry_weight <= Kilograms{0}) return std::nullopt;
  return dry_weight * (volume / bucket);
}

std::optional<Fraction> char_yield(Kilograms char_dry, Kilograms feedstock_dry) {
  if (feedstock_dry <= Kilograms{0} || char_dry < Kilograms{0}) return std::nullopt;
  return Fraction{char_dry / feedstock_dry};
}

UncertainFraction char_carbon(CharFeedstock feedstock, CharProcess process) {
  const bool pyrolysis = process == CharProcess::kPyrolysis;
  const auto row = [&](double by_pyrolysis, double its_doubt, double by_gasification,
                       double other_doubt) {
    return UncertainFraction{Fraction{pyrolysis ? by_pyrolysis : by_gasification},
                             Fraction{pyrolysis ? its_doubt : other_doubt}};
  };
  switch (feedstock) {
    case CharFeedstock::kManure:
      return row(0.38, 0.49, 0.09, 0.53);
    case CharFeedstock::kWood:
      return row(0.77, 0.42, 0.52, 0.52);
    case CharFeedstock::kHerbaceous:
      return row(0.65, 0.45, 0.28, 0.50);
    case CharFeedstock::kRice:
      return row(0.49, 0.41, 0.13, 0.50);
    case CharFeedstock::kNutShells:
      return row(0.74, 0.39, 0.40, 0.52);
    case CharFeedstock::kBiosolids:
      return row(0.35, 0.40, 0.07, 0.50);
  }
  return {};
}

std::optional<UncertainFraction> char_permanence(Celsius hottest) {
  if (hottest > Celsius{600}) return UncertainFraction{Fraction{0.89}, Fraction{0.13}};
  if (hottest > Celsius{450}) return UncertainFraction{Fraction{0.80}, Fraction{0.11}};
  if (hottest > Celsius{350}) return UncertainFraction{Fraction{0.65}, Fraction{0.15}};
  return std::nullopt;
}

Fraction combined_uncertainty(Fraction one, Fraction other) {
  return Fraction{std::hypot(one.value, other.value)};
}

Kilograms lasting_carbon(Kilograms char_dry, Fraction carbon, Fraction permanence) {
  return char_dry * (carbon.value * permanence.value);
}

Kilograms as_carbon_dioxide(Kilograms carbon) {
  return carbon * (44.0 / 12.0);
}

KilogramsPerTonne between_in_logarithm(KilogramsPerTonne from, KilogramsPerTonne to,
                                       measure::Fraction share) {
  return from * std::pow(to / from, share.value);
}

CharBalance char_balance(Kilograms char_dry, Kilograms lasting_carbon,
                         KilogramsPerTonne methane_factor, Number warming_potential) {
  CharBalance balance;
  balance.stored = as_carbon_dioxide(lasting_carbon);
  balance.methane = char_dry * (methane_factor.value / 1000);
  balance.methane_co2 = balance.methane * warming_potential.value;
  balance.net = balance.stored - balance.methane_co2;
  return balance;
}

std::optional<Number> hydrogen_to_carbon(Fraction hydrogen, Fraction carbon) {
  if (carbon <= Fraction{0}) return std::nullopt;
  return Number{(hydrogen.value / kHydrogen) / (carbon.value / kCarbon)};
}

std::optional<Number> oxygen_to_carbon(Fraction oxygen, Fraction carbon) {
  if (carbon <= Fraction{0}) return std::nullopt;
  return Number{(oxygen.value / kOxygen) / (carbon.value / kCarbon)};
}

CharGrade char_grade(Number h_to_c, std::optional<Number> o_to_c) {
  if (h_to_c >= Number{0.7} || (o_to_c && *o_to_c >= Number{0.4})) return CharGrade::kNotBiochar;
  return h_to_c < Number{0.4} ? CharGrade::kStable : CharGrade::kBiochar;
}

std::optional<CharVolumeShare> char_share_by_volume(Litres char_volume, SquareMetres area,
                                                    Metres depth) {
  if (char_volume < Litres{0} || area <= SquareMetres{0} || depth <= Metres{0}) return std::nullopt;
  const double cubic_metres = char_volume.value / kLitresPerCubicMetre;
  const double soil = area.value * depth.value;
  return CharVolumeShare{Fraction{cubic_metres / soil},
                         Fraction{cubic_metres / (soil + cubic_metres)},
                         Metres{cubic_metres / area.value}};
}

std::optional<Fraction> char_share_by_mass(Kilograms char_dry, SquareMetres area, Metres depth,
                                           KilogramsPerCubicMetre soil) {
  const double soil_mass = area.value * depth.value * soil.value;
  if (char_dry < Kilograms{0} || area <= SquareMetres{0} || depth <= Metres{0} || soil_mass <= 0) {
    return std::nullopt;
  }
  return Fraction{char_dry.value / soil_mass};
}

std::optional<SquareMetres> bed_for_char(Litres char_volume, Fraction of_soil, Metres depth) {
  if (char_volume < Litres{0} || of_soil <= Fraction{0} || depth <= Metres{0}) return std::nullopt;
  return SquareMetres{char_volume.value / kLitresPerCubicMetre / (of_soil.value * depth.value)};
}

}  // namespace science
