#include <doctest/doctest.h>

#include <cmath>
#include <memory>
#include <random>

#include "kinds/kind.h"
#include "kinds/pile/heat.h"
#include "tests/support/compost_heat.h"
#include "tests/unit/build_history.h"

namespace kinds_pile_foresight_test {

// Foresight is scored on piles made by the published heat balance (tests/support/compost_heat.h:
// Haug 1993, Stombaugh and Nokes 1996) with figures that the method does not know, weather,
// turnings, a probe's noise, and mornings on which nobody read. Fixed seeds; the score is against
// "it stays as it is".

using measure::Celsius;
using measure::Dimension;

namespace {

const model::Rules kNoRules;

const model::Day kStart = build::day("2027-03-01");

// Uniform and normal numbers made from the engine's own integers: the library's distributions
// differ from one implementation to the next.
struct Dice {
  std::mt19937 engine;
  double uniform(double from, double to) {
    return from + (to - from) * (static_cast<double>(engine()) / 4294967296.0);
  }
  double normal(double deviation) {
    double sum = -6;
    for (int i = 0; i < 12; ++i) sum += uniform(0, 1);
    return deviation * sum;
  }
};

// One pile of 60 days or so: what is known of it is its volume, what was read in the morning, and
// its turnings.
model::History synthetic(std::uint32_t seed, model::Day start, bool with_air = true) {
  Dice dice{std::mt19937{seed}};
  const int days = 45 + static_cast<int>(dice.uniform(0, 30));
  model::History history = build::batch("pile", "heap", start, start + date::days{days});
  const double volume = dice.uniform(700, 2500);
  build::setting(history, "volume", "known", measure::Value{Dimension::kVolume, volume});

  science::PileModel pile;
  pile.mass = measure::Kilograms{volume * dice.uniform(0.35, 0.65)};
  pile.moisture = measure::Fraction{dice.uniform(0.48, 0.65)};
  pile.surface = science::cooling_surface(measure::Litres{volume}, science::PileShape::Heap);
  pile.degradable = measure::Fraction{dice.uniform(0.30, 0.50)};
  pile.rate = science::PerDay{dice.uniform(0.06, 0.13)};
  pile.watts_per_square_metre_kelvin = measure::Number{dice.uniform(1.0, 2.2)};
  const double first_degradable = pile.degradable.value;

  double air = dice.uniform(6, 16), temperature = air + dice.uniform(0, 8);
  const double season = air;
  int since_turning = 0;
  const int every = 4 + static_cast<int>(dice.uniform(0, 8));
  for (int day = 0; day < days; ++day) {
    air += 0.4 * (season - air) + dice.normal(2.0);
    const model::Day date = start + date::days{day};
    if (dice.uniform(0, 1) > 0.15) {
      build::reading(history, "temperature", "core", build::at(date),
                     temperature + dice.normal(1.2));
      if (with_air) build::reading(history, "air", "", build::at(date), air + dice.normal(1.0));
    }
    if (temperature > 45 && ++since_turning >= every) {
      build::deed(history, "turned", build::at(date, 9));
      temperature = air + (temperature - air) * dice.uniform(0.55, 0.85);
      since_turning = 0;
    }
    // The day's end from its mean and its start.
    const std::vector<Celsius> next{Celsius{air}, Celsius{air}};
    const auto means = science::simulate_pile(pile, Celsius{temperature}, next);
    const double burnt = pile.rate.value * science::stombaugh_nokes_factor(means[0]).value *
                         science::haug_moisture_factor(pile.moisture).value *
                         science::oxygen_factor(*pile.oxygen).value;
    temperature = (means[0].value + means[1].value) / 2;
    pile.degradable = measure::Fraction{pile.degradable.value * std::exp(-burnt)};
  }
  CHECK(pile.degradable.value < first_degradable);
  history.batch.ended_day = history.today;
  history.batch.ended = history.now;
  return history;
}

std::vector<kinds::ForesightScore> scored(const std::vector<model::History>& piles) {
  std::vector<kinds::ForesightScore> sum;
  for (const model::History& pile : piles) {
    const auto scores = kinds::study(pile, kNoRules)->replay();
    if (sum.empty()) {
      sum = scores;
      continue;
    }
    for (std::size_t i = 0; i < sum.size(); ++i) {
      sum[i].count += scores[i].count;
      sum[i].error_total += scores[i].error_total;
      sum[i].naive_total += scores[i].naive_total;
      sum[i].squared_total += scores[i].squared_total;
      sum[i].naive_squared_total += scores[i].naive_squared_total;
      sum[i].within += scores[i].within;
    }
  }
  return sum;
}

void require_better(const std::vector<kinds::ForesightScore>& scores, const char* of) {
  for (const auto& one : scores) {
    if (one.what != "temperature") continue;
    const double count = one.count;
    const double error = one.error_total / count, naive = one.naive_total / count;
    const double covered = one.within / count;
    MESSAGE(std::string(of) << ", " << one.days_ahead << " days ahead: " << one.count
                            << " forecasts, mean error " << error << " K (naive " << naive
                            << "), root mean square " << std::sqrt(one.squared_total / count)
                            << " (naive " << std::sqrt(one.naive_squared_total / count) << "), "
                            << covered * 100 << " % within the interval");
    REQUIRE(one.count > 300);
    CHECK(error < naive);
    CHECK(covered >= 0.70);
    CHECK(covered <= 0.90);
  }
}

}  // namespace

TEST_CASE("foresight beats 'it stays as it is' on piles from the published model") {
  std::vector<model::History> piles;
  for (std::uint32_t seed = 1001; seed <= 1024; ++seed) piles.push_back(synthetic(seed, kStart));
  require_better(scored(piles), "first piles of a site");
}

TEST_CASE("foresight leans on the site's finished piles, and only on those that had ended") {
  std::vector<model::History> piles;
  auto finished = std::make_shared<std::vector<model::History>>();
  for (std::uint32_t seed = 1101; seed <= 1104; ++seed)
    finished->push_back(synthetic(seed, kStart - date::days{200}));
  for (std::uint32_t seed = 1201; seed <= 1212; ++seed) {
    piles.push_back(synthetic(seed, kStart, false));
    piles.back().finished = finished;
  }
  require_better(scored(piles), "with four finished piles, no air read");

  const model::History& pile = piles.front();
  const auto course = kinds::pile::course_of(pile);
  const auto first = course.days.front().day;
  const auto forecast = kinds::pile::foresee(pile, course, model::Rules{}, first, 7);
  REQUIRE(forecast);
  CHECK(forecast->leaning.site_piles == 4);
  CHECK(forecast->leaning.replayed == 0);
  finished->front().batch.ended_day = first + date::days{1};
  CHECK(kinds::pile::foresee(pile, course, model::Rules{}, first, 7)->leaning.site_piles == 3);
}

TEST_CASE("foresight: a lesson is used for its own piles, rules and day alone") {
  auto finished = std::make_shared<std::vector<model::History>>();
  for (std::uint32_t seed = 1101; seed <= 1104; ++seed)
    finished->push_back(synthetic(seed, kStart - date::days{200}));
  model::History pile = synthetic(1201, kStart, false);
  pile.batch.ended.reset();
  pile.batch.ended_day.reset();
  pile.finished = finished;
  const auto course = kinds::pile::course_of(pile);
  const model::Day today = course.days[20].day;
  const auto tomorrow = [&](const model::Rules& rules) {
    return kinds::pile::foresee(pile, course, rules, today, 7)->days.front().high;
  };
  model::Rules own;
  own.set("pile.foresee.width.1", {0.5, "heap's own rule"});
  const double alone = tomorrow({}), by_own = tomorrow(own);
  CHECK(alone != by_own);

  pile.lesson = kinds::pile::learn(finished, {}, today);
  CHECK(tomorrow({}) == alone);
  CHECK(tomorrow(own) == by_own);  // of other rules
  pile.lesson = kinds::pile::learn(finished, own, today);
  CHECK(tomorrow({}) == alone);
  // Of a day on which none of them had ended.
  pile.lesson = kinds::pile::learn(finished, {}, kStart - date::days{190});
  CHECK(tomorrow({}) == alone);
  // Of other piles.
  const auto fewer = std::make_shared<std::vector<model::History>>(1, finished->front());
  pile.lesson = kinds::pile::learn(fewer, {}, today);
  CHECK(tomorrow({}) == alone);
}

namespace {

// Read at noon for twelve days: up to 60 °C, then down by a degree a day, in air of 10 °C.
model::History steady() {
  model::History pile = build::batch("pile", "heap", kStart, kStart + date::days{11});
  for (int day = 0; day < 12; ++day) {
    const double read = day < 4 ? 15 + 15 * day : 64.0 - day;
    build::reading(pile, "temperature", "core", build::at(kStart + date::days{day}), read);
    build::reading(pile, "air", "", build::at(kStart + date::days{day}), 10);
  }
  return pile;
}

kinds::pile::HeatForecast on_day(const model::History& pile, int day) {
  const auto made = kinds::pile::foresee(pile, kinds::pile::course_of(pile), kNoRules,
                                         kStart + date::days{day}, 7);
  REQUIRE(made);
  return *made;
}

}  // namespace

TEST_CASE("foresight: a turning that is known widens the interval, one that is not is not judged") {
  model::History pile = steady();
  build::setting(pile, "method", "static");  // no turning is ever due
  const auto before = on_day(pile, 8);
  CHECK_FALSE(before.days.front().disturbed);
  CHECK_FALSE(before.leaning.after_turning);
  build::deed(pile, "turned", build::at(kStart + date::days{8}, 20));
  const auto known = on_day(pile, 8);
  CHECK_FALSE(known.days.front().disturbed);
  CHECK(known.days.front().likely == doctest::Approx(56));  // hot and turned, it holds its heat
  CHECK(known.days.front().high > before.days.front().high);
  REQUIRE(known.leaning.after_turning);
  CHECK(*known.leaning.after_turning == doctest::Approx(56 - 0.4 * 46));
  const auto unknown = on_day(pile, 6);
  CHECK_FALSE(unknown.days[0].disturbed);
  CHECK(unknown.days[1].disturbed);  // the day of the turning
  CHECK(unknown.days[2].disturbed);
}

TEST_CASE(
    "foresight: a new pile warms up, an old one is drawn to the air, and steady days narrow it") {
  const model::History pile = steady();
  const auto young = on_day(pile, 1);
  CHECK(young.leaning.warming_up);
  // 0.12 of the way from 30 to 60 °C, and 0.4 of the day's 15 K.
  CHECK(young.days[0].likely == doctest::Approx(30 + 0.12 * 30 + 0.4 * 15));
  const auto old = on_day(pile, 9);
  CHECK_FALSE(old.leaning.warming_up);
  // 0.03 of its 45 K above the air, and 0.4 of the day's -1 K.
  CHECK(old.days[0].likely == doctest::Approx(55 - 0.03 * 45 - 0.4));
  const auto width = [](const auto& day) { return day.high - day.low; };
  CHECK(width(young.days[0]) > width(on_day(pile, 11).days[0]));
  CHECK(width(old.days[6]) > width(old.days[0]));
}

TEST_CASE("foresight: a load that is a good part of the pile makes it new again") {
  model::History pile = steady();
  const auto add = [&](int day, double litres) {
    pile.in.push_back(build::movement(build::material("straw"),
                                      measure::Value{Dimension::kVolume, litres},
                                      build::at(kStart + date::days{day})));
  };
  add(0, 900);
  add(8, 90);
  CHECK_FALSE(on_day(pile, 7).days[1].disturbed);  // a bucket is no part of it
  CHECK_FALSE(on_day(pile, 9).leaning.warming_up);
  add(9, 600);
  CHECK(on_day(pile, 7).days[2].disturbed);
  CHECK(on_day(pile, 9).leaning.warming_up);
}

TEST_CASE("a pile's findings are the same whether its forecasts are asked for or not") {
  int findings = 0, forecasts = 0;
  for (std::uint32_t seed = 1301; seed <= 1306; ++seed) {
    model::History pile = synthetic(seed, kStart);
    pile.batch.ended.reset();
    pile.batch.ended_day.reset();
    for (const model::Rules& rules : {model::Rules{}, [] {
                                        model::Rules near;
                                        near.set("pile.hot.above", {45, "test"});
                                        return near;
                                      }()}) {
      const auto all = kinds::assess(pile, rules);
      const auto some = kinds::assess(pile, rules, kinds::Extent::kFindings);
      CHECK(some.stage == all.stage);
      CHECK(some.well == all.well);
      CHECK(some.progress.size() == all.progress.size());
      REQUIRE(some.findings.size() == all.findings.size());
      for (std::size_t i = 0; i < some.findings.size(); ++i) {
        CHECK(some.findings[i].words.says == all.findings[i].words.says);
      }
      CHECK(some.forecasts.empty());
      findings += static_cast<int>(some.findings.size());
      forecasts += static_cast<int>(all.forecasts.size());
    }
  }
  CHECK(findings > 0);
  CHECK(forecasts > 0);
}

}  // namespace kinds_pile_foresight_test
