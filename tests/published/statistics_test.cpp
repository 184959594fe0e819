#include "science/numbers/statistics.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "science/numbers/permutation.h"
#include "tests/published/figures.h"

using std::vector;

namespace {

// Student 1908, "The probable error of a mean", Biometrika 6:1-25, after Cushny & Peebles 1905:
// hours of sleep gained by ten patients with two drugs.
const vector<double> kFirstDrug{0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0};
const vector<double> kSecondDrug{1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4};

vector<double> differences(const vector<double>& a, const vector<double>& b) {
  vector<double> made;
  for (std::size_t i = 0; i < a.size(); ++i) made.push_back(a[i] - b[i]);
  return made;
}

// NIST StRD, NumAcc2 to 4: base + 0.2, then base + 0.1 and base + 0.3 five hundred times each.
vector<double> numerical_accuracy(double base) {
  vector<double> made{base + 0.2};
  for (int i = 0; i < 500; ++i) {
    made.push_back(base + 0.1);
    made.push_back(base + 0.3);
  }
  return made;
}

// NIST StRD, Lew: 200 deflections of a steel-concrete beam.
const vector<double> kLew{
    -213, -564, -35,  -15,  141,  115,  -420, -360, 203,  -338, -431, 194,  -220, -513, 154,  -125,
    -559, 92,   -21,  -579, -52,  99,   -543, -175, 162,  -457, -346, 204,  -300, -474, 164,  -107,
    -572, -8,   83,   -541, -224, 180,  -420, -374, 201,  -236, -531, 83,   27,   -564, -112, 131,
    -507, -254, 199,  -311, -495, 143,  -46,  -579, -90,  136,  -472, -338, 202,  -287, -477, 169,
    -124, -568, 17,   48,   -568, -135, 162,  -430, -422, 172,  -74,  -577, -13,  92,   -534, -243,
    194,  -355, -465, 156,  -81,  -578, -64,  139,  -449, -384, 193,  -198, -538, 110,  -44,  -577,
    -6,   66,   -552, -164, 161,  -460, -344, 205,  -281, -504, 134,  -28,  -576, -118, 156,  -437,
    -381, 200,  -220, -540, 83,   11,   -568, -160, 172,  -414, -408, 188,  -125, -572, -32,  139,
    -492, -321, 205,  -262, -504, 142,  -83,  -574, 0,    48,   -571, -106, 137,  -501, -266, 190,
    -391, -406, 194,  -186, -553, 83,   -13,  -577, -49,  103,  -515, -280, 201,  300,  -506, 131,
    -45,  -578, -80,  138,  -462, -361, 201,  -211, -554, 32,   74,   -533, -235, 187,  -372, -442,
    182,  -147, -566, 25,   68,   -535, -244, 194,  -351, -463, 174,  -125, -570, 15,   72,   -550,
    -190, 172,  -424, -385, 198,  -218, -536, 96};

}  // namespace

TEST_CASE("statistics: NIST's certified means and standard deviations") {
  // NIST Statistical Reference Datasets, univariate; 15 certified digits.
  const auto lew = science::summary(kLew);
  REQUIRE(lew);
  CHECK(lew->n == 200);
  CHECK(close_to(lew->mean, -177.435000000000, 1e-14));
  CHECK(close_to(lew->sd, 277.332168044316, 1e-14));
  const vector<double> one{10000001, 10000003, 10000002};
  CHECK(science::summary(one)->mean == 10000002);
  CHECK(close_to(science::summary(one)->sd, 1, 1e-14));
  struct Row {
    double base, mean, within;
  };
  // The data themselves are rounded to doubles: from 1e7 on the sd keeps about 8 digits.
  for (const Row& row :
       {Row{1, 1.2, 1e-13}, Row{1e6, 1000000.2, 1e-9}, Row{1e7, 10000000.2, 1e-7}}) {
    const auto of = science::summary(numerical_accuracy(row.base));
    CHECK(close_to(of->mean, row.mean, 1e-14));
    CHECK(close_to(of->sd, 0.1, row.within));
  }
  CHECK_FALSE(science::summary({}));
}

