#include <doctest/doctest.h>

#include <algorithm>

#include "kinds/kind.h"
#include "kinds/pile/stage.h"
#include "kinds/pile/treatment.h"
#include "tests/unit/build_history.h"

namespace kinds_pile_treatment_test {

// The edges of the texts that say when compost counts as treated, as the texts state them: "at
// least" takes the number itself, "higher than" and "exceeds" do not.

using kinds::pile::Outcome;
using kinds::pile::Standard;
using measure::Dimension;

namespace {

const model::Day kStart = build::day("2027-03-01");

model::Day on(int number) {
  return kStart + date::days{number - 1};
}

struct Pile {
  model::History history;

  Pile(std::string method, int today, std::optional<double> ratio = 30)
      : history(build::batch("pile", "heap-1", kStart, on(today))) {
    build::setting(history, "method", std::move(method));
    if (ratio) build::setting(history, "cn", "lab", measure::Value{Dimension::kNumber, *ratio});
  }

  Pile& fahrenheit(int from, int to, double value, std::string position = "core") {
    return celsius(from, to, measure::unit("°F").to_base(value), std::move(position));
  }
  Pile& celsius(int from, int to, double value, std::string position = "core") {
    for (int day = from; day <= to; ++day) {
      build::reading(history, "temperature", position, build::at(on(day)), value);
    }
    return *this;
  }
  Pile& aerated(int day) {
    build::deed(history, "aerated", build::at(on(day), 6));
    return *this;
  }
  Pile& turned(std::initializer_list<int> numbers) {
    for (const int number : numbers) build::deed(history, "turned", build::at(on(number), 9));
    return *this;
  }

