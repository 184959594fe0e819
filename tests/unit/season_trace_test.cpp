#include <doctest/doctest.h>

#include <algorithm>

#include "build_history.h"
#include "season/trace.h"

namespace season_trace_test {

using measure::Dimension;
using season::Direction;
using season::TraceBatch;
using season::TraceStep;

namespace {

const model::Day kStart = build::day("2026-03-01");

std::string kind_of(const std::string& code) {
  if (code.starts_with("heap")) return "pile";
  if (code.starts_with("dig")) return "digester";
  if (code.starts_with("drum")) return "brew";
  if (code.starts_with("bed")) return "bed";
  return code.empty() ? "" : "flock";
}

struct Site {
  std::vector<model::Movement> movements;
  void carry(const char* from, const char* to, const char* material, double kg) {
    const int n = static_cast<int>(movements.size());
    auto one = build::movement(build::material(material), {Dimension::kMass, kg},
                               build::at(kStart + date::days{n}));
    one.id = n + 1;
    one.from = from;
    one.to = to;
    one.from_kind = kind_of(from);
    one.to_kind = kind_of(to);
    movements.push_back(one);
  }
};

double part(const season::Trace& trace, std::string_view material, std::string_view at = "") {
  for (const auto& end : trace.ends) {
    if (end.material == material && end.at == at) return end.part.value;
  }
  return -1;
}

double all(const season::Trace& trace) {
  double sum = 0;
  for (const auto& end : trace.ends) sum += end.part.value;
  return sum;
}

const TraceBatch& at(const season::Trace& trace, std::string_view label) {
  for (const TraceBatch& one : trace.batches) {
    if (one.label == label) return one;
  }
  static const TraceBatch kNone;
  return kNone;
}

const TraceStep* find(const TraceBatch& batch, std::string_view material) {
  for (const TraceStep& one : batch.steps) {
    if (one.material == material) return &one;
  }
  return nullptr;
}

}  // namespace

// By hand: 600 kg of manure and 400 kg of straw; 100 kg of it to the bed are 60 and 40.
TEST_CASE("up: a load holds what its batch was given, each by its weight") {
  Site site;
  site.carry("", "heap-1", "horse manure", 600);
  site.carry("", "heap-1", "straw", 400);
  site.carry("heap-1", "bed-1", "compost", 100);
  site.carry("", "heap-1", "leaves", 1000);  // later: none of it is in that load
  const auto up = season::trace("bed-1", Direction::kUp, site.movements);
  CHECK(part(up, "horse manure") == doctest::Approx(60));
  CHECK(part(up, "straw") == doctest::Approx(40));
  CHECK(part(up, "leaves") == -1);
  CHECK(all(up) == doctest::Approx(100));
  REQUIRE(up.batches.size() == 2);
  CHECK(at(up, "bed-1").steps.size() == 1);
  CHECK(at(up, "heap-1").steps.size() == 2);
  CHECK(at(up, "heap-1").part->value == doctest::Approx(100));
}

// 60 kg of manure in 100 kg of slurry; 50 kg of it beside 150 kg of comfrey in the drum: a tenth
// and a half of the 40 kg that were poured are 10 kg of slurry, 6 of them manure.
TEST_CASE("down: through two batches, by weight") {
  Site site;
  site.carry("hens", "dig-1", "dairy manure", 60);
  site.carry("", "dig-1", "water", 40);
  site.carry("dig-1", "drum-1", "effluent", 50);
  site.carry("", "drum-1", "comfrey", 150);
  site.carry("drum-1", "bed-1", "plant brew", 40);
  const auto down = season::trace("hens", Direction::kDown, site.movements);
  REQUIRE(at(down, "hens").steps.size() == 1);
  CHECK(at(down, "hens").steps[0].part->value == doctest::Approx(60));
  const TraceStep* effluent = find(at(down, "dig-1"), "effluent");
  REQUIRE(effluent);
  CHECK(effluent->carried->value == doctest::Approx(50));
  CHECK(effluent->part->value == doctest::Approx(30));
  CHECK(part(down, "plant brew", "bed-1") == doctest::Approx(6));
}

// By hand: 60 of the 120 kg that went into the digester went to the bed, half of each load: 50 kg
// of manure and 10 kg of what came back, which was half effluent of before: 5 kg of manure, 5 of
// leaves.
TEST_CASE("what goes round is followed in time, and nothing is counted twice") {
  Site site;
  site.carry("", "dig-1", "dairy manure", 100);
  site.carry("dig-1", "heap-1", "effluent", 50);
  site.carry("", "heap-1", "leaves", 50);
  site.carry("heap-1", "dig-1", "unfinished compost", 20);
  site.carry("dig-1", "bed-1", "effluent", 60);
  const auto up = season::trace("bed-1", Direction::kUp, site.movements);
  CHECK(all(up) == doctest::Approx(60));
  CHECK(part(up, "dairy manure") == doctest::Approx(55));
  CHECK(part(up, "leaves") == doctest::Approx(5));
  REQUIRE(find(at(up, "dig-1"), "unfinished compost"));
  CHECK(find(at(up, "dig-1"), "unfinished compost")->part->value == doctest::Approx(10));
  // 60 kg left for the bed, and 5 kg of that came round once more.
  CHECK(at(up, "dig-1").part->value == doctest::Approx(65));
  // What comes back to the batch that was asked for ends there.
  const auto down = season::trace("dig-1", Direction::kDown, site.movements);
  CHECK(part(down, "unfinished compost", "dig-1") == doctest::Approx(10));
  CHECK(part(down, "effluent", "bed-1") == doctest::Approx(60));
}

TEST_CASE("a bed's ground is followed through its crops") {
  Site site;
  site.carry("", "bed-1/1", "horse manure", 50);
  site.carry("", "heap-1", "leaves", 80);
  site.carry("heap-1", "bed-1", "compost", 20);
  site.carry("bed-1", "", "lettuce", 5);
  const std::vector<season::Ground> grounds{{"bed-1/1", "bed-1"}};
  const auto up = season::trace("bed-1", Direction::kUp, site.movements, grounds);
  REQUIRE(up.batches.size() == 3);
  CHECK(up.batches[1].label == "bed-1/1");
  CHECK(up.batches[1].same_ground);
  CHECK(part(up, "horse manure") == doctest::Approx(50));
  // The first crop knows nothing of what came after it.
  CHECK(season::trace("bed-1/1", Direction::kUp, site.movements, grounds).batches.size() == 1);
  const auto down = season::trace("bed-1/1", Direction::kDown, site.movements, grounds);
  REQUIRE(find(at(down, "bed-1"), "lettuce"));
  CHECK_FALSE(find(at(down, "bed-1"), "lettuce")->part);
}

TEST_CASE("each batch is there once, the largest part first") {
  Site site;
  site.carry("", "heap-1", "horse manure", 100);
  for (int i = 2; i < 30; ++i) {
    const std::string code = "heap-" + std::to_string(i);
    for (int before = std::max(1, i - 2); before < i; ++before) {
      site.carry(("heap-" + std::to_string(before)).c_str(), code.c_str(), "compost", 10);
    }
    site.carry("", code.c_str(), "horse manure", 100);
  }
  site.carry("heap-29", "bed-1", "compost", 50);
  const auto up = season::trace("bed-1", Direction::kUp, site.movements);
  CHECK(up.batches.size() == 30);
  CHECK(all(up) == doctest::Approx(50));
  for (std::size_t i = 2; i < up.batches.size(); ++i) {
    CHECK(up.batches[i - 1].part->value >= up.batches[i].part->value);
  }
}

TEST_CASE("what a bed or a flock makes is shown with what led there, and not apportioned") {
  Site site;
  site.carry("", "hens", "layer feed", 25);
  site.carry("hens", "heap-1", "hen manure", 10);
  const auto up = season::trace("heap-1", Direction::kUp, site.movements);
  CHECK(part(up, "hen manure", "hens") == doctest::Approx(10));
  REQUIRE(at(up, "hens").steps.size() == 1);
  CHECK_FALSE(at(up, "hens").steps[0].part);
}

}  // namespace season_trace_test
