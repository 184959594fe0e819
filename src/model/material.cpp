#include "model/material.h"

#include <algorithm>
#include <array>

#include "measure/text.h"
#include "model/catalogue_rows.h"

namespace model {
namespace {

// Methane ends at what pure fat can give (Buswell & Mueller 1952, triolein).
constexpr std::array kProperties{
    PropertyInfo{Property::kMoisture, "moisture", "%", 0.01, 0, 100, "water, of mass as carried"},
    PropertyInfo{Property::kCarbon, "carbon", "%", 0.01, 0, 100, "carbon, of dry mass"},
    PropertyInfo{Property::kNitrogen, "nitrogen", "%", 0.01, 0, 50, "nitrogen, of dry mass"},
    PropertyInfo{Property::kAmmonium, "ammonium", "%", 0.01, 0, 50, "NH4-N, of dry mass"},
    PropertyInfo{Property::kCarbonNitrogen, "cn", "1", 1, 0.5, 5000, "carbon to nitrogen"},
    PropertyInfo{Property::kPhosphorus, "phosphorus", "%", 0.01, 0, 50, "P, of dry mass"},
    PropertyInfo{Property::kPotassium, "potassium", "%", 0.01, 0, 85, "K, of dry mass"},
    PropertyInfo{Property::kCalcium, "calcium", "%", 0.01, 0, 75, "Ca, of dry mass"},
    PropertyInfo{Property::kBulkDensity, "bulk_density", "kg/m3", 1, 10, 3000, "mass a volume"},
    PropertyInfo{Property::kVolatileSolids, "volatile_solids", "%", 0.01, 0, 100, "of dry mass"},
    PropertyInfo{Property::kMethane, "methane", "m3/kgVS", 1, 0, 1.0125, "dry, 0 °C, 101.325 kPa"},
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

void drop(Material& material, Property property) {
  std::erase_if(material.figures, [&](const Figure& one) { return one.property == property; });
}

bool has(const std::vector<Figure>& figures, Property property) {
  return std::any_of(figures.begin(), figures.end(),
                     [&](const Figure& one) { return one.property == property; });
}

// The share that the material's figures give, as a figure of its own.
std::optional<Figure> worked_out(const Material& material, Property property) {
  if (const Figure* told = material.figure(property)) return *told;
  const auto share = property == Property::kCarbon ? material.carbon() : material.nitrogen();
  if (!share) return std::nullopt;
  return Figure{property, share->value, "worked out from the handbook's other figures"};
}

// Leaves of the handbook's carbon, nitrogen and ratio what goes with the site's own of them.
void make_room(Material& material, const std::vector<Figure>& own) {
  const bool carbon = has(own, Property::kCarbon), nitrogen = has(own, Property::kNitrogen),
             ratio = has(own, Property::kCarbonNitrogen);
  if (!carbon && !nitrogen && !ratio) return;
  const int told = int{carbon} + int{nitrogen} + int{ratio};
  const Property stays = carbon ? Property::kNitrogen : Property::kCarbon;
  const auto kept = told == 1 ? worked_out(material, stays) : std::nullopt;
  // Nothing else can go with a lone ratio but the nitrogen, where the handbook knows no carbon.
  const Figure* lone = material.figure(Property::kNitrogen);
  const std::optional<Figure> instead =
      told == 1 && ratio && !kept && lone != nullptr ? std::optional(*lone) : std::nullopt;
  for (const Property one : {Property::kCarbon, Property::kNitrogen, Property::kCarbonNitrogen}) {
    drop(material, one);
  }
  if (kept) material.figures.push_back(*kept);
  if (instead) material.figures.push_back(*instead);
}

}  // namespace

void overlay(Material& material, const std::vector<Figure>& own) {
  make_room(material, own);
  for (const Figure& figure : own) {
    drop(material, figure.property);
    material.figures.push_back(figure);
  }
}

const std::vector<Material>& catalogue() {
  static const std::vector<Material> kCatalogue = read_catalogue();
  return kCatalogue;
}

const Material* in_catalogue(std::string_view name) {
  const std::string wanted = measure::folded(name);
  const auto& all = catalogue();
  const auto found = std::find_if(all.begin(), all.end(), [&](const Material& one) {
    return one.name == wanted ||
           std::find(one.aliases.begin(), one.aliases.end(), wanted) != one.aliases.end();
  });
  return found == all.end() ? nullptr : &*found;
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
  struct Meant {
    std::string_view group, flag;
  };
  // What a group says by itself, so that a site's own material need not.
  static constexpr std::array<Meant, 5> kMeant{{{"crop", "edible-crop"},
                                                {"dairy", "dairy"},
                                                {"water", "liquid"},
                                                {"brew", "liquid"},
                                                {"forbidden", "forbidden"}}};
  const bool meant = std::any_of(kMeant.begin(), kMeant.end(), [&](const Meant& one) {
    return one.group == group && one.flag == flag;
  });
  return meant || std::find(flags.begin(), flags.end(), flag) != flags.end();
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
