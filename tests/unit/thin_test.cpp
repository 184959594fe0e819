#include "season/thin.h"

#include <doctest/doctest.h>

#include <algorithm>

namespace thin_test {

using namespace std::chrono_literals;

namespace {

const measure::Zone kZone = *measure::Zone::named("America/Los_Angeles");

// 400 days at five minutes, flat but for one spike and one dip of a single reading each.
std::vector<model::Reading> long_series() {
  const measure::Instant start{date::sys_days{date::year{2026} / 1 / 1}};
  std::vector<model::Reading> readings;
  for (int i = 0; i < 400 * 288; ++i) readings.push_back({start + i * 5min, 50.0 + i % 7});
  readings[77'777].value = 93.5;
  readings[12'345].value = -4.25;
  return readings;
}

}  // namespace

TEST_CASE("thin: a single reading's peak and dip stay, at the moment of their part") {
  const auto readings = long_series();
  const auto points = season::thinned(readings, kZone, 800);
  CHECK(points.size() <= 800);
  CHECK(points.size() > 700);
  const auto highest = std::max_element(points.begin(), points.end(),
                                        [](auto& a, auto& b) { return a.greatest < b.greatest; });
  const auto lowest = std::min_element(points.begin(), points.end(),
                                       [](auto& a, auto& b) { return a.least < b.least; });
  CHECK(highest->greatest == 93.5);
  CHECK(lowest->least == -4.25);
  // A part is half a day long.
  const auto at = kZone.local(readings[77'777].at);
  CHECK(highest->at <= at);
  CHECK(at - highest->at <= 12h);
  CHECK(std::is_sorted(points.begin(), points.end(), [](auto& a, auto& b) { return a.at < b.at; }));
  for (const auto& point : points) {
    CHECK(point.least <= point.mean);
    CHECK(point.mean <= point.greatest);
  }
}

TEST_CASE("thin: what is few stays as it was read") {
  const measure::Instant noon{date::sys_days{date::year{2026} / 6 / 1} + 19h};
  const auto points = season::thinned({{noon, 60}, {noon + 1h, 61}}, kZone, 2);
  REQUIRE(points.size() == 2);
  CHECK(points[0].at == date::local_days{date::year{2026} / 6 / 1} + 12h);  // the site's own clock
  CHECK(points[1].mean == 61);
  CHECK(season::thinned({}, kZone, 10).empty());
  const auto one = season::thinned({{noon, 60}, {noon + 1h, 64}}, kZone, 1);
  REQUIRE(one.size() == 1);
  CHECK(one[0].mean == 62);
}

TEST_CASE("thin: a day's roll-up is one point within the span") {
  const model::Day day{date::local_days{date::year{2026} / 6 / 1}};
  const std::vector<model::DayRoll> days{{day, 2, 50, 60, 110, 60, {}},
                                         {day + date::days{1}, 1, 70, 70, 70, 70, {}}};
  const auto points = season::day_points(days, day, day);
  REQUIRE(points.size() == 1);
  CHECK(points[0].least == 50);
  CHECK(points[0].mean == 55);
  CHECK(points[0].greatest == 60);
}

TEST_CASE("thin: what a report reads one by one is shared by its lines") {
  const model::Day day{date::local_days{date::year{2026} / 6 / 1}};
  // 30 days of a logger that reads every minute.
  std::vector<model::DayRoll> days;
  for (int i = 0; i < 30; ++i) {
    days.push_back({day + date::days{i}, 1440, 50, 60, 79'200, 55, {}});
  }
  const auto last = day + date::days{29};
  CHECK_FALSE(season::is_drawn_by_days(days, day, last, 1));
  CHECK_FALSE(season::is_drawn_by_days(days, day, last, 5));  // 43,200 of 50,000
  CHECK(season::is_drawn_by_days(days, day, last, 6));
  CHECK_FALSE(season::is_drawn_by_days(days, day, day, 6));  // only what is in the span counts
  // Read once a day, it is its days that are too many.
  days.clear();
  for (int i = 0; i < 121; ++i) days.push_back({day + date::days{i}, 1, 50, 50, 50, 50, {}});
  CHECK(season::is_drawn_by_days(days, day, day + date::days{200}, 1));
  CHECK_FALSE(season::is_drawn_by_days(days, day, day + date::days{119}, 1));
}

}  // namespace thin_test