TEST_CASE("statistics: quantiles of Student's t") {
  // Any table of t (0.975); to ten digits recomputed with arbitrary precision.
  CHECK(close_to(science::student_quantile(0.975, 1), 12.70620474, 1e-9));
  CHECK(close_to(science::student_quantile(0.975, 3), 3.182446305, 1e-9));
  CHECK(close_to(science::student_quantile(0.975, 10), 2.228138852, 1e-9));
  CHECK(close_to(science::student_quantile(0.975, 120), 1.979930405, 1e-9));
  CHECK(close_to(science::student_quantile(0.975, 17.776), 2.102821310, 1e-9));
  CHECK(close_to(science::student_quantile(0.95, 15), 1.753050356, 1e-9));
  // NIST/SEMATECH e-Handbook 1.3.5.3 prints 1.9673 for 326.
  CHECK(std::fabs(science::student_quantile(0.975, 326) - 1.9673) < 5e-5);
}

TEST_CASE("statistics: Student's sleep data, paired and not") {
  // R 4's documentation of t.test prints t = -4.0621, df = 9, p-value = 0.002833, interval
  // -2.4598858 -0.7001142, and for Welch t = -1.8608, df = 17.776, p-value = 0.07939; more digits
  // recomputed with arbitrary precision.
  const auto pairs = science::paired(kFirstDrug, kSecondDrug);
  REQUIRE(pairs);
  CHECK(close_to(pairs->t, -4.06212768338, 1e-11));
  CHECK(pairs->degrees == 9);
  CHECK(close_to(pairs->p, 0.00283289019738, 1e-11));
  CHECK(close_to(pairs->low, -2.45988576328, 1e-11));
  CHECK(close_to(pairs->high, -0.700114236723, 1e-11));
  CHECK(close_to(pairs->error, 0.388958723888, 1e-11));
  const auto apart = science::welch(*science::summary(kFirstDrug), *science::summary(kSecondDrug));
  REQUIRE(apart);
  CHECK(close_to(apart->t, -1.86081346749, 1e-11));
  CHECK(close_to(apart->degrees, 17.7764735162, 1e-11));
  CHECK(close_to(apart->p, 0.0793941401874, 1e-11));
  CHECK(close_to(apart->low, -3.36548323071, 1e-11));
  CHECK(close_to(apart->high, 0.205483230712, 1e-11));
  // All 1024 swaps, the difference of 0 kept: 4 lie as far out.
  CHECK(science::swap_test(differences(kFirstDrug, kSecondDrug)) == 4.0 / 1024);
}

TEST_CASE("statistics: Welch from NIST's summaries") {
  // NIST/SEMATECH e-Handbook 1.3.5.3, AUTO83B.DAT: t = -12.94627 without equal variances.
  const auto miles = science::welch({249, 20.14458, 6.41470}, {79, 30.48101, 6.10771});
  REQUIRE(miles);
  CHECK(close_to(miles->t, -12.9462675657, 1e-11));
  CHECK(close_to(miles->degrees, 136.874990094, 1e-11));
  CHECK(close_to(miles->p, 1.57090461546e-25, 1e-8));
}

TEST_CASE("statistics: a small trial, tested by drawing lots") {
  // Walworth, How to Conduct On-Farm Trials (University of Arizona): heights in inches. The tests
  // are recomputed with arbitrary precision: 8 of the 252 divisions lie as far apart.
  const vector<double> men{66, 72, 74, 71, 70}, women{66, 67, 62, 60, 66};
  const auto apart = science::welch(*science::summary(men), *science::summary(women));
  CHECK(close_to(science::summary(men)->mean, 70.6, 1e-14));
  CHECK(close_to(science::summary(women)->mean, 64.2, 1e-14));
  CHECK(close_to(apart->degrees, 7.99605133268, 1e-11));
  CHECK(close_to(apart->p, 0.00974781650748, 1e-11));
  CHECK(close_to(apart->low, 2.0242886631, 1e-10));
  CHECK(close_to(apart->high, 10.7757113369, 1e-10));
  CHECK(close_to(*science::permutation_test(men, women), 8.0 / 252, 1e-14));
}

