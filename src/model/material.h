#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "measure/scalar.h"

namespace model {

// What is known of a material. Shares are of dry mass, moisture of mass as it is carried.
enum class Property {
  kMoisture,        // fraction of mass as is
  kCarbon,          // fraction of dry mass
  kNitrogen,        // fraction of dry mass
  kAmmonium,        // NH4-N, part of the nitrogen, fraction of dry mass
  kCarbonNitrogen,  // ratio of carbon to nitrogen
  kPhosphorus,      // P, fraction of dry mass
  kPotassium,       // K, fraction of dry mass
  kCalcium,         // fraction of dry mass
  kBulkDensity,     // kg/m3 as it is carried
  kVolatileSolids,  // fraction of dry mass
  kMethane,         // m3 of methane (0 degC, 101.325 kPa, dry) a kg of volatile solids
  kProtein,         // crude, fraction of dry mass
  kFat,             // fraction of dry mass
  kAsh,             // fraction of dry mass
};

struct PropertyInfo {
  Property property;
  std::string_view key;    // "moisture": as typed and stored
  std::string_view unit;   // "%", "kg/m3", "1", "m3/kgVS": as typed and printed
  double factor;           // stored value = typed x factor
  double least, greatest;  // typed values outside are impossible
  std::string_view meaning;
};

std::span<const PropertyInfo> all_properties();
const PropertyInfo& info(Property property);
// The property of that key, or null.
const PropertyInfo* find_property(std::string_view key);

struct Figure {
  Property property;
  double value;        // in stored units: fractions, not per cent
  std::string source;  // a citation, "from memory", "common practice", "laboratory 2026-03-01", ...
};

// A material or product as the site knows it: the catalogue's, with the site's own figures over it.
struct Material {
  std::string name;
  std::string group;
  std::vector<std::string> aliases;
  std::vector<std::string> flags;
  std::string meaning;
  std::vector<Figure> figures;
  std::string statement{};  // its supplier's, of a treatment; empty: none is on record

  // Whether it has the flag, by itself or by its group: a crop is eaten, water is liquid.
  bool is(std::string_view flag) const;
  const Figure* figure(Property property) const;

  std::optional<measure::Fraction> moisture() const;
  // The carbon share: the figure itself, or nitrogen x C:N. None where either is unknown, or where
  // the figures imply more carbon than dry matter can hold (see impossible_carbon).
  std::optional<measure::Fraction> carbon() const;
  // The nitrogen share: the figure itself, or carbon / C:N.
  std::optional<measure::Fraction> nitrogen() const;
  std::optional<measure::Fraction> share(Property property) const;
  // kg a litre.
  std::optional<double> kilograms_per_litre() const;

  // The carbon share that the figures imply where it is above kMostCarbon, which no plant or animal
  // matter reaches: handbooks average N and C:N apart, so their product can be impossible. Char and
  // fats, which do hold more, are exempt.
  std::optional<measure::Fraction> impossible_carbon() const;
};

// Dry plant matter holds 40 to 58 % carbon (lignin, its richest part, about 63 %); from memory.
inline constexpr measure::Fraction kMostCarbon{0.60};

// Puts a site's own figures over a material's. Carbon, nitrogen and their ratio hang together: two
// of them make the third, so that an own figure must not be multiplied with a handbook's of other
// stuff. The own ones stand; of the handbook's only its carbon is kept (it varies least), or its
// nitrogen where carbon itself is told.
void overlay(Material& material, const std::vector<Figure>& own);

// The catalogue that comes with the program, made from schema/materials.csv at build.
const std::vector<Material>& catalogue();
// Its material of that name or alias, whatever the case of a to z; null: none.
const Material* in_catalogue(std::string_view name);

}  // namespace model
