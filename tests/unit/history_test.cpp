#include "model/history.h"

#include <doctest/doctest.h>

#include "build_history.h"
#include "model/assessment.h"

namespace history_test {

using build::at;
using build::day;
using measure::Dimension;

namespace {

model::Material with_density(double kilograms_per_cubic_metre) {
  model::Material material;
  material.name = "leaves";
  material.figures = {{model::Property::kBulkDensity, kilograms_per_cubic_metre, "a scale"}};
  return material;
}

}  // namespace

TEST_CASE("a movement's mass and volume") {
  const auto when = at(day("2026-04-06"));
  const auto weighed = build::movement(with_density(500), {Dimension::kMass, 30}, when);
  CHECK(weighed.mass()->value == 30);
  CHECK(weighed.volume()->value == 60);
  CHECK(weighed.weighed());
  const auto filled = build::movement(with_density(500), {Dimension::kVolume, 60}, when);
  CHECK(filled.mass()->value == 30);
  CHECK(filled.volume()->value == 60);
  CHECK_FALSE(filled.weighed());
  const auto unknown = build::movement({}, {Dimension::kVolume, 60}, when);
  CHECK_FALSE(unknown.mass());
  CHECK(unknown.volume()->value == 60);
  const auto counted = build::movement(with_density(500), {Dimension::kCount, 12}, when);
  CHECK_FALSE(counted.mass());
  CHECK_FALSE(counted.volume());
}

TEST_CASE("the first day of a batch is day 1") {
  auto history = build::batch("pile", "heap-1", day("2026-04-06"), day("2026-04-06"));
  CHECK(history.day_number() == 1);
  history.today = day("2026-04-20");
  CHECK(history.day_number() == 15);
}

TEST_CASE("what was told of a batch at its start") {
  auto history = build::batch("pile", "heap-1", day("2026-04-06"), day("2026-04-06"));
  build::setting(history, "method", "turned");
  build::setting(history, "volume", "1 yd3", measure::Value{Dimension::kVolume, 764.554857984});
  CHECK(history.batch.text("method", "static") == "turned");
  CHECK(history.batch.text("cover", "none") == "none");
  CHECK(history.batch.number("volume")->si == 764.554857984);
  CHECK_FALSE(history.batch.number("method"));
  CHECK(history.batch.setting("cover") == nullptr);
}

TEST_CASE("deeds and judgements") {
  auto history = build::batch("pile", "heap-1", day("2026-04-06"), day("2026-04-20"));
  build::deed(history, "turned", at(day("2026-04-08")));
  build::deed(history, "watered", at(day("2026-04-09")));
  build::deed(history, "turned", at(day("2026-04-11")));
  build::sensed(history, "moisture", "dry", at(day("2026-04-08")));
  build::sensed(history, "moisture", "damp", at(day("2026-04-10")));
  CHECK(history.last_deed("turned")->day == day("2026-04-11"));
  CHECK(history.last_deed("screened") == nullptr);
  CHECK(history.deeds_since("turned", day("2026-04-06")) == 2);
  CHECK(history.deeds_since("turned", day("2026-04-11")) == 1);  // that day is in
  CHECK(history.deeds_since("turned", day("2026-04-12")) == 0);
  CHECK(history.last_sensed("moisture")->word == "damp");
  CHECK(history.last_sensed("smell") == nullptr);
}

TEST_CASE("days pooled over probe positions") {
  auto history = build::batch("pile", "heap-1", day("2026-04-06"), day("2026-04-08"));
  build::reading(history, "temperature", "core", at(day("2026-04-06"), 7), 60);
  build::reading(history, "temperature", "core", at(day("2026-04-06"), 9), 64);
  build::reading(history, "temperature", "edge", at(day("2026-04-06"), 8), 40);
  build::reading(history, "temperature", "edge", at(day("2026-04-07"), 8), 42);
  build::reading(history, "moisture", "", at(day("2026-04-07"), 8), 0.5);
  CHECK(history.all("temperature").size() == 2);
  CHECK(history.find("temperature", "core")->before_last->value == 60);
  CHECK(history.find("temperature") == nullptr);
  const auto days = model::pooled_days(history.all("temperature"));
  REQUIRE(days.size() == 2);
  CHECK(days[0].day == day("2026-04-06"));
  CHECK(days[0].count == 3);
  CHECK(days[0].total == 164);
  CHECK(days[0].mean() == doctest::Approx(164.0 / 3));
  CHECK(days[0].least == 40);
  CHECK(days[0].greatest == 64);
  CHECK(days[0].last == 64);  // of all positions, the latest
  CHECK(days[0].last_at == at(day("2026-04-06"), 9));
  CHECK(days[1].count == 1);
  CHECK(model::pooled_days({}).empty());
}

TEST_CASE("labels and words") {
  model::Batch batch;
  batch.code = "bin-a";
  batch.run = 2;
  CHECK(model::label(batch, true) == "bin-a");
  CHECK(model::label(batch, false) == "bin-a/2");
  CHECK(model::word(model::Urgency::kNow) == "now");
  CHECK(model::word(model::Urgency::kToday) == "today");
  CHECK(model::word(model::Urgency::kSoon) == "soon");
  CHECK(model::word(model::Urgency::kReady) == "ready");
}

}  // namespace history_test
