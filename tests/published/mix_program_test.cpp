#include "science/compost/mix_program.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <map>
#include <optional>
#include <random>
#include <vector>

using measure::Fraction;
using measure::Kilograms;
using measure::Litres;
using measure::Number;
using namespace science;

namespace {

// Percentages as the tables print them: moisture of the as-is mass, carbon and nitrogen of the dry.
Ingredient by_percent(double kilograms, double moisture, double carbon, double nitrogen) {
  return {Kilograms{kilograms},
          Fraction{moisture / 100},
          Fraction{carbon / 100},
          Fraction{nitrogen / 100},
          {},
          {},
          {}};
}

Ingredient with_density(Ingredient i, double kilograms_per_cubic_metre) {
  i.bulk_density = KilogramsPerCubicMetre{kilograms_per_cubic_metre};
  return i;
}

// Typical values of On-Farm Composting Handbook (NRAES-54, Rynk ed., 1992), Table A.1, from memory;
// N and C:N of most are also in Gotaas (1956).
const Ingredient kFoodWaste = by_percent(100, 69, 36, 2.4);
const Ingredient kHorseManure = by_percent(100, 72, 48, 1.6);
const Ingredient kCattleManure = by_percent(100, 81, 45.6, 2.4);
const Ingredient kHandbookLeaves = by_percent(0, 38, 48.6, 0.9);
const Ingredient kChips = by_percent(0, 30, 50.4, 0.09);
const Ingredient kStraw = by_percent(0, 12, 56, 0.7);
const Ingredient kSawdust = by_percent(0, 39, 50, 0.113);
const Ingredient kHandbookGrass = by_percent(0, 82, 57.8, 3.4);

MixProgram exactly(const Ingredient& base, const Ingredient& second, const Ingredient& third,
                   double moisture, double c_to_n) {
  MixProgram program;
  program.candidates = {already_in(base), to_buy(second, Number{1}), to_buy(third, Number{1})};
  program.moisture = {Fraction{moisture}, Fraction{moisture}};
  program.c_to_n = {Number{c_to_n}, Number{c_to_n}};
  return program;
}

// The ranges of Composting Handbook (2022) Table 4.2 and of 7 CFR 205.203(c)(2) for C:N.
MixProgram usual_ranges() {
  MixProgram program;
  program.c_to_n = {Number{25}, Number{40}};
  program.moisture = {Fraction{0.40}, Fraction{0.65}};
  return program;
}

// ---- A second opinion on the linear programme --------------------------------------------------
// A bounded feasible linear programme has an optimum at a vertex, and a vertex is where as many
// limits as there are variables hold with equality. With few variables they can all be tried.

struct HalfSpace {
  std::vector<double> a;  // sum(a x) <= b
  double b;
};

std::optional<std::vector<double>> solve_square(std::vector<std::vector<double>> m) {
  const std::size_t n = m.size();
  for (std::size_t c = 0; c < n; ++c) {
    std::size_t pivot = c;
    for (std::size_t r = c; r < n; ++r) {
      if (std::abs(m[r][c]) > std::abs(m[pivot][c])) pivot = r;
    }
    if (std::abs(m[pivot][c]) < 1e-10) return std::nullopt;
    std::swap(m[pivot], m[c]);
    for (std::size_t r = 0; r < n; ++r) {
      if (r == c) continue;
      const double factor = m[r][c] / m[c][c];
      for (std::size_t k = c; k <= n; ++k) m[r][k] -= factor * m[c][k];
    }
  }
  std::vector<double> x(n);
  for (std::size_t r = 0; r < n; ++r) x[r] = m[r][n] / m[r][r];
  return x;
}

bool satisfies(const std::vector<HalfSpace>& limits, const std::vector<double>& x, double slack) {
  return std::ranges::all_of(limits, [&](const HalfSpace& h) {
    double sum = 0;
    for (std::size_t n = 0; n < x.size(); ++n) sum += h.a[n] * x[n];
    return sum <= h.b + slack;
  });
}

std::vector<std::vector<double>> vertices(const std::vector<HalfSpace>& limits, std::size_t n,
                                          double slack) {
  std::vector<std::vector<double>> found;
  std::vector<bool> chosen(limits.size(), false);
  std::fill(chosen.begin(), chosen.begin() + static_cast<std::ptrdiff_t>(n), true);
  do {
    std::vector<std::vector<double>> square;
    for (std::size_t k = 0; k < limits.size(); ++k) {
      if (!chosen[k]) continue;
      square.push_back(limits[k].a);
      square.back().push_back(limits[k].b);
    }
    const auto x = solve_square(square);
    if (x && satisfies(limits, *x, slack)) found.push_back(*x);
  } while (std::prev_permutation(chosen.begin(), chosen.end()));
  return found;
}

// The limits of a programme with all amounts bounded, written out again from their definitions:
// moisture is water over mass, C:N is carbon over nitrogen, density is mass over volume.
std::vector<HalfSpace> half_spaces(const MixProgram& p) {
  const std::size_t n = p.candidates.size();
  std::vector<HalfSpace> limits;
  const auto ratio = [&](auto top, auto bottom, double limit, double sign) {
    HalfSpace h{std::vector<double>(n), 0};
    for (std::size_t k = 0; k < n; ++k) {
      const Ingredient& i = p.candidates[k].material;
      h.a[k] = sign * (top(i) - limit * bottom(i));
    }
    limits.push_back(h);
  };
  const auto both = [&](auto top, auto bottom, const auto& range) {
    if (range.at_least) ratio(top, bottom, range.at_least->value, -1);
    if (range.at_most) ratio(top, bottom, range.at_most->value, 1);
  };
  const auto one = [](const Ingredient&) { return 1.0; };
  both([](const Ingredient& i) { return i.moisture.value; }, one, p.moisture);
  both([](const Ingredient& i) { return (1 - i.moisture.value) * i.carbon->value; },
       [](const Ingredient& i) { return (1 - i.moisture.value) * i.nitrogen->value; }, p.c_to_n);
  if (p.bulk_density.at_least || p.bulk_density.at_most) {
    both(
        one, [](const Ingredient& i) { return 1 / i.bulk_density->value; }, p.bulk_density);
  }
  const auto total = [&](double limit, double sign) {
    limits.push_back({std::vector<double>(n, sign), sign * limit});
  };
  if (p.total_mass.at_least) total(p.total_mass.at_least->value, -1);
  if (p.total_mass.at_most) total(p.total_mass.at_most->value, 1);
  for (std::size_t k = 0; k < n; ++k) {
    HalfSpace least{std::vector<double>(n), -p.candidates[k].at_least.value};
    least.a[k] = -1;
    HalfSpace most{std::vector<double>(n), p.candidates[k].at_most->value};
    most.a[k] = 1;
    limits.push_back(least);
    limits.push_back(most);
  }
  return limits;
}

struct Best {
  double used;
  double spent;
};

std::optional<Best> best_vertex(const MixProgram& p) {
  std::optional<Best> best;
  for (const std::vector<double>& x : vertices(half_spaces(p), p.candidates.size(), 1e-9)) {
    Best here{0, 0};
    for (std::size_t k = 0; k < x.size(); ++k) {
      here.used += p.candidates[k].use_up.value * x[k];
      here.spent += p.candidates[k].cost.value * x[k];
    }
    if (!best || here.used > best->used + 1e-6 ||
        (here.used > best->used - 1e-6 && here.spent < best->spent)) {
      best = here;
    }
  }
  return best;
}

// The measure of a mix as the blend has it; none where there is nothing under the ratio.
std::optional<double> measure_of(const MixProgram& program, const std::vector<double>& x,
                                 MixMeasure measure) {
  std::vector<Ingredient> ingredients;
  for (std::size_t n = 0; n < x.size(); ++n) {
    ingredients.push_back(program.candidates[n].material);
    ingredients.back().mass = Kilograms{std::max(x[n], 0.0)};
  }
  const auto blend = blend_of(ingredients);
  if (!blend) return std::nullopt;
  if (measure == MixMeasure::Moisture) return blend->moisture.value;
  if (measure == MixMeasure::TotalMass) return blend->mass.value;
  if (measure == MixMeasure::BulkDensity) return blend->bulk_density->value;
  return blend->c_to_n ? std::optional(blend->c_to_n->value) : std::nullopt;
}

void drop(MixProgram& program, MixMeasure measure, Bound bound) {
  const auto from = [&](auto& limits) {
    (bound == Bound::AtLeast ? limits.at_least : limits.at_most).reset();
  };
  if (measure == MixMeasure::CToN) from(program.c_to_n);
  if (measure == MixMeasure::Moisture) from(program.moisture);
  if (measure == MixMeasure::BulkDensity) from(program.bulk_density);
  if (measure == MixMeasure::TotalMass) from(program.total_mass);
}

}  // namespace

