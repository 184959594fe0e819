#include "science/animals/larvae.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string_view>
#include <vector>

#include "tests/published/figures.h"

using measure::Days;
using measure::Fraction;
using measure::Kilograms;
using measure::Number;
using measure::SquareMetres;
using science::LarvaeInput;
using science::LarvaeMetrics;
using science::LarvaeMoistures;
using science::LarvaeRun;

namespace {

constexpr Kilograms milligrams(double mg) {
  return Kilograms{mg / 1e6};
}

// --- Fifteen boxes ---

// Fuhrmann A., Gold M. et al. 2024, "Comprehensive industry-relevant black soldier fly
// bioconversion characterisation by a novel chamber system", open data cs_pub_runs_manual.csv
// (github.com/Nairdaf/chamber_system_git, commit 1374cee). Boxes of 60 x 40 cm, fed once on day 0.
// Weighed masses and moistures are theirs; the results are computed from these inputs by the
// formulas of their code.
struct Box {
  std::string_view unit;
  double days, feed, feed_moisture, count, young_mg, young_dry_mg;
  double frass, frass_moisture, larvae, larvae_moisture;
  double feed_dry, young_dry, frass_dry, larvae_dry;
  double bcr_wet, bcr_dry, wr_wet, wr_dry, ecd, wri, fcr;
};

const Box kBoxes[] = {
    {"CF-1",  6,     6000,   0.6505, 12000, 5.597, 1.533, 1181,  0.3633, 1831,   0.7160,
     2097.00, 18.40, 751.94, 520.00, 29.40, 23.92, 80.32, 64.14, 37.29,  10.690, 3.402},
    {"CF-1",  6,     6000,   0.6505, 12000, 5.597, 1.533, 1310,  0.3110, 1563,  0.7010,
     2097.00, 18.40, 902.59, 467.34, 24.93, 21.41, 78.17, 56.96, 37.59,  9.493, 4.011},
    {"CF-1",  6,     6000,   0.6505, 12000, 5.597, 1.533, 1287,  0.2697, 1563,  0.6930,
     2097.00, 18.40, 939.90, 479.84, 24.93, 22.01, 78.55, 55.18, 39.88,  9.197, 4.011},
    {"CF-2",  6,     6000,   0.6505, 12000, 5.597, 1.533, 1214,  0.3490, 1731,   0.7060,
     2097.00, 18.40, 790.31, 508.91, 27.73, 23.39, 79.77, 62.31, 37.54,  10.385, 3.606},
    {"CF-2",  6,     6000,   0.6505, 12000, 5.597, 1.533, 1274,  0.2987, 1613,  0.7100,
     2097.00, 18.40, 893.46, 467.77, 25.76, 21.43, 78.77, 57.39, 37.34,  9.566, 3.881},
    {"CF-2",  6,     6000,   0.6505, 12000, 5.597, 1.533, 1231,  0.2437, 1577,  0.6980,
     2097.00, 18.40, 931.01, 476.25, 25.16, 21.83, 79.48, 55.60, 39.27,  9.267, 3.974},
    {"FW-1",  7,     7346,   0.7047, 10800, 13.207, 3.276, 1370,  0.5890, 2039,   0.6688,
     2169.27, 35.38, 563.07, 675.32, 25.81, 29.50,  81.35, 74.04, 39.84,  10.578, 3.874},
    {"FW-1",  7,     7346,   0.7047, 10800, 13.207, 3.276, 1174,  0.4657, 1870,   0.6532,
     2169.27, 35.38, 627.27, 648.52, 23.51, 28.26,  84.02, 71.08, 39.76,  10.155, 4.253},
    {"FW-1",  7,     7346,   0.7047, 10800, 13.207, 3.276, 1139,  0.3836, 1720,  0.6439,
     2169.27, 35.38, 702.08, 612.49, 21.47, 26.60,  84.49, 67.64, 39.33,  9.662, 4.657},
    {"FW-2",  7,     7346,   0.7018, 10800, 13.207, 3.276, 1309,  0.5976, 2009,   0.6886,
     2190.58, 35.38, 526.74, 625.60, 25.41, 26.94,  82.18, 75.95, 35.47,  10.851, 3.936},
    {"FW-2",  7,     7346,   0.7018, 10800, 13.207, 3.276, 1221,  0.5223, 1834,   0.6608,
     2190.58, 35.38, 583.27, 622.09, 23.02, 26.78,  83.38, 73.37, 36.50,  10.482, 4.343},
    {"FW-2",  7,     7346,   0.7018, 10800, 13.207, 3.276, 1135,  0.3989, 1686,  0.6497,
     2190.58, 35.38, 682.25, 590.61, 21.01, 25.35,  84.55, 68.86, 36.81,  9.836, 4.760},
    {"FH-2",  7,     8238.5, 0.7543, 10800, 6.067, 1.767, 2617,  0.7800, 2149,   0.7160,
     2024.20, 19.08, 575.74, 610.32, 25.29, 29.21, 68.23, 71.56, 40.82,  10.222, 3.954},
    {"FH-2",  7,     8238.5, 0.7543, 10800, 6.067, 1.767, 2221,  0.7500, 2193,   0.6910,
     2024.20, 19.08, 555.25, 677.64, 25.82, 32.53, 73.04, 72.57, 44.83,  10.367, 3.872},
    {"FH-2",  7,     8238.5, 0.7543, 10800, 6.067, 1.767, 1832,  0.7100, 2237,   0.6890,
     2024.20, 19.08, 531.28, 695.71, 26.36, 33.43, 77.76, 73.75, 45.32,  10.536, 3.794},
};

LarvaeRun run_of(const Box& box) {
  return {grams(box.feed),   grams(box.frass), milligrams(box.count * box.young_mg),
          grams(box.larvae), Days{box.days},   Number{box.count},
          SquareMetres{0.24}};
}

LarvaeMoistures moistures_of(const Box& box) {
  return {Fraction{box.feed_moisture}, Fraction{box.frass_moisture},
          Fraction{1 - box.young_dry_mg / box.young_mg}, Fraction{box.larvae_moisture}};
}

LarvaeMetrics dry_metrics(const Box& box) {
  return science::metrics_on_dry_matter(run_of(box), moistures_of(box));
}

}  // namespace

