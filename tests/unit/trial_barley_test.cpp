#include <doctest/doctest.h>

#include <cmath>
#include <fstream>
#include <map>
#include <sstream>

#include "build_history.h"
#include "season/trial.h"
#include "season/yardstick.h"

namespace trial_barley_test {

// Immer's barley (see tests/data/README.md) carried out of beds, and compared: 1931, six sites of
// Minnesota, Trebi against Wisconsin No. 38, a pair at each site. The figures held against were
// made by R 4.2.2: t.test(paired = TRUE), wilcox.test(paired = TRUE), and all 64 swaps counted.

using measure::Dimension;
using measure::Value;

namespace {

std::map<std::string, double> yields(const std::string& variety) {
  std::ifstream file(std::string(TEST_DATA) + "/barley.csv");
  std::map<std::string, double> by_site;
  std::string line;
  while (std::getline(file, line)) {
    std::istringstream row(line);
    std::string site, year, name, yield;
    std::getline(row, site, ',');
    std::getline(row, year, ',');
    std::getline(row, name, ',');
    std::getline(row, yield, ',');
    if (year == "1931" && name == variety) by_site[site] = std::stod(yield);
  }
  return by_site;
}

// A bed of 40 m2 that gave so many kilograms.
season::Plot bed(const std::string& label, double kilograms) {
  season::Plot plot{label,
                    build::batch("bed", label, build::day("1931-04-20"), build::day("1931-09-01"),
                                 measure::UnitSystem::kMetric),
                    {}};
  build::setting(plot.history, "area", "40m2", Value{Dimension::kArea, 40});
  model::Material barley;
  barley.name = "barley";
  for (const double part : {0.25, 0.75}) {
    plot.history.out.push_back(build::movement(barley, {Dimension::kMass, kilograms * part},
                                               build::at(build::day("1931-08-10"))));
  }
  return plot;
}

}  // namespace

TEST_CASE("trial: Immer's barley") {
  const auto trebi = yields("Trebi"), wisconsin = yields("Wisconsin No. 38");
  REQUIRE(trebi.size() == 6);
  REQUIRE(wisconsin.size() == 6);
  std::vector<season::Plot> plots;
  for (const auto& [site, yield] : trebi) plots.push_back(bed("t-" + site, yield));
  for (const auto& [site, yield] : wisconsin) plots.push_back(bed("w-" + site, yield));
  const auto yardstick = season::read_yardstick("barley per area", plots);
  REQUIRE(yardstick);
  season::TrialAsk ask{{}, {}, true};
  for (std::size_t i = 0; i < plots.size(); ++i) {
    const auto value = season::value_of(plots[i], *yardstick);
    REQUIRE(value);
    (i < 6 ? ask.treated : ask.against).labels.push_back(plots[i].label);
    (i < 6 ? ask.treated : ask.against).values.push_back(40 * value->si);
  }
  const auto trial = season::judge_trial(ask);
  CHECK(trial.difference == doctest::Approx(1.883325).epsilon(1e-9));
  CHECK(trial.student->t == doctest::Approx(0.649612084754251).epsilon(1e-9));
  CHECK(trial.student->p == doctest::Approx(0.544600789989189).epsilon(1e-9));
  CHECK(trial.student->low == doctest::Approx(-5.56918573558954).epsilon(1e-9));
  CHECK(trial.student->high == doctest::Approx(9.33583573558954).epsilon(1e-9));
  CHECK(*trial.by_lots == doctest::Approx(0.6875).epsilon(1e-12));
  CHECK(trial.by_ranks->p == doctest::Approx(0.84375).epsilon(1e-9));
}

}  // namespace trial_barley_test
