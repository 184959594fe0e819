#include <doctest/doctest.h>

#include <cmath>

#include "build_history.h"
#include "kinds/caution.h"
#include "kinds/kind.h"
#include "kinds/nestbox/facts.h"
#include "render/text.h"

namespace kinds_nestbox_test {

// A nest box at the edges of its findings. All limits are common practice for small songbirds.

using build::at;
using build::day;
using build::figure;
using model::History;

namespace {

History box(const char* started, const char* today, std::optional<double> latitude = 44.6) {
  History history = build::batch("nestbox", "box-1", day(started), day(today));
  history.latitude = latitude;
  return history;
}

void count(History& history, const char* what, double number, const char* on) {
  build::reading(history, what, "", at(day(on), 9), number);
}

// Every line that is made on the way must fit the morning.
model::Assessment look(const History& history) {
  model::Assessment made = kinds::assess(history, {});
  for (const model::Told& one : made.findings) {
    CHECK_MESSAGE(render::columns(one.words.line) <= 46, one.words.line);
    CHECK_FALSE(one.words.line.empty());
    CHECK_FALSE(one.job.empty());
    CHECK_FALSE(one.ends.empty());
  }
  return made;
}

std::string ids(const model::Told& finding) {
  std::string all;
  for (const model::Caution* one : finding.cautions) {
    all += (all.empty() ? "" : " ") + std::string(one->id);
  }
  return all;
}

}  // namespace

TEST_CASE("nestbox: looked into weekly in the season, and only then") {
  History history = box("2027-03-20", "2027-04-09");
  build::deed(history, "checked", at(day("2027-04-02"), 9));
  CHECK(build::find(look(history), "nestbox.check") == nullptr);  // 7 days
  history.today = day("2027-04-10");
  CHECK(build::find(look(history), "nestbox.check") != nullptr);
  // 15 March (day 74) opens the season, 15 August (day 227) ends it.
  CHECK(build::find(look(box("2027-01-01", "2027-03-14")), "nestbox.check") == nullptr);
  CHECK(build::find(look(box("2027-01-01", "2027-03-15")), "nestbox.check") != nullptr);
  CHECK(build::find(look(box("2027-01-01", "2027-08-15")), "nestbox.check") != nullptr);
  CHECK(build::find(look(box("2027-01-01", "2027-08-16")), "nestbox.check") == nullptr);
  // South of the line it is the other half of the year.
  CHECK(build::find(look(box("2027-01-01", "2027-05-15", -33.9)), "nestbox.check") == nullptr);
  CHECK(build::find(look(box("2027-01-01", "2027-11-15", -33.9)), "nestbox.check") != nullptr);
}

TEST_CASE("nestbox: young that are nearly ready are left alone") {
  History history = box("2027-03-20", "2027-05-12");
  count(history, "eggs", 5, "2027-04-20");
  count(history, "young", 4, "2027-05-01");
  CHECK(build::find(look(history), "nestbox.leave") == nullptr);  // 11 days
  CHECK(look(history).stage == "young");
  history.today = day("2027-05-13");
  CHECK(build::find(look(history), "nestbox.leave") != nullptr);
  CHECK(build::find(look(history), "nestbox.check") == nullptr);
  history.today = day("2027-05-26");
  CHECK(build::find(look(history), "nestbox.leave") != nullptr);
  CHECK(build::find(look(history), "nestbox.fledged") == nullptr);
  history.today = day("2027-05-27");
  CHECK(build::find(look(history), "nestbox.leave") == nullptr);
  CHECK(build::find(look(history), "nestbox.fledged") != nullptr);
}

TEST_CASE("nestbox: eggs that do not hatch, and when they should") {
  History history = box("2027-03-20", "2027-04-25");
  count(history, "eggs", 5, "2027-04-20");
  const auto early = look(history);
  REQUIRE(early.forecasts.size() == 1);
  CHECK(early.forecasts[0].earliest == day("2027-05-02"));
  // 18 days of sitting (bluebird, swallows: Wittenberg University, nest box occupants) and six of
  // laying.
  CHECK(early.forecasts[0].latest == day("2027-05-14"));
  CHECK(early.stage == "eggs");
  history.today = day("2027-05-18");
  CHECK(build::find(look(history), "nestbox.cold") == nullptr);
  history.today = day("2027-05-19");
  CHECK(build::find(look(history), "nestbox.cold") != nullptr);
  CHECK(look(history).forecasts.empty());
}

TEST_CASE("nestbox: broods are told apart, and counted once") {
  History history = box("2027-03-20", "2027-09-01");
  count(history, "eggs", 4, "2027-04-20");
  count(history, "eggs", 5, "2027-04-23");  // one brood of 5
  count(history, "young", 4, "2027-05-05");
  count(history, "fledged", 3, "2027-05-22");
  count(history, "eggs", 5, "2027-06-10");  // the second: left
  build::sensed(history, "nest", "abandoned", at(day("2027-06-25"), 9));
  const auto assessment = look(history);
  CHECK(figure(assessment, "nestbox.broods") == 2);
  CHECK(figure(assessment, "nestbox.eggs") == 10);
  CHECK(figure(assessment, "nestbox.young") == 4);
  CHECK(figure(assessment, "nestbox.fledged") == 3);
  CHECK(figure(assessment, "nestbox.fledged_brood") == doctest::Approx(1.5));
  CHECK(figure(assessment, "nestbox.success") == doctest::Approx(0.5));
  // An empty box ends a brood too, and a count of 0 eggs beside young does not.
  History third = box("2027-03-20", "2027-06-01");
  count(third, "eggs", 5, "2027-04-20");
  count(third, "eggs", 0, "2027-05-05");
  count(third, "young", 4, "2027-05-05");
  CHECK(look(third).stage == "young");
  count(third, "young", 0, "2027-05-20");
  CHECK(look(third).stage == "free");
  CHECK(figure(look(third), "nestbox.broods") == 1);
}

TEST_CASE("nestbox: cleaned once the season is over") {
  History history = box("2027-03-20", "2027-08-15");
  count(history, "eggs", 5, "2027-04-20");
  count(history, "fledged", 4, "2027-05-22");
  CHECK(build::find(look(history), "nestbox.clean") == nullptr);  // a second brood may come
  history.today = day("2027-08-16");
  const auto over = look(history);
  REQUIRE(build::find(over, "nestbox.clean") != nullptr);
  const auto* clean = build::find(over, "nestbox.clean");
  CHECK(clean->facts.get(kinds::nestbox::kLeftOn) == day("2027-05-22"));
  CHECK(ids(*clean) == "nestbox.droppings nestbox.wasps nestbox.ladder");
  REQUIRE(clean->ends.size() == 1);
  CHECK(clean->ends[0].by == model::Ending::By::kDeed);
  CHECK(clean->ends[0].name == "cleaned");
  build::deed(history, "cleaned", at(day("2027-08-16"), 10));
  CHECK(build::find(look(history), "nestbox.clean") == nullptr);
  CHECK(build::find(look(box("2027-03-20", "2027-08-16")), "nestbox.clean") == nullptr);
}

TEST_CASE("nestbox: findings as facts: days, since when, one finding for one look") {
  History history = box("2027-03-20", "2027-05-30");
  count(history, "eggs", 5, "2027-04-20");
  count(history, "young", 4, "2027-05-01");
  const auto late = look(history);
  const auto* fledged = build::find(late, "nestbox.fledged");
  REQUIRE(fledged != nullptr);
  CHECK(fledged->facts.get(kinds::nestbox::kDays) == 29);
  CHECK(fledged->since == day("2027-05-27"));
  CHECK(ids(*fledged) == "nestbox.nest");
  CHECK(build::find(late, "nestbox.check") == nullptr);
  const auto never = look(box("2027-03-10", "2027-04-20"));
  const auto* check = build::find(never, "nestbox.check");
  REQUIRE(check != nullptr);
  CHECK(check->facts.is(kinds::nestbox::kNeverLooked));
  CHECK(check->since == day("2027-03-18"));
  CHECK(check->words.line == "look in: never yet, up 41 days");
}

TEST_CASE("nestbox: what hands do at a box has its caution") {
  const History history = box("2027-03-20", "2027-04-09");
  const auto study = kinds::study(history, {});
  const auto first = [&](const kinds::Handled& handled) {
    const auto found = kinds::cautions_at(handled, *study);
    return found.empty() ? std::string() : std::string(found.front()->id);
  };
  CHECK(first({.starts = true}) == "nestbox.ladder");
  CHECK(first({.logged = {"cleaned"}}) == "nestbox.droppings");
  CHECK(first({.logged = {"mended"}}) == "nestbox.ladder");
  CHECK(first({.logged = {"eggs"}}).empty());
}

TEST_CASE("a nest that was built is its brood's: once they have flown the box is free") {
  History history = box("2027-03-01", "2027-05-20");
  build::sensed(history, "nest", "building", at(day("2027-04-01"), 9));
  CHECK(look(history).stage == "building");
  count(history, "eggs", 5, "2027-04-15");
  count(history, "fledged", 5, "2027-05-18");
  CHECK(look(history).stage == "free");
  build::sensed(history, "nest", "building", at(day("2027-05-19"), 9));
  CHECK(look(history).stage == "building");
}

}  // namespace kinds_nestbox_test