TEST_CASE("larvae: mass balance of fifteen boxes, Fuhrmann et al. 2024") {
  for (const Box& box : kBoxes) {
    CAPTURE(box.unit);
    CAPTURE(box.frass);
    const LarvaeMetrics wet = science::metrics_as_weighed(run_of(box));
    const LarvaeMetrics dry = dry_metrics(box);
    CHECK(wet.missing.empty());
    CHECK(dry.missing.empty());
    CHECK(is_near(100 * wet.bioconversion.value().value, box.bcr_wet, 0.01));
    CHECK(is_near(100 * wet.waste_reduction.value().value, box.wr_wet, 0.01));
    CHECK(is_near(wet.feed_conversion_ratio.value().value, box.fcr, 0.001));
    CHECK(is_near(100 * dry.bioconversion.value().value, box.bcr_dry, 0.01));
    CHECK(is_near(100 * dry.waste_reduction.value().value, box.wr_dry, 0.01));
    CHECK(is_near(100 * dry.ecd.value().value, box.ecd, 0.01));
    CHECK(is_near(dry.waste_reduction_index.value().value, box.wri, 0.001));
    CHECK(is_near(1000 * dry.gain.value().value, box.larvae_dry - box.young_dry, 0.011));
    CHECK(is_near(1000 * dry.loss.value().value,
                  box.feed_dry - box.frass_dry - (box.larvae_dry - box.young_dry), 0.021));

    // Identities that hold on any basis.
    for (const LarvaeMetrics& m : {wet, dry}) {
      CHECK(m.bioconversion->value == doctest::Approx(m.waste_reduction->value * m.ecd->value));
      CHECK(m.feed_conversion_ratio->value == doctest::Approx(1 / m.bioconversion->value));
      // The index is per day: a plain percentage under its name would be `days` times too large.
      CHECK(m.waste_reduction_index->value * box.days ==
            doctest::Approx(100 * m.waste_reduction->value));
      CHECK(m.waste_reduction->value > m.bioconversion->value);
    }
    // Broeckx et al. 2021, Sustainability 13:12953: "Feed conversion ratio (range 1.58-8.90)".
    CHECK(wet.feed_conversion_ratio->value > 1.58);
    CHECK(wet.feed_conversion_ratio->value < 8.90);
    // Eawag news, 12 Sep 2017: waste falls "by 50 to 80 percent within 14 days".
    CHECK(dry.waste_reduction->value > 0.50);
    CHECK(dry.waste_reduction->value < 0.80);
  }
}