// Sources: method, Cornell Waste Management Institute (1996),
// https://compost.css.cornell.edu/calc/simultaneous.html; the masses are computed from the formula.
// Both ratios fixed leave the linear programme the same single answer.
TEST_CASE("mix programme: with both goals fixed it solves the two equations") {
  SUBCASE("food waste, leaves, hardwood chips to 55 % and 30") {
    const MixResult r = solve_mix(exactly(kFoodWaste, kHandbookLeaves, kChips, 0.55, 30));
    REQUIRE(r.outcome == MixOutcome::Found);
    CHECK(r.masses[1].value == doctest::Approx(80.94318).epsilon(1e-6));
    CHECK(r.masses[2].value == doctest::Approx(0.95864).epsilon(1e-5));
  }
  SUBCASE("food waste, straw, sawdust to 60 % and 30") {
    const MixResult r = solve_mix(exactly(kFoodWaste, kStraw, kSawdust, 0.60, 30));
    REQUIRE(r.outcome == MixOutcome::Found);
    CHECK(r.masses[1].value == doctest::Approx(2.99870).epsilon(1e-5));
    CHECK(r.masses[2].value == doctest::Approx(36.00297).epsilon(1e-6));
    CHECK(r.masses[0].value == doctest::Approx(100));
  }
  SUBCASE("horse manure, grass, water to 60 % and 30: would take water out, so it is refused") {
    const Ingredient none = water_ingredient(Kilograms{0});
    const MixResult r = solve_mix(exactly(kHorseManure, kHandbookGrass, none, 0.60, 30));
    CHECK(r.outcome == MixOutcome::Infeasible);
    CHECK(r.masses.empty());
    REQUIRE(r.obstacles.size() == 1);  // only the moisture stands in the way
    CHECK(r.obstacles[0].measure == MixMeasure::Moisture);
    CHECK(r.obstacles[0].bound == Bound::AtMost);
    CHECK(r.obstacles[0].nearest->value == doctest::Approx(0.72));  // the manure's own
  }
  SUBCASE("cattle manure, straw, leaves to 60 % and 30: -491 kg of straw, so it is refused") {
    const MixResult r = solve_mix(exactly(kCattleManure, kStraw, kHandbookLeaves, 0.60, 30));
    CHECK(r.outcome == MixOutcome::Infeasible);
    CHECK(r.masses.empty());
  }
}

