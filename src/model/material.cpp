#include "model/material.h"

#include <algorithm>
#include <array>

#include "measure/text.h"
#include "model/catalogue_rows.h"

namespace model {
namespace {

constexpr std::array kProperties{
    PropertyInfo{Property::kMoisture, "moisture", "%", 0.01, 0, 100, "water, of mass as carried"},
    PropertyInfo{Property::kCarbon, "carbon", "%", 0.01, 0, 100, "carbon, of dry mass"},
    PropertyInfo{Property::kNitrogen, "nitrogen", "%", 0.01, 0, 50, "nitrogen, of dry mass"},
    PropertyInfo{Property::kCarbonNitrogen, "cn", "1", 1, 0.5, 5000, "carbon to nitrogen"},
    PropertyInfo{Property::kPhosphorus, "phosphorus", "%", 0.01, 0, 50, "P, of dry mass"},
    PropertyInfo{Property::kPotassium, "potassium", "%", 0.01, 0, 85, "K, of dry mass"},
    PropertyInfo{Property::kCalcium, "calcium", "%", 0.01, 0, 75, "Ca, of dry mass"},
    PropertyInfo{Property::kBulkDensity, "bulk_density", "kg/m3", 1, 10, 3000, "mass a volume"},
    PropertyInfo{Property::kVolatileSolids, "volatile_solids", "%", 0.01, 0, 100, "of dry mass"},
    PropertyInfo{Property::kMethane, "methane", "m3/kgVS", 1, 0, 1.1, "dry, 0 degC, 101.325 kPa"},
    PropertyInfo{Property::kProtein, "protein", "%", 0.01, 0, 100, "crude protein, of dry mass"},
    PropertyInfo{Property::kFat, "fat", "%", 0.01, 0, 100, "fat, of dry mass"},
    PropertyInfo{Property::kAsh, "ash", "%", 0.01, 0, 100, "ash, of dry mass"},
};

std::optional<double> implied_carbon(const Material& material) {
  if (const Figure* carbon = material.figure(Property::kCarbon)) return carbon->value;
  const Figure* nitrogen = material.figure(Property::kNitrogen);
  const Figure* ratio = material.figure(Property::kCarbonNitrogen);
  if (nitrogen == nullptr || ratio == nullptr) return std::nullopt;
  return nitrogen->value * ratio->value;
}

std::vector<Material> read_catalogue() {
  std::vector<Material> materials;
  for (const MaterialRow& row : material_rows()) {
    materials.push_back({std::string(row.name),
                         std::string(row.group),
                         measure::split(row.aliases, ';'),
                         measure::split(row.flags, ';'),
                         std::string(row.meaning),
                         {}});
  }
  for (const FigureRow& row : figure_rows()) {
    materials[row.material].figures.push_back({row.property, row.value, std::string(row.source)});
  }
  return materials;
}

}  // namespace

const std::vector<Material>& catalogue() {
  static const std::vector<Material> kCatalogue = read_catalogue();
  return kCatalogue;
}

std::span<const PropertyInfo> all_properties() {
  return kProperties;
}

const PropertyInfo& info(Property property) {
  return *std::find_if(kProperties.begin(), kProperties.end(),
                       [&](const PropertyInfo& row) { return row.property == property; });
}

const PropertyInfo* find_property(std::string_view key) {
  const auto found = std::find_if(kProperties.begin(), kProperties.end(),
                                  [&](const PropertyInfo& row) { return row.key == key; });
  return found == kProperties.end() ? nullptr : &*found;
}

bool Material::is(std::string_view flag) const {
  return std::find(flags.begin(), flags.end(), flag) != flags.end();
}

const Figure* Material::figure(Property property) const {
  const auto found = std::find_if(figures.begin(), figures.end(), [&](const Figure& figure) {
    return figure.property == property;
  });
  return found == figures.end() ? nullptr : &*found;
}

std::optional<measure::Fraction> Material::share(Property property) const {
  const Figure* found = figure(property);
  if (found == nullptr) return std::nullopt;
  return measure::Fraction{found->value};
}

std::optional<measure::Fraction> Material::moisture() const {
  return share(Property::kMoisture);
}

std::optional<measure::Fraction> Material::impossible_carbon() const {
  const auto carbon = implied_carbon(*this);
  if (!carbon || group == "char" || is("oil") || *carbon <= kMostCarbon.value) return std::nullopt;
  return measure::Fraction{*carbon};
}

std::optional<measure::Fraction> Material::carbon() const {
  const auto carbon = implied_carbon(*this);
  if (!carbon || impossible_carbon()) return std::nullopt;
  return measure::Fraction{*carbon};
}

std::optional<measure::Fraction> Material::nitrogen() const {
  if (const Figure* nitrogen = figure(Property::kNitrogen)) {
    return measure::Fraction{nitrogen->value};
  }
  const Figure* carbon = figure(Property::kCarbon);
  const Figure* ratio = figure(Property::kCarbonNitrogen);
  if (carbon == nullptr || ratio == nullptr || ratio->value <= 0) return std::nullopt;
  return measure::Fraction{carbon->value / ratio->value};
}

std::optional<double> Material::kilograms_per_litre() const {
  const Figure* density = figure(Property::kBulkDensity);
  if (density == nullptr) return std::nullopt;
  return density->value / 1000;
}

}  // namespace model
