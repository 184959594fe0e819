#include <doctest/doctest.h>

#include <algorithm>

#include "build_history.h"
#include "season/balance.h"
#include "season/loop.h"

namespace season_balance_test {

using measure::Dimension;
using measure::Kilograms;
using season::Stuff;

namespace {

const model::Day kStart = build::day("2026-03-01");

model::History history(const char* kind, int days, bool ended) {
  auto made = build::batch(kind, "it", kStart, kStart + date::days{days});
  if (ended) {
    made.batch.ended_day = made.today;
    made.batch.ended = made.now;
  }
  return made;
}

model::Movement load(const char* material, double kg, int day = 0) {
  return build::movement(build::material(material), {Dimension::kMass, kg},
                         build::at(kStart + date::days{day}));
}

const season::BalanceLine& line(const season::Balance& balance, Stuff stuff) {
  return *std::find_if(balance.lines.begin(), balance.lines.end(),
                       [&](const season::BalanceLine& one) { return one.stuff == stuff; });
}

void check_closes(const season::Balance& balance) {
  for (const season::BalanceLine& one : balance.lines) {
    CAPTURE(model::key(one.stuff));
    CHECK(one.in.value == doctest::Approx((one.out + one.kept + one.lost + one.unaccounted).value));
  }
}

season::Balance balance(const model::History& of) {
  return season::balance_of(of, "it", {}, {});
}

}  // namespace

TEST_CASE("every balance closes: in = out + kept + lost + unaccounted") {
  for (const char* kind : {"pile", "larvae", "digester", "brew", "burn", "bed", "flock"}) {
    for (const bool ended : {false, true}) {
      auto one = history(kind, 90, ended);
      one.in = {load("horse manure", 300), load("straw", 100), load("water", 50)};
      one.out = {load("compost", 180, 80)};
      check_closes(balance(one));
    }
  }
}

TEST_CASE("what was stacked for a burn that nobody lit has lost nothing, on the site neither") {
  auto stacked = history("burn", 90, false);
  stacked.batch.code = "burn-1";
  stacked.in = {load("branches", 100)};
  stacked.in[0].to = "burn-1";
  stacked.in[0].to_kind = "burn";
  const auto site = [&](const model::History& of) {
    std::set<std::string> unbegun;
    if (!season::loses(of, {})) unbegun.insert("burn-1");
    return season::site_balance(of.in, of.today, {}, unbegun);
  };
  CHECK(line(site(stacked), Stuff::kMass).lost.value == 0);
  CHECK(line(site(stacked), Stuff::kMass).kept.value == doctest::Approx(100));
  build::deed(stacked, "lit", stacked.now);
  CHECK(line(site(stacked), Stuff::kMass).lost.value > 0);
}

// By hand: 100 kg at 70 % of water are 30 kg dry, and 1.6 % of that is 0.48 kg.
TEST_CASE("nitrogen in is the dry mass times its share") {
  auto one = history("bed", 90, false);
  one.in = {load("horse manure", 100)};
  one.in[0].material.figures = {{model::Property::kMoisture, 0.70, "by hand"},
                                {model::Property::kNitrogen, 0.016, "by hand"}};
  CHECK(line(balance(one), Stuff::kNitrogen).in.value == doctest::Approx(0.48));
}

TEST_CASE("an open batch keeps the rest; an ended one must account for it") {
  auto one = history("brew", 30, false);
  one.in = {load("water", 100)};
  one.out = {load("plant brew", 60, 20)};
  CHECK(line(balance(one), Stuff::kMass).kept.value == doctest::Approx(40));
  one.batch.ended = one.now;
  one.batch.ended_day = one.today;
  CHECK(line(balance(one), Stuff::kMass).kept.value == 0);
  CHECK(line(balance(one), Stuff::kMass).unaccounted.value == doctest::Approx(40));
}

TEST_CASE("a pile's loss grows with its days and is then whole") {
  for (const auto& [days, share] : {std::pair{0, 0.0}, std::pair{30, 0.25}, std::pair{90, 0.5}}) {
    auto one = history("pile", days, false);
    one.in = {load("straw", 100)};
    CHECK(line(balance(one), Stuff::kMass).lost.value == doctest::Approx(100 * share));
  }
}

// Gas: at 0 degC and 101.325 kPa a mole takes 22.414 L, and a mole of CH4 or CO2 holds 12.011 g of
// carbon: 10 m3 hold 5.359 kg.
TEST_CASE("a digester loses the carbon of the gas that was metered") {
  auto one = history("digester", 90, false);
  one.in = {load("dairy manure", 1000)};
  const std::vector<model::Measure> gas{
      {"digester.gas", "gas", {"", {Dimension::kNumber, 10}, "m3"}, ""}};
  const auto made = season::balance_of(one, "it", gas, {});
  CHECK(line(made, Stuff::kCarbon).lost.value == doctest::Approx(5.359).epsilon(1e-3));
  CHECK(line(made, Stuff::kCarbon).lost_as.find("metered") != std::string::npos);
  CHECK(line(made, Stuff::kNitrogen).lost.value == 0);
}

TEST_CASE("more out than in is a finding, where a batch makes none") {
  auto pile = history("pile", 90, false);
  pile.in = {load("straw", 100)};
  pile.out = {load("compost", 104, 80)};
  CHECK_FALSE(line(balance(pile), Stuff::kMass).impossible);
  pile.out = {load("compost", 106, 80)};
  CHECK(line(balance(pile), Stuff::kMass).impossible);
  const auto found = season::impossible_findings(balance(pile), measure::UnitSystem::kUs);
  REQUIRE_FALSE(found.empty());
  CHECK(found.front().rule == "pile.balance");
  auto bed = history("bed", 90, false);
  bed.in = {load("compost", 1)};
  bed.out = {load("lettuce", 50, 80)};
  CHECK(season::impossible_findings(balance(bed), measure::UnitSystem::kUs).empty());
}

TEST_CASE("what is not known is named, and no balance is called impossible over it") {
  auto one = history("pile", 90, false);
  model::Material bare;
  bare.name = "mystery";
  one.in = {load("straw", 10), build::movement(bare, {Dimension::kVolume, 100}, build::at(kStart))};
  one.out = {load("compost", 50, 80)};
  const auto mass = line(balance(one), Stuff::kMass);
  CHECK_FALSE(mass.impossible);
  REQUIRE(mass.left_out.size() == 1);
  CHECK(mass.left_out[0] == "mystery in");
}

// A crop takes its carbon from the air, so that ground has no balance of it; lettuce without a
// figure takes no one knows how much.
TEST_CASE("ground has a balance of nutrients alone, and unknown is not nothing") {
  auto bed = history("bed", 90, true);
  model::Material bare;
  bare.name = "mystery";
  bed.in = {load("compost", 100)};
  bed.out = {build::movement(bare, {Dimension::kMass, 5}, build::at(kStart + date::days{80}))};
  const auto made = balance(bed);
  CHECK(made.lines.size() == 3);
  CHECK(made.lines.front().stuff == Stuff::kNitrogen);
  CHECK(made.lines.front().out_unknown);
  CHECK_FALSE(made.lines.front().in_unknown);
}

TEST_CASE("the site's share of what beds and flock got, and what was replaced") {
  std::vector<model::Movement> moved;
  const auto carry = [&](const char* from, const char* from_kind, const char* to_kind,
                         const char* material, double kg) {
    auto one = load(material, kg);
    one.from = from;
    one.from_kind = from_kind;
    one.to = "x";
    one.to_kind = to_kind;
    moved.push_back(one);
  };
  carry("heap-1", "pile", "bed", "compost", 30);
  carry("", "", "bed", "compost", 10);
  carry("", "", "bed", "water", 500);
  carry("bin-a", "larvae", "flock", "larvae", 2);
  carry("", "", "flock", "layer feed", 18);
  carry("", "", "pile", "coffee grounds", 40);
  model::Rules rules;
  rules.set("loop.price.feed", {1.5, "test"});
  const season::Loop loop = season::loop_of(moved, {}, rules);
  REQUIRE(loop.shares.size() == 2);
  CHECK(loop.shares[0].share()->value == doctest::Approx(0.75));
  CHECK(loop.shares[1].share()->value == doctest::Approx(0.1));
  CHECK(loop.kept_from_landfill.value == doctest::Approx(40));
  bool priced = false;
  for (const season::Replaced& one : loop.replaced) {
    if (one.key != "feed") {
      CHECK_FALSE(one.money);
      continue;
    }
    priced = true;
    CHECK(*one.money == doctest::Approx(1.5 * one.amount.value.si));
  }
  CHECK(priced);
}

// The carbon of char is counted at its burn alone, wherever the char went afterwards.
TEST_CASE("char counts once, at its burn, and only for its own span") {
  auto to_pile = load("char", 20);
  to_pile.from = "burn-1";
  to_pile.from_kind = "burn";
  to_pile.to = "bed-1";
  to_pile.to_kind = "bed";
  const model::Measure stored{"burn.stored", "", {"", {Dimension::kMass, 50}, ""}, ""};
  const model::Measure net{"burn.net", "", {"", {Dimension::kMass, 30}, ""}, ""};
  const auto line_of = [](const season::Loop& loop, std::string_view key) {
    for (const auto& one : loop.greenhouse.lines) {
      if (one.key == key) return one.co2e.value;
    }
    return 0.0;
  };
  const auto burnt = season::loop_of({to_pile}, {{"burn-1", "burn", {stored, net}, {}}}, {});
  CHECK(line_of(burnt, "char") == doctest::Approx(50));
  CHECK(line_of(burnt, "burning") == doctest::Approx(-20));
  CHECK(burnt.greenhouse.net().value == doctest::Approx(30));
  const auto later =
      season::loop_of({to_pile}, {{"burn-1", "burn", {stored, net}, {stored, net}}}, {});
  CHECK(later.greenhouse.lines.empty());
}

// A tonne in a pile: IPCC 2006 vol. 5 table 4.1, wet, CH4 4 (0.03 to 8) and N2O 0.24 (0.06 to 0.6)
// g a kg; by AR6 27.9 and 273: 177 (17 to 387) kg of CO2 equivalent.
TEST_CASE("the account spans the published range of each factor, and its sign may be unknown") {
  auto manure = load("horse manure", 1000);
  manure.to = "heap-1";
  manure.to_kind = "pile";
  const auto only_pile = season::loop_of({manure}, {}, {}).greenhouse;
  CHECK(only_pile.net().value == doctest::Approx(-(4 * 27.9 + 0.24 * 273)));
  CHECK(only_pile.low().value == doctest::Approx(-(8 * 27.9 + 0.6 * 273)));
  CHECK(only_pile.high().value == doctest::Approx(-(0.03 * 27.9 + 0.06 * 273)));
  auto scraps = load("food scraps", 300);
  scraps.to = "heap-1";
  scraps.to_kind = "pile";
  const auto with_waste = season::loop_of({manure, scraps}, {}, {}).greenhouse;
  CHECK(with_waste.low().value < 0);
  CHECK(with_waste.high().value > 0);
}

// What a bed's crop could use is its own figure; the account adds them up, with their ranges.
TEST_CASE("fertilizer replaced is that of the beds, in its range") {
  const model::Measure replaced{
      "bed.nitrogen_replaced", "", {"", {Dimension::kMass, 0.3}, ""}, "", {{0.1, 0.5}}};
  const auto loop =
      season::loop_of({}, {{"bed-1", "bed", {replaced}, {}}, {"bed-2", "bed", {replaced}, {}}}, {});
  REQUIRE(loop.replaced.size() == 1);
  CHECK(loop.replaced[0].amount.value.si == doctest::Approx(0.6));
  REQUIRE(loop.replaced[0].range);
  CHECK(loop.replaced[0].range->low == doctest::Approx(0.2));
  CHECK(loop.replaced[0].range->high == doctest::Approx(1.0));
}

}  // namespace season_balance_test