// Source: the same materials and method; a mix of two, so that each limit is one equation:
// 100 kg at 81 % and 19:1 with straw at 12 % and 80:1. Computed from the formula.
TEST_CASE("mix programme: least purchase lies on the limit that binds") {
  MixProgram program = usual_ranges();
  program.candidates = {to_be_used_up(kCattleManure), to_buy(kStraw, Number{0.2})};
  const MixResult r = solve_mix(program);
  REQUIRE(r.outcome == MixOutcome::Found);
  // moisture at most 65 %: 100 (81 - 65) / (65 - 12) = 30.18868 kg of straw; C:N needs less.
  CHECK(r.masses[1].value == doctest::Approx(1600.0 / 53).epsilon(1e-6));
  REQUIRE(r.blend);
  CHECK(r.blend->moisture.value == doctest::Approx(0.65).epsilon(1e-6));
  CHECK(r.blend->c_to_n->value > 25);
  CHECK(r.blend->c_to_n->value < 40);
}

// Common practice, no source: what is nearest to the preferred values is a choice of this program.
TEST_CASE("mix programme: what costs nothing is set by the preferred values") {
  MixProgram program = usual_ranges();
  program.candidates = {already_in(kFoodWaste), to_buy(kStraw, Number{0}),
                        to_buy(kSawdust, Number{0}),
                        to_buy(water_ingredient(Kilograms{0}), Number{0})};
  program.preferred_c_to_n = Number{30};
  program.preferred_moisture = Fraction{0.60};
  const MixResult r = solve_mix(program);
  REQUIRE(r.outcome == MixOutcome::Found);
  CHECK(r.blend->c_to_n->value == doctest::Approx(30).epsilon(1e-5));
  CHECK(r.blend->moisture.value == doctest::Approx(0.60).epsilon(1e-5));

  SUBCASE("the larger relative distance counts, and a grid finds no nearer mix") {
    // Straw for 30:1 leaves it at 54 %, straw for 60 % leaves it at 24:1.
    program.candidates = {already_in(kFoodWaste), to_buy(kStraw, Number{0})};
    const MixResult two = solve_mix(program);
    REQUIRE(two.outcome == MixOutcome::Found);
    const auto distance = [](const Blend& b) {
      return std::max(std::abs(b.c_to_n->value / 30 - 1), std::abs(b.moisture.value / 0.60 - 1));
    };
    double nearest = 1e9;
    for (double straw = 0; straw < 200; straw += 0.01) {
      Ingredient added = kStraw;
      added.mass = Kilograms{straw};
      const std::vector<Ingredient> mix{kFoodWaste, added};
      const Blend b = *blend_of(mix);
      if (b.c_to_n->value < 25 || b.c_to_n->value > 40) continue;
      if (b.moisture.value < 0.40 || b.moisture.value > 0.65) continue;
      nearest = std::min(nearest, distance(b));
    }
    CHECK(distance(*two.blend) == doctest::Approx(nearest).epsilon(1e-3));
    CHECK(distance(*two.blend) <= nearest + 1e-6);
  }
}

