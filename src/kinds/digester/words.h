#pragma once

#include <cmath>
#include <string>
#include <string_view>

#include "measure/printer.h"
#include "measure/unit.h"
#include "model/history.h"
#include "science/numbers/units.h"

// What the digester's parts share in words and in what a material is to them.
namespace kinds::digester {

inline constexpr std::string_view kGasCaution =
    "Biogas in air explodes (5 to 15 % methane); its hydrogen sulfide deadens the nose, then "
    "kills. No flame, spark or switch near it; work outdoors, upwind; never lean or climb in. "
    "Gas fitting is for a licensed fitter, under local code.";

// Its first sentence: why, where what to do is said otherwise.
inline constexpr std::string_view kGasDanger = kGasCaution.substr(0, kGasCaution.find(" No flame"));

inline constexpr std::string_view kEffluentCaution =
    "Digestion at these temperatures does not kill germs or worm eggs: effluent counts as raw "
    "manure. Not on leaves or on parts that are eaten; into the soil 120 days before a harvest "
    "that touches soil, 90 before one that does not (7 CFR 205.203(c)). It lets gas off as it "
    "is drawn: outdoors, no flame.";

inline bool is_water(const model::Material& material) {
  return material.group == "water";
}
// Slurry of a working digester: a starter, hardly a feed.
inline bool is_inoculum(const model::Material& material) {
  return material.group == "effluent";
}
inline bool is_gas(const model::Material& material) {
  return material.group == "gas";
}
inline bool is_feed(const model::Material& material) {
  return !is_water(material) && !is_inoculum(material) && !is_gas(material) &&
         material.group != "mineral";
}

// Gas that went out unused: `--for venting`, "let off".
inline bool is_let_off(const model::Movement& movement) {
  return movement.purpose.find("vent") != std::string::npos ||
         movement.purpose.find("let off") != std::string::npos;
}

// Slurry and its water in gallons or litres however much it is, as a digester's size is told.
inline constexpr measure::ShownIn kSlurry{"gal", "L"};
inline std::string slurry_words(measure::Litres volume, const measure::Printer& print) {
  return print(measure::value_of(volume), kSlurry);
}

// Standard volume in the site's units: "9.2 ft3", "260 L".
inline std::string gas_words(science::NormalLitres gas, const measure::Printer& print) {
  return print({measure::Dimension::kVolume, gas.value}, {"ft3", "L"});
}

// The step of the last of two figures of a number above zero: 0.1 of 1.63, 10 of 163.
inline double two_figure_step(double number) {
  return std::pow(10, std::floor(std::log10(number)) - 1);
}

// The same of an estimate, to two figures: "about" is for the sentence to say.
inline std::string about_gas_words(science::NormalLitres gas, const measure::Printer& print) {
  const double unit =
      print.system() == measure::UnitSystem::kUs ? measure::unit("ft3").to_base(1) : 1;
  const double shown = gas.value / unit;
  if (shown <= 0) return gas_words(gas, print);
  const double step = two_figure_step(shown);
  return gas_words(science::NormalLitres{std::round(shown / step) * step * unit}, print);
}

}  // namespace kinds::digester
