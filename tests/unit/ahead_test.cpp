#include "season/ahead.h"

#include <doctest/doctest.h>

#include "build_history.h"
#include "cli/desk/ahead.h"
#include "kinds/kind.h"
#include "kinds/rhythm.h"

namespace ahead_test {

using build::at;
using build::day;
using kinds::ForesightScore;
using model::Forecast;

namespace {

const measure::Day kToday = day("2026-10-19");  // a Monday

season::Ahead asked(const char* from, const char* to) {
  season::Ahead made;
  made.days = {day(from), day(to)};
  return made;
}

season::Ahead of(const model::History& history, const char* from, const char* to) {
  season::Ahead made = asked(from, to);
  const model::Rules rules;
  const auto study = kinds::study(history, rules);
  season::look_ahead(*study, study->told(), made);
  season::sort_by_day(made);
  return made;
}

const season::FallsDue* find(const season::Ahead& ahead, std::string_view rule) {
  for (const season::FallsDue& one : ahead.due) {
    if (one.finding.rule == rule) return &one;
  }
  return nullptr;
}

std::string doubt(const char* earliest, const char* likely, const char* latest) {
  const auto read = [](const char* text) {
    return *text == '\0' ? std::nullopt : measure::parse_iso_date(text);
  };
  Forecast forecast;
  forecast.earliest = read(earliest);
  forecast.likely = read(likely);
  forecast.latest = read(latest);
  return season::doubt_words(forecast, kToday);
}

model::History sealed_drum(const char* vented) {
  model::History history =
      build::batch("brew", "drum-1", day("2026-10-01"), kToday, measure::UnitSystem::kMetric);
  build::setting(history, "lid", "sealed");
  build::reading(history, "temperature", "", at(day("2026-10-19")), 15);
  build::deed(history, "stirred", at(day(vented)));
  build::deed(history, "vented", at(day(vented)));
  return history;
}

}  // namespace

TEST_CASE("ahead: a day that is foreseen carries its doubt") {
  CHECK(doubt("2026-11-28", "2026-12-05", "2026-12-12") == "about Sat 5 Dec, a week either way");
  CHECK(doubt("2026-12-02", "2026-12-05", "2026-12-08") == "about Sat 5 Dec, 3 days either way");
  CHECK(doubt("2026-12-04", "2026-12-05", "2026-12-06") == "about Sat 5 Dec, a day either way");
  CHECK(doubt("2026-11-14", "2026-12-05", "2026-12-26") == "about Sat 5 Dec, 3 weeks either way");
  CHECK(doubt("2026-11-16", "2026-11-22", "2026-12-12") ==
        "about Sun 22 Nov, between Mon 16 Nov and Sat 12 Dec");
  CHECK(doubt("2026-11-28", "2027-01-29", "2029-07-24") ==
        "about Fri 29 Jan 2027, from Sat 28 Nov on, or much later");
  CHECK(doubt("2026-10-24", "", "") == "Sat 24 Oct at the earliest");
  CHECK(doubt("2026-10-24", "", "2026-10-28") == "between Sat 24 Oct and Wed 28 Oct");
  CHECK(doubt("2027-01-31", "2027-01-31", "2027-01-31") == "Sun 31 Jan 2027");
  CHECK(doubt("2027-01-31", "2027-01-31", "") == "Sun 31 Jan 2027");
  CHECK(doubt("", "2026-10-24", "") == "about Sat 24 Oct");
}

// The rule of brew.vent.days is 2: vented today, a drum is due the day after tomorrow.
TEST_CASE("ahead: what falls due is found on its day, and told once") {
  const season::Ahead week = of(sealed_drum("2026-10-19"), "2026-10-20", "2026-10-26");
  const season::FallsDue* vent = find(week, "brew.vent");
  REQUIRE(vent != nullptr);
  CHECK(vent->day == day("2026-10-21"));
  CHECK(std::count_if(week.due.begin(), week.due.end(), [](const season::FallsDue& one) {
          return one.finding.rule == "brew.vent";
        }) == 1);
  // What hurts is said with it.
  CHECK_FALSE(vent->finding.cautions.empty());
  CHECK(find(week, "brew.stir") != nullptr);
}

TEST_CASE("ahead: what the morning has already is not told again") {
  const season::Ahead week = of(sealed_drum("2026-10-16"), "2026-10-20", "2026-10-26");
  CHECK(find(week, "brew.vent") == nullptr);
}

// Whoever comes on Saturday finds what fell due on Wednesday.
TEST_CASE("ahead: what fell due before the days asked for stands on the first of them") {
  const season::Ahead weekend = of(sealed_drum("2026-10-19"), "2026-10-24", "2026-10-25");
  const season::FallsDue* vent = find(weekend, "brew.vent");
  REQUIRE(vent != nullptr);
  CHECK(vent->day == day("2026-10-24"));
}

TEST_CASE("ahead: nothing is told of a batch that has ended") {
  model::History history = sealed_drum("2026-10-19");
  history.batch.ended = history.now;
  const season::Ahead week = of(history, "2026-10-20", "2026-10-26");
  CHECK(week.due.empty());
  CHECK(week.readings.empty());
}

// A hot pile is read each morning (a third of pile.unread.days, common practice).
TEST_CASE("ahead: readings come round in the kind's rhythm") {
  model::History history = build::batch("pile", "heap-1", day("2026-10-05"), kToday);
  for (int i = 0; i < 14; ++i) {
    build::reading(history, "temperature", "core", at(day("2026-10-06") + date::days{i}), 58);
  }
  const season::Ahead week = of(history, "2026-10-20", "2026-10-26");
  REQUIRE(week.readings.size() == 1);
  CHECK(week.readings[0].days.size() == 7);
  CHECK(week.readings[0].what == "temperature");
  CHECK(week.looks.empty());
}

TEST_CASE("ahead: a rhythm of several days falls on its own days") {
  const season::Ahead week = of(sealed_drum("2026-10-19"), "2026-10-20", "2026-10-26");
  REQUIRE(week.looks.size() == 1);
  const auto& look = week.looks[0];
  REQUIRE(look.every > 1);
  for (std::size_t i = 1; i < look.days.size(); ++i) {
    CHECK((look.days[i] - look.days[i - 1]).count() == look.every);
  }
}

// A bin that was fed every third day goes on so; one that was fed twice shows no rhythm.
TEST_CASE("ahead: feeding goes on as of late") {
  model::History history =
      build::batch("larvae", "bin-a", day("2026-10-01"), kToday, measure::UnitSystem::kMetric);
  const auto any = [](const model::Movement&) { return true; };
  const auto feed = [&](const char* on) {
    history.in.push_back(build::movement(build::material("vegetable waste"),
                                         {measure::Dimension::kMass, 2}, at(day(on))));
  };
  feed("2026-10-05");
  feed("2026-10-08");
  CHECK_FALSE(kinds::feeding_of_late(history, any));
  feed("2026-10-11");
  feed("2026-10-11");  // twice on one day is once
  feed("2026-10-17");
  const auto rhythm = kinds::feeding_of_late(history, any);
  REQUIRE(rhythm);
  CHECK(rhythm->every == 3);
  CHECK(rhythm->next == day("2026-10-20"));
}

// A forecast is told only where the site's own batches do not show it to be worth nothing.
TEST_CASE("ahead: a forecast that did worse than no change is left out") {
  const auto with = [](int judged, double error, double naive) {
    season::Ahead made = asked("2026-10-20", "2026-10-26");
    Forecast ready{"ready", {}, day("2026-10-22"), {}, "", {}, "ready", "ready"};
    Forecast counted{"charged", {}, day("2026-10-22"), {}, "", {}, "charged"};
    made.foretold = {{"a", "x", ready, day("2026-10-22")},
                     {"a", "x", counted, day("2026-10-22")},
                     {"b", "y", ready, day("2026-10-22")}};
    ForesightScore score{.what = "ready",
                         .count = judged,
                         .error_total = error * judged,
                         .naive_total = naive * judged};
    const ForesightScore other{.what = "cooled", .count = 99, .error_total = 999};
    season::keep_earned("x", {score, other}, made);
    return made.foretold;
  };
  const auto earned = with(20, 1, 3);
  REQUIRE(earned.size() == 3);
  CHECK_FALSE(earned[0].untried);
  const auto lost = with(20, 3, 1);
  REQUIRE(lost.size() == 2);
  CHECK(lost[0].forecast.what == "charged");  // it is counted by a rule
  CHECK(lost[1].batch == "b");
  const auto untried = with(3, 3, 1);
  REQUIRE(untried.size() == 3);
  CHECK(untried[0].untried);
  CHECK_FALSE(untried[1].untried);
}

TEST_CASE("ahead: the days that are asked for") {
  const auto span = [](const char* text) {
    const auto days = cli::days_asked({text}, kToday);
    return days ? measure::iso_date(days->from) + " " + measure::iso_date(days->to)
                : days.mistake().why;
  };
  CHECK(span("7d") == "2026-10-20 2026-10-26");
  CHECK(span("2w") == "2026-10-20 2026-11-02");
  CHECK(span("tomorrow") == "2026-10-20 2026-10-20");
  CHECK(span("sat") == "2026-10-20 2026-10-24");
  CHECK(span("sat..sun") == "2026-10-24 2026-10-25");
  CHECK(span("2026-10-24..2026-10-24") == "2026-10-24 2026-10-24");
  CHECK(span("92d") == "2026-10-20 2027-01-19");
  CHECK(build::contains(span("93d"), "looks no further"));
  CHECK(build::contains(span("sat..93d"), "looks no further"));
  CHECK(build::contains(span("2026-10-18"), "no day to come"));
  CHECK(build::contains(span("2026-10-24..2026-10-20"), "does not come after"));
  CHECK(build::contains(span("sat.."), "two days"));
  CHECK(build::contains(span("..sun"), "two days"));
  CHECK(build::contains(span("0d"), "no day to come"));
  CHECK(cli::days_asked({}, kToday)->to == day("2026-10-26"));
}

}  // namespace ahead_test