// Computed from the formula, as above: 16 kg of straw to 53 kg of cattle manure make 65 %.
TEST_CASE("mix programme: goals come in their order") {
  MixProgram program = usual_ranges();
  Ingredient straw = kStraw;
  straw.mass = Kilograms{10};
  program.candidates = {to_be_used_up(kCattleManure), at_hand(straw), to_buy(kStraw, Number{0.2})};

  SUBCASE("what is at hand goes before what is bought") {
    const MixResult r = solve_mix(program);
    REQUIRE(r.outcome == MixOutcome::Found);
    CHECK(r.masses[1].value == doctest::Approx(10).epsilon(1e-6));
    CHECK(r.masses[2].value == doctest::Approx(1600.0 / 53 - 10).epsilon(1e-6));
  }
  SUBCASE("without purchase only part of the waste is used, and the result says what would help") {
    program.candidates.resize(2);
    const std::vector<MixCandidate> helpers{to_buy(water_ingredient(Kilograms{0}), Number{0}),
                                            to_buy(kSawdust, Number{0}), to_buy(kStraw, Number{0}),
                                            MixCandidate{kStraw, {}, Kilograms{5}, {}, {}}};
    const MixResult r = solve_mix(program, helpers);
    REQUIRE(r.outcome == MixOutcome::Partly);
    CHECK(r.masses[0].value == doctest::Approx(10 * 53.0 / 16).epsilon(1e-6));  // 33.1 of 100 kg
    REQUIRE(r.obstacles.size() == 1);
    CHECK(r.obstacles[0].measure == MixMeasure::Moisture);
    CHECK(r.obstacles[0].nearest->value == doctest::Approx(82.2 / 110).epsilon(1e-6));
    // Water cannot, sawdust would pass 40:1 before it is dry enough, 5 kg of straw are too few.
    REQUIRE(r.remedies.size() == 1);
    CHECK(r.remedies[0].helper == 2);
    CHECK(r.remedies[0].least.value == doctest::Approx(1600.0 / 53 - 10).epsilon(1e-6));
  }
  SUBCASE("the waste worth more is used first when there is room for one") {
    program.candidates = {to_be_used_up(kHorseManure), to_be_used_up(kHorseManure)};
    program.moisture = {};
    program.candidates[1].use_up = Number{3};
    program.total_mass.at_most = Kilograms{120};
    const MixResult r = solve_mix(program);
    REQUIRE(r.outcome == MixOutcome::Partly);
    CHECK(r.masses[0].value == doctest::Approx(20).epsilon(1e-6));
    CHECK(r.masses[1].value == doctest::Approx(100).epsilon(1e-6));
    REQUIRE(r.obstacles.size() == 1);
    CHECK(r.obstacles[0].measure == MixMeasure::TotalMass);
    CHECK(r.obstacles[0].nearest->value == doctest::Approx(200).epsilon(1e-6));
  }
  SUBCASE("of two equals, the one named first") {
    program = {};
    program.total_mass = {Kilograms{50}, Kilograms{50}};
    const Ingredient forty = [] {
      Ingredient i = kStraw;
      i.mass = Kilograms{40};
      return i;
    }();
    program.candidates = {at_hand(forty), at_hand(forty), to_buy(kStraw, Number{0})};
    const MixResult r = solve_mix(program);
    REQUIRE(r.outcome == MixOutcome::Found);
    CHECK(r.masses[0].value == doctest::Approx(40));
    CHECK(r.masses[1].value == doctest::Approx(10));
    CHECK(r.masses[2].value == doctest::Approx(0));
  }
}