TEST_CASE("larvae: loss of dry matter in the worked box") {
  // CF-1a: 2097.00 - (751.94 + 501.60) = 843.46 g from rounded masses, 843.449 g from those
  // weighed; computed from the formula.
  CHECK(is_near(1000 * dry_metrics(kBoxes[0]).loss->value, 843.449, 0.001));
}

TEST_CASE("larvae: feeding rate, area loading and density") {
  // Same boxes, computed from the formula: chicken feed 83.33 mg and 29.1 mg dry a larva a
  // day, 4.17 kg a m2 a day, 5.0 larvae a cm2; food waste 97.17 mg, 4.37 kg, 4.5 larvae.
  const LarvaeMetrics chicken = science::metrics_as_weighed(run_of(kBoxes[0]));
  CHECK(is_near(chicken.feed_mg_per_larva_day->value, 83.33, 0.005));
  CHECK(is_near(chicken.feed_kg_per_m2_day->value, 4.17, 0.005));
  CHECK(is_near(dry_metrics(kBoxes[0]).feed_mg_per_larva_day->value, 29.1, 0.05));
  const LarvaeMetrics food = science::metrics_as_weighed(run_of(kBoxes[6]));
  CHECK(is_near(food.feed_mg_per_larva_day->value, 97.17, 0.005));
  CHECK(is_near(food.feed_kg_per_m2_day->value, 4.37, 0.005));
  CHECK(science::larvae_per_cm2(Number{12000}, SquareMetres{0.24})->value == doctest::Approx(5.0));
  CHECK(science::larvae_per_cm2(Number{10800}, SquareMetres{0.24})->value == doctest::Approx(4.5));
  CHECK_FALSE(science::larvae_per_cm2(Number{10800}, SquareMetres{0}));

  // Recipe of the Eawag guide (Dortmans et al. 2017), from memory: 10 000 larvae, 15 kg in 12 days
  // on 60 x 40 cm. Computed from it: 125 mg a larva a day, 5.21 kg a m2 a day, 4.17 larvae a cm2.
  LarvaeRun recipe;
  recipe.feed = Kilograms{15};
  recipe.duration = Days{12};
  recipe.larvae_count = Number{10000};
  recipe.area = SquareMetres{0.24};
  const LarvaeMetrics planned = science::metrics_as_weighed(recipe);
  CHECK(is_near(planned.feed_mg_per_larva_day->value, 125, 1e-9));
  CHECK(is_near(planned.feed_kg_per_m2_day->value, 5.21, 0.005));
  CHECK(is_near(science::larvae_per_cm2(Number{10000}, SquareMetres{0.24})->value, 4.17, 0.005));
}

TEST_CASE("larvae: mean of three boxes with 2 % coco peat") {
  // FH unit of Fuhrmann et al. 2024, computed from the boxes above.
  double bcr_wet = 0, bcr_dry = 0, wr_wet = 0, wr_dry = 0, ecd = 0, fcr = 0;
  for (const Box& box : kBoxes) {
    if (box.unit != "FH-2") continue;
    const LarvaeMetrics wet = science::metrics_as_weighed(run_of(box));
    const LarvaeMetrics dry = dry_metrics(box);
    bcr_wet += 100 * wet.bioconversion->value / 3;
    bcr_dry += 100 * dry.bioconversion->value / 3;
    wr_wet += 100 * wet.waste_reduction->value / 3;
    wr_dry += 100 * dry.waste_reduction->value / 3;
    ecd += 100 * dry.ecd->value / 3;
    fcr += wet.feed_conversion_ratio->value / 3;
  }
  CHECK(is_near(bcr_wet, 25.82, 0.01));
  CHECK(is_near(bcr_dry, 31.72, 0.01));
  CHECK(is_near(wr_wet, 73.01, 0.01));
  CHECK(is_near(wr_dry, 72.63, 0.01));
  CHECK(is_near(ecd, 43.66, 0.01));
  CHECK(is_near(fcr, 3.87, 0.01));
}

