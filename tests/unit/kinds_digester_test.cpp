#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "digester_site.h"
#include "kinds/digester/startup.h"
#include "kinds/digester/warmth.h"

namespace kinds_digester_test {

using measure::Celsius;
using measure::Dimension;
using measure::UnitSystem;
using model::Urgency;
using namespace site;

namespace {

// Twice a day, a degree and a half either side of the mean: morning and afternoon.
void both_readings(model::History& history, model::Day day, double mean) {
  build::reading(history, "temperature", "", build::at(day, 7), mean - 1.5);
  build::reading(history, "temperature", "", build::at(day, 15), mean + 1.5);
}

// Slurry under glass without heat, day of the year from 0: 9 degC in late January, 25 degC in July,
// and six days in late May and June that are six degrees colder. Synthetic, no source.
double synthetic_slurry(int day) {
  constexpr double kTurn = 2 * 3.14159265358979323846 / 365;
  const double season = 17 - 8 * std::cos((day - 20) * kTurn);
  return day >= 147 && day < 153 ? season - 6 : season;
}

}  // namespace

TEST_CASE("digester.cold: the mean of the last days, strictly below 68 degF") {
  const auto at_fahrenheit = [](double fahrenheit) {
    model::History history = digester(6, UnitSystem::kUs);
    warm(history, 0, 6, build::celsius(fahrenheit));
    return history;
  };
  CHECK_FALSE(has(at_fahrenheit(68), "digester.cold"));
  CHECK(has(at_fahrenheit(67.99), "digester.cold"));
  CHECK_FALSE(has(at_fahrenheit(68.01), "digester.cold"));
  const auto cold = found(at_fahrenheit(60), "digester.cold");
  CHECK(cold.urgency == Urgency::kToday);
  CHECK(cold.threshold == "digester.cold.below");
  REQUIRE(cold.limit);
  CHECK(cold.limit->value.si == doctest::Approx(20));
  REQUIRE(cold.value);
  CHECK(cold.value->value.si == doctest::Approx(build::celsius(60)));
  CHECK(contains(cold.words.says, "the mean of 7 days is 60 °F, below 68 °F"));
  CHECK(contains(found(at_fahrenheit(67.99), "digester.cold").words.says, "67.99 °F, below 68 °F"));

  // The mean counts, not the last reading: 66 to 70 in turn, then the same a little lower.
  for (const double lower : {0.0, 0.1}) {
    model::History swinging = digester(6);
    const double steps[] = {66, 70, 67, 69, 68, 66, 70};
    for (int day = 0; day < 7; ++day) {
      build::reading(swinging, "temperature", "", build::at(on(day)),
                     build::celsius(steps[day] - lower));
    }
    CHECK(has(swinging, "digester.cold") == (lower > 0));
  }
}

TEST_CASE("digester.cold: of each day its mean, of the window each day once") {
  // 19 degC read nine times on one day weighs no more than 21 read once on the others.
  model::History history = digester(6);
  for (int hour = 8; hour < 17; ++hour) {
    build::reading(history, "temperature", "", build::at(on(0), hour), 14);
  }
  warm(history, 1, 6, 21.1);
  CHECK_FALSE(has(history, "digester.cold"));  // (14 + 6 x 21.1) / 7 = 20.09
  // Days before the window are forgotten: 8 days at 21 after a winter.
  model::History after = digester(30);
  warm(after, 0, 22, 8);
  warm(after, 23, 30, 21);
  CHECK_FALSE(has(after, "digester.cold"));
  after.today = on(29);
  after.now = build::at(on(29), 8);
  model::History within = digester(29);
  warm(within, 0, 23, 8);
  warm(within, 24, 29, 21);
  CHECK(has(within, "digester.cold"));  // (8 + 6 x 21) / 7 = 19.1
}

TEST_CASE("digester.cold: probes at several heights are one digester") {
  model::History history = digester(6);
  for (int day = 0; day <= 6; ++day) {
    build::reading(history, "temperature", "bottom", build::at(on(day)), 17);
    build::reading(history, "temperature", "top", build::at(on(day)), 23);
  }
  CHECK_FALSE(has(history, "digester.cold"));
}

TEST_CASE("too few days: it says so and judges nothing") {
  model::History history = digester(6);
  warm(history, 0, 0, 5);
  warm(history, 6, 6, 5);
  const auto assessment = judged(history);
  CHECK(build::find(assessment, "digester.cold") == nullptr);
  CHECK(line(history, "slurry temperature") ==
        "2 of the last 7 days read; 3 are needed to judge it");
  CHECK(contains(assessment.well, "too few readings"));
  model::History one_more = digester(6);
  warm(one_more, 0, 0, 5);
  warm(one_more, 5, 6, 5);
  CHECK(has(one_more, "digester.cold"));
  CHECK(contains(found(one_more, "digester.cold").words.says, "the mean of 3 of the last 7 days"));

  // Silence is another matter.
  model::History silent = digester(10);
  warm(silent, 0, 6, 22);
  CHECK(has(silent, "digester.unread"));
  silent.now = build::at(on(9), 7);
  silent.today = on(9);
  CHECK_FALSE(has(silent, "digester.unread"));
}

TEST_CASE("a morning without its afternoon is left out of the mean") {
  model::History history = digester(7);
  for (int day = 0; day < 7; ++day) both_readings(history, on(day), 20.1);
  CHECK_FALSE(has(history, "digester.cold"));
  build::reading(history, "temperature", "", build::at(on(7), 7), 18.6);
  CHECK_FALSE(has(history, "digester.cold"));  // (6 x 20.1 + 18.6) / 7 = 19.9 would be
  CHECK(contains(line(history, "slurry temperature"), "the mean of 7 days is 20.1 °C"));
  build::reading(history, "temperature", "", build::at(on(7), 7, 30), 18.6);
  CHECK(has(history, "digester.cold"));
}

TEST_CASE("a spell that recovers by day or by its trend is told from one that does not") {
  model::History by_day = digester(6);
  model::History rising = digester(6);
  model::History falling = digester(6);
  for (int day = 0; day <= 6; ++day) {
    build::reading(by_day, "temperature", "", build::at(on(day), 6), 15);
    build::reading(by_day, "temperature", "", build::at(on(day), 7), 22);
    build::reading(rising, "temperature", "", build::at(on(day)), 14 + 0.8 * day);
    build::reading(falling, "temperature", "", build::at(on(day)), 19 - 0.8 * day);
  }
  CHECK(found(by_day, "digester.cold").urgency == Urgency::kSoon);
  CHECK(found(by_day, "digester.cold").case_of == kinds::digester::kCaseSpell);
  CHECK(contains(found(by_day, "digester.cold").words.why,
                 "by day it still reaches 20 °C, on 7 of 7 days"));
  // From 18.8 today 0.8 a day reaches 20 in 1.5 days.
  CHECK(found(rising, "digester.cold").urgency == Urgency::kSoon);
  CHECK(contains(found(rising, "digester.cold").words.why,
                 "rising 0.8 °C a day, back at 20 °C about Tue 10 Mar if that goes on"));
  CHECK(found(falling, "digester.cold").urgency == Urgency::kToday);
  CHECK(found(falling, "digester.cold").case_of == kinds::digester::kCaseStays);
  CHECK(found(falling, "digester.cold").job == kinds::digester::kJobWarm);
  CHECK(contains(found(falling, "digester.cold").words.why,
                 "it does not come back by itself: no day reached 20 °C, falling 0.8 °C a day"));

  // Back within seven days or not: 0.1 a day from 19.2 needs eight, from 19.4 six.
  const auto slowly = [](double today) {
    model::History history = digester(6);
    for (int day = 0; day <= 6; ++day) {
      build::reading(history, "temperature", "", build::at(on(day)), today - 0.1 * (6 - day));
    }
    return found(history, "digester.cold").urgency;
  };
  CHECK(slowly(19.4) == Urgency::kSoon);
  CHECK(slowly(19.2) == Urgency::kToday);
}

TEST_CASE("digester.cold: the same readings are the same judgement, a rise says when it is back") {
  // 58, 59 and 60 degF on days 4 to 6: a degree a day, eight days to 68 from the last reading, on
  // day 14, which is no spell. It says so on the day and on the days after it.
  const auto on_day = [](int today, double a_day) {
    model::History history = digester(today, UnitSystem::kUs);
    for (int day = 4; day <= 6; ++day) {
      build::reading(history, "temperature", "", build::at(on(day)),
                     build::celsius(60 - a_day * (6 - day)));
    }
    return found(history, "digester.cold");
  };
  for (const int today : {6, 7, 8, 10}) {
    CAPTURE(today);
    const auto cold = on_day(today, 1);
    CHECK(cold.urgency == Urgency::kToday);
    CHECK(contains(cold.words.says, "the mean of 3 of the last 7 days is 59 °F"));
    CHECK(contains(cold.words.why, "rising 1 °F a day, back at 68 °F only about Mon 16 Mar"));
    CHECK_FALSE(contains(cold.words.why, "by itself"));
    // Two degrees a day need four days.
    CHECK(on_day(today, 2).urgency == Urgency::kSoon);
    CHECK(contains(on_day(today, 2).words.why, "back at 68 °F about Thu 12 Mar"));
  }
  CHECK(on_day(11, 1).words.says.empty());  // two of the last seven days
  // The oldest of five falls out of the week, and nothing is judged anew for that.
  const auto of_five = [](int today) {
    model::History history = digester(today);
    const double steps[] = {21, 18, 17, 21, 18};
    for (int day = 2; day <= 6; ++day) {
      build::reading(history, "temperature", "", build::at(on(day)), steps[day - 2]);
    }
    return found(history, "digester.cold");
  };
  CHECK(of_five(6).words.says == of_five(9).words.says);
  CHECK(of_five(6).words.why == of_five(9).words.why);
  // Too slow for a year, or steady: that is no rise.
  CHECK(contains(on_day(6, 0.001).words.why, "does not come back by itself"));
}

TEST_CASE("digester.winter: 21 days below, no fewer, and gaps are passed over but not for long") {
  const auto cold_for = [](int days) {
    model::History history = digester(60);
    warm(history, 0, 60 - days, 30);
    warm(history, 61 - days, 60, 8);
    return history;
  };
  // With 30 before and 8 after, the mean of 7 falls below 20 with the fourth cold day: 17.4 (20.6
  // with three).
  CHECK_FALSE(has(cold_for(23), "digester.winter"));
  CHECK(has(cold_for(24), "digester.winter"));
  const auto winter = found(cold_for(24), "digester.winter");
  REQUIRE(winter.value);
  CHECK(winter.value->value.si == 21);
  CHECK(winter.facts(kinds::digester::kDays) == 21);
  CHECK(winter.since == on(40));
  CHECK(winter.words.line == "cover it or rest it: below 20 °C 21 days");
  CHECK(ids_of(winter.cautions) == Ids{"gas.winter"});
  CHECK(found(cold_for(24), "digester.cold").urgency == Urgency::kSoon);

  const auto with_gap = [](int gap) {
    model::History history = digester(60);
    warm(history, 0, 30, 8);
    warm(history, 31 + gap, 60, 8);
    return history;
  };
  CHECK(found(with_gap(5), "digester.winter").facts(kinds::digester::kDays) == 59);
  // Nine days unread leave seven of which nothing can be said, with three days to a mean; ten leave
  // eight.
  CHECK(found(with_gap(9), "digester.winter").facts(kinds::digester::kDays) == 59);
  CHECK(found(with_gap(9), "digester.winter").facts(kinds::digester::kJudgedDays) == 52);
  CHECK_FALSE(has(with_gap(10), "digester.winter"));
}

TEST_CASE("digester.winter: what to do in the order of what it costs, less what is done") {
  const auto steps = [](const char* standing, const char* deed, bool running = true) {
    model::History history = digester(40);
    warm(history, 0, 40, 8);
    if (running) burns(history, 1);
    if (*standing != '\0') build::setting(history, "site", standing);
    if (*deed != '\0') build::deed(history, deed, build::at(on(35)));
    return found(history, "digester.winter").words.action;
  };
  const std::string open = steps("open", "");
  const auto cover = open.find("cover it"), feed = open.find("feed less"),
             glass = open.find("put glass"), shut = open.find("shut it down in good order");
  CHECK(cover < feed);
  CHECK(feed < glass);
  CHECK(glass < shut);
  CHECK(shut != std::string::npos);
  // One that never ran is not fed yet, and has no gas to use up.
  CHECK_FALSE(contains(steps("open", "", false), "feed"));
  CHECK(contains(steps("open", "", false), "let it rest till spring"));
  CHECK_FALSE(contains(steps("glass", ""), "put glass"));
  CHECK(contains(steps("glass", ""), "close the glass early"));
  CHECK(contains(steps("heated", ""), "why the heating does not hold"));
  CHECK_FALSE(contains(steps("open", "covered"), "cover it:"));
  CHECK(contains(steps("open", "uncovered"), "cover it:"));
}

TEST_CASE("a synthetic year under glass: winter is flagged, a spring snap that recovers is not") {
  const model::Day first = build::day("2026-01-01");
  model::History history = build::batch("digester", "dig-1", first, first);
  std::set<int> cold, winter;
  for (int day = 0; day < 365; ++day) {
    history.today = first + date::days{day};
    both_readings(history, history.today, synthetic_slurry(day));
    history.now = build::at(history.today, 20);
    const auto assessment = judged(history);
    if (build::find(assessment, "digester.cold") != nullptr) cold.insert(day);
    if (build::find(assessment, "digester.winter") != nullptr) winter.insert(day);
  }
  // Against the curve itself, by hand: the mean of seven days, from the third on.
  for (int day = 0; day < 365; ++day) {
    double mean = 0;
    const int days = std::min(day + 1, 7);
    for (int back = 0; back < days; ++back) mean += synthetic_slurry(day - back) / days;
    CAPTURE(day);
    CHECK(cold.contains(day) == (days >= 3 && mean < 20));
  }
  // Two winters with a summer between, and the snap (days 147 to 152) in no winter.
  CHECK(winter.contains(30));
  CHECK(winter.contains(100));
  CHECK(winter.contains(364));
  for (int day = 135; day < 290; ++day) {
    CAPTURE(day);
    CHECK_FALSE(winter.contains(day));
  }
  CHECK(cold.contains(151));
  CHECK(cold.contains(155));
  CHECK_FALSE(cold.contains(160));
  CHECK_FALSE(cold.contains(200));
}

TEST_CASE("the snap in spring: first it does not come back by itself, then it does") {
  const model::Day first = build::day("2026-01-01");
  model::History history = build::batch("digester", "dig-1", first, first);
  const auto cold_on = [&](int last) {
    model::History until = history;
    for (int day = 100; day <= last; ++day) {
      both_readings(until, first + date::days{day}, synthetic_slurry(day));
    }
    until.today = first + date::days{last};
    until.now = build::at(until.today, 20);
    return found(until, "digester.cold");
  };
  CHECK(cold_on(151).urgency == Urgency::kToday);
  CHECK(contains(cold_on(151).words.why, "does not come back by itself"));
  CHECK(cold_on(154).urgency == Urgency::kSoon);
  CHECK(contains(cold_on(154).words.why, "the latest day's mean is back at"));
}

TEST_CASE("digester.swing: from one day's mean to the next, and within hours") {
  const auto change = [](double from, double to, int days) {
    model::History history = digester(4 + days);
    warm(history, 4, 4, from);
    warm(history, 4 + days, 4 + days, to);
    return history;
  };
  CHECK_FALSE(has(change(22, 25, 1), "digester.swing"));
  CHECK(has(change(22, 25.1, 1), "digester.swing"));
  CHECK(has(change(25.1, 22, 1), "digester.swing"));
  CHECK_FALSE(has(change(22, 28, 2), "digester.swing"));
  CHECK(has(change(22, 28.1, 2), "digester.swing"));
  CHECK_FALSE(has(change(22, 35, 3), "digester.swing"));  // too far apart to say

  const auto within = [](double from, double to, int minutes) {
    model::History history = digester(4);
    history.now = build::at(on(4), 22);
    build::reading(history, "temperature", "", build::at(on(4), 8), from);
    build::reading(history, "temperature", "", build::at(on(4), 8, minutes), to);
    return has(history, "digester.swing");
  };
  const auto within_two_hours = [&](double from, double to) { return within(from, to, 120); };
  CHECK_FALSE(within_two_hours(24, 26));
  CHECK(within_two_hours(24, 26.2));
  CHECK_FALSE(within_two_hours(14, 16.2));  // colder slurry bears two degrees an hour
  CHECK(within_two_hours(14, 18.2));
  CHECK_FALSE(within(24, 25, 29));  // a probe that settles
  CHECK(within(24, 25, 30));
  CHECK(within(24, 36.1, 12 * 60));
  CHECK_FALSE(within(24, 38, 13 * 60));  // a day's own course
}

TEST_CASE("the mean of the coming days is foreseen with its interval, and the crossing") {
  model::History history = digester(13);
  for (int day = 0; day <= 13; ++day) {
    build::reading(history, "temperature", "", build::at(on(day)), 24 - 0.25 * day);
  }
  // Today 20.75, 0.25 a day, each day 0.8 of the last: 0.25 x (0.8 + ... + 0.8^7) = 0.79 in seven
  // days, and 20 would need 0.75 of it: on the seventh day (0.74 on the sixth). The interval is the
  // least there is.
  const auto assessment = judged(history);
  const model::Forecast *mean = nullptr, *crossing = nullptr;
  for (const auto& one : assessment.forecasts) {
    if (one.what == "mean slurry temperature") mean = &one;
    if (one.what == "daily mean below 20 °C") crossing = &one;
  }
  REQUIRE(mean != nullptr);
  CHECK(mean->likely == on(20));
  CHECK(contains(mean->says, "about 20 °C (19 °C to 21 °C)"));
  REQUIRE(crossing != nullptr);
  CHECK(crossing->likely == on(20));

  const auto foreseen_from = [](int days) {
    model::History few = digester(13);
    warm(few, 14 - days, 13, 22);
    const auto foreseen = judged(few).forecasts;
    return std::any_of(foreseen.begin(), foreseen.end(),
                       [](const auto& one) { return one.what == "mean slurry temperature"; });
  };
  CHECK_FALSE(foreseen_from(4));
  CHECK(foreseen_from(5));

  // Rising the same way from 16: today 19.25, 20 on the seventh day. Steady: never.
  model::History rising = digester(13);
  for (int day = 0; day <= 13; ++day) {
    build::reading(rising, "temperature", "", build::at(on(day)), 16 + 0.25 * day);
  }
  const auto back = judged(rising).forecasts;
  const auto found_back = std::find_if(back.begin(), back.end(), [](const auto& one) {
    return one.what == "daily mean back at 20 °C";
  });
  REQUIRE(found_back != back.end());
  CHECK(found_back->likely == on(20));

  // With scatter the steeper slope is there sooner and the flatter later, rising or falling.
  for (const double sign : {1.0, -1.0}) {
    model::History scattered = digester(13);
    for (int day = 0; day <= 13; ++day) {
      build::reading(scattered, "temperature", "", build::at(on(day)),
                     20 + sign * (0.4 * (day - 13) - 0.9 + (day % 2 == 0 ? 0.6 : -0.6)));
    }
    int crossings = 0;
    for (const auto& one : judged(scattered).forecasts) {
      if (!one.what.starts_with("daily mean")) continue;
      ++crossings;
      REQUIRE(one.earliest);
      REQUIRE(one.likely);
      CHECK(*one.earliest < *one.likely);
      if (one.latest) CHECK(*one.latest > *one.likely);
    }
    CHECK(crossings == 1);
  }
}

TEST_CASE("start-up: its list, and the stage") {
  model::History history = digester(0);
  volume(history, 1000);
  CHECK(judged(history).stage == "empty");
  CHECK(contains(line(history, "manure to water"), "no manure is recorded"));
  add(history, "cow manure", Dimension::kVolume, 400, 0);
  CHECK(judged(history).stage == "filling");
  CHECK(contains(line(history, "filled"), "400 L of 1,000 L"));
  add(history, "water", Dimension::kVolume, 400, 0);
  CHECK(judged(history).stage == "starting");  // 80 % of its volume
  CHECK(contains(line(history, "filled"), "yes"));
  // Sasse 1988, Biogas Plants 2.1: equal volumes of dung and water.
  CHECK(
      contains(line(history, "manure to water"), "1 part of manure to 1 part of water by volume"));
  CHECK(contains(line(history, "starter"), "brings its own"));
  CHECK(contains(line(history, "first gas"), "let off for 5 days, not used"));
  CHECK_FALSE(has(history, "digester.start"));
  burns(history, 0);
  CHECK(judged(history).stage == "running");
  CHECK(line(history, "filled").empty());
}

TEST_CASE("digester.start: what is late and why, temperature first") {
  const auto waiting = [](int days, double celsius) {
    model::History history = digester(days);
    volume(history, 1000);
    add(history, "cow manure", Dimension::kVolume, 450, 0);
    add(history, "water", Dimension::kVolume, 450, 0);
    warm(history, 0, days, celsius);
    return history;
  };
  CHECK_FALSE(has(waiting(28, 20), "digester.start"));
  CHECK(has(waiting(29, 20), "digester.start"));
  CHECK(found(waiting(29, 20), "digester.start").urgency == Urgency::kToday);
  CHECK(ids_of(found(waiting(29, 20), "digester.start").cautions) == Ids{"gas.leak"});
  CHECK(found(waiting(29, 20), "digester.start").since == on(29));
  // At 10 degC 29 days are worth 29 x 1.085^-10 = 12.8: late by the calendar, and the cold is why.
  const auto cold = found(waiting(29, 10), "digester.start");
  CHECK(cold.urgency == Urgency::kSoon);
  CHECK(contains(cold.words.says,
                 "29 days since it was filled, worth 12 days at 20 °C; about 28 are usual"));
  CHECK(cold.case_of == kinds::digester::kCaseOnlyCold);
  CHECK(reasons(cold) == "cold");

  // The rest in its order: no microbes, the mix, sour.
  model::History bad = digester(40);
  volume(bad, 1000);
  add(bad, "rabbit manure", Dimension::kVolume, 700, 0);
  add(bad, "water", Dimension::kVolume, 200, 0);
  add(bad, "food scraps", Dimension::kMass, 20, 3);
  warm(bad, 0, 40, 12);
  build::reading(bad, "ph", "", build::at(on(40)), 6.1);
  CHECK(reasons(found(bad, "digester.start")) == "cold no_microbes mix other_feed sour");

  // GTZ/ISAT: dung to water from 2 to 1 up to 1 to 3.
  const auto mixed = [](double water) {
    model::History history = digester(3);
    add(history, "cow manure", Dimension::kVolume, 400, 0);
    add(history, "water", Dimension::kVolume, water, 0);
    return has(history, "digester.start");
  };
  CHECK(mixed(190));
  CHECK_FALSE(mixed(200));
  CHECK_FALSE(mixed(1200));
  CHECK(mixed(1210));
}

TEST_CASE("digester.start: what nobody looked at is not late, it is not known") {
  model::History history = digester(60);
  volume(history, 1000);
  add(history, "cow manure", Dimension::kVolume, 450, 0);
  add(history, "water", Dimension::kVolume, 450, 0);
  history.last_entry = build::at(on(47));
  CHECK(found(history, "digester.start").case_of == kinds::digester::kCaseLate);
  history.last_entry = build::at(on(6));
  const auto silent = found(history, "digester.start");
  CHECK(silent.case_of == kinds::digester::kCaseUnknown);
  CHECK(silent.urgency == Urgency::kToday);
  CHECK(silent.facts(kinds::digester::kDays) == 54);
  CHECK(silent.words.line == "look whether it burns: silent 54 days");
}

TEST_CASE("a starting mix is put right: how much of what, and what goes in for it is no feed") {
  // 30 parts of manure to 200 of water: 170 of manure make it 1 to 1 (Sasse 1988, Biogas Plants
  // 2.1).
  const auto thin = [](double room, int days = 7) {
    model::History history = digester(days);
    if (room > 0) volume(history, room);
    add(history, "cow manure", Dimension::kVolume, 30, 0);
    add(history, "water", Dimension::kVolume, 200, 0);
    if (room > 0) build::deed(history, "filled", build::at(on(0), 10));
    return history;
  };
  CHECK(contains(found(thin(600), "digester.start").words.action,
                 "add about 170 L of manure for 1 part of manure to 1 of water; it has "
                 "room for about 370 L; set right what is named"));
  // It takes 40 more: 70 to 200 are within 1 to 3.
  CHECK(contains(found(thin(270), "digester.start").words.action,
                 "add about 40 L of manure, as much as it has room for, and take it somewhat "
                 "thinner"));
  // No room: 250 / (230 + 170) = 0.625 of it stays, so 86.25 are drawn off, and 0.625 x 170 = 106
  // added: 0.625 x 200 = 125 of water and 0.625 x 30 + 106.25 = 125 of manure, 250 in all.
  CHECK(contains(found(thin(250), "digester.start").words.action,
                 "for 1 part of manure to 1 of water draw about 86 L off first and add about 110 L "
                 "of manure, as it has room for about 20 L; or take it as it is, thinner than"));
  CHECK(contains(found(thin(230), "digester.start").words.action, "as it has room for no more"));

  // A week later as it was told: it is in the mix, and it is no feed.
  model::History mended = thin(600);
  add(mended, "cow manure", Dimension::kVolume, 170, 6);
  CHECK_FALSE(has(mended, "digester.start"));
  CHECK(contains(line(mended, "manure to water"), "1 part of manure to 1 part of water"));
  CHECK(contains(line(mended, "mix"), "8.8 % solids with its water"));
  // Drawn off first, as it was told.
  model::History drawn = thin(250);
  take(drawn, "effluent", 86.25, 5);
  add(drawn, "cow manure", Dimension::kVolume, 106.25, 6);
  CHECK(contains(line(drawn, "manure to water"), "1 part of manure to 1 part of water"));
  CHECK_FALSE(has(drawn, "digester.start"));
  // What runs over is lost of both alike: 60 to 200, of which 230 of 260 stay.
  model::History over = thin(230);
  add(over, "cow manure", Dimension::kVolume, 30, 6);
  const auto startup = kinds::digester::startup_of(over, kDefaults);
  CHECK(startup.manure.value == doctest::Approx(60 * 230.0 / 260));
  CHECK(startup.held.value == doctest::Approx(230));
  // Once it has burned, neither is feed, and what follows is.
  model::History lit = thin(600, 20);
  add(lit, "cow manure", Dimension::kVolume, 170, 6);
  burns(lit, 12);
  CHECK(kinds::digester::startup_of(lit, kDefaults).manure.value == doctest::Approx(200));
  CHECK(contains(line(lit, "feed"), "none in the last"));
  CHECK(line(lit, "manure to water").empty());
  add(lit, "cow manure", Dimension::kVolume, 10, 13);
  CHECK(kinds::digester::startup_of(lit, kDefaults).manure.value == doctest::Approx(200));
  CHECK(contains(line(lit, "feed"), "kg VS/m3/d of at most"));

  // Late, it comes with what else to look at.
  CHECK(contains(found(thin(600, 40), "digester.start").words.action,
                 "see to these in this order, and check the joints for leaks; for the mix: add"));

  // Too thick: 400 of manure to 100 of water want 300 of water.
  model::History thick = digester(3);
  volume(thick, 1000);
  add(thick, "cow manure", Dimension::kVolume, 400, 0);
  add(thick, "water", Dimension::kVolume, 100, 0);
  build::deed(thick, "filled", build::at(on(0), 10));
  CHECK(
      contains(found(thick, "digester.start").words.action, "add about 300 L of water for 1 part"));
  // Where its volume was not told, nothing is said of the room.
  CHECK(contains(found(thin(0), "digester.start").words.action, "its volume was not given"));
}

TEST_CASE("the filling in several loads, and the first gas by a meter") {
  model::History history = digester(9);
  add(history, "cow manure", Dimension::kVolume, 300, 0);
  add(history, "water", Dimension::kVolume, 200, 0);
  add(history, "water", Dimension::kVolume, 100, 0);
  const auto filling = kinds::digester::startup_of(history, kDefaults);
  CHECK(filling.manure.value == 300);
  CHECK(filling.water.value == 300);
  CHECK(filling.in.value == 600);
  build::reading(history, "meter", "", build::at(on(3)), 500);
  build::reading(history, "meter", "", build::at(on(5)), 500);
  CHECK_FALSE(kinds::digester::startup_of(history, kDefaults).gas_on);
  build::reading(history, "meter", "", build::at(on(8)), 504);
  CHECK(kinds::digester::startup_of(history, kDefaults).gas_on == on(8));
  CHECK_FALSE(kinds::digester::startup_of(history, kDefaults).burns_on);
  // By hand it is said where no volume was.
  model::History said = digester(9);
  volume(said, 1000);
  add(said, "cow manure", Dimension::kVolume, 300, 0);
  CHECK_FALSE(kinds::digester::startup_of(said, kDefaults).filled_on);
  build::deed(said, "filled", build::at(on(2)));
  CHECK(kinds::digester::startup_of(said, kDefaults).filled_on == on(2));
}

TEST_CASE("the wait is counted at each whole day's own temperature") {
  model::History history = digester(4);
  add(history, "cow manure", Dimension::kVolume, 450, 0);
  for (const auto& [day, celsius] :
       {std::pair{0, 30.0}, {1, 25.0}, {2, 20.0}, {3, 15.0}, {4, 35.0}}) {
    build::reading(history, "temperature", "", build::at(on(day)), celsius);
  }
  double by_hand = 0;  // today is not over
  for (const double celsius : {30.0, 25.0, 20.0, 15.0}) by_hand += std::pow(1.085, celsius - 20);
  const auto startup = kinds::digester::startup_of(history, kDefaults);
  CHECK(startup.waited.value == doctest::Approx(by_hand));
  CHECK(startup.waited_is_read);
  // A reading before the filling is none of its days.
  model::History before = digester(4);
  warm(before, 0, 1, 35);
  warm(before, 2, 4, 20);
  add(before, "cow manure", Dimension::kVolume, 450, 2);
  CHECK(kinds::digester::startup_of(before, kDefaults).waited.value == doctest::Approx(2));
  model::History unread = digester(4);
  add(unread, "cow manure", Dimension::kVolume, 450, 0);
  CHECK_FALSE(kinds::digester::startup_of(unread, kDefaults).waited_is_read);
  CHECK(kinds::digester::startup_of(unread, kDefaults).waited.value == 4);
}

TEST_CASE("a starter of effluent halves the wait") {
  const auto started = [](double effluent) {
    model::History history = digester(20);
    add(history, "cow manure", Dimension::kVolume, 450, 0);
    add(history, "water", Dimension::kVolume, 450, 0);
    add(history, "effluent", Dimension::kVolume, effluent, 0);
    warm(history, 0, 20, 20);
    return kinds::digester::startup_of(history, kDefaults).needed.value;
  };
  CHECK(started(100) == 14);  // a tenth of 1000 L
  CHECK(started(90) == 28);
}

TEST_CASE("digester.firstgas: let off for five days, with the caution") {
  const auto gassing = [](int day) {
    model::History history = digester(day);
    add(history, "cow manure", Dimension::kVolume, 450, 0);
    add(history, "water", Dimension::kVolume, 450, 0);
    build::reading(history, "gas", "", build::at(on(10)), 20);
    return history;
  };
  CHECK_FALSE(has(digester(10), "digester.firstgas"));
  CHECK(has(gassing(10), "digester.firstgas"));
  CHECK(ids_of(found(gassing(10), "digester.firstgas").cautions) == Ids{"gas.first"});
  CHECK(found(gassing(10), "digester.firstgas").facts(kinds::digester::kUntil) == on(15));
  CHECK(has(gassing(16), "digester.firstgas"));  // nobody has let it off
  model::History vented = gassing(14);
  build::deed(vented, "vented", build::at(on(11)));
  CHECK(has(vented, "digester.firstgas"));
  vented.today = on(15);
  vented.now = build::at(on(15), 8);
  CHECK_FALSE(has(vented, "digester.firstgas"));
  model::History unfilled = digester(10);
  volume(unfilled, 1000);
  build::reading(unfilled, "gas", "", build::at(on(10)), 20);
  CHECK_FALSE(has(unfilled, "digester.firstgas"));
  // One that was at work already when its records began.
  model::History at_work = digester(1);
  burns(at_work, 0);
  CHECK_FALSE(has(at_work, "digester.firstgas"));
}

TEST_CASE("resting through the winter: no alarm, and a word when it is warm again") {
  model::History history = digester(40);
  volume(history, 1000);
  burns(history, 0);
  warm(history, 0, 40, 8);
  build::deed(history, "rested", build::at(on(30)));
  CHECK_FALSE(has(history, "digester.cold"));
  CHECK_FALSE(has(history, "digester.winter"));
  CHECK(judged(history).stage == "resting");
  CHECK_FALSE(has(history, "digester.restart"));
  model::History spring = digester(50);
  warm(spring, 0, 40, 8);
  build::deed(spring, "rested", build::at(on(30)));
  warm(spring, 41, 50, 21);
  CHECK(found(spring, "digester.restart").urgency == Urgency::kReady);
  model::History working = digester(50);
  burns(working, 0);
  warm(working, 0, 50, 25);
  CHECK_FALSE(has(working, "digester.restart"));
  model::History unread = digester(50);
  build::deed(unread, "rested", build::at(on(30)));
  CHECK_FALSE(has(unread, "digester.restart"));
  add(history, "cow manure", Dimension::kMass, 5, 39);
  CHECK(has(history, "digester.cold"));  // fed again
}

}  // namespace kinds_digester_test