// The closed form for one added material, Q2 = Q1 (1 - M1) (R N1 - C1) / ((1 - M2) (C2 - R N2)): BC
// Agricultural Composting Handbook, 2nd ed. (1998), Appendix A2.
TEST_CASE("mix programme: the least mass of a helper is the closed form's") {
  MixProgram program = usual_ranges();
  program.moisture = {};
  program.candidates = {already_in(kFoodWaste)};  // C:N 15
  Ingredient unknown = kStraw;
  unknown.nitrogen.reset();
  Ingredient impossible = kStraw;
  impossible.moisture = Fraction{-0.5};
  const std::vector<MixCandidate> helpers{
      to_buy(kHandbookLeaves, Number{0}), to_buy(kSawdust, Number{0}),
      to_buy(kHandbookGrass, Number{0}), to_buy(unknown, Number{0}), to_buy(impossible, Number{0})};
  const MixResult r = solve_mix(program, helpers);
  REQUIRE(r.outcome == MixOutcome::Infeasible);
  REQUIRE(r.obstacles.size() == 1);
  CHECK(r.obstacles[0].measure == MixMeasure::CToN);
  CHECK(r.obstacles[0].bound == Bound::AtLeast);
  CHECK(r.obstacles[0].limit.value == 25);
  CHECK(r.obstacles[0].nearest->value == doctest::Approx(15));
  REQUIRE(r.remedies.size() == 2);  // grass at 17:1 cannot lift it to 25
  const auto closed = [](const Ingredient& base, const Ingredient& added, double goal) {
    const auto pull = [&](const Ingredient& i) {
      return (1 - i.moisture.value) * (i.carbon->value - goal * i.nitrogen->value);
    };
    return -base.mass.value * pull(base) / pull(added);
  };
  CHECK(r.remedies[0].helper == 1);
  CHECK(r.remedies[0].least.value ==
        doctest::Approx(closed(kFoodWaste, kSawdust, 25)).epsilon(1e-6));
  CHECK(r.remedies[1].helper == 0);
  CHECK(r.remedies[1].least.value ==
        doctest::Approx(closed(kFoodWaste, kHandbookLeaves, 25)).epsilon(1e-6));
}

