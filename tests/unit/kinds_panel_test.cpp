#include <doctest/doctest.h>

#include <cmath>

#include "build_history.h"
#include "kinds/caution.h"
#include "kinds/panel/facts.h"

namespace kinds_panel_test {

// A set of panels at the edges of its findings.

using build::at;
using build::contains;
using build::day;
using build::figure;
using build::progress;
using measure::Dimension;
using measure::Value;
using model::History;
namespace panel = kinds::panel;

namespace {

const model::Day kStart = day("2027-05-01");
constexpr double kCorvallis = 44.57;

model::Day on(int days_later) {
  return kStart + date::days{days_later};
}

History panels(int days_later) {
  History history =
      build::batch("panel", "roof-pv", kStart, on(days_later), measure::UnitSystem::kMetric);
  history.latitude = kCorvallis;
  build::setting(history, "watts", "300W", Value{Dimension::kPower, 300});
  return history;
}

void made(History& history, double kwh, int days_later, bool clear = false) {
  build::reading(history, "energy", "", at(on(days_later), 19), kwh);
  if (clear) build::sensed(history, "sky", "clear", at(on(days_later), 19));
}

// Whatever is found, its line fits the morning.
model::Assessment look(const History& history) {
  auto made = kinds::assess(history, {});
  for (const model::Told& one : made.findings) {
    CAPTURE(one.words.line);
    CHECK_FALSE(one.words.line.empty());
    CHECK(build::columns(one.words.line) <= 46);
  }
  return made;
}

std::vector<std::string_view> ids(const std::vector<const model::Caution*>& cautions) {
  std::vector<std::string_view> all;
  for (const model::Caution* one : cautions) all.push_back(one->id);
  return all;
}
using Ids = std::vector<std::string_view>;

constexpr const char* kSun = "4 4.5 5 5.5 5.5 5.5 5.5 5.5 5 5 4.5 4";

}  // namespace

TEST_CASE("panel: clear days that make a fifth less are asked about") {
  const auto fell_to = [](double kwh) {
    History history = panels(40);
    history.latitude.reset();  // then days are set beside each other as they are
    for (const int i : {5, 10, 15}) made(history, 1.5, i, true);
    made(history, 0.3, 20);  // a dull day counts for neither
    for (const int i : {30, 35}) made(history, kwh, i, true);
    return look(history);
  };
  CHECK(build::find(fell_to(1.2001), "panel.weak") == nullptr);
  const auto weak = fell_to(1.1999);
  const model::Told* found = build::find(weak, "panel.weak");
  REQUIRE(found != nullptr);
  CHECK(found->threshold == "panel.weak.fall");
  CHECK(found->facts(panel::kRecentDays) == 2);
  CHECK(found->facts(panel::kBeforeDays) == 3);
  CHECK(found->facts(panel::kWindow) == 14);
  CHECK_FALSE(found->facts.is(panel::kBestDays));
  CHECK(found->facts(panel::kExpected).value == doctest::Approx(1.5));
  CHECK(found->facts(panel::kFall).value == doctest::Approx(1 - 1.1999 / 1.5));
  CHECK(found->job == panel::kJobClean);
  CHECK(ids(found->cautions) == Ids{"panel.wiring", "panel.roof"});
  CHECK(found->words.line == "wipe them clean: clear days make 20 % less");
}

TEST_CASE("panel: too few clear days say nothing") {
  History history = panels(40);
  history.latitude.reset();
  for (const int i : {5, 10}) made(history, 1.5, i, true);
  for (const int i : {30, 35}) made(history, 0.5, i, true);
  CHECK(build::find(look(history), "panel.weak") == nullptr);
  History one = panels(40);
  one.latitude.reset();
  for (const int i : {5, 10, 15}) made(one, 1.5, i, true);
  made(one, 0.5, 35, true);
  CHECK(build::find(look(one), "panel.weak") == nullptr);
}

TEST_CASE("panel: the season is no fault") {
  // Clear days in June against clear days in October, when the sun above the air at Corvallis is
  // about half: nothing to set side by side.
  History history = panels(180);
  for (const int i : {40, 45, 50}) made(history, 1.8, i, true);
  for (const int i : {172, 176}) made(history, 0.9, i, true);
  CHECK(build::find(look(history), "panel.weak") == nullptr);
}

TEST_CASE("panel: where the sky is never logged the best days stand for the clear ones") {
  const auto best_of_late = [](double kwh) {
    History history = panels(50);
    history.latitude.reset();
    for (int i = 0; i <= 35; ++i) made(history, i % 3 == 0 ? 1.5 : 0.6, i);
    for (int i = 37; i <= 50; ++i) made(history, i % 3 == 0 ? kwh : 0.4, i);
    return look(history);
  };
  CHECK(build::find(best_of_late(1.21), "panel.weak") == nullptr);
  REQUIRE(build::find(best_of_late(1.19), "panel.weak") != nullptr);
  CHECK(build::find(best_of_late(1.19), "panel.weak")->facts.is(panel::kBestDays));
}

TEST_CASE("panel: what is expected, and how long it carries each use") {
  // 300 W x 5.5 h x 0.86 x 0.96 = 1.36 kWh (May; NREL/TP-6A20-62641: losses of 14 %, inverter of 96
  // %); 60 W run 22.7 hours on it, 10 W all day and night.
  History history = panels(5);
  build::setting(history, "sun", kSun);
  build::setting(history, "uses", "pump 60W, lamp 10W");
  made(history, 1, 4);
  const auto assessment = look(history);
  CHECK(contains(progress(assessment, "made"), "1 kWh Wed 5 May, 73.4 % of a mean day's 1.36 kWh"));
  CHECK(contains(progress(assessment, "uses"),
                 "a day's 1.36 kWh carries pump 22.7 hours, or lamp all day and night"));
  CHECK(figure(assessment, "panel.expected") == doctest::Approx(1.36224));
  CHECK(figure(assessment, "panel.share") == doctest::Approx(1 / 1.36224));
  CHECK(figure(assessment, "panel.hours.pump") == doctest::Approx(1000.0 / 60));
  // Losses that were told multiply: 1 - 0.97 x 0.98 = 4.94 %.
  build::setting(history, "losses", "soiling 3%, wiring 2%");
  CHECK(figure(look(history), "panel.expected") == doctest::Approx(0.3 * 5.5 * 0.97 * 0.98));
}

TEST_CASE("panel: a meter's rise is shared out over the days between") {
  History history = panels(10);
  build::reading(history, "meter", "", at(on(1)), 100);
  build::reading(history, "meter", "", at(on(2)), 101.2);
  build::reading(history, "meter", "", at(on(5)), 104.2);
  build::reading(history, "meter", "", at(on(6)), 0.9);  // a new meter
  const auto assessment = look(history);
  CHECK(figure(assessment, "panel.made") == doctest::Approx(4.2));
  REQUIRE(assessment.measures.size() == 1);
  CHECK(contains(assessment.measures[0].basis, "on 4 days, 3 of them shared out"));
}

TEST_CASE("panel: more than the sun above the air can give") {
  // Allen et al. 1998 (FAO-56): on a level panel at 44.57 north on 5 May the sun above the air is
  // 10.4 hours of 1 kW/m2 (Ra 37.6 MJ/m2 by the equations): 3.13 kWh from 300 W, and 5 % more.
  const auto logged = [](double kwh) {
    History history = panels(4);
    build::setting(history, "tilt", "0");
    made(history, kwh, 4);
    return look(history);
  };
  CHECK(build::find(logged(3.2), "panel.over") == nullptr);
  CHECK(build::find(logged(3.4), "panel.over") != nullptr);
  // Tilted, a panel may face the sun all day: more is possible.
  History tilted = panels(4);
  made(tilted, 3.4, 4);
  CHECK(build::find(look(tilted), "panel.over") == nullptr);
  History told = panels(4);
  build::setting(told, "tilt", "0");
  build::setting(told, "sun", "1 2 3 4 5 13 6 5 4 3 2 1");
  REQUIRE(build::find(look(told), "panel.sun") != nullptr);
  CHECK(build::find(look(told), "panel.sun")->facts(panel::kMonth) == 6);
  CHECK(build::find(look(told), "panel.sun")->facts(panel::kHoursTold).value == 13);
}

TEST_CASE("panel: the battery's floor, and the days it carries") {
  const auto charged = [](double share, const char* chemistry) {
    History history = panels(9);
    build::setting(history, "battery", "2.4kWh", Value{Dimension::kEnergy, 2.4});
    build::setting(history, "chemistry", chemistry);
    build::reading(history, "charge", "", at(on(9), 7), share);
    return look(history);
  };
  CHECK(build::find(charged(0.61, "lead-acid"), "panel.low") == nullptr);
  CHECK(build::find(charged(0.59, "lead-acid"), "panel.low") != nullptr);
  CHECK(build::find(charged(0.31, "lithium"), "panel.low") == nullptr);
  const auto lithium = charged(0.19, "lithium");
  CHECK(build::find(lithium, "panel.low")->facts(panel::kFloor).value == doctest::Approx(0.2));
  CHECK(ids(build::find(lithium, "panel.low")->cautions) == Ids{"panel.wiring", "panel.battery"});
  History used = panels(9);
  build::setting(used, "battery", "2.4kWh", Value{Dimension::kEnergy, 2.4});
  for (int i = 0; i <= 9; ++i) {
    used.out.push_back(
        build::movement(build::material("electricity"), {Dimension::kEnergy, 0.6}, at(on(i), 7)));
  }
  // 2.4 kWh, half of it usable, at 0.6 a day: 2 days; three days want 3.6 kWh.
  CHECK(contains(progress(look(used), "battery"), "it lasts 2 days"));
  CHECK(contains(progress(look(used), "battery"), "3 days would want 3.6 kWh"));
}

TEST_CASE(
    "panel: hands at panels and at a battery are warned, one of unknown chemistry of its gas too") {
  const auto at = [](const kinds::Handled& handled, const char* battery, const char* chemistry) {
    History history = panels(1);
    if (battery != nullptr)
      build::setting(history, "battery", battery, Value{Dimension::kEnergy, 2.4});
    if (chemistry != nullptr) build::setting(history, "chemistry", chemistry);
    return ids(kinds::cautions_at(handled, *kinds::study(history, {})));
  };
  kinds::Handled start;
  start.starts = true;
  CHECK(at(start, nullptr, nullptr) == Ids{"panel.wiring", "panel.roof"});
  CHECK(at(start, "2.4kWh", "lithium") == Ids{"panel.wiring", "panel.battery", "panel.roof"});
  const Ids all{"panel.wiring", "panel.battery", "panel.gas", "panel.roof"};
  CHECK(at(start, "2.4kWh", nullptr) == all);
  CHECK(at({.logged = {"checked"}}, "2.4kWh", nullptr) == all);
  CHECK(at({.logged = {"cleaned"}}, "2.4kWh", nullptr) == Ids{"panel.roof"});
  CHECK(at({.logged = {"energy"}}, "2.4kWh", nullptr).empty());
}

TEST_CASE("panel: settings that are lists are read at the start") {
  const kinds::Kind& kind = *kinds::find_kind("panel");
  CHECK_FALSE(kind.vocabulary.objects_to_setting("sun", kSun));
  CHECK(kind.vocabulary.objects_to_setting("sun", "4 5 6"));
  CHECK(kind.vocabulary.objects_to_setting("sun", "4 4.5 5 5.5 5.5 55 5.5 5.5 5 5 4.5 4"));
  CHECK_FALSE(kind.vocabulary.objects_to_setting("losses", "soiling 3%, wiring 2%"));
  CHECK(kind.vocabulary.objects_to_setting("losses", "soiling"));
  CHECK(kind.vocabulary.objects_to_setting("losses", "soiling 130%"));
  CHECK(kind.vocabulary.objects_to_setting("uses", "pump 60gal"));
  CHECK_FALSE(kind.vocabulary.objects_to_setting("tilt", "30"));
  CHECK(kind.vocabulary.objects_to_setting("tilt", "120"));
}

}  // namespace kinds_panel_test
