#include "science/weather/store.h"

#include <doctest/doctest.h>

#include <cmath>
#include <fstream>
#include <string>
#include <vector>

#include "science/weather/rain.h"

using measure::Fraction;
using measure::Litres;
using science::StoreDay;
using science::StoreOrder;
using science::StoreRun;

namespace {

// The run of Jenkins et al. 1978 and Fewkes & Butler 2000 by hand, computed from the printed
// equations: 50 m2, coefficient 0.9, 1000 L, 200 L wanted a day, empty at first; rain in mm.
std::vector<StoreDay> ten_days() {
  std::vector<StoreDay> days;
  for (const double rain : {0, 10, 0, 0, 30, 0, 0, 5, 0, 0}) {
    days.push_back({science::roof_catch(measure::SquareMetres{50}, measure::Metres{rain / 1000},
                                        Fraction{0.9}),
                    Litres{200}});
  }
  return days;
}

void check_balance(const StoreRun& run, double capacity) {
  const double scale = std::max(1.0, run.inflow.value);
  CHECK(std::fabs(run.inflow.value - run.supplied.value - run.spilt.value - run.at_end.value +
                  run.at_start.value) <= 1e-9 * scale);
  for (const auto& step : run.steps) {
    CHECK(step.held.value >= 0);
    CHECK(step.held.value <= capacity);
    CHECK(step.spilt.value >= 0);
  }
}

// NOAA's daily precipitation in Seattle, 2012 to 2015, in mm (see tests/data/README.md).
std::vector<double> seattle_rain() {
  std::ifstream file(std::string(TEST_DATA) + "/seattle-rain.csv");
  std::vector<double> rain;
  std::string line;
  std::getline(file, line);
  while (std::getline(file, line)) rain.push_back(std::stod(line.substr(line.find(',') + 1)));
  return rain;
}

}  // namespace

TEST_CASE("store: yield after spillage, day by day") {
  const auto run =
      science::run_store(ten_days(), Litres{1000}, Litres{0}, StoreOrder::kYieldAfterSpill);
  const double supplied[] = {0, 0, 200, 200, 50, 200, 200, 200, 200, 200};
  const double spilt[] = {0, 0, 0, 0, 400, 0, 0, 0, 0, 0};
  const double held[] = {0, 450, 250, 50, 950, 750, 550, 575, 375, 175};
  for (std::size_t i = 0; i < 10; ++i) {
    CHECK(run.steps[i].supplied.value == doctest::Approx(supplied[i]));
    CHECK(run.steps[i].spilt.value == doctest::Approx(spilt[i]));
    CHECK(run.steps[i].held.value == doctest::Approx(held[i]));
    // After spillage a day never ends above the capacity less what was taken.
    CHECK(run.steps[i].held.value <= 1000 - run.steps[i].supplied.value + 1e-9);
  }
  CHECK(run.inflow.value == doctest::Approx(2025));
  CHECK(run.supplied.value == doctest::Approx(1450));
  CHECK(run.spilt.value == doctest::Approx(400));
  CHECK(run.by_volume().value == doctest::Approx(0.725));
  CHECK(run.days_met == 7);
  CHECK(run.by_days().value == doctest::Approx(0.7));
  check_balance(run, 1000);
}

TEST_CASE("store: yield before spillage, day by day") {
  const auto run =
      science::run_store(ten_days(), Litres{1000}, Litres{0}, StoreOrder::kYieldBeforeSpill);
  const double supplied[] = {0, 200, 200, 50, 200, 200, 200, 200, 200, 200};
  const double spilt[] = {0, 0, 0, 0, 150, 0, 0, 0, 0, 0};
  const double held[] = {0, 250, 50, 0, 1000, 800, 600, 625, 425, 225};
  for (std::size_t i = 0; i < 10; ++i) {
    CHECK(run.steps[i].supplied.value == doctest::Approx(supplied[i]));
    CHECK(run.steps[i].spilt.value == doctest::Approx(spilt[i]));
    CHECK(run.steps[i].held.value == doctest::Approx(held[i]));
  }
  CHECK(run.by_volume().value == doctest::Approx(0.825));
  CHECK(run.days_met == 8);
  check_balance(run, 1000);
}

TEST_CASE("store: four years of Seattle's rain balance to the last drop") {
  const auto rain = seattle_rain();
  REQUIRE(rain.size() == 1461);
  std::vector<StoreDay> days;
  double total = 0;
  for (const double millimetres : rain) {
    total += millimetres;
    days.push_back({science::roof_catch(measure::SquareMetres{75},
                                        measure::Metres{millimetres / 1000}, Fraction{0.9}),
                    Litres{120}});
  }
  double share_before = 0;
  for (const double capacity : {200.0, 1000.0, 5000.0, 25000.0}) {
    const auto after =
        science::run_store(days, Litres{capacity}, Litres{100}, StoreOrder::kYieldAfterSpill);
    const auto before =
        science::run_store(days, Litres{capacity}, Litres{100}, StoreOrder::kYieldBeforeSpill);
    check_balance(after, capacity);
    check_balance(before, capacity);
    CHECK(after.inflow.value == doctest::Approx(total * 75 * 0.9).epsilon(1e-12));
    CHECK(after.by_volume() <= before.by_volume());  // Fewkes & Butler: the cautious order
    CHECK(after.by_volume().value > share_before);   // a larger tank gives no less
    share_before = after.by_volume().value;
  }
}

TEST_CASE("store: nothing wanted, nothing missed") {
  const std::vector<StoreDay> idle(3, {Litres{10}, Litres{0}});
  const auto run = science::run_store(idle, Litres{25}, Litres{0}, StoreOrder::kYieldAfterSpill);
  CHECK(run.by_volume().value == 1);
  CHECK(run.by_days().value == 1);
  CHECK(run.spilt.value == doctest::Approx(5));
}