// Computed from the definitions: water / mass, mass / volume.
TEST_CASE("mix programme: bulk density, total mass and total volume") {
  MixProgram program;
  program.candidates = {to_buy(with_density(kStraw, 100), Number{1}),
                        to_buy(with_density(kHorseManure, 800), Number{0})};
  program.total_volume = {Litres{1000}, Litres{1000}};
  SUBCASE("a cubic metre at no more than 450 kg/m3 is half of each by volume") {
    program.bulk_density.at_most = KilogramsPerCubicMetre{450};
    const MixResult r = solve_mix(program);
    REQUIRE(r.outcome == MixOutcome::Found);
    CHECK(r.masses[0].value == doctest::Approx(50).epsilon(1e-6));
    CHECK(r.masses[1].value == doctest::Approx(400).epsilon(1e-6));
    CHECK(r.blend->volume->value == doctest::Approx(1000).epsilon(1e-6));
  }
  SUBCASE("a density above both cannot be had") {
    program.bulk_density.at_least = KilogramsPerCubicMetre{900};
    const MixResult r = solve_mix(program);
    REQUIRE(r.outcome == MixOutcome::Infeasible);
    REQUIRE(r.obstacles.size() == 1);
    CHECK(r.obstacles[0].measure == MixMeasure::BulkDensity);
    CHECK(r.obstacles[0].nearest->value == doctest::Approx(800).epsilon(1e-6));
  }
  SUBCASE("too much mass for the volume: either may give") {
    program.total_mass.at_least = Kilograms{900};
    const MixResult r = solve_mix(program);
    REQUIRE(r.outcome == MixOutcome::Infeasible);
    REQUIRE(r.obstacles.size() == 2);
    CHECK_FALSE(r.together);
    CHECK(r.obstacles[0].measure == MixMeasure::TotalMass);
    CHECK(r.obstacles[0].nearest->value == doctest::Approx(800).epsilon(1e-6));
    CHECK(r.obstacles[1].measure == MixMeasure::TotalVolume);
    CHECK(r.obstacles[1].bound == Bound::AtMost);
    CHECK(r.obstacles[1].nearest->value == doctest::Approx(1125).epsilon(1e-6));
  }
}

TEST_CASE("mix programme: conditions that must give together are named together") {
  MixProgram program = usual_ranges();
  program.candidates = {already_in(kFoodWaste)};  // 69 % and 15:1: too wet and too rich
  const MixResult r = solve_mix(program);
  REQUIRE(r.outcome == MixOutcome::Infeasible);
  CHECK(r.together);
  REQUIRE(r.obstacles.size() == 2);
  CHECK(r.obstacles[0].measure == MixMeasure::CToN);
  CHECK(r.obstacles[0].bound == Bound::AtLeast);
  CHECK(r.obstacles[1].measure == MixMeasure::Moisture);
  CHECK(r.obstacles[1].bound == Bound::AtMost);
}

TEST_CASE("mix programme: using up nothing is no answer") {
  MixProgram program = usual_ranges();
  program.candidates = {to_be_used_up(kFoodWaste), to_be_used_up(kHandbookGrass)};
  const std::vector<MixCandidate> helpers{to_buy(kStraw, Number{1})};
  SUBCASE("a waste with an amount") {
    const MixResult r = solve_mix(program, helpers);
    CHECK(r.outcome == MixOutcome::Infeasible);
    REQUIRE(r.remedies.size() == 1);
    // C:N binds: 25 x 0.744 - 11.16 = 7.44 of carbon, over 0.88 (0.56 - 25 x 0.007) per kg of straw
    CHECK(r.remedies[0].least.value == doctest::Approx(7.44 / 0.3388).epsilon(1e-6));
  }
  SUBCASE("a waste without one: what is in the way is known, not how much would help") {
    program.candidates = {to_be_used_up(kFoodWaste)};
    program.candidates[0].at_most.reset();
    const MixResult r = solve_mix(program, helpers);
    CHECK(r.outcome == MixOutcome::Infeasible);
    CHECK(r.obstacles.size() == 2);
    CHECK(r.remedies.empty());
  }
}

