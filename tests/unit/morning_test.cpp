#include "season/morning.h"

#include <doctest/doctest.h>

#include "build_history.h"

// What a morning is made of, on findings that need no kind.
namespace morning_test {

using model::Urgency;
using season::Slot;

const model::Caution kFlame{"x.fire",   model::Hazard::kFire, "pile",           "start",
                            "no flame", "No flame.",          "common practice"};
const model::Caution kDirt{"x.germs",    model::Hazard::kGerms, "pile",           "start",
                           "wash hands", "Wash hands.",         "common practice"};

model::Told found(std::string batch, std::string rule, Urgency urgency, std::string_view job = {},
                  std::vector<const model::Caution*> cautions = {}) {
  model::Told told;
  told.batch = std::move(batch);
  told.rule = std::move(rule);
  told.urgency = urgency;
  told.job = job;
  told.cautions = std::move(cautions);
  return told;
}

const measure::Day kToday = build::day("2026-10-19");

TEST_CASE("morning: what one pair of hands answers at once is one job, as urgent as its worst") {
  const auto morning = season::morning_of({{"heap",
                                            {found("heap", "pile.hot", Urgency::kNow, "turn"),
                                             found("heap", "pile.turn", Urgency::kToday, "turn"),
                                             found("heap", "pile.dry", Urgency::kToday)},
                                            {},
                                            ""}},
                                          {}, kToday);
  REQUIRE(morning.jobs.size() == 2);
  CHECK(morning.jobs[0].slot == Slot::kNow);
  CHECK(morning.jobs[0].findings.size() == 2);
  CHECK(morning.jobs[0].lead().rule == "pile.hot");
  CHECK(morning.jobs[1].number == 2);
}

// Gas, fire and pressure before germs and before what merely spoils, within NOW and within TODAY.
TEST_CASE("morning: danger stands first, then the walking order") {
  const auto morning =
      season::morning_of({{"a", {found("a", "x.one", Urgency::kNow)}, {}, ""},
                          {"b", {found("b", "x.two", Urgency::kNow, {}, {&kDirt})}, {}, ""},
                          {"c",
                           {found("c", "x.three", Urgency::kNow, {}, {&kFlame}),
                            found("c", "x.four", Urgency::kToday)},
                           {},
                           ""},
                          {"d", {found("d", "x.five", Urgency::kToday, {}, {&kFlame})}, {}, ""}},
                         {}, kToday);
  std::vector<std::string> order;
  for (const season::Job& job : morning.jobs) order.push_back(job.lead().rule);
  CHECK(order == std::vector<std::string>{"x.three", "x.one", "x.two", "x.five", "x.four"});
}

TEST_CASE("morning: new is what was not there yesterday, or not as urgent") {
  const auto morning = season::morning_of(
      {{"a",
        {found("a", "x.one", Urgency::kNow), found("a", "x.two", Urgency::kToday),
         found("a", "x.three", Urgency::kToday)},
        {found("a", "x.one", Urgency::kToday), found("a", "x.two", Urgency::kToday)},
        ""}},
      {}, kToday);
  REQUIRE(morning.jobs.size() == 3);
  CHECK(morning.jobs[0].is_new);
  CHECK_FALSE(morning.jobs[1].is_new);
  CHECK(morning.jobs[2].is_new);
  CHECK(morning.count_new() == 2);
}

TEST_CASE("morning: what was put off is left out until its day, never what harms if it waits") {
  const std::vector<season::LookedAt> batches{
      {"a", {found("a", "x.one", Urgency::kNow), found("a", "x.two", Urgency::kToday)}, {}, ""}};
  const auto tomorrow = kToday + date::days{1};
  const auto off = season::morning_of(batches, {{"a", "", tomorrow}}, kToday);
  REQUIRE(off.jobs.size() == 1);
  CHECK(off.jobs[0].lead().rule == "x.one");
  CHECK(off.put_off.size() == 1);
  CHECK(season::morning_of(batches, {{"a", "", kToday}}, kToday).jobs.size() == 2);
  CHECK(season::morning_of(batches, {{"a", "x.other", tomorrow}}, kToday).jobs.size() == 2);
}

TEST_CASE(
    "morning: what must not be done until a day is held, not done; folded lines have no number") {
  auto wait = found("bed", "bed.wait", Urgency::kToday);
  wait.hold = true;
  const auto morning = season::morning_of(
      {{"bed", {wait, found("bed", "bed.short", Urgency::kSoon)}, {}, ""}, {"box", {}, {}, "well"}},
      {}, kToday);
  CHECK(morning.count(Slot::kHold) == 1);
  CHECK(morning.count(Slot::kSoon) == 1);
  for (const season::Job& job : morning.jobs) CHECK(job.number == 0);
  CHECK(morning.well.size() == 1);
  CHECK(morning.looked_at == 2);
}

model::Told unread(std::string batch) {
  auto told = found(std::move(batch), "x.unread", Urgency::kToday, "read");
  told.silence = true;
  return told;
}

TEST_CASE(
    "morning: what was only not looked at is one round over the batches, after all other work") {
  const auto morning = season::morning_of({{"a", {unread("a")}, {}, ""},
                                           {"b", {found("b", "x.two", Urgency::kToday)}, {}, ""},
                                           {"c", {unread("c")}, {unread("c")}, ""}},
                                          {}, kToday);
  REQUIRE(morning.jobs.size() == 2);
  CHECK(morning.jobs[0].lead().rule == "x.two");
  const season::Job& round = morning.jobs[1];
  CHECK(round.batch.empty());
  CHECK(round.number == 2);
  REQUIRE(round.findings.size() == 2);
  CHECK(round.findings[0].batch == "a");
  CHECK(round.findings[1].batch == "c");
  CHECK_FALSE(round.is_new);  // one of them stood yesterday
}

TEST_CASE("morning: who works on a batch looks at it too, also where the look alone was put off") {
  const std::vector<season::LookedAt> batches{
      {"a", {unread("a"), found("a", "x.turn", Urgency::kToday)}, {}, ""}};
  const auto morning = season::morning_of(batches, {}, kToday);
  REQUIRE(morning.jobs.size() == 1);
  CHECK(morning.jobs[0].lead().rule == "x.turn");
  CHECK(morning.jobs[0].findings.size() == 2);
  const auto off = season::morning_of(batches, {{"a", "x.turn", kToday + date::days{1}}}, kToday);
  REQUIRE(off.jobs.size() == 1);
  CHECK(off.jobs[0].lead().silence);
}

TEST_CASE("morning: what a batch has to give waits until it was looked at or made safe") {
  const auto ready = [](std::string batch) {
    return found(std::move(batch), "x.ready", Urgency::kReady);
  };
  const auto morning = season::morning_of(
      {{"a", {unread("a"), ready("a")}, {}, ""},
       {"b", {found("b", "x.vent", Urgency::kToday, {}, {&kFlame}), ready("b")}, {}, ""},
       {"c", {found("c", "x.turn", Urgency::kToday), ready("c")}, {}, ""}},
      {}, kToday);
  for (const season::Job& job : morning.jobs) {
    CHECK(job.waits == (job.slot == Slot::kReady && job.batch != "c"));
  }
  CHECK(morning.count(Slot::kReady) == 3);
}

}  // namespace morning_test
