#include <doctest/doctest.h>

#include "build_history.h"
#include "kinds/bed/facts.h"
#include "kinds/bed/wait.h"
#include "kinds/kind.h"
#include "render/text.h"

namespace kinds_bed_wait_test {

namespace bed_facts = kinds::bed;
using measure::Dimension;
using model::Urgency;

// 7 CFR 205.203(c)(1): raw manure is dug in "not less than 120 days prior to the harvest" of a crop
// whose edible portion touches soil, "not less than 90 days" where it does not; crops that people
// do not eat wait for nothing.
namespace {

const model::Rules kNoRules;

const model::Day kApplied = build::day("2025-01-01");

model::Movement raw(model::Day day) {
  model::Movement load =
      build::movement(build::material("manure brew"), {Dimension::kVolume, 20}, build::at(day, 9));
  load.from = "drum-2";
  load.from_kind = "brew";
  load.manure.push_back({"dairy manure", {"dig-1", "drum-2"}, "brewing does not kill its germs"});
  return load;
}

model::History bed(model::Day today, const char* touches = nullptr) {
  model::History history = build::batch("bed", "bed-3", build::day("2024-12-01"), today);
  build::setting(history, "crop", "lettuce");
  if (touches != nullptr) build::setting(history, "touches_soil", touches);
  history.in.push_back(raw(kApplied));
  return history;
}

// Every line that is said in these tests fits where it stands.
model::Assessment assess(const model::History& history) {
  auto made = kinds::assess(history, {});
  for (const model::Told& one : made.findings) {
    CAPTURE(one.words.line);
    CHECK_FALSE(one.words.line.empty());
    CHECK(render::columns(one.words.line) <= 46);
  }
  return made;
}

std::optional<kinds::Objection> objection(const model::History& history) {
  const auto harvest =
      build::movement(build::material("lettuce"), {Dimension::kMass, 2}, history.now);
  return kinds::study(history, kNoRules)->against_taking(harvest);
}

}  // namespace

// Applied on 1 January 2025: by the calendar 90 days are 1 April, 120 days 1 May; "not less than"
// lets the harvest happen on that day.
TEST_CASE("the harvest waits 90 or 120 days, and not a day longer") {
  struct Row {
    const char* touches;
    const char* last_refused;
    const char* first_allowed;
  };
  for (const Row& row :
       {Row{"yes", "2025-04-30", "2025-05-01"}, Row{"no", "2025-03-31", "2025-04-01"},
        Row{nullptr, "2025-04-30", "2025-05-01"}}) {
    CAPTURE(row.first_allowed);
    const auto before = bed(build::day(row.last_refused), row.touches);
    CHECK(build::find(assess(before), "bed.wait"));
    REQUIRE(objection(before));
    CHECK(objection(before)->refuses);
    const auto after = bed(build::day(row.first_allowed), row.touches);
    CHECK_FALSE(build::find(assess(after), "bed.wait"));
    CHECK(build::find(assess(after), "bed.safe"));
    CHECK_FALSE(objection(after));
  }
}

TEST_CASE("bed.wait names the chain, the day and why the longer wait is taken") {
  const auto found = assess(bed(build::day("2025-02-01")));
  const model::Told* wait = build::find(found, "bed.wait");
  REQUIRE(wait);
  CHECK(wait->facts(bed_facts::kSafe) == build::day("2025-05-01"));
  CHECK(wait->facts(bed_facts::kWay) ==
        std::vector<std::string>{"dairy manure", "dig-1", "drum-2"});
  CHECK(wait->facts(bed_facts::kTouches));
  CHECK_FALSE(wait->facts(bed_facts::kContactSaid));
  CHECK(wait->hold);
  CHECK(wait->since == kApplied);
  CHECK(wait->words.line == "pick none before Thu 1 May 2025: raw manure");
  CHECK(wait->words.says.find("Thu 1 May 2025") != std::string::npos);
  CHECK(wait->words.why ==
        "dairy manure → dig-1 → drum-2 → bed-3 (brewing does not kill its germs); taken as "
        "touching soil: touches_soil= was not given");
  CHECK(wait->due == build::day("2025-05-01"));
  CHECK(wait->urgency == Urgency::kSoon);
  REQUIRE(wait->cautions.size() == 1);
  CHECK(wait->cautions[0]->id == "bed.manure");
  CHECK(found.stage == "waiting");
}

TEST_CASE("a crop that is ripe before its day wants a decision") {
  auto history = bed(build::day("2025-03-10"));
  build::setting(history, "days_to_harvest", "50 days", measure::Value{Dimension::kDuration, 50});
  build::deed(history, "planted", build::at(build::day("2025-01-15")));
  const auto found = assess(history);
  const model::Told* wait = build::find(found, "bed.wait");
  REQUIRE(wait);
  CHECK(wait->urgency == Urgency::kToday);
  CHECK(wait->case_of == bed_facts::kCaseRipeFirst);
  CHECK(wait->facts(bed_facts::kRipe) == build::day("2025-03-06"));
}

TEST_CASE("the latest load decides, and manure of an earlier crop still counts") {
  auto history = bed(build::day("2025-05-10"));
  history.in.push_back(raw(build::day("2025-02-01")));
  CHECK(kinds::bed::wait_of(history, {})->safe == build::day("2025-06-01"));
  auto next = build::batch("bed", "bed-3", build::day("2025-04-01"), build::day("2025-04-20"));
  next.earlier_in.push_back(raw(kApplied));
  CHECK(build::find(assess(next), "bed.wait"));
}

TEST_CASE("what nobody eats, and what holds no raw manure, waits for nothing") {
  auto flowers = bed(build::day("2025-02-01"));
  build::setting(flowers, "eaten", "no");
  CHECK_FALSE(build::find(assess(flowers), "bed.wait"));
  auto plants = bed(build::day("2025-02-01"));
  plants.in.front().manure.clear();
  CHECK_FALSE(build::find(assess(plants), "bed.wait"));
  CHECK_FALSE(objection(plants));
}

// Droppings left in place are raw manure spread that day: the same days by the same rule.
TEST_CASE("stock on a bed makes its harvest wait from its last day there") {
  auto history = bed(build::day("2025-05-10"));
  history.in.clear();
  build::deed(history, "grazed", build::at(build::day("2025-01-20")));
  build::deed(history, "grazed", build::at(build::day("2025-02-01")));
  const auto found = assess(history);
  const model::Told* wait = build::find(found, "bed.wait");
  REQUIRE(wait);
  CHECK(wait->facts(bed_facts::kSafe) == build::day("2025-06-01"));
  CHECK(wait->facts(bed_facts::kMaterial) == "droppings");
  CHECK(objection(history)->refuses);
}

// The same days for a crop that follows on the same ground.
TEST_CASE("raw manure and droppings stay with the ground through its crops") {
  auto history = bed(build::day("2025-02-01"));
  history.in.clear();
  history.batch.started_day = build::day("2025-01-25");
  history.batch.started = build::at(history.batch.started_day);
  history.earlier_in = {raw(build::day("2024-06-01")), raw(kApplied)};
  history.earlier_deeds.push_back(
      {build::at(build::day("2025-01-20")), build::day("2025-01-20"), "grazed"});
  CHECK(objection(history)->refuses);
  const auto on = kinds::study(history, kNoRules)->raw_on_ground();
  // What went on in June was over when this crop began.
  REQUIRE(on.size() == 2);
  CHECK(on[0].load.day == kApplied);
  CHECK(on[0].earlier);
  CHECK(on[0].safe == build::day("2025-05-01"));
  CHECK(on[1].load.id == 0);
  CHECK(on[1].safe == build::day("2025-05-20"));
  build::setting(history, "eaten", "no");
  const auto flowers = kinds::study(history, kNoRules)->raw_on_ground();
  REQUIRE(flowers.size() == 2);
  CHECK_FALSE(flowers[0].safe);
}

TEST_CASE("a harvest before its day stays marked") {
  auto history = bed(build::day("2025-06-01"));
  history.out.push_back(build::movement(build::material("lettuce"), {Dimension::kMass, 2},
                                        build::at(build::day("2025-04-30"))));
  history.out.push_back(build::movement(build::material("lettuce"), {Dimension::kMass, 3},
                                        build::at(build::day("2025-05-01"))));
  CHECK(kinds::study(history, kNoRules)->taken_early().size() == 1);
  bool measured = false;
  for (const auto& one : assess(history).measures) {
    if (one.key != "bed.harvested_early") continue;
    measured = true;
    CHECK(one.value.value.si == doctest::Approx(2));
  }
  CHECK(measured);
}

TEST_CASE("a load that arrives says its chain and the day") {
  const auto history = bed(kApplied, "no");
  const auto lines = kinds::study(history, kNoRules)->on_arrival(raw(kApplied));
  std::string all;
  for (const auto& line : lines) all += line + "\n";
  CHECK(all.find("dairy manure → dig-1 → drum-2 → bed-3") != std::string::npos);
  CHECK(all.find("Tue 1 Apr 2025") != std::string::npos);
}

}  // namespace kinds_bed_wait_test
