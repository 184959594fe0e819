#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "build_history.h"
#include "kinds/caution.h"
#include "kinds/kind.h"
#include "kinds/tank/facts.h"
#include "kinds/tank/study.h"
#include "kinds/tank/vocabulary.h"
#include "measure/text.h"

namespace kinds_tank_test {

// A rain tank at the edges of its findings: 50 m2 of roof with a runoff that is known (90 %), 1000
// L. A millimetre of rain brings 45 L (a litre a square metre and millimetre).

using build::at;
using build::contains;
using build::day;
using build::figure;
using build::progress;
using measure::Dimension;
using measure::Value;
using model::History;
using namespace kinds::tank;  // the names of facts, cases and reasons
using model::Urgency;

namespace {

const model::Day kStart = day("2027-03-01");

model::Day on(int days_later) {
  return kStart + date::days{days_later};
}

History tank(int days_later, double capacity = 1000) {
  History history =
      build::batch("tank", "tank-1", kStart, on(days_later), measure::UnitSystem::kMetric);
  build::setting(history, "roof", "50m2", Value{Dimension::kArea, 50});
  build::setting(history, "runoff", "90%", Value{Dimension::kFraction, 0.9});
  build::setting(history, "capacity", "1000L", Value{Dimension::kVolume, capacity});
  return history;
}

void rain(History& history, double millimetres, int days_later) {
  build::reading(history, "rain", "", at(on(days_later), 8), millimetres / 1000);
}

void level(History& history, double share, int days_later, int hour = 9) {
  build::reading(history, "level", "", at(on(days_later), hour), share);
}

void draw(History& history, double litres, int days_later, std::string purpose = "") {
  auto out = build::movement(build::material("rainwater"), {Dimension::kVolume, litres},
                             at(on(days_later), 10));
  out.purpose = std::move(purpose);
  out.typed = "some";
  history.out.push_back(out);
}

// A line of the morning fits a narrow terminal: whatever any test here brings up.
void check_lines(const model::Assessment& assessment) {
  for (const model::Told& one : assessment.findings) {
    CAPTURE(one.words.line);
    const auto columns = std::count_if(one.words.line.begin(), one.words.line.end(),
                                       [](char byte) { return (byte & 0xC0) != 0x80; });
    CHECK(columns > 0);
    CHECK(columns <= 46);
    CHECK_FALSE(one.job.empty());
    CHECK((one.ends.size() > 0));
  }
}

model::Assessment look(const History& history) {
  model::Assessment made = kinds::assess(history, {});
  check_lines(made);
  return made;
}

std::vector<std::string_view> reasons(const model::Finding& finding) {
  std::vector<std::string_view> ids;
  for (const model::Reason& one : finding.reasons) ids.push_back(one.id);
  return ids;
}

double litres(const model::Finding& finding, model::Fact<measure::Litres> fact) {
  return finding.facts(fact).value;
}

bool has_caution(const model::Told& finding, std::string_view id) {
  return std::any_of(finding.cautions.begin(), finding.cautions.end(),
                     [&](const model::Caution* one) { return one->id == id; });
}

}  // namespace

TEST_CASE("tank: a level lower than can be is asked about, beyond the slack") {
  // From 500 L, 100 L drawn, no rain: 400 L, and 5 % of 1000 L is how well a level is read.
  const auto fell_to = [](double share) {
    History history = tank(5);
    level(history, 0.5, 1);
    draw(history, 100, 2);
    level(history, share, 4);
    return look(history);
  };
  CHECK(build::find(fell_to(0.3501), "tank.level") == nullptr);
  const auto low = fell_to(0.3499);
  const model::Told* found = build::find(low, "tank.level");
  REQUIRE(found != nullptr);
  CHECK(found->threshold == "tank.level.slack");
  // The limit is the rule's own, a share of the capacity: 400 L less 349.9 are 5.01 % of 1000.
  CHECK(found->limit->value == Value{Dimension::kFraction, 0.05});
  CHECK(found->value->value.si == doctest::Approx(0.0501));
  CHECK(contains(found->words.says, "it held 350 L on Fri 5 Mar; expected at least 400 L"));
  CHECK(found->case_of == kCaseLost);
  CHECK(reasons(*found).front() == kReasonLeak);
  CHECK(litres(*found, kFactHeld) == doctest::Approx(349.9));
  CHECK(litres(*found, kFactExpected) == doctest::Approx(400));
  CHECK(litres(*found, kFactDrawn) == doctest::Approx(100));
  CHECK(found->since == on(4));
  CHECK(found->words.line == "look for a leak: 35 % read, 40 % by the rain");
}

TEST_CASE(
    "tank: a level that did not fit is told of until it is answered or its water is another") {
  // 500 L, 100 drawn, 300 left where 400 were to be expected: on the day itself it holds, then it
  // held.
  const auto fell = [](int today) {
    History history = tank(today);
    level(history, 0.5, 1);
    draw(history, 100, 2);
    level(history, 0.3, 4);
    return history;
  };
  const auto told = [](const History& history) {
    return build::find(look(history), "tank.level") != nullptr;
  };
  const auto today = look(fell(4));
  CHECK(contains(build::find(today, "tank.level")->words.says,
                 "it holds 300 L; expected at least 400 L"));
  const auto later = look(fell(9));
  CHECK(contains(build::find(later, "tank.level")->words.says,
                 "it held 300 L on Fri 5 Mar; expected at"));
  CHECK(build::find(later, "tank.level")->facts(kFactReadOn) == on(4));
  CHECK(build::find(later, "tank.level")->facts(kFactReadBefore) == on(1));
  for (const char* done : {"cleaned", "flushed", "mended", "emptied"}) {
    History answered = fell(9);
    build::deed(answered, done, at(on(5)));
    CHECK_FALSE(told(answered));
    History before = fell(9);
    build::deed(before, done, at(on(3)));
    CHECK(told(before));
  }
  // A later reading that fits.
  History read = fell(9);
  level(read, 0.3, 8);
  CHECK_FALSE(told(read));
  // 14.4 mm bring 648 L: 948 L, not yet full (950 L), but more than the 300 L that it held came.
  // 6 mm bring 270 L, and 30 L drawn make it 300.
  History rained = fell(9);
  rain(rained, 6, 6);
  CHECK(told(rained));
  draw(rained, 29, 7);
  CHECK(told(rained));
  draw(rained, 2, 8);
  CHECK_FALSE(told(rained));
  // Full by the rain since, though less came than it held; drawn from again it stays so.
  History full = tank(12);
  level(full, 1, 1);
  level(full, 0.85, 4);
  CHECK(told(full));
  rain(full, 2.2, 6);  // 99 L: 949 L
  CHECK(told(full));
  rain(full, 0.1, 7);  // 953 L
  CHECK_FALSE(told(full));
  draw(full, 100, 9);
  CHECK_FALSE(told(full));
  // More than could be: cleaning is no answer to that.
  History high = tank(9);
  rain(high, 1, 0);
  level(high, 0.2, 1);
  level(high, 0.9, 4);
  CHECK(told(high));
  build::deed(high, "cleaned", at(on(5)));
  CHECK(told(high));
}

TEST_CASE("tank: the uses given hold until there are draws enough to go by") {
  // 70 L a day told; drawn 80 L every second day from the third day on: 40 L a day.
  const auto supply = [](int days_later, int draws, bool is_told) {
    History history = tank(days_later);
    if (is_told) build::setting(history, "uses", "beds 60L, hens 10L");
    level(history, 0.28, days_later, 7);
    for (int i = 0; i < draws; ++i) draw(history, 80, 2 + 2 * i);
    history.now = at(on(days_later), 8);
    return look(history);
  };
  const auto one = supply(3, 1, true);
  CHECK(
      contains(progress(one, "supply"),
               "4 days at 70 L a day without rain, by the uses given: 1 draw in 4 days is too few "
               "to go by"));
  const model::Told* low = build::find(one, "tank.low");
  REQUIRE(low != nullptr);
  CHECK(low->facts(kFactDrawBasis) == static_cast<int>(DrawBasis::kUsesTooFewDraws));
  CHECK(low->facts(kFactDraws) == 1);
  CHECK(litres(*low, kFactDrawADay) == doctest::Approx(70));
  // 13 days after the first draw they are too young, a day later they are enough.
  CHECK(contains(progress(supply(14, 7, true), "supply"), "by the uses given: 7 draws in 14 days"));
  CHECK(contains(progress(supply(15, 7, true), "supply"),
                 "7 days at 40 L a day without rain, by 7 draws in 14 days"));
  // Three in a fortnight are no habit, four are.
  CHECK(contains(progress(supply(15, 3, true), "supply"), "at 70 L a day"));
  CHECK(contains(progress(supply(15, 4, true), "supply"), "by 4 draws in 14 days"));
  // Where none were told, what there is is taken.
  CHECK(contains(progress(supply(3, 1, false), "supply"), "at 20 L a day without rain, by 1 draw"));
}

TEST_CASE("tank: rain that did not arrive points at the gutter") {
  // 10 mm bring 450 L, 405 at the least the gauge allows (10 %).
  const auto rose_to = [](double share) {
    History history = tank(5);
    level(history, 0.2, 1);
    rain(history, 10, 3);
    level(history, share, 4);
    return look(history);
  };
  CHECK(build::find(rose_to(0.5551), "tank.level") == nullptr);
  const auto part = rose_to(0.5549);
  REQUIRE(build::find(part, "tank.level") != nullptr);
  CHECK(build::find(part, "tank.level")->case_of == kCaseRainCameShort);
  CHECK(reasons(*build::find(part, "tank.level")).front() == kReasonRunsOver);
  const auto nothing = rose_to(0.2);
  REQUIRE(build::find(nothing, "tank.level") != nullptr);
  CHECK(build::find(nothing, "tank.level")->case_of == kCaseNoRainCame);
  CHECK(reasons(*build::find(nothing, "tank.level")).front() == kReasonBlocked);
  CHECK(contains(build::find(nothing, "tank.level")->words.action, "blocked gutter"));
  // At most 495 L by the gauge: 695 L, and 50 more for the reading.
  CHECK(build::find(rose_to(0.7449), "tank.level") == nullptr);
  const auto high = rose_to(0.7451);
  REQUIRE(build::find(high, "tank.level") != nullptr);
  CHECK(build::find(high, "tank.level")->case_of == kCaseTooHigh);
  CHECK(reasons(*build::find(high, "tank.level")).front() == kReasonMisread);
}

TEST_CASE("tank: a full tank spills without being blamed, whichever came first") {
  // 50 mm bring 2250 L into 1000 L; 300 L drawn the same day, before or after the rain: 700 to 1000
  // L.
  for (const double share : {0.70, 0.85, 1.0}) {
    History history = tank(5);
    level(history, 0.5, 1);
    rain(history, 50, 3);
    draw(history, 300, 3);
    level(history, share, 4);
    CHECK(build::find(look(history), "tank.level") == nullptr);
  }
}

TEST_CASE("tank: without rain on record a rise is no finding, a loss is") {
  History rose = tank(5);
  level(rose, 0.2, 1);
  level(rose, 0.9, 4);
  CHECK(build::find(look(rose), "tank.level") == nullptr);
  History fell = tank(5);
  level(fell, 0.9, 1);
  level(fell, 0.2, 4);
  CHECK(build::find(look(fell), "tank.level") != nullptr);
}

TEST_CASE("tank: low below a week of the present draw") {
  // 28 days, 40 L on each: 40 L a day.
  const auto holding = [](double share) {
    History history = tank(27);
    for (int i = 0; i <= 26; ++i) draw(history, 40, i);
    level(history, share, 27, 7);
    draw(history, 40, 27);
    history.now = at(on(27), 9);  // the last draw is still to come
    history.out.back().at = at(on(27), 6);
    return look(history);
  };
  CHECK(build::find(holding(0.281), "tank.low") == nullptr);
  const auto low = holding(0.279);
  const model::Told* found = build::find(low, "tank.low");
  REQUIRE(found != nullptr);
  CHECK(found->urgency == Urgency::kToday);
  CHECK(found->threshold == "tank.low.days");
  CHECK(found->facts(kFactDays) == 6);
  CHECK(found->facts(kFactDrawBasis) == static_cast<int>(DrawBasis::kDraws));
  CHECK(contains(progress(low, "supply"), "6 days at 40 L a day"));
  REQUIRE(low.forecasts.size() == 1);
  CHECK(low.forecasts[0].likely == on(27) + date::days{6});
}

TEST_CASE("tank: what is in it is carried on by rain and draws") {
  History history = tank(5);
  level(history, 0.4, 1);
  rain(history, 2, 2);  // 90 L
  draw(history, 150, 3);
  CHECK(contains(progress(look(history), "water"), "about 340 L of 1,000 L"));
  History told = tank(5);
  build::setting(told, "uses", "beds 50L, hens 20 L");
  level(told, 0.7, 5, 7);
  CHECK(contains(progress(look(told), "supply"),
                 "10 days at 70 L a day without rain, by the uses given"));
}

TEST_CASE("tank: full from its share on") {
  const auto at_share = [](double share) {
    History history = tank(2);
    level(history, share, 2, 7);
    return look(history);
  };
  CHECK(build::find(at_share(0.949), "tank.full") == nullptr);
  const auto full = at_share(0.951);
  REQUIRE(build::find(full, "tank.full") != nullptr);
  CHECK(build::find(full, "tank.full")->urgency == Urgency::kReady);
  CHECK(full.stage == "full");
  CHECK(at_share(0).stage == "empty");
}

TEST_CASE("tank: level, volume and depth are one thing") {
  History history = tank(3);
  build::setting(history, "height", "2m", Value{Dimension::kLength, 2});
  build::reading(history, "depth", "", at(on(1)), 0.5);  // a quarter
  CHECK(contains(progress(look(history), "water"), "250 L of 1,000 L, read Tue 2 Mar"));
  build::reading(history, "held", "", at(on(3), 7), 600);
  CHECK(contains(progress(look(history), "water"), "600 L of 1,000 L, read today"));
}

TEST_CASE("tank: the first flush is taken once a wet spell") {
  // 9 L of pipe on 50 m2 at 90 %: 0.2 mm. Dry for more than 3 days, it takes again.
  History history = tank(20);
  build::setting(history, "flush", "9L", Value{Dimension::kVolume, 9});
  rain(history, 0.1, 1);  // all of it flushed
  rain(history, 1, 2);    // 0.1 mm flushed: 40.5 L
  rain(history, 1, 5);    // three days later: 45 L
  rain(history, 1, 9);    // four days later: 0.2 mm flushed, 36 L
  CHECK(figure(look(history), "tank.caught") == doctest::Approx(121.5));
  CHECK(figure(look(history), "tank.rain") == doctest::Approx(0.0031));
  // Dirt halves with each millimetre (LibreTexts, To Catch the Rain, 4.4): 0.5^0.2 = 87.1 %; a
  // tenth is left after 3.3219 mm, 149.5 L of this roof.
  CHECK(figure(look(history), "tank.flush_left") == doctest::Approx(std::exp2(-0.2)));
  const model::Assessment flushed = look(history);
  for (const model::Measure& one : flushed.measures) {
    if (one.key == "tank.flush_left") CHECK(contains(one.basis, "149 L would leave 10 %"));
  }
}

TEST_CASE("tank: cleaning, flushing and foul water") {
  CHECK(build::find(look(tank(182)), "tank.clean") == nullptr);
  CHECK(build::find(look(tank(183)), "tank.clean") != nullptr);
  History cleaned = tank(183);
  build::deed(cleaned, "cleaned", at(on(100)));
  CHECK(build::find(look(cleaned), "tank.clean") == nullptr);
  CHECK(build::find(look(tank(31)), "tank.flush") == nullptr);  // it has no such pipe
  History piped = tank(31);
  build::setting(piped, "flush", "9L", Value{Dimension::kVolume, 9});
  CHECK(build::find(look(piped), "tank.flush") != nullptr);
  build::deed(piped, "flushed", at(on(1)));
  CHECK(build::find(look(piped), "tank.flush") == nullptr);
  const auto seen = [](const char* word, int days_ago) {
    History history = tank(30);
    build::sensed(history, "water", word, at(on(30 - days_ago)));
    return look(history);
  };
  CHECK(build::find(seen("clear", 0), "tank.foul") == nullptr);
  CHECK(build::find(seen("wrigglers", 14), "tank.foul") != nullptr);
  CHECK(build::find(seen("wrigglers", 15), "tank.foul") == nullptr);
  const auto green = seen("green", 1);
  CHECK(has_caution(*build::find(green, "tank.foul"), "tank.drinking"));
  for (const auto& word : {kCloudy, kGreen, kFoul, kWrigglers}) {
    const auto looked = seen(word.word.data(), 2);
    const model::Told* found = build::find(looked, "tank.foul");
    REQUIRE(found != nullptr);
    CHECK(found->case_of == word.word);
    CHECK(found->since == on(28));
  }
  const auto dirty = look(tank(183));
  CHECK(has_caution(*build::find(dirty, "tank.clean"), "tank.ladder"));
}

TEST_CASE("tank: never for drinking") {
  const auto drawn_for = [](const char* purpose) {
    History history = tank(3);
    draw(history, 10, 2, purpose);
    return look(history);
  };
  CHECK(build::find(drawn_for("beds"), "tank.drink") == nullptr);
  const auto drunk = drawn_for("Drinking");
  REQUIRE(build::find(drunk, "tank.drink") != nullptr);
  for (const char* use : {"kitchen", "for cooking", "the house", "salad washing"}) {
    CHECK(build::find(drawn_for(use), "tank.drink") != nullptr);
  }
  for (const char* use : {"greenhouse beds", "bird bath", "compost tea", "hens"}) {
    CHECK(build::find(drawn_for(use), "tank.drink") == nullptr);
  }
  CHECK(build::find(drunk, "tank.drink")->urgency == Urgency::kNow);
  CHECK(build::find(drunk, "tank.drink")->case_of == kCaseTaken);
  CHECK(has_caution(*build::find(drunk, "tank.drink"), "tank.drinking"));
  History told = tank(3);
  build::setting(told, "uses", "drinking water 2L");
  const auto used = look(told);
  REQUIRE(build::find(used, "tank.drink") != nullptr);
  CHECK(build::find(used, "tank.drink")->case_of == kCaseTold);
}

TEST_CASE("tank: a month's rain typed as one day's is asked back") {
  const model::Rules rules;
  const auto doubted = [&](double millimetres, std::optional<int> last) {
    History history = tank(40);
    if (last) rain(history, 1, *last);
    return kinds::study(history, rules)->doubts(kRain, millimetres / 1000).has_value();
  };
  CHECK_FALSE(doubted(101, 39));  // a storm, after rain the day before
  CHECK(doubted(102, 39));
  CHECK_FALSE(doubted(50, 5));
  CHECK(doubted(51, 5));
  CHECK(doubted(51, 33));
  CHECK_FALSE(doubted(51, 34));
  CHECK(doubted(51, std::nullopt));
}

TEST_CASE("tank: its water goes to the soil of a bed, and a bed is told so") {
  History history = tank(3);
  const model::Rules rules;
  const auto said = [&](const char* to) {
    auto out = build::movement(build::material("rainwater"), {Dimension::kVolume, 20}, at(on(3)));
    out.to_kind = to;
    const auto study = kinds::study(history, rules);
    const auto cautions = kinds::cautions_at({.out = &out}, *study);
    return std::any_of(cautions.begin(), cautions.end(),
                       [](const model::Caution* one) { return one->id == "tank.leaves"; });
  };
  CHECK(said("bed"));
  CHECK_FALSE(said("pile"));
  CHECK_FALSE(said(""));
}

TEST_CASE("tank: the practitioner's own rule") {
  // Common practice, no source: 800 ft2 and two inches of rain at 0.623 gal give 996.8 gal; by the
  // exact factor 144/231, 997.4 gal.
  History history = build::batch("tank", "tank-1", kStart, on(3), measure::UnitSystem::kUs);
  build::setting(history, "roof", "800ft2", Value{Dimension::kArea, 800 * 0.09290304});
  build::setting(history, "runoff", "100%", Value{Dimension::kFraction, 1});
  build::reading(history, "rain", "", at(on(2)), 2 * 0.0254);
  const double gallons = figure(look(history), "tank.caught") / 3.785411784;
  CHECK(gallons == doctest::Approx(996.8).epsilon(0.001));
  CHECK(contains(progress(look(history), "catch"), "an inch of rain on 800 ft2 brings 499 gal"));
}

TEST_CASE("tank: every surface that can be told has a runoff of its own") {
  const std::vector<Surface> all{Surface::kMetal, Surface::kTile,   Surface::kShingle,
                                 Surface::kFlat,  Surface::kGravel, Surface::kGreen};
  const auto names = measure::split(kSurface.choices, ' ');
  REQUIRE(names.size() == all.size());
  for (std::size_t i = 0; i < names.size(); ++i) {
    History history = tank(1);
    build::setting(history, "surface", names[i]);
    CHECK(surface_of(history.batch) == all[i]);
  }
  CHECK(surface_of(tank(1).batch) == Surface::kUnsaid);
}

TEST_CASE("tank: only water goes in, and a list of uses must be one") {
  const kinds::Kind& kind = *kinds::find_kind("tank");
  CHECK_FALSE(kind.carrying.objects_to(build::material("water"), {}, {}));
  CHECK(kind.carrying.objects_to(build::material("straw"), {}, {})->refuses);
  CHECK_FALSE(kind.vocabulary.objects_to_setting("uses", "beds 40gal, 3 gal hens"));
  CHECK(kind.vocabulary.objects_to_setting("uses", "beds"));
  CHECK(kind.vocabulary.objects_to_setting("uses", "beds 40kg"));
  CHECK(kind.vocabulary.objects_to_setting("uses", "40gal"));
}

TEST_CASE("tank: what the draw foresees is scored where it did not rain") {
  History history = tank(40);
  for (int days = 0; days <= 30; ++days) draw(history, 10, days);
  level(history, 0.9, 5);
  level(history, 0.8, 15);   // ten a day: as foreseen
  level(history, 0.65, 25);  // 150 L in ten days: 50 more than foreseen
  level(history, 0.7, 35);
  rain(history, 5, 30);
  const auto scores = kinds::study(history, {})->replay();
  REQUIRE(scores.size() == 1);
  CHECK(scores[0].count == 2);
  CHECK(scores[0].disturbed == 1);
  CHECK(scores[0].ranged == 0);
  CHECK(scores[0].error_total == doctest::Approx(50));
  CHECK(scores[0].naive_total == doctest::Approx(100 + 150));
}

}  // namespace kinds_tank_test
