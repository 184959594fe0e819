#include <doctest/doctest.h>

#include <algorithm>

#include "digester_site.h"
#include "kinds/digester/slurry.h"

namespace kinds_digester_trend_test {

using measure::Dimension;
using model::Urgency;
using namespace site;

namespace {

// A pH every so many days up to the last day, falling (or rising) by so much a day.
void acidity(model::History& history, int last, int every, int readings, double then,
             double a_day) {
  for (int n = readings - 1; n >= 0; --n) {
    build::reading(history, "ph", "", build::at(on(last - n * every)), then - n * every * a_day);
  }
}

// Titrations with 35 mL down to pH 5: of the ratios wanted.
void titrations(model::History& history, int last, int every, int readings, double then,
                double a_day) {
  for (int n = readings - 1; n >= 0; --n) {
    const double ratio = then - n * every * a_day;
    // Nordmann 1977 the other way round: FOS = ratio x 35 x 250 = (V2 x 1.66 - 0.15) x 500.
    const double second = (ratio * 35 * 250 / 500 + 0.15) / 1.66;
    const auto when = build::at(on(last - n * every));
    build::reading(history, "first-acid", "", when, 0.035);
    build::reading(history, "second-acid", "", when, second / 1000);
  }
}

model::History with_ph(double then, double a_day, int readings = 6, int every = 7) {
  model::History history = at_work(50, 25, 1000, 5, 5);
  acidity(history, 50, every, readings, then, a_day);
  return history;
}

std::string trends(const model::History& history) {
  return line(history, "trend");
}

const model::Forecast* foreseen(const model::Assessment& assessment, std::string_view what) {
  for (const model::Forecast& one : assessment.forecasts) {
    if (one.what == what) return &one;
  }
  return nullptr;
}

}  // namespace

TEST_CASE("digester.trend: a pH that falls is told of before it is at its limit") {
  // 0.01 a day from 7.0: the line is at 6.8 in 20 days.
  const model::History falling = with_ph(7.0, -0.01);
  CHECK(contains(trends(falling), "pH falling 0.07 a week (6 readings in 35 days)"));
  const auto told = found(falling, "digester.trend");
  CHECK(told.urgency == Urgency::kSoon);
  CHECK(contains(told.words.says,
                 "pH is falling 0.07 a week, and is at 6.8 in about 20 days (20 to 20)"));
  CHECK(told.value->value.si == doctest::Approx(20));
  CHECK(told.words.line == "feed a quarter less: pH 6.8 in 20 days");
  CHECK(told.threshold == "digester.trend.ahead");
  const auto assessment = judged(falling);
  const auto* forecast = foreseen(assessment, "pH at 6.8");
  REQUIRE(forecast != nullptr);
  CHECK(forecast->likely == on(70));
  // At its limit within 21 days it is told, later not; foreseen it is all the same, but no farther
  // than the 42 days it is looked back.
  CHECK(has(with_ph(6.8 + 0.2099, -0.01), "digester.trend"));
  CHECK_FALSE(has(with_ph(6.8 + 0.2101, -0.01), "digester.trend"));
  CHECK(foreseen(judged(with_ph(6.8 + 0.4199, -0.01)), "pH at 6.8") != nullptr);
  CHECK(foreseen(judged(with_ph(6.8 + 0.4201, -0.01)), "pH at 6.8") == nullptr);
  // Rising is no harm, and steady is said to be so.
  CHECK_FALSE(has(with_ph(7.0, 0.01), "digester.trend"));
  CHECK(contains(trends(with_ph(7.0, 0.01)), "pH rising 0.07 a week"));
  CHECK(contains(trends(with_ph(7.0, 0)), "pH steady"));
}

TEST_CASE("digester.trend: no more than the readings tell") {
  // Five readings, over a fortnight, the last no older than that.
  CHECK(contains(trends(with_ph(7.0, -0.01, 4)),
                 "pH: 4 readings of late, 5 over 14 days tell a trend"));
  CHECK(contains(trends(with_ph(7.0, -0.01, 1)), "pH: 1 reading of late"));
  CHECK_FALSE(has(with_ph(6.9, -0.01, 4), "digester.trend"));
  CHECK(has(with_ph(6.9, -0.01, 5), "digester.trend"));
  CHECK_FALSE(has(with_ph(6.9, -0.01, 14, 1), "digester.trend"));
  CHECK(has(with_ph(6.9, -0.01, 15, 1), "digester.trend"));
  const auto last_read = [](int day) {
    model::History history = at_work(50, 25, 1000, 5, 5);
    acidity(history, day, 5, 5, 7.0, -0.01);
    return history;
  };
  CHECK(contains(trends(last_read(36)), "pH falling"));
  CHECK_FALSE(contains(trends(last_read(35)), "pH falling"));
  // Readings of 42 days count: one of today and one of 41 days ago are in it.
  CHECK(contains(trends(with_ph(7.0, -0.01, 42, 1)), "42 readings"));
  CHECK(contains(trends(with_ph(7.0, -0.01, 43, 1)), "42 readings"));
  // A straggling pH has none; one slip of a probe does not turn one.
  model::History straggling = at_work(50, 25, 1000, 5, 5);
  model::History slipped = at_work(50, 25, 1000, 5, 5);
  const double up_and_down[] = {7.1, 6.9, 7.2, 6.9, 7.1, 6.95};
  for (int n = 0; n < 6; ++n) {
    const auto when = build::at(on(15 + 7 * n));
    build::reading(straggling, "ph", "", when, up_and_down[n]);
    build::reading(slipped, "ph", "", when, n == 1 ? 7.9 : 7.35 - 0.07 * n);
  }
  CHECK(contains(trends(straggling), "pH no clear trend"));
  CHECK_FALSE(has(straggling, "digester.trend"));
  CHECK(contains(trends(slipped), "pH falling 0.07 a week"));
  // A digester that does not work yet, or that nobody read, has none.
  model::History starting = digester(50);
  acidity(starting, 50, 7, 6, 6.9, -0.01);
  CHECK(trends(starting).empty());
  CHECK_FALSE(has(starting, "digester.trend"));
  CHECK_FALSE(contains(trends(at_work(50, 25, 1000, 5, 5)), "pH"));
}

TEST_CASE("digester.trend: past one limit it looks to the next, past the last to none") {
  const auto watched = found(with_ph(6.6, -0.01), "digester.trend");
  CHECK(contains(watched.words.says, "is at 6.5 in about 10 days"));
  CHECK(watched.facts.is(kinds::digester::kWatched));
  CHECK(watched.facts(kinds::digester::kTrendLimit).value == 6.5);
  CHECK(has(with_ph(6.6, -0.01), "digester.sour"));
  CHECK_FALSE(has(with_ph(6.4, -0.01), "digester.trend"));
  // Sour already: feeding stops, and nothing milder is said beside it.
  model::History sour = with_ph(6.4, -0.01);
  titrations(sour, 50, 7, 6, 0.35, 0.003);
  CHECK(found(sour, "digester.sour").case_of == kinds::digester::kCaseSour);
  CHECK_FALSE(has(sour, "digester.trend"));
}

TEST_CASE("digester.trend: pH that falls while acids rise is told of early, and today") {
  const auto both = [](double ph, double ratio, double ratio_a_day) {
    model::History history = with_ph(ph, -0.006);
    titrations(history, 50, 7, 6, ratio, ratio_a_day);
    return history;
  };
  // pH 7.04 less 0.006 a day is at 6.8 in 40 days: too far by itself, but not with the acids.
  CHECK_FALSE(has(with_ph(7.04, -0.006), "digester.trend"));
  const auto told = found(both(7.04, 0.3, 0.002), "digester.trend");
  CHECK(told.urgency == Urgency::kToday);
  CHECK(told.threshold == "digester.trend.pair");
  CHECK(
      contains(told.words.says, "pH falls 0.04 a week while acids to alkalinity rise 0.01 a week"));
  // Whichever is there first is named.
  CHECK(contains(told.words.says, "pH is at 6.8 in about 40 days"));
  CHECK(contains(found(both(7.04, 0.3, 0.004), "digester.trend").words.says,
                 "the ratio is at 0.4 in about 25 days"));
  // One finding, not three.
  int told_of = 0;
  for (const auto& one : judged(both(6.85, 0.38, 0.004)).findings) {
    told_of += one.rule == "digester.trend" ? 1 : 0;
  }
  CHECK(told_of == 1);
  // Not where neither is at its limit in time, nor where the acids fall.
  CHECK_FALSE(has(both(7.06, 0.2, 0.002), "digester.trend"));
  CHECK_FALSE(has(both(7.0, 0.3, -0.002), "digester.trend"));
  // The ratio alone.
  model::History acids = at_work(50, 25, 1000, 5, 5);
  titrations(acids, 50, 7, 6, 0.35, 0.003);
  CHECK(contains(found(acids, "digester.trend").words.says,
                 "acids to alkalinity is rising 0.02 a week, and is at 0.4 in about 17 days"));
}

TEST_CASE("digester.trend: free ammonia, at the temperature and pH of each analysis") {
  // Emerson et al. 1975: at 37 degC and pH 8 a share of 0.11363 is free. 1,030 mg/L and 40 a week
  // more are 117 and 4.5 a week: at 150 in (150 - 139.8) / 4.545 weeks.
  model::History history = at_work(50, 37, 1000, 5, 5);
  for (int week = 0; week < 6; ++week) {
    const auto when = build::at(on(15 + 7 * week));
    build::reading(history, "ph", "", when, 8.0);
    build::reading(history, "tan", "", when, 1030 + 40 * week);
  }
  CHECK(contains(trends(history), "free ammonia rising 5 mg/L a week"));
  const auto told = found(history, "digester.trend");
  CHECK(contains(told.words.says, "is at 150 mg/L in about 16 days"));
  CHECK(told.value->value.si == doctest::Approx(7 * (150 - 1230 * 0.11363) / 4.5452).epsilon(0.01));
}

TEST_CASE("digester.trend: loading and retention by whole weeks of feeding") {
  // GTZ 1989 p. 42: about 1.5 kg VS a m3 a day at 25 degC. 8, 9, ... 13 kg of a tenth solids in
  // 1,000 L are 0.8 to 1.3, 0.1 a week. The line is at 1.05 in the middle of them, 20.5 days ago
  // (the last week's middle was three days ago): at 1.5 in 4.5 weeks from then, 11 days from now.
  const auto richer = [](int until, double first) {
    model::History history = at_work(50, 25, 1000, 0, 0);
    for (int day = until - 41; day <= until; ++day) {
      add(history, plain_feed(), Dimension::kMass, first + (day - until + 41) / 7, day);
    }
    return history;
  };
  CHECK(
      contains(trends(richer(50, 8)), "loading rising 0.1 kg VS/m3/d a week (6 weeks of feeding)"));
  const auto told = found(richer(50, 8), "digester.trend");
  CHECK(contains(told.words.says, "is at 1.5 kg VS/m3/d in about 11 days"));
  // Fed up to yesterday, as on any morning: the weeks end there. One day less of it ahead.
  const auto morning = found(richer(49, 8), "digester.trend");
  CHECK(contains(morning.words.says, "is at 1.5 kg VS/m3/d in about 10 days"));
  const auto tells_of_loading = [&](double first) {
    const auto all = judged(richer(50, first)).findings;
    return std::any_of(all.begin(), all.end(), [](const model::Told& one) {
      return one.rule == "digester.trend" && one.case_of == kinds::digester::kCaseLoading;
    });
  };
  CHECK(tells_of_loading(7));         // 18 days
  CHECK_FALSE(tells_of_loading(6));   // 25
  CHECK_FALSE(tells_of_loading(12));  // there already
  CHECK(has(richer(50, 12), "digester.overfed"));

  // Sasse 1988: 4,800 L of 60 L a day stay 80 days; GTZ/ISAT: at least 40. Stays of 80, 75, ... 55
  // days: 67.5 in the middle, 40 in 5.5 weeks from then: 18 days from now.
  model::History more = at_work(50, 25, 4800, 0, 0);
  for (int day = 9; day <= 50; ++day) {
    const double stays = 80 - 5 * ((day - 9) / 7);
    add(more, plain_feed(), Dimension::kMass, 2, day);
    add(more, "water", Dimension::kVolume, 4800 / stays - 2, day);
  }
  CHECK(contains(trends(more), "retention falling 5 days a week (6 weeks of feeding)"));
  CHECK(contains(found(more, "digester.trend").words.says,
                 "retention is falling 5 days a week, and is at "
                 "40 days in about 18 days"));
  CHECK(contains(trends(at_work(50, 25, 4800, 30, 30)),
                 "loading steady (6 weeks of feeding); retention steady"));
}

}  // namespace kinds_digester_trend_test