TEST_CASE("mix programme: no end, nothing asked, figures that do not hold") {
  MixProgram program = usual_ranges();
  SUBCASE("a waste without an amount needs a total") {
    program.candidates = {to_be_used_up(kCattleManure), to_buy(kStraw, Number{1})};
    program.candidates[0].at_most.reset();
    CHECK(solve_mix(program).outcome == MixOutcome::Boundless);
    program.total_mass.at_most = Kilograms{530 + 160};
    const MixResult r = solve_mix(program);
    CHECK(r.outcome == MixOutcome::Found);
    CHECK(r.masses[0].value == doctest::Approx(530).epsilon(1e-6));  // 16 of straw to 53 of manure
  }
  SUBCASE("nothing has to go in") {
    CHECK(solve_mix(program).outcome == MixOutcome::NothingAsked);
    program.candidates = {to_buy(kStraw, Number{1}),
                          to_be_used_up(kHandbookLeaves)};  // 0 kg of leaves
    CHECK(solve_mix(program).outcome == MixOutcome::NothingAsked);
  }
  SUBCASE("a missing figure is named, unless nothing asks for it") {
    Ingredient unknown = kHorseManure;
    unknown.nitrogen.reset();
    program.candidates = {already_in(kHorseManure), at_hand(unknown)};
    const MixResult r = solve_mix(program);
    REQUIRE(r.outcome == MixOutcome::Unusable);
    REQUIRE(r.missing.size() == 1);
    CHECK(r.missing[0].candidate == 1);
    CHECK(r.missing[0].measure == MixMeasure::CToN);
    program.c_to_n = {};
    program.moisture = {};
    CHECK(solve_mix(program).outcome == MixOutcome::Found);
    program.total_volume.at_most = Litres{500};
    CHECK(solve_mix(program).missing.size() == 2);
  }
  SUBCASE("impossible figures") {
    program.candidates = {already_in(kHorseManure)};
    program.candidates[0].at_most = Kilograms{50};  // less than at_least
    CHECK(solve_mix(program).outcome == MixOutcome::Unusable);
    program.candidates = {already_in(kHorseManure), to_buy(kStraw, Number{-1})};
    CHECK(solve_mix(program).outcome == MixOutcome::Unusable);
    program.candidates.resize(1);
    program.moisture.at_most = Fraction{std::numeric_limits<double>::quiet_NaN()};
    CHECK(solve_mix(program).outcome == MixOutcome::Unusable);
  }
}

// A bucket and a windrow of the same materials are the same mix.
TEST_CASE("mix programme: the answer scales with the amounts") {
  for (const double size : {0.01, 1.0, 1e5}) {
    Ingredient manure = kCattleManure;
    manure.mass = Kilograms{100 * size};
    MixProgram program = usual_ranges();
    program.candidates = {to_be_used_up(manure), to_buy(kStraw, Number{1})};
    const MixResult r = solve_mix(program);
    REQUIRE(r.outcome == MixOutcome::Found);
    CHECK(r.masses[1].value == doctest::Approx(size * 1600.0 / 53).epsilon(1e-6));
  }
}