TEST_CASE("larvae: bioconversion from a count") {
  // Open data performance_data.xlsx of Gold et al. (github.com/MoritzGold/BSFL_agri_microbiota,
  // commit c391545): 60 g of dry feed a container, start mass not subtracted. Bioconversion
  // computed by their formula; waste reduction theirs.
  struct Row {
    double count, dry_mg, bcr, wr;
  };
  const Row rows[] = {{247, 52.36, 21.555, 57.392},
                      {264, 48.621, 21.393, 53.733},
                      {218, 51.06, 18.552, 43.992},
                      {217, 42.576, 15.398, 46.715},
                      {205, 15.405, 5.263, 37.476}};
  for (const Row& row : rows) {
    LarvaeRun run;
    run.feed = grams(60);
    run.residue = grams(60 * (1 - row.wr / 100));
    run.larvae_in = Kilograms{0};
    run.larvae_out = milligrams(row.count * row.dry_mg);
    const LarvaeMetrics m = science::metrics_as_weighed(run);
    CHECK(is_near(100 * m.bioconversion.value().value, row.bcr, 0.001));
    CHECK(is_near(100 * m.waste_reduction.value().value, row.wr, 1e-9));
    CHECK(is_near(100 * m.ecd.value().value, 100 * row.bcr / row.wr, 0.003));
  }
  // ReproLab nursery study 2023, open data: biomass over 50 g of feed (the 50 inferred from the
  // file).
  LarvaeRun nursery;
  nursery.feed = grams(50);
  nursery.larvae_in = Kilograms{0};
  nursery.larvae_out = grams(11.36);
  CHECK(is_near(science::metrics_as_weighed(nursery).bioconversion->value, 0.2272, 1e-9));
}

TEST_CASE("larvae: survival above 100 % is told, not hidden") {
  // Box CF-1a of Fuhrmann et al. 2024: (1831 g / 140.5 mg) / 12 000 = 108.6 %, computed from it.
  const auto survival = science::survival_estimate(grams(1831), milligrams(140.5), Number{12000});
  REQUIRE(survival);
  CHECK(is_near(100 * survival->value, 108.6, 0.05));
  CHECK_FALSE(science::survival_estimate(grams(1831), Kilograms{0}, Number{12000}));
  CHECK_FALSE(science::survival_estimate(grams(1831), milligrams(140.5), Number{0}));
}

TEST_CASE("larvae: a harvest that was never weighed") {
  // Unit FH-1 of Fuhrmann et al. 2024 has no harvest masses in the file.
  Box box = kBoxes[12];
  LarvaeRun run = run_of(box);
  run.residue.reset();
  run.larvae_out.reset();
  const LarvaeMetrics wet = science::metrics_as_weighed(run);
  CHECK_FALSE(wet.gain);
  CHECK_FALSE(wet.waste_reduction);
  CHECK_FALSE(wet.bioconversion);
  CHECK_FALSE(wet.ecd);
  CHECK_FALSE(wet.waste_reduction_index);
  CHECK_FALSE(wet.feed_conversion_ratio);
  CHECK_FALSE(wet.loss);
  CHECK(is_near(wet.feed_mg_per_larva_day.value().value, 8238.5 * 1000 / 10800 / 7, 1e-9));
  CHECK(wet.missing == std::vector{LarvaeInput::Residue, LarvaeInput::LarvaeOut});
  CHECK(science::plain_name(wet.missing.front()) == "frass left");
  CHECK(science::plain_name(wet.missing.back()) == "larvae harvested");
}

TEST_CASE("larvae: dry figures say which moisture is wanting") {
  LarvaeMoistures moistures = moistures_of(kBoxes[0]);
  moistures.larvae_out.reset();
  moistures.residue = Fraction{1.2};
  const LarvaeMetrics dry = science::metrics_on_dry_matter(run_of(kBoxes[0]), moistures);
  CHECK_FALSE(dry.waste_reduction);
  CHECK_FALSE(dry.bioconversion);
  CHECK(dry.feed_kg_per_m2_day);
  CHECK(dry.missing == std::vector{LarvaeInput::ResidueMoisture, LarvaeInput::LarvaeOutMoisture});
}

TEST_CASE("larvae: an empty run names all it lacks, each by its own name") {
  const LarvaeMetrics dry = science::metrics_on_dry_matter({}, {});
  CHECK(dry.missing.size() == 11);
  std::vector<std::string_view> names;
  for (const LarvaeInput input : dry.missing) names.push_back(science::plain_name(input));
  std::sort(names.begin(), names.end());
  CHECK(std::adjacent_find(names.begin(), names.end()) == names.end());
  CHECK_FALSE(names.front().empty());
}

