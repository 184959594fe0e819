#include <doctest/doctest.h>

#include "build_history.h"
#include "season/trace.h"

namespace season_trace_test {

using measure::Dimension;
using season::Direction;
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

const TraceStep* find(const std::vector<TraceStep>& steps, std::string_view material) {
  for (const TraceStep& one : steps) {
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
  REQUIRE(up.steps.size() == 1);
  CHECK(up.steps[0].steps.size() == 2);
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
  REQUIRE(down.steps.size() == 1);
  CHECK(down.steps[0].part->value == doctest::Approx(60));
  const TraceStep* effluent = find(down.steps[0].steps, "effluent");
  REQUIRE(effluent);
  CHECK(effluent->carried->value == doctest::Approx(50));
  CHECK(effluent->part->value == doctest::Approx(30));
  CHECK(part(down, "plant brew", "bed-1") == doctest::Approx(6));
}

TEST_CASE("a loop ends and is shown, and nothing is counted twice") {
  Site site;
  site.carry("", "dig-1", "dairy manure", 100);
  site.carry("dig-1", "heap-1", "effluent", 50);
  site.carry("", "heap-1", "leaves", 50);
  site.carry("heap-1", "dig-1", "unfinished compost", 20);
  site.carry("dig-1", "bed-1", "effluent", 60);
  const auto up = season::trace("bed-1", Direction::kUp, site.movements);
  CHECK(all(up) == doctest::Approx(60));
  REQUIRE(up.steps.size() == 1);
  const TraceStep* compost = find(up.steps[0].steps, "unfinished compost");
  REQUIRE(compost);
  const TraceStep* effluent = find(compost->steps, "effluent");
  REQUIRE(effluent);
  CHECK(effluent->loop);
  CHECK(effluent->steps.empty());
}

TEST_CASE("what a bed or a flock makes is shown with what led there, and not apportioned") {
  Site site;
  site.carry("", "hens", "layer feed", 25);
  site.carry("hens", "heap-1", "hen manure", 10);
  const auto up = season::trace("heap-1", Direction::kUp, site.movements);
  CHECK(part(up, "hen manure", "hens") == doctest::Approx(10));
  REQUIRE(up.steps[0].steps.size() == 1);
  CHECK_FALSE(up.steps[0].steps[0].part);
}

}  // namespace season_trace_test