// Second opinion: every vertex of the programme, by Gaussian elimination. Random programmes of two
// to four materials, always the same ones.
TEST_CASE("mix programme: agrees with trying every vertex") {
  std::mt19937 random(20250301);
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(random() >> 1) / 2147483648.0;
  };
  int found = 0;
  int refused = 0;
  for (int round = 0; round < 400; ++round) {
    CAPTURE(round);
    MixProgram program;
    const std::size_t count = 2 + random() % 3;
    for (std::size_t n = 0; n < count; ++n) {
      const Ingredient i = with_density(
          by_percent(0, between(5, 90), between(30, 55), between(0.1, 5)), between(80, 900));
      const double most = between(20, 200);
      const bool waste = random() % 2 == 0;
      program.candidates.push_back({i, Kilograms{random() % 4 == 0 ? between(1, 20) : 0.0},
                                    Kilograms{most}, Number{waste ? between(0.5, 2) : 0.0},
                                    Number{waste ? 0.0 : between(0, 2)}});
    }
    program.c_to_n = {Number{25}, Number{40}};
    program.moisture = {Fraction{0.45}, Fraction{0.60}};
    if (random() % 2 == 0) program.bulk_density.at_most = KilogramsPerCubicMetre{500};
    if (random() % 2 == 0) program.total_mass.at_most = Kilograms{300};
    program.total_mass.at_least = Kilograms{10};  // so that the empty mix is no answer
    if (random() % 2 == 0) {
      program.preferred_c_to_n = Number{30};
      program.preferred_moisture = Fraction{0.55};
    }
    const MixResult r = solve_mix(program);
    const std::optional<Best> best = best_vertex(program);
    if (!best) {
      CHECK(r.outcome == MixOutcome::Infeasible);
      CHECK_FALSE(r.obstacles.empty());
      ++refused;
      continue;
    }
    ++found;
    REQUIRE((r.outcome == MixOutcome::Found || r.outcome == MixOutcome::Partly));
    std::vector<double> x;
    double used = 0;
    double spent = 0;
    for (std::size_t n = 0; n < count; ++n) {
      x.push_back(r.masses[n].value);
      used += program.candidates[n].use_up.value * x[n];
      spent += program.candidates[n].cost.value * x[n];
    }
    CHECK(satisfies(half_spaces(program), x, 1e-4));
    CHECK(used == doctest::Approx(best->used).epsilon(1e-6));
    CHECK(spent == doctest::Approx(best->spent).epsilon(1e-5).scale(10));
  }
  CHECK(found > 100);
  CHECK(refused > 100);
}

// A ratio of two sums, too, is least and greatest at a vertex (Charnes & Cooper 1962): all are
// tried.
TEST_CASE("mix programme: how near a condition comes agrees with trying every vertex") {
  std::mt19937 random(20250302);
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(random() >> 1) / 2147483648.0;
  };
  std::map<MixMeasure, int> compared;
  for (int round = 0; round < 400; ++round) {
    CAPTURE(round);
    MixProgram program;
    for (int n = 0; n < 3; ++n) {
      const Ingredient i = with_density(
          by_percent(0, between(5, 90), between(30, 55), between(0.1, 5)), between(80, 900));
      program.candidates.push_back(
          {i, Kilograms{n == 0 ? 20.0 : 0.0}, Kilograms{between(20, 200)}, Number{0}, Number{0}});
    }
    program.c_to_n = {Number{25}, Number{40}};
    program.moisture = {Fraction{0.45}, Fraction{0.60}};
    program.bulk_density.at_most = KilogramsPerCubicMetre{500};
    if (random() % 2 == 0) program.total_mass.at_least = Kilograms{between(50, 500)};
    const MixResult r = solve_mix(program);
    if (r.outcome != MixOutcome::Infeasible || r.together) continue;
    for (const MixObstacle& one : r.obstacles) {
      MixProgram others = program;
      drop(others, one.measure, one.bound);
      std::optional<double> best;
      for (const auto& x : vertices(half_spaces(others), 3, 1e-9)) {
        const auto here = measure_of(others, x, one.measure);
        if (!here) continue;
        const bool nearer = !best || (one.bound == Bound::AtMost ? *here < *best : *here > *best);
        if (nearer) best = here;
      }
      REQUIRE(best);
      REQUIRE(one.nearest);
      CHECK(one.nearest->value == doctest::Approx(*best).epsilon(1e-5));
      ++compared[one.measure];
    }
  }
  for (const MixMeasure measure :
       {MixMeasure::CToN, MixMeasure::Moisture, MixMeasure::BulkDensity, MixMeasure::TotalMass}) {
    CHECK(compared[measure] > 10);
  }
}
