#include "render/chart.h"

#include <doctest/doctest.h>

#include "build_history.h"
#include "measure/text.h"
#include "render/text.h"

namespace chart_test {

using build::day;
using measure::unit;
using render::chart;

namespace {

std::vector<model::DayRoll> rolls(model::Day first, std::vector<std::optional<double>> greatest) {
  std::vector<model::DayRoll> days;
  for (std::size_t i = 0; i < greatest.size(); ++i) {
    if (!greatest[i]) continue;
    const model::Day of = first + date::days{static_cast<int>(i)};
    days.push_back({of, 1, 0, *greatest[i], *greatest[i], *greatest[i], build::at(of)});
  }
  return days;
}

std::vector<std::string> lines(const std::string& text) {
  auto all = measure::split(text, '\n');
  REQUIRE(all.back().empty());
  all.pop_back();
  return all;
}

const model::Day kFirst = day("2026-04-06");

}  // namespace

TEST_CASE("no chart of less than two days") {
  CHECK(chart({}, unit("°C"), std::nullopt, 80, kFirst) == "");
  CHECK(chart(rolls(kFirst, {50}), unit("°C"), std::nullopt, 80, kFirst) == "");
}

TEST_CASE("a rising week") {
  // 20 to 60 degC over five lines of eight steps: one step a degree.
  const auto days = rolls(kFirst, {20.5, 28, 36, std::nullopt, 44, 52, 60});
  CHECK(chart(days, unit("°C"), std::nullopt, 40, kFirst) ==
        "  60 °C        █\n"
        "              ██\n"
        "             ███\n"
        "           █ ███\n"
        "  20 °C  ▁██ ███\n"
        "         Mon 6 Apr  Sun 12 Apr\n");
}

TEST_CASE("a day with a reading shows, and one without does not") {
  // 20 degC is the chart's own floor: a day at the floor is not a day unread.
  const auto days = rolls(kFirst, {20, 30, std::nullopt, 20, 25});
  const auto all = lines(chart(days, unit("°C"), std::nullopt, 40, kFirst));
  REQUIRE(all.size() == 6);
  CHECK(all[4] == "  20 °C  ▁█ ▁█");
}

TEST_CASE("the limit's line") {
  const auto days = rolls(kFirst, {40, 50, 60, 50, 40});
  const auto all = lines(chart(days, unit("°C"), 55, 40, kFirst));
  // From 40 to 60, four degrees a line: 55 lies in the fourth, of 52 to 56.
  CHECK(all[1] == "  55 °C ┄┄┄█┄┄");
  // A limit above every reading makes room for itself.
  const auto above = lines(chart(days, unit("°C"), 71, 40, kFirst));
  CHECK(above[1].find("71 °C") != std::string::npos);
  CHECK(above[1].find("┄┄┄┄┄┄") != std::string::npos);
}

TEST_CASE("in Fahrenheit") {
  const auto days = rolls(kFirst, {build::celsius(95), build::celsius(148)});
  const auto all = lines(chart(days, unit("°F"), std::nullopt, 40, kFirst));
  CHECK(all[0].starts_with(" 150 °F"));
  CHECK(all[4].starts_with("  90 °F"));
}

TEST_CASE("a long time goes several days a column, each the highest of its days") {
  std::vector<std::optional<double>> values(100, 20.0);
  values[50] = 60;
  const auto days = rolls(kFirst, values);
  for (std::size_t width = 40; width <= 120; ++width) {
    CAPTURE(width);
    const auto all = lines(chart(days, unit("°C"), 55, width, kFirst));
    for (const std::string& line : all) CHECK(render::columns(line) <= width);
    CHECK(all[0].find("█") != std::string::npos);  // the one hot day is not averaged away
    const std::string note = "(the highest of each";
    CHECK((all.back().find(note) != std::string::npos) == (width < 109));
  }
}

TEST_CASE("two days, the year before, and no spread") {
  const auto all =
      lines(chart(rolls(kFirst, {50, 50}), unit("°C"), std::nullopt, 40, day("2027-01-01")));
  CHECK(all.back() == "         Mon 6 Apr 2026  Tue 7 Apr 2026");
  CHECK(all[0].starts_with("  60 °C"));
  CHECK(all[4] == "  50 °C  ▁▁");
}

TEST_CASE("wide labels keep the columns under one another") {
  const auto days = rolls(kFirst, {5000, 6000});  // litres: 1,321 and 1,585 US gallons
  const auto all = lines(chart(days, unit("gal"), std::nullopt, 40, kFirst));
  CHECK(all[0].starts_with("1590 gal   █"));
  CHECK(all[1] == "           █");
  CHECK(all[4] == "1320 gal  ▁█");
  CHECK(all[5] == "          Mon 6 Apr  Tue 7 Apr");
  const auto limited = lines(chart(rolls(kFirst, {50, 60}), unit("L"), 12345, 40, kFirst));
  CHECK(limited[0].starts_with("12345 L ┄┄┄"));
  CHECK(limited[4].starts_with("   50 L  ▁▁"));
}

}  // namespace chart_test
