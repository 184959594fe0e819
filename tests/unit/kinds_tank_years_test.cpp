#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <string>

#include "build_history.h"
#include "kinds/kind.h"

namespace kinds_tank_years_test {

// A tank under four years of Seattle's rain (NOAA, 2012 to 2015; see tests/data/README.md).

using build::figure;
using measure::Dimension;
using measure::Value;
using model::History;

namespace {

struct Wet {
  model::Day day;
  double millimetres;
};

std::vector<Wet> seattle() {
  std::ifstream file(std::string(TEST_DATA) + "/seattle-rain.csv");
  std::vector<Wet> days;
  std::string line;
  std::getline(file, line);
  while (std::getline(file, line)) {
    days.push_back({build::day(line.substr(0, 10).c_str()), std::stod(line.substr(11))});
  }
  return days;
}

// 75 m2 of metal (90 % runs off), 4000 L, 200 L drawn on every day from May to September.
History four_years() {
  History history = build::batch("tank", "tank-1", build::day("2012-01-01"),
                                 build::day("2015-12-31"), measure::UnitSystem::kMetric);
  build::setting(history, "roof", "75m2", Value{Dimension::kArea, 75});
  build::setting(history, "runoff", "90%", Value{Dimension::kFraction, 0.9});
  build::setting(history, "capacity", "4000L", Value{Dimension::kVolume, 4000});
  build::reading(history, "held", "", build::at(history.batch.started_day, 6), 1000);
  for (const Wet& wet : seattle()) {
    build::reading(history, "rain", "", build::at(wet.day, 7, 30), wet.millimetres / 1000);
    const auto month = static_cast<unsigned>(date::year_month_day{wet.day}.month());
    if (month < 5 || month > 9) continue;
    history.out.push_back(build::movement(build::material("rainwater"), {Dimension::kVolume, 200},
                                          build::at(wet.day, 18)));
  }
  history.now = build::at(history.today, 23);
  return history;
}

model::Record sizing(const History& history) {
  const model::Rules rules;
  return *kinds::study(history, rules)->record(kinds::RecordOf::kSizing);
}

}  // namespace

TEST_CASE("tank: four years of Seattle in the figures") {
  const History history = four_years();
  const auto assessment = kinds::assess(history, {});
  double millimetres = 0;
  for (const Wet& wet : seattle()) millimetres += wet.millimetres;
  CHECK(figure(assessment, "tank.rain") == doctest::Approx(millimetres / 1000).epsilon(1e-12));
  CHECK(figure(assessment, "tank.caught") == doctest::Approx(millimetres * 67.5).epsilon(1e-12));
  CHECK(figure(assessment, "tank.drawn") == doctest::Approx(200 * 153 * 4));
  // What was there, came and went, by hand: the figures must close on what is there at the end.
  double held = 1000, spilt = 0, missed = 0;
  for (const Wet& wet : seattle()) {
    const auto month = static_cast<unsigned>(date::year_month_day{wet.day}.month());
    held += wet.millimetres * 67.5;
    spilt += std::max(held - 4000, 0.0);
    held = std::min(held, 4000.0);
    if (month < 5 || month > 9) continue;
    missed += std::max(200 - held, 0.0);
    held = std::max(held - 200, 0.0);
  }
  CHECK(1000 + millimetres * 67.5 - spilt - (200 * 153 * 4 - missed) ==
        doctest::Approx(held).epsilon(1e-9));
  CHECK(figure(assessment, "tank.spilt") == doctest::Approx(spilt).epsilon(1e-9));
  std::string water;
  for (const auto& one : assessment.progress) {
    if (one.goal == "water") water = one.says;
  }
  CHECK(water.find(measure::Printer(measure::UnitSystem::kMetric)(Value{Dimension::kVolume, held},
                                                                  {"gal", "L"}) +
                   " of 4,000 L") != std::string::npos);
}

TEST_CASE("tank: sizes judged by four years of Seattle") {
  const History history = four_years();
  const model::Record record = sizing(history);
  REQUIRE(record.tables.size() == 1);
  REQUIRE(record.tables[0].rows.size() == 10);
  REQUIRE(record.pictures.size() == 1);
  const auto& bars = record.pictures[0].bars;
  for (std::size_t i = 1; i < bars.size(); ++i) CHECK(bars[i].share >= bars[i - 1].share);
  CHECK(bars.front().share > 0);
  CHECK(bars.back().share <= 1);
  CHECK(record.tables[0].rows[3][0] == "4,000 L (this)");
  bool says_drinking = false, says_past = false;
  for (const std::string& line : record.outcome) {
    says_drinking = says_drinking || line.find("not for drinking") != std::string::npos;
    says_past = says_past || line.find("more tank buys little") != std::string::npos;
  }
  CHECK(says_drinking);
  CHECK(says_past);
}

// What was drawn from a tank that ran dry says how much there was, not how much was wanted.
TEST_CASE("tank: a size says what it starts from, and when draws are less than what was wanted") {
  History history = four_years();
  const auto has = [](const model::Record& record, std::string_view part) {
    return std::any_of(record.outcome.begin(), record.outcome.end(), [&](const std::string& line) {
      return line.find(part) != std::string::npos;
    });
  };
  const auto how = [](const model::Record& record) { return record.facts.back().value; };
  CHECK_FALSE(has(sizing(history), "read empty"));
  CHECK(build::contains(how(sizing(history)), "at first it holds 1,000 L"));
  build::reading(history, "held", "", build::at(build::day("2015-09-01"), 6), 0);
  CHECK(has(sizing(history), "it was read empty on 1 day"));
  History unread = four_years();
  unread.series.erase(unread.series.begin());
  CHECK(build::contains(how(sizing(unread)), "taken as empty at first"));
}

TEST_CASE("tank: a size is not judged from nothing") {
  const History bare =
      build::batch("tank", "tank-1", build::day("2027-01-01"), build::day("2027-02-01"));
  CHECK(sizing(bare).outcome.front().find("roof") != std::string::npos);
  History dry = bare;
  build::setting(dry, "roof", "75m2", Value{Dimension::kArea, 75});
  CHECK(sizing(dry).outcome.front().find("no rain") != std::string::npos);
  build::reading(dry, "rain", "", build::at(build::day("2027-01-05")), 0.01);
  CHECK(sizing(dry).outcome.front().find("nothing was drawn") != std::string::npos);
  build::setting(dry, "uses", "beds 50L");
  const model::Record short_one = sizing(dry);
  CHECK(short_one.tables.size() == 1);
  CHECK(short_one.outcome[1].find("28 days long") != std::string::npos);
}

}  // namespace kinds_tank_years_test