TEST_CASE("statistics: tests by ranks") {
  // Hollander & Wolfe 1973, p. 69: "W = 35, p-value = 0.1272" one-sided in R's documentation of
  // wilcox.test; two-sided 764/3003.
  const vector<double> x{0.80, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46};
  const vector<double> y{1.15, 0.88, 0.90, 0.74, 1.21};
  const auto sums = science::rank_sum_test(x, y);
  REQUIRE(sums);
  CHECK(sums->exact);
  CHECK(sums->statistic == 35);
  CHECK(close_to(sums->p, 764.0 / 3003, 1e-12));
  // Page 29, depression: "V = 40, p-value = 0.03906" two-sided.
  const vector<double> before{1.83, 0.50, 1.62, 2.48, 1.68, 1.88, 1.55, 3.06, 1.30};
  const vector<double> after{0.878, 0.647, 0.598, 2.05, 1.06, 1.29, 1.06, 3.14, 1.29};
  const auto ranks = science::signed_rank_test(differences(before, after));
  REQUIRE(ranks);
  CHECK(ranks->exact);
  CHECK(ranks->statistic == 40);
  CHECK(close_to(ranks->p, 20.0 / 512, 1e-12));
  // The sleep data have ties and a zero: normal, corrected (R: W = 25.5, p-value = 0.06933, and V
  // = 0, p-value = 0.009091).
  const auto tied = science::rank_sum_test(kFirstDrug, kSecondDrug);
  CHECK_FALSE(tied->exact);
  CHECK(tied->statistic == 25.5);
  CHECK(close_to(tied->p, 0.0693275754336, 1e-10));
  const auto zero = science::signed_rank_test(differences(kFirstDrug, kSecondDrug));
  CHECK_FALSE(zero->exact);
  CHECK(zero->statistic == 0);
  CHECK(close_to(zero->p, 0.00909069801593, 1e-10));
  // Complete separation, 3 against 4: 2 of the 35 divisions.
  CHECK(close_to(science::rank_sum_test(vector<double>{1, 2, 3}, vector<double>{4, 5, 6, 7})->p,
                 2.0 / 35, 1e-14));
  CHECK_FALSE(science::rank_sum_test(vector<double>{1, 1}, vector<double>{1, 1}));
  CHECK_FALSE(science::signed_rank_test(vector<double>{0, 0}));
}

TEST_CASE("statistics: what a small trial can never show") {
  // Counted: 3 against 3 divide in 20 ways, 4 against 4 in 70, two of which lie farthest apart; n
  // pairs swap in 2^n ways.
  CHECK(close_to(science::least_p_apart(3, 3), 0.1, 1e-14));
  CHECK(close_to(science::least_p_apart(4, 4), 2.0 / 70, 1e-14));
  CHECK(science::least_p_apart(1, 1) == 1);
  CHECK(science::least_p_pairs(4) == 0.125);
  CHECK(science::least_p_pairs(5) == 0.0625);
  CHECK(science::least_p_pairs(6) == 0.03125);
  CHECK(*science::swap_test(vector<double>{1, 2, 3, 4}) == 0.125);
  CHECK(close_to(*science::permutation_test(vector<double>{1, 2, 3}, vector<double>{7, 8, 9}), 0.1,
                 1e-14));
}

TEST_CASE("statistics: how many plots, and the least difference they can show") {
  // R's documentation of power.t.test: n = 20, delta = sd = 1 has power 0.8689528; power 0.90
  // needs n = 22.02110 a side.
  CHECK(close_to(science::power(1 / std::sqrt(2.0 / 20), 38), 0.8689528, 1e-7));
  CHECK(science::plots_a_side(1, 1, 0.90) == 23);
  CHECK(science::power(1 / std::sqrt(2.0 / 22), 42) < 0.90);
  CHECK(science::power(1 / std::sqrt(2.0 / 23), 44) >= 0.90);
  // The least difference that pairs find four times in five, in sds of their differences: computed
  // from the noncentral t with arbitrary precision.
  const vector<std::pair<int, double>> least{
      {4, 2.12795}, {5, 1.68200}, {6, 1.43455}, {8, 1.15604}, {10, 0.996002}};
  for (const auto& [pairs, sds] : least) {
    CHECK(close_to(science::findable(0.8, pairs - 1) / std::sqrt(static_cast<double>(pairs)), sds,
                   4e-6));
    CHECK(science::pairs_needed(sds * 1.0001, 1, 0.8) == pairs);
    CHECK(*science::pairs_needed(sds * 0.999, 1, 0.8) == pairs + 1);
  }
  CHECK_FALSE(science::plots_a_side(0, 1, 0.8));
  CHECK_FALSE(science::plots_a_side(1, 0, 0.8));
  CHECK_FALSE(science::plots_a_side(1e-6, 1, 0.8));
}