TEST_CASE("larvae: unusable masses are asked for again, odd ones are shown") {
  LarvaeRun run = run_of(kBoxes[0]);
  run.feed = Kilograms{0};
  run.larvae_in = Kilograms{-0.1};
  run.duration = Days{0};
  run.larvae_count = Number{0};
  run.area = SquareMetres{0};
  const LarvaeMetrics none = science::metrics_as_weighed(run);
  CHECK_FALSE(none.waste_reduction);
  CHECK_FALSE(none.feed_kg_per_m2_day);
  CHECK(none.missing == std::vector{LarvaeInput::Feed, LarvaeInput::LarvaeIn, LarvaeInput::Duration,
                                    LarvaeInput::LarvaeCount, LarvaeInput::Area});

  // More frass than feed (water was added) and larvae that lost mass.
  LarvaeRun soaked = run_of(kBoxes[0]);
  soaked.residue = grams(6600);
  soaked.larvae_out = grams(60);
  const LarvaeMetrics odd = science::metrics_as_weighed(soaked);
  CHECK(odd.waste_reduction->value == doctest::Approx(-0.1));
  CHECK(odd.bioconversion->value < 0);
  CHECK_FALSE(odd.ecd);
  CHECK_FALSE(odd.feed_conversion_ratio);
  CHECK(odd.missing.empty());
}

TEST_CASE("larvae: counts from grams") {
  // "90 mg; approx. 6000 individuals" of newly hatched larvae ("Bioconversion of poultry manure and
  // vegetable waste mixes by H. illucens"): 0.015 mg each.
  CHECK(science::larvae_from_mass(milligrams(90), milligrams(0.015))->value ==
        doctest::Approx(6000));
  CHECK_FALSE(science::larvae_from_mass(milligrams(90), Kilograms{0}));
  // A gram of eggs is 35 000 to 40 000 (Eawag guide, from memory); 2.5 g at 38 000, 70 % hatching:
  // by hand.
  CHECK(science::larvae_from_eggs(grams(2.5), Number{38000}, Fraction{0.7})->value ==
        doctest::Approx(66500));
  CHECK(science::larvae_from_eggs(grams(0), Number{38000}, Fraction{0.7})->value == 0);
  CHECK_FALSE(science::larvae_from_eggs(grams(-1), Number{38000}, Fraction{0.7}));
  CHECK_FALSE(science::larvae_from_eggs(grams(1), Number{38000}, Fraction{70}));
}

TEST_CASE("larvae: specific growth rate, and larvae that lighten before harvest") {
  // ReproLab nursery study 2023, chicken-feed nursery, replicate 1: 46.65 mg on day 2, 278.9 on day
  // 6, 290.9 on day 8. Computed by the formula of Eggink et al. 2022.
  CHECK(is_near(science::specific_growth_rate(milligrams(46.65), milligrams(278.9), Days{4})->value,
                44.70, 0.005));
  CHECK(is_near(science::specific_growth_rate(milligrams(278.9), milligrams(290.9), Days{2})->value,
                2.11, 0.005));
  // Chia et al. 2018: rate 0.127 a day doubles in "5.5 days", 0.122 in "5.7 days" (rounded prints).
  CHECK(is_near(science::specific_growth_rate(Kilograms{1}, Kilograms{2}, Days{5.5})->value, 12.7,
                0.12));
  CHECK(is_near(science::specific_growth_rate(Kilograms{1}, Kilograms{2}, Days{5.7})->value, 12.2,
                0.12));
  // Fuhrmann et al. 2024, CF-1: 157.333 mg on day 5, 143.633 on day 6; ln(0.91292) = -0.0911.
  CHECK(is_near(
      science::specific_growth_rate(milligrams(157.333), milligrams(143.633), Days{1})->value,
      -9.11, 0.005));
  CHECK_FALSE(science::specific_growth_rate(Kilograms{0}, milligrams(5), Days{1}));
  CHECK_FALSE(science::specific_growth_rate(milligrams(5), Kilograms{0}, Days{1}));
  CHECK_FALSE(science::specific_growth_rate(milligrams(5), milligrams(6), Days{0}));
}

