#include "season/flows.h"

#include <doctest/doctest.h>

#include "build_history.h"

namespace flows_test {

using measure::Dimension;
using model::Movement;
using season::Side;

namespace {

const model::Day kDay = build::day("2026-04-06");

model::Material material(std::string name, std::optional<double> kilograms_per_cubic_metre,
                         std::string group = "brown") {
  model::Material made;
  made.name = std::move(name);
  made.group = std::move(group);
  if (kilograms_per_cubic_metre) {
    made.figures = {{model::Property::kBulkDensity, *kilograms_per_cubic_metre, "a scale"}};
  }
  return made;
}

Movement moved(model::Material what, measure::Value amount, std::string from, std::string to) {
  Movement made = build::movement(std::move(what), amount, build::at(kDay));
  made.from = std::move(from);
  made.to = std::move(to);
  made.from_kind = made.from.empty() ? "" : "pile";
  made.to_kind = made.to.empty() ? "" : "bed";
  return made;
}

const model::Material kLeaves = material("leaves", 100);
const model::Material kCompost = material("compost", 500, "compost");
const model::Material kStraw = material("straw", std::nullopt);
const model::Material kEggs = material("eggs", std::nullopt, "egg");
const model::Material kGas = material("power", std::nullopt, "gas");

// A made-up season whose sums can be done on paper.
std::vector<Movement> season_of() {
  std::vector<Movement> all{
      moved(kLeaves, {Dimension::kMass, 40}, "", "heap-1"),
      moved(kLeaves, {Dimension::kVolume, 250}, "", "heap-1"),  // 25 kg at 100 kg/m3
      moved(kStraw, {Dimension::kVolume, 80}, "", "heap-1"),    // no density: stays 80 L
      moved(kStraw, {Dimension::kMass, 12}, "", "heap-1"),
      moved(kCompost, {Dimension::kMass, 20}, "heap-1", "bed-2"),
      moved(kCompost, {Dimension::kMass, 10}, "heap-1", "bed-2"),
      moved(kCompost, {Dimension::kVolume, 10}, "heap-1", ""),  // 5 kg
      moved(kEggs, {Dimension::kCount, 12}, "flock", ""),
      moved(kEggs, {Dimension::kCount, 18}, "flock", ""),
      moved(kGas, {Dimension::kEnergy, 1.5}, "panel", ""),
  };
  all[0].paid_cents = 1000;
  all[1].paid_cents = 250;
  all[6].sold_cents = 1500;
  all[6].purpose = "a client";
  all[7].sold_cents = 600;
  return all;
}

}  // namespace

TEST_CASE("flows are the sums by hand") {
  const auto rows = season::flows(season_of());
  const auto find = [&](std::string_view batch, Side side, std::string_view what,
                        std::string_view other) -> const season::Flow& {
    const season::Flow* found = nullptr;
    for (const season::Flow& one : rows) {
      if (one.batch != batch || one.side != side || one.material != what || one.other != other)
        continue;
      REQUIRE(found == nullptr);
      found = &one;
    }
    REQUIRE(found != nullptr);
    return *found;
  };
  const season::Sum& leaves = find("heap-1", Side::kIn, "leaves", "").sum;
  CHECK(leaves.mass.value == 65);
  CHECK(leaves.estimated);
  CHECK(leaves.movements == 2);
  CHECK(leaves.paid_cents == 1250);
  CHECK(leaves.unweighed_volume.value == 0);
  // What has no density is left out of the mass and said beside it.
  const season::Sum& straw = find("heap-1", Side::kIn, "straw", "").sum;
  CHECK(straw.mass.value == 12);
  CHECK(straw.unweighed_volume.value == 80);
  CHECK_FALSE(straw.estimated);
  // Between two batches: a row for each of them.
  CHECK(find("heap-1", Side::kOut, "compost", "bed-2").sum.mass.value == 30);
  CHECK(find("heap-1", Side::kOut, "compost", "bed-2").kind == "pile");
  CHECK(find("bed-2", Side::kIn, "compost", "heap-1").sum.mass.value == 30);
  CHECK(find("bed-2", Side::kIn, "compost", "heap-1").kind == "bed");
  CHECK_FALSE(find("bed-2", Side::kIn, "compost", "heap-1").sum.estimated);
  const season::Flow& away = find("heap-1", Side::kOut, "compost", "");
  CHECK(away.sum.mass.value == 5);
  CHECK(away.sum.sold_cents == 1500);
  CHECK(away.purpose == "a client");
  const season::Sum& eggs = find("flock", Side::kOut, "eggs", "").sum;
  CHECK(eggs.count == 30);
  CHECK(eggs.mass.value == 0);
  CHECK(find("panel", Side::kOut, "power", "").sum.energy.value == 1.5);
  CHECK(rows.size() == 7);
}

TEST_CASE("one row for each purpose, in a fixed order") {
  auto all = season_of();
  all[4].purpose = "mulch";
  const auto rows = season::flows(all);
  CHECK(rows.size() == 9);  // each of the two batches has one more
  for (std::size_t i = 1; i < rows.size(); ++i) {
    const auto key = [](const season::Flow& one) {
      return std::tuple(one.batch, one.side, one.material, one.other, one.purpose);
    };
    CHECK(key(rows[i - 1]) < key(rows[i]));
  }
  std::reverse(all.begin(), all.end());
  CHECK(season::flows(all).size() == rows.size());
  CHECK(season::flows({}).empty());
}

TEST_CASE("what crosses the site's edge") {
  const auto rows = season::crossings(season_of());
  const auto find = [&](Side side, std::string_view what) -> const season::Sum& {
    for (const season::Crossing& one : rows) {
      if (one.side == side && one.material == what) return one.sum;
    }
    REQUIRE(false);
    return rows[0].sum;
  };
  CHECK(rows.size() == 5);  // leaves, straw in; compost, eggs, power out
  CHECK(find(Side::kIn, "leaves").mass.value == 65);
  CHECK(find(Side::kIn, "straw").unweighed_volume.value == 80);
  CHECK(find(Side::kOut, "compost").mass.value == 5);  // what went to the bed stays on the site
  CHECK(find(Side::kOut, "eggs").count == 30);
  CHECK(find(Side::kOut, "eggs").sold_cents == 600);
  CHECK(rows[0].side == Side::kIn);
}

TEST_CASE("what the batches took in and gave out is what the movements say, to the gram") {
  // Every movement is in one row for each batch at its ends: the books balance.
  const auto all = season_of();
  double ends = 0, rows = 0;
  int movement_ends = 0, row_movements = 0;
  for (const Movement& one : all) {
    const int count = (one.from.empty() ? 0 : 1) + (one.to.empty() ? 0 : 1);
    movement_ends += count;
    if (const auto mass = one.mass()) ends += count * mass->value;
  }
  for (const season::Flow& one : season::flows(all)) {
    rows += one.sum.mass.value;
    row_movements += one.sum.movements;
  }
  CHECK(rows == doctest::Approx(ends));
  CHECK(ends == 142);  // 40 + 25 + 12 + 2 x 30 + 5
  CHECK(row_movements == movement_ends);
}

}  // namespace flows_test