TEST_CASE("statistics: randomised blocks") {
  // Gomez & Gomez 1984, Statistical Procedures for Agricultural Research, p. 26: rice at six
  // seeding rates in four replications, kg/ha (agridat, gomez.seedrate). The analysis is recomputed
  // with arbitrary precision; the book prints F = 2.17, not significant (from memory).
  const vector<vector<double>> rice{{5113, 5398, 5307, 4678}, {5346, 5952, 4719, 4264},
                                    {5272, 5713, 5483, 4749}, {5164, 4831, 4986, 4410},
                                    {4804, 4848, 4432, 4748}, {5254, 4542, 4919, 4098}};
  const auto trial = science::blocks(rice);
  REQUIRE(trial);
  CHECK(close_to(trial->f_treatments, 2.1677786815, 1e-10));
  CHECK(close_to(trial->p_treatments, 0.112809412635, 1e-10));
  CHECK(close_to(trial->f_blocks, 5.86224305563, 1e-10));
  CHECK(close_to(trial->p_blocks, 0.00741577831502, 1e-10));
  CHECK(trial->error_degrees == 15);
  CHECK(close_to(trial->error_square, 110558.411111, 1e-10));
  CHECK(close_to(trial->least_difference, 501.136405057, 1e-10));
  // 25 against 150 kg/ha within replications.
  const auto ends = science::paired(rice.front(), rice.back());
  CHECK(close_to(ends->t, 1.99934683125, 1e-11));
  CHECK(close_to(ends->p, 0.139414191884, 1e-10));
  // The same book, p. 300: larvae counts as log10(x + 1) (agridat, gomez.nonnormal1). Printed:
  // replications F 3.6511, p 0.0267223; treatments F 5.6995, p 0.0004092; 24 degrees of freedom.
  vector<vector<double>> larvae{{9, 12, 0, 1}, {4, 8, 5, 1},     {6, 15, 6, 2},
                                {9, 6, 4, 5},  {27, 17, 10, 10}, {35, 28, 2, 15},
                                {1, 0, 0, 0},  {10, 0, 2, 1},    {4, 10, 15, 5}};
  for (auto& row : larvae) {
    for (double& count : row) count = std::log10(count + 1);
  }
  const auto counts = science::blocks(larvae);
  CHECK(std::fabs(counts->f_blocks - 3.6511) < 5e-5);
  CHECK(std::fabs(counts->p_blocks - 0.0267223) < 5e-8);
  CHECK(std::fabs(counts->f_treatments - 5.6995) < 5e-5);
  CHECK(std::fabs(counts->p_treatments - 0.0004092) < 5e-8);
  CHECK(counts->error_degrees == 24);
  CHECK_FALSE(science::blocks({{1, 2}}));
  CHECK_FALSE(science::blocks({{1, 2}, {1, 2}}));  // nothing is left over
}

TEST_CASE("statistics: where a test has nothing to go on") {
  CHECK_FALSE(science::welch({1, 5, 0}, {4, 3, 1}));
  CHECK_FALSE(science::welch({4, 5, 0}, {4, 3, 0}));
  CHECK_FALSE(science::paired(vector<double>{1, 2, 3}, vector<double>{2, 3, 4}));
  CHECK_FALSE(science::paired(vector<double>{1}, vector<double>{2}));
  CHECK_FALSE(science::permutation_test({}, vector<double>{1}));
  // 30 against 30 plots divide in 1e17 ways: too many to count out.
  CHECK_FALSE(science::permutation_test(vector<double>(30, 1.0), vector<double>(30, 2.0)));
}

TEST_CASE("statistics: lots fall alike for one seed, and fairly over many") {
  CHECK(science::drawn_order(8, 7) == science::drawn_order(8, 7));
  CHECK(science::drawn_order(0, 7).empty());
  // Each of four places holds each of four numbers in about a quarter of 4000 drawings: within five
  // standard deviations (27.4) of 1000.
  vector<vector<int>> count(4, vector<int>(4, 0));
  for (std::uint64_t seed = 0; seed < 4000; ++seed) {
    const auto order = science::drawn_order(4, seed);
    for (std::size_t i = 0; i < 4; ++i) ++count[i][static_cast<std::size_t>(order[i])];
  }
  for (const auto& row : count) {
    for (const int times : row) CHECK(std::abs(times - 1000) < 137);
  }
}