TEST_CASE("larvae: a slipped decimal point among its sisters") {
  // ReproLab nursery study 2023, open data, treatment F1_pH, day 8: 290.12, 289.77 and, for
  // replicate 3, 30041 in the file.
  // Each against the others.
  const auto far = [](const std::vector<Kilograms>& all) {
    std::vector<std::size_t> places;
    for (std::size_t i = 0; i < all.size(); ++i) {
      std::vector<Kilograms> others = all;
      others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
      if (science::is_far_from_neighbours(all[i], others, Number{10})) places.push_back(i);
    }
    return places;
  };
  const std::vector<Kilograms> sisters = {milligrams(290.12), milligrams(289.77),
                                          milligrams(30041)};
  CHECK(far(sisters) == std::vector<std::size_t>{2});
  const std::vector<Kilograms> put_right = {milligrams(290.12), milligrams(289.77),
                                            milligrams(300.41)};
  CHECK(far(put_right).empty());
  // A value too small, and one that is no mass.
  const std::vector<Kilograms> small = {milligrams(290.12), milligrams(2.9), milligrams(289.77),
                                        milligrams(0)};
  CHECK(far(small) == std::vector<std::size_t>{1, 3});
  // Two that disagree: neither is believed. One alone: nothing to judge by.
  CHECK(far(std::vector{milligrams(3), milligrams(300)}).size() == 2);
  CHECK(far(std::vector{milligrams(300)}).empty());
  CHECK(science::is_far_from_neighbours(milligrams(0), {}, Number{10}));
}

TEST_CASE("larvae: true growth is not taken for a slip") {
  // Fuhrmann et al. 2024, CF-1, mg on days 0, 2, 4, 5, 6; each against the weighing before and
  // after.
  const double series[] = {5.597, 21.967, 108.433, 157.333, 143.633};
  for (int i = 0; i < 5; ++i) {
    std::vector<Kilograms> neighbours;
    if (i > 0) neighbours.push_back(milligrams(series[i - 1]));
    if (i < 4) neighbours.push_back(milligrams(series[i + 1]));
    CHECK_FALSE(science::is_far_from_neighbours(milligrams(series[i]), neighbours, Number{10}));
  }
}

TEST_CASE("larvae: protein from nitrogen, the factor named") {
  // Open data table8_nitrogen_protein.csv (github.com/adrihuda, CC BY 4.0): protein = 6.25 N,
  // percent of dry matter, rounded half up to two places.
  const double rows[][2] = {{1.83, 11.44}, {1.88, 11.75}, {1.90, 11.88}, {1.94, 12.13},
                            {5.34, 33.38}, {5.47, 34.19}, {5.62, 35.13}, {6.09, 38.06},
                            {6.42, 40.13}, {6.67, 41.69}};
  for (const auto& row : rows) {
    const Fraction protein =
        science::protein_from_nitrogen(Fraction{row[0] / 100}, science::kCrudeProteinFactor);
    const double half_up = std::floor(protein.value * 10000 + 0.5 + 1e-9) / 100;
    CHECK(is_near(half_up, row[1], 1e-9));
  }
  // With the larvae's factor the last is 31.15 %, a third less: computed from the formula.
  CHECK(is_near(
      100 * science::protein_from_nitrogen(Fraction{0.0667}, science::kLarvaNitrogenFactor).value,
      31.15, 0.005));
  CHECK(science::kLarvaNitrogenFactor.name.find("4.67") != std::string_view::npos);
  CHECK(science::kCrudeProteinFactor.name.find("6.25") != std::string_view::npos);
}

TEST_CASE("larvae: what 100 g of live larvae hold") {
  // Animals 2020, 10, 682 (PMC7222827), Table 1: dry matter 34.1 %; in it protein 49.1, fat 36.6 %,
  // Ca 18.5, P 4.40 g/kg. Computed from the table.
  const science::LarvaComposition composition{Fraction{0.341}, Fraction{0.491}, Fraction{0.366},
                                              Fraction{0.0185}, Fraction{0.0044}};
  const auto held = science::nutrients_in_larvae(grams(100), composition);
  CHECK(is_near(1000 * held.dry_matter.value, 34.1, 1e-9));
  CHECK(is_near(1000 * held.protein.value().value, 16.743, 0.0005));
  CHECK(is_near(1000 * held.fat.value().value, 12.481, 0.0005));
  CHECK(is_near(1000 * held.calcium.value().value, 0.6309, 0.00005));
  CHECK(is_near(1000 * held.phosphorus.value().value, 0.1500, 0.00005));
  CHECK(is_near(*held.calcium / *held.phosphorus, 4.205, 0.0005));

  science::LarvaComposition unknown;
  unknown.dry_matter = Fraction{0.3};
  CHECK_FALSE(science::nutrients_in_larvae(grams(100), unknown).protein);
}
