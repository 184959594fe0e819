#include "model/material.h"

#include <doctest/doctest.h>

#include <set>

#include "build_history.h"

namespace material_test {

using model::Figure;
using model::Material;
using model::Property;

namespace {

Material made(std::vector<Figure> figures, std::string group = "green",
              std::vector<std::string> flags = {}) {
  Material material;
  material.name = "test";
  material.group = std::move(group);
  material.flags = std::move(flags);
  material.figures = std::move(figures);
  return material;
}

}  // namespace

// Urea, CO(NH2)2, by the standard atomic weights of C, H, N, O (IUPAC 2021,
// abridged: 12.011, 1.008, 14.007, 15.999): a mole of 60.056 g holds 12.011 g of carbon and 28.014
// g of nitrogen.
TEST_CASE("carbon, nitrogen and their ratio follow from any two") {
  const double carbon = 12.011 / 60.056, nitrogen = 28.014 / 60.056, ratio = 12.011 / 28.014;
  const Material by_ratio =
      made({{Property::kNitrogen, nitrogen, ""}, {Property::kCarbonNitrogen, ratio, ""}});
  CHECK(by_ratio.carbon()->value == doctest::Approx(carbon).epsilon(1e-12));
  CHECK(by_ratio.nitrogen()->value == nitrogen);
  const Material by_carbon =
      made({{Property::kCarbon, carbon, ""}, {Property::kCarbonNitrogen, ratio, ""}});
  CHECK(by_carbon.nitrogen()->value == doctest::Approx(nitrogen).epsilon(1e-12));
  CHECK(by_carbon.carbon()->value == carbon);
}

TEST_CASE("a figure of its own goes before what follows from others") {
  const Material all = made({{Property::kCarbon, 0.45, ""},
                             {Property::kNitrogen, 0.02, ""},
                             {Property::kCarbonNitrogen, 12, ""}});
  CHECK(all.carbon()->value == 0.45);
  CHECK(all.nitrogen()->value == 0.02);
}

TEST_CASE("what is not known is not made up") {
  CHECK_FALSE(made({}).carbon());
  CHECK_FALSE(made({}).nitrogen());
  CHECK_FALSE(made({}).moisture());
  CHECK_FALSE(made({}).kilograms_per_litre());
  CHECK_FALSE(made({{Property::kNitrogen, 0.02, ""}}).carbon());
  CHECK_FALSE(made({{Property::kCarbonNitrogen, 30, ""}}).carbon());
  CHECK_FALSE(made({{Property::kCarbonNitrogen, 30, ""}}).nitrogen());
  CHECK_FALSE(made({{Property::kCarbon, 0.4, ""}, {Property::kCarbonNitrogen, 0, ""}}).nitrogen());
  CHECK(made({{Property::kMoisture, 0, ""}}).moisture()->value == 0);  // dry is not unknown
}

TEST_CASE("more carbon than dry matter holds is flagged and not used") {
  // 3.5 % N at C:N 25 would be 87.5 % carbon; cellulose, (C6H10O5)n, holds 44.4 %.
  const std::vector<Figure> pair{{Property::kNitrogen, 0.035, ""},
                                 {Property::kCarbonNitrogen, 25, ""}};
  const Material impossible = made(pair);
  CHECK(impossible.impossible_carbon()->value == doctest::Approx(0.875));
  CHECK_FALSE(impossible.carbon());
  CHECK(impossible.nitrogen()->value == 0.035);  // that was measured
  CHECK(made({{Property::kCarbon, 0.61, ""}}).impossible_carbon());
  CHECK_FALSE(made({{Property::kCarbon, 0.61, ""}}).carbon());
  // At the limit itself it is still possible.
  CHECK_FALSE(made({{Property::kCarbon, 0.60, ""}}).impossible_carbon());
  CHECK(made({{Property::kCarbon, 0.60, ""}}).carbon()->value == 0.60);
  // Char and fats do hold more: triolein, C57H104O6, is 77 % carbon.
  CHECK(made({{Property::kCarbon, 0.85, ""}}, "char").carbon()->value == 0.85);
  CHECK(made({{Property::kCarbon, 0.77, ""}}, "food", {"oil"}).carbon()->value == 0.77);
  CHECK_FALSE(made(pair, "food", {"dairy"}).carbon());
}

TEST_CASE("bulk density in kg/m3 is a thousandth of it in kg/L") {
  CHECK(made({{Property::kBulkDensity, 1000, ""}}).kilograms_per_litre() == 1.0);
  CHECK(made({{Property::kBulkDensity, 118.7, ""}}).kilograms_per_litre() ==
        doctest::Approx(0.1187));
}

TEST_CASE("properties by their keys") {
  std::set<std::string_view> keys;
  for (const model::PropertyInfo& one : model::all_properties()) {
    CAPTURE(one.key);
    CHECK(keys.insert(one.key).second);
    CHECK(model::find_property(one.key) == &one);
    CHECK(&model::info(one.property) == &one);
    CHECK(one.factor == (one.unit == "%" ? 0.01 : 1));
    CHECK(one.least < one.greatest);
    CHECK_FALSE(one.meaning.empty());
  }
  CHECK(keys.size() == static_cast<std::size_t>(Property::kAsh) + 1);
  CHECK(model::find_property("colour") == nullptr);
}

TEST_CASE("the catalogue as it was embedded") {
  std::set<std::string> names;
  for (const Material& one : model::catalogue()) {
    CAPTURE(one.name);
    CHECK(names.insert(one.name).second);
    CHECK_FALSE(one.group.empty());
    CHECK_FALSE(one.meaning.empty());
    std::set<Property> known;
    for (const Figure& figure : one.figures) {
      const model::PropertyInfo& info = model::info(figure.property);
      CAPTURE(info.key);
      CHECK(known.insert(figure.property).second);
      CHECK_FALSE(figure.source.empty());
      CHECK(figure.value / info.factor >= info.least);
      CHECK(figure.value / info.factor <= info.greatest);
    }
    if (const auto carbon = one.carbon(); carbon && one.group != "char" && !one.is("oil")) {
      CHECK(*carbon <= model::kMostCarbon);
    }
  }
  CHECK(names.size() > 80);
}

TEST_CASE("the catalogue holds what its source prints") {
  // Alberta Manure Composting Manual (2005), table 3, after NRAES-54 (1992), table A.1: leaves,
  // 0.9 % N, C:N 54, 38 % moisture.
  const Material leaves = build::material("leaves");
  CHECK(leaves.nitrogen()->value == doctest::Approx(0.009));
  CHECK(leaves.carbon()->value == doctest::Approx(0.486));
  CHECK(leaves.moisture()->value == doctest::Approx(0.38));
}

TEST_CASE("flags") {
  const Material manure = made({}, "manure", {"manure", "hoofed"});
  CHECK(manure.is("hoofed"));
  CHECK_FALSE(manure.is("hoof"));
  CHECK_FALSE(manure.is(""));
}

// A site's own figure is of its own stuff: multiplied with the handbook's C:N it would make carbon
// that neither has.
TEST_CASE("own carbon, nitrogen and ratio are not mixed with the handbook's") {
  const auto grounds = [] {
    return made({{Property::kNitrogen, 0.02, "book"}, {Property::kCarbonNitrogen, 20, "book"}});
  };
  Material rich = grounds();
  model::overlay(rich, {{Property::kNitrogen, 0.04, "laboratory"}});
  CHECK(rich.nitrogen()->value == doctest::Approx(0.04));
  CHECK(rich.carbon()->value == doctest::Approx(0.40));  // not 0.04 x 20 = 0.80
  Material by_ratio =
      made({{Property::kCarbon, 0.45, "book"}, {Property::kNitrogen, 0.015, "book"}});
  model::overlay(by_ratio, {{Property::kCarbonNitrogen, 15, "laboratory"}});
  CHECK(by_ratio.carbon()->value == doctest::Approx(0.45));
  CHECK(by_ratio.nitrogen()->value == doctest::Approx(0.03));
  Material both = grounds();
  model::overlay(both,
                 {{Property::kNitrogen, 0.03, "lab"}, {Property::kCarbonNitrogen, 15, "lab"}});
  CHECK(both.carbon()->value == doctest::Approx(0.45));
  Material carbon = grounds();
  model::overlay(carbon, {{Property::kCarbon, 0.5, "lab"}});
  CHECK(carbon.carbon()->value == doctest::Approx(0.5));
  CHECK(carbon.nitrogen()->value == doctest::Approx(0.02));
  Material wet = grounds();
  model::overlay(wet, {{Property::kMoisture, 0.6, "lab"}});
  CHECK(wet.carbon()->value == doctest::Approx(0.4));
}

}  // namespace material_test