  kinds::pile::Treatment treat(Standard standard, bool cured = true) const {
    const kinds::pile::Course course = kinds::pile::course_of(history);
    const kinds::Inputs inputs = kinds::inputs_of(history);
    const model::Rules rules;
    return kinds::pile::treat(standard, {history, rules, course, inputs, cured});
  }
  bool shown(Standard standard) const { return treat(standard).outcome == Outcome::kShown; }
};

}  // namespace

// 7 CFR 205.203(c)(2)(i) and (ii): initial C:N between 25:1 and 40:1; 131 to 170 °F for 3 days in a
// vessel or static aerated pile. https://law.lawstack.com/cfr/7/205.203/
TEST_CASE("NOP: a vessel for three days at 131 to 170 °F") {
  CHECK(Pile("vessel", 3, 25).fahrenheit(1, 3, 131).shown(Standard::kNop));
  CHECK(Pile("static", 3, 25)
            .aerated(1)
            .fahrenheit(1, 3, 131)
            .fahrenheit(1, 3, 131, "edge")
            .shown(Standard::kNop));
  CHECK_FALSE(Pile("vessel", 3, 25).fahrenheit(1, 3, 130.9).shown(Standard::kNop));
  CHECK_FALSE(Pile("vessel", 2, 25).fahrenheit(1, 2, 131).shown(Standard::kNop));
  CHECK(Pile("vessel", 3).fahrenheit(1, 3, 170).shown(Standard::kNop));
  // 131 °F is 55 °C and 170 °F is 76 2/3 °C, in whatever unit they were typed.
  CHECK(Pile("vessel", 3).celsius(1, 3, 55).shown(Standard::kNop));
}

TEST_CASE("NOP: a reading above 170 °F is out of the window; the other texts have no upper limit") {
  const Pile pile = Pile("vessel", 3, 25).fahrenheit(1, 2, 140).fahrenheit(3, 3, 170.1);
  CHECK_FALSE(pile.shown(Standard::kNop));
  CHECK(pile.treat(Standard::kNop).tally.breaks.front().grade == kinds::pile::Grade::kOver);
  CHECK(pile.shown(Standard::kFsma));
  CHECK(pile.shown(Standard::kPfrp));
}

// 7 CFR 205.203(c)(2)(iii): 131 to 170 °F for 15 days in a windrow, "during which period, the
// materials must be turned a minimum of five times".
TEST_CASE("NOP: a windrow for fifteen days with five turnings") {
  const auto windrow = [](double ratio, int days) {
    return Pile("turned", days, ratio).fahrenheit(1, days, 131);
  };
  CHECK(windrow(40, 15).turned({2, 5, 8, 11, 14}).shown(Standard::kNop));
  CHECK_FALSE(windrow(40, 14).turned({2, 5, 8, 11, 14}).shown(Standard::kNop));
  CHECK_FALSE(windrow(40, 15).turned({2, 5, 8, 11}).shown(Standard::kNop));
  // A turning before the heat, and two on one day, are no more than they are.
  CHECK_FALSE(Pile("turned", 16)
                  .fahrenheit(1, 1, 90)
                  .fahrenheit(2, 16, 131)
                  .turned({1, 5, 8, 11, 14})
                  .shown(Standard::kNop));
  CHECK_FALSE(windrow(40, 15).turned({2, 5, 8, 11, 11}).shown(Standard::kNop));
}

TEST_CASE("NOP: carbon to nitrogen at the start, 25 and 40 included") {
  const auto windrow = [](std::optional<double> ratio) {
    return Pile("turned", 15, ratio).fahrenheit(1, 15, 140).turned({2, 5, 8, 11, 14});
  };
  CHECK(windrow(25).shown(Standard::kNop));
  CHECK(windrow(40).shown(Standard::kNop));
  CHECK(windrow(24.9).treat(Standard::kNop).outcome == Outcome::kCannot);
  CHECK(windrow(40.1).treat(Standard::kNop).outcome == Outcome::kCannot);
  CHECK(windrow(24.9).shown(Standard::kFsma));
  CHECK(windrow(40.1).shown(Standard::kPfrp));
  // Nothing recorded of what went in: the heat alone does not show it.
  const auto unknown = windrow(std::nullopt).treat(Standard::kNop);
  CHECK(unknown.outcome == Outcome::kCannot);
  CHECK(unknown.why == kinds::pile::NotShown::kBadRatio);
  CHECK(unknown.bad_ratio->unknown == kinds::pile::StartRatio::Unknown::kNothingWentIn);
}

// 21 CFR 112.54(b)(2): 131 °F for 15 days "which do not have to be consecutive", five turnings,
// followed by adequate curing. 40 CFR 503 appendix B keeps the days together. The wording of 112.54
// is from memory.
TEST_CASE("days that do not follow each other") {
  const Pile pile = Pile("turned", 17)
                        .fahrenheit(1, 7, 135)
                        .fahrenheit(8, 9, 120)
                        .fahrenheit(10, 17, 135)
                        .turned({2, 5, 9, 12, 15});
  CHECK(pile.shown(Standard::kFsma));
  CHECK(pile.shown(Standard::kNop));
  const auto strictly = pile.treat(Standard::kNop).other_reading;
  REQUIRE(strictly);
  CHECK(strictly->in_a_row);
  CHECK(strictly->days == 8);
  CHECK_FALSE(pile.shown(Standard::kPfrp));
  const auto loosely = pile.treat(Standard::kPfrp).other_reading;
  REQUIRE(loosely);
  CHECK_FALSE(loosely->in_a_row);
  CHECK(loosely->days == 15);
  CHECK(pile.treat(Standard::kFsma, false).outcome == Outcome::kNotYet);
}

TEST_CASE("NOP: the fifteen days in a row, where a site's rule asks for it") {
  const Pile pile = Pile("turned", 17)
                        .fahrenheit(1, 7, 135)
                        .fahrenheit(8, 9, 120)
                        .fahrenheit(10, 17, 135)
                        .turned({2, 5, 9, 12, 15});
  model::Rules strict;
  strict.set("pile.treat.in_a_row", {1, "this site's rule"});
  const auto course = kinds::pile::course_of(pile.history);
  const auto inputs = kinds::inputs_of(pile.history);
  const auto treatment =
      kinds::pile::treat(Standard::kNop, {pile.history, strict, course, inputs, true});
  CHECK(treatment.outcome == Outcome::kNotYet);
  REQUIRE(treatment.window);
  CHECK(treatment.window->days == 8);
  // Seven more days in a row, of which tomorrow is the first.
  CHECK(treatment.earliest == on(17 + 7));
}

// 21 CFR 112.54(b)(1): 131 °F for 3 consecutive days in a static pile. Wording from memory.
TEST_CASE("FSMA: a static pile's three days follow each other") {
  const auto heap = [](int today) { return Pile("static", today).aerated(1); };
  CHECK(heap(3).fahrenheit(1, 3, 131, "top").shown(Standard::kFsma));
  CHECK_FALSE(heap(4)
                  .fahrenheit(1, 4, 131, "top")
                  .fahrenheit(1, 2, 131)
                  .fahrenheit(3, 3, 130)
                  .fahrenheit(4, 4, 131)
                  .shown(Standard::kFsma));
}

// 7 CFR 205.203(c)(2)(ii) speaks of a static aerated system; NOP 5021, after the NOSB's compost
// task force, of all feedstock at 131 °F for three days, and of mixing or management that brings
// all of it there. So a passive heap is none, and a core alone shows nothing of the outside.
TEST_CASE("a static heap: air is logged, and an outer place read or turned in") {
  using kinds::pile::NotShown;
  const auto heap = [] { return Pile("static", 9, 30); };
  const auto passive = heap().fahrenheit(1, 9, 140).fahrenheit(1, 9, 135, "edge");
  for (const Standard one : {Standard::kNop, Standard::kFsma, Standard::kPfrp}) {
    CHECK(passive.treat(one).outcome == Outcome::kNotYet);
    CHECK(passive.treat(one).why == NotShown::kNoAir);
  }
  const auto core = heap().aerated(1).fahrenheit(1, 9, 140);
  CHECK(core.treat(Standard::kNop).why == NotShown::kCoreOnly);
  // A place without a name is no outer one.
  CHECK(heap().aerated(1).fahrenheit(1, 9, 140, "").treat(Standard::kNop).why ==
        NotShown::kCoreOnly);
  CHECK(
      heap().aerated(1).fahrenheit(1, 9, 140).fahrenheit(5, 7, 133, "north").shown(Standard::kNop));
  CHECK_FALSE(
      heap().aerated(1).fahrenheit(1, 9, 140).fahrenheit(5, 6, 133, "north").shown(Standard::kNop));
  // Turned between two heats of three days: the second one shows it, on its third day.
  const auto turned = heap().aerated(1).fahrenheit(1, 9, 140).turned({4}).treat(Standard::kNop);
  CHECK(turned.outcome == Outcome::kShown);
  CHECK(turned.shown_on == on(6));
  CHECK_FALSE(heap().aerated(1).fahrenheit(1, 9, 140).turned({2}).shown(Standard::kNop));
  // Air by a setting, or by a reading.
  Pile piped = heap().fahrenheit(1, 9, 140, "edge");
  build::setting(piped.history, "aeration", "pipes");
  CHECK(piped.shown(Standard::kNop));
  Pile read = heap().fahrenheit(1, 9, 140, "edge");
  build::reading(read.history, "oxygen", "", build::at(on(2)), 0.12);
  CHECK(read.shown(Standard::kNop));
}

// 40 CFR 503 appendix B, composting (PSRP): 40 °C or higher for five days; for four hours during
// the five days exceeds 55 °C. In the words of Wyoming's Water Quality Rules chapter 15 appendix B.
TEST_CASE("PSRP: at least 40 °C for five days, above 55 °C for four hours") {
  CHECK(Pile("turned", 5).celsius(1, 3, 40).celsius(4, 5, 55.1).shown(Standard::kPsrp));
  CHECK_FALSE(Pile("turned", 5).celsius(1, 3, 39.9).celsius(4, 5, 55.1).shown(Standard::kPsrp));
  CHECK_FALSE(Pile("turned", 4).celsius(1, 2, 40).celsius(3, 4, 55.1).shown(Standard::kPsrp));
  CHECK_FALSE(Pile("turned", 5).celsius(1, 3, 40).celsius(4, 5, 55).shown(Standard::kPsrp));
  // One reading is a moment.
  CHECK_FALSE(Pile("turned", 5).celsius(1, 4, 40).celsius(5, 5, 60).shown(Standard::kPsrp));
  // A later row shows it where the first did not.
  CHECK(Pile("turned", 11)
            .celsius(1, 5, 45)
            .celsius(6, 6, 30)
            .celsius(7, 11, 56)
            .shown(Standard::kPsrp));
}

// 40 CFR 503 appendix B, composting (PFRP): 55 °C or higher for three days in a vessel or static
// aerated pile; for 15 days or longer in a windrow with five turnings.
TEST_CASE("PFRP: at least 55 °C") {
  CHECK(Pile("vessel", 3).celsius(1, 3, 55).shown(Standard::kPfrp));
  CHECK_FALSE(Pile("vessel", 3).celsius(1, 3, 54.9).shown(Standard::kPfrp));
  CHECK(Pile("turned", 15).celsius(1, 15, 55).turned({2, 5, 8, 11, 14}).shown(Standard::kPfrp));
  CHECK_FALSE(
      Pile("turned", 14).celsius(1, 14, 55).turned({2, 5, 8, 11, 14}).shown(Standard::kPfrp));
}

// 40 CFR 503.33(b)(5): 14 days or longer, higher than 40 °C, on average higher than 45 °C. Wording
// from memory; both as "over" in EPA's table.
TEST_CASE("vector attraction: above 40 °C for fourteen days, above 45 °C on average") {
  const auto pile = [](double cool, double warm) {
    return Pile("turned", 14).celsius(1, 7, cool).celsius(8, 14, warm);
  };
  CHECK(pile(40.1, 50.1).shown(Standard::kVector));
  CHECK_FALSE(pile(40.0, 60).shown(Standard::kVector));
  CHECK_FALSE(pile(40.1, 49.9).shown(Standard::kVector));  // 45 exactly
  CHECK_FALSE(Pile("turned", 13).celsius(1, 13, 60).shown(Standard::kVector));
  // A stretch of fourteen days within a longer row that is too cool as a whole.
  CHECK(Pile("turned", 24).celsius(1, 10, 40.1).celsius(11, 24, 45.1).shown(Standard::kVector));
}

// All of the material: the coldest position read governs (40 CFR 503 and 7 CFR 205.203 speak of the
// material, not of a core); how a place that was not read again is taken is common practice.
TEST_CASE("the coldest position governs") {
  const Pile both = Pile("vessel", 3).fahrenheit(1, 3, 150, "core").fahrenheit(1, 3, 130, "edge");
  CHECK_FALSE(both.shown(Standard::kNop));
  CHECK(both.treat(Standard::kNop).days.front().position == "edge");
  CHECK(Pile("vessel", 3)
            .fahrenheit(1, 3, 150, "core")
            .fahrenheit(1, 3, 131, "edge")
            .shown(Standard::kNop));
  // Read cold once and never again: still cold.
  CHECK_FALSE(Pile("vessel", 4)
                  .fahrenheit(1, 1, 110, "edge")
                  .fahrenheit(1, 4, 150, "core")
                  .shown(Standard::kNop));
  // A turning brings it in.
  Pile turned = Pile("turned", 16).fahrenheit(1, 1, 110, "edge").fahrenheit(1, 16, 150, "core");
  CHECK(turned.turned({1, 4, 7, 10, 13, 16}).treat(Standard::kNop).tally.counted == 15);
}

// A day without a reading is never a day at temperature. That one such day does not break a row is
// common practice (pile.treat.gap).
TEST_CASE("a day without a reading counts for nothing") {
  CHECK_FALSE(Pile("vessel", 3).fahrenheit(1, 1, 140).fahrenheit(3, 3, 140).shown(Standard::kNop));
  const Pile bridged = Pile("vessel", 4).fahrenheit(1, 1, 140).fahrenheit(3, 4, 140);
  CHECK(bridged.shown(Standard::kNop));
  CHECK(bridged.treat(Standard::kNop).window->gaps == 1);
  CHECK_FALSE(Pile("vessel", 5).fahrenheit(1, 1, 140).fahrenheit(4, 5, 140).shown(Standard::kNop));
  // Cooled with days that nobody read: no later day can tell.
  Pile lost =
      Pile("turned", 40).fahrenheit(1, 5, 140).fahrenheit(10, 15, 140).fahrenheit(30, 40, 90);
  CHECK(lost.turned({2, 5, 10, 12, 14}).treat(Standard::kNop).outcome == Outcome::kCannot);
}

TEST_CASE("raw material that goes onto counted days begins the count anew") {
  Pile pile = Pile("vessel", 5).fahrenheit(1, 5, 140);
  pile.history.in.push_back(
      build::movement(build::material("leaves"), {Dimension::kMass, 20}, build::at(on(1))));
  CHECK(pile.shown(Standard::kPfrp));
  pile.history.in.push_back(
      build::movement(build::material("water"), {Dimension::kMass, 20}, build::at(on(4))));
  CHECK(pile.shown(Standard::kPfrp));
  const auto with = [&](int hour) {
    Pile fed = pile;
    fed.history.in.push_back(build::movement(build::material("hen manure"), {Dimension::kMass, 20},
                                             build::at(on(4), hour)));
    return fed.treat(Standard::kPfrp);
  };
  const auto before = with(6);
  CHECK(before.outcome == Outcome::kNotYet);
  CHECK(before.since == on(4));
  CHECK(before.window->days == 2);
  // What was read at seven says nothing of what went in at eight.
  const auto after = with(8);
  CHECK(after.since == on(4));
  CHECK(after.window->days == 1);
}

TEST_CASE("the earliest day") {
  // Read today: fourteen more days from tomorrow.
  CHECK(Pile("turned", 1).fahrenheit(1, 1, 140).treat(Standard::kNop).earliest == on(15));
  // Not read today: today can be one of them.
  CHECK(Pile("turned", 2).fahrenheit(1, 1, 140).treat(Standard::kNop).earliest == on(15));
  // The days are there, and four turnings: the fifth today.
  CHECK(Pile("turned", 15)
            .fahrenheit(1, 15, 140)
            .turned({2, 5, 8, 11})
            .treat(Standard::kNop)
            .earliest == on(15));
  // Three: one today and one tomorrow.
  CHECK(
      Pile("turned", 15).fahrenheit(1, 15, 140).turned({2, 5, 8}).treat(Standard::kNop).earliest ==
      on(16));
  CHECK(Pile("turned", 1).treat(Standard::kNop).why == kinds::pile::NotShown::kNeverRead);
}

// Fifteen days at 140 °F from day 3 on, but for day 9: met on day 18. Until day 9 day 17 was the
// earliest, after it day 18; naive: fifteen days from the first hot one, day 17.
TEST_CASE("the earliest day is scored: it came then or later, never before") {
  Pile pile("turned", 20);
  pile.fahrenheit(1, 2, 80).fahrenheit(3, 8, 140).fahrenheit(9, 9, 120).fahrenheit(10, 20, 140);
  pile.turned({4, 7, 10, 13, 16});
  const model::Rules rules;
  const auto scores = kinds::study(pile.history, rules)->replay();
  const auto nop =
      std::find_if(scores.begin(), scores.end(), [](const auto& one) { return one.what == "NOP"; });
  REQUIRE(nop != scores.end());
  CHECK(nop->count == 15);                         // days 3 to 17
  CHECK(nop->within == nop->ranged);               // never before
  CHECK(nop->error_total == doctest::Approx(6));   // a day off on days 3 to 8
  CHECK(nop->naive_total == doctest::Approx(15));  // a day off on each
  const Pile unread("turned", 20);
  CHECK(kinds::study(unread.history, rules)->replay().back().count == 0);
}

TEST_CASE("a cold pile shows no treatment") {
  CHECK(Pile("cold", 20).fahrenheit(1, 20, 140).treat(Standard::kFsma).outcome == Outcome::kCannot);
}

// 40 CFR 503.32(a)(3): at 55 °C a day is 1 / 2.62776 of a treatment (131,700,000 / 10^(0.14 x 55)
// days); below 50 °C it is nothing.
TEST_CASE("time and temperature, as information") {
  const auto share = [](const Pile& pile) {
    return kinds::pile::time_temperature(kinds::pile::course_of(pile.history)).value;
  };
  CHECK(share(Pile("turned", 3).celsius(1, 3, 55)) == doctest::Approx(3 / 2.62776).epsilon(1e-5));
  CHECK(share(Pile("turned", 3).celsius(1, 3, 49.9)) == 0);
}

}  // namespace kinds_pile_treatment_test
