#include <doctest/doctest.h>

#include <algorithm>

#include "build_history.h"
#include "season/provenance.h"

namespace season_provenance_test {

using measure::Dimension;
using model::ManureTrail;

namespace {

const model::Day kStart = build::day("2026-03-01");

// A site in code: movements in order, batches that know their own history.
struct Site {
  std::vector<model::Movement> movements;
  std::map<std::string, std::string> kind_of;
  std::map<std::string, std::string> base_of;  // the setting, where it was told

  void carry(const char* from, const char* to, const char* material, int day, double kg = 10) {
    model::Movement one =
        build::movement(build::material(material), {Dimension::kMass, kg},
                        build::at(kStart + date::days{day}, 9, static_cast<int>(movements.size())));
    one.id = static_cast<std::int64_t>(movements.size()) + 1;
    one.from = from;
    one.to = to;
    if (*from) one.from_kind = kind_of.at(from);
    if (*to) one.to_kind = kind_of.at(to);
    movements.push_back(one);
  }

  // Readings that a pile has on top of its movements.
  std::function<void(model::History&)> readings = [](model::History&) {};

  // Histories that were asked for, by batch.
  mutable std::map<std::string, int> asked = {};

  season::Provenances provenances() const {
    return season::Provenances(
        [this](const std::string& code) -> std::optional<season::SourceBatch> {
          const auto found = kind_of.find(code);
          if (found == kind_of.end()) return std::nullopt;
          const std::string kind = found->second;
          return season::SourceBatch{
              kinds::find_kind(kind),
              [this, code, kind](model::Instant at) {
                ++asked[code];
                auto history = build::batch(
                    kind, code, kStart, model::Day{date::floor<date::days>(at).time_since_epoch()});
                history.now = at;
                for (const auto& one : movements) {
                  if (one.at >= at) continue;
                  if (one.to == code) history.in.push_back(one);
                  if (one.from == code) history.out.push_back(one);
                }
                if (kind == "pile") readings(history);
                if (const auto base = base_of.find(code); base != base_of.end()) {
                  build::setting(history, "base", base->second);
                }
                return history;
              },
              [this, code] {
                std::vector<model::Movement> in;
                for (const auto& one : movements) {
                  if (one.to == code) in.push_back(one);
                }
                return in;
              },
              {}};
        });
  }

  int all_asked() const {
    int all = 0;
    for (const auto& [code, count] : asked) all += count;
    return all;
  }

  std::vector<ManureTrail> last() const {
    auto load = movements.back();
    provenances().bring(load);
    return load.manure;
  }
};

using Way = std::vector<std::string>;

}  // namespace

TEST_CASE(
    "a drum that is said to hold manure, or of which nothing tells, begins a trail of its own") {
  const auto trail = [](const char* base, std::vector<const char*> materials) {
    Site site;
    site.kind_of = {{"drum-1", "brew"}, {"bed-1", "bed"}};
    if (*base) site.base_of["drum-1"] = base;
    for (const char* material : materials) site.carry("", "drum-1", material, 0);
    site.carry("drum-1", "bed-1", "plant brew", 30);
    const auto trails = site.last();
    if (trails.empty()) return std::string("none");
    CHECK(trails.size() == 1);
    CHECK(trails[0].way == Way{"drum-1"});
    return trails[0].material;
  };
  CHECK(trail("manure", {}) == "manure");
  CHECK(trail("manure", {"water"}) == "manure");
  CHECK(trail("", {}) == "unknown contents");
  CHECK(trail("", {"water"}) == "unknown contents");
  CHECK(trail("plant", {"water"}) == "none");
  CHECK(trail("", {"comfrey", "water"}) == "none");
  // 21 CFR 112.3: animal matter is a soil amendment of animal origin as manure is.
  CHECK(trail("", {"slaughter waste", "water"}) == "slaughter waste");
  CHECK(trail("", {"fish waste"}) == "fish waste");
  CHECK(trail("fish", {"water"}) == "fish");
  CHECK(trail("", {"fish hydrolysate"}) == "none");
  CHECK(trail("", {"comfrey", "dairy manure"}) == "dairy manure");
}

TEST_CASE("raw manure is followed through digester and brew to the bed") {
  Site site;
  site.kind_of = {{"dig-1", "digester"}, {"drum-2", "brew"}, {"bed-3", "bed"}};
  site.carry("", "dig-1", "dairy manure", 0);
  site.carry("", "dig-1", "water", 0);
  site.carry("dig-1", "drum-2", "effluent", 40);
  site.carry("", "drum-2", "comfrey", 40);
  site.carry("drum-2", "bed-3", "plant brew", 60);
  const auto trails = site.last();
  REQUIRE(trails.size() == 1);
  CHECK(trails[0].material == "dairy manure");
  CHECK(trails[0].way == Way{"dig-1", "drum-2"});
}

TEST_CASE("a digester fed on plants alone gives no raw manure, whatever effluent is called") {
  Site site;
  site.kind_of = {{"dig-1", "digester"}, {"bed-3", "bed"}};
  site.carry("", "dig-1", "vegetable waste", 0);
  site.carry("dig-1", "bed-3", "effluent", 40);
  CHECK(site.last().empty());
}

TEST_CASE("only what had gone in by then counts") {
  Site site;
  site.kind_of = {{"drum-1", "brew"}, {"bed-3", "bed"}};
  site.carry("", "drum-1", "comfrey", 0);
  site.carry("drum-1", "bed-3", "plant brew", 30);
  CHECK(site.last().empty());
  site.carry("", "drum-1", "horse manure", 31);
  site.carry("drum-1", "bed-3", "plant brew", 32);
  CHECK(site.last().size() == 1);
}

TEST_CASE("a loop ends: effluent to pile to digester") {
  Site site;
  site.kind_of = {{"dig-1", "digester"}, {"heap-1", "pile"}, {"bed-3", "bed"}};
  site.carry("", "dig-1", "dairy manure", 0);
  for (int day = 1; day < 40; day += 2) {
    site.carry("dig-1", "heap-1", "effluent", day);
    site.carry("heap-1", "dig-1", "unfinished compost", day + 1);
  }
  site.carry("dig-1", "bed-3", "effluent", 60);
  const auto trails = site.last();
  REQUIRE(trails.size() == 1);
  CHECK(trails[0].way == Way{"dig-1"});
}

TEST_CASE("an origin stands behind a load once, by its shortest way that is still raw") {
  Site site;
  site.kind_of = {{"heap-1", "pile"}, {"heap-2", "pile"}, {"heap-3", "pile"}, {"bed-1", "bed"}};
  site.carry("", "heap-1", "dairy manure", 0);
  site.carry("heap-1", "heap-2", "compost", 1);
  site.carry("heap-2", "heap-3", "compost", 2);
  site.carry("heap-1", "heap-3", "compost", 3);
  site.carry("", "heap-2", "fish waste", 4);
  site.carry("heap-2", "heap-3", "compost", 5);
  site.carry("heap-3", "bed-1", "compost", 6);
  const auto trails = site.last();
  REQUIRE(trails.size() == 2);
  CHECK(trails[0].material == "dairy manure");
  CHECK(trails[0].way == Way{"heap-1", "heap-3"});
  CHECK(trails[1].material == "fish waste");
  CHECK(trails[1].way == Way{"heap-2", "heap-3"});
}

TEST_CASE("a load that is not recorded yet knows what was put in before it") {
  Site site;
  site.kind_of = {{"dig-1", "digester"}, {"bed-1", "bed"}};
  site.carry("", "dig-1", "dairy manure", 3);
  site.carry("dig-1", "bed-1", "effluent", 5);
  auto load = site.movements.back();
  site.movements.pop_back();
  load.id = 0;
  auto provenances = site.provenances();
  provenances.bring(load);
  REQUIRE(load.manure.size() == 1);
  CHECK(load.manure[0].material == "dairy manure");
  load.at = build::at(kStart + date::days{1});
  provenances.bring(load);
  REQUIRE(load.manure.size() == 1);
  CHECK(load.manure[0].material == "effluent");  // of which nothing is known but its name
}

// Each pile seeded with its own manure and with compost of the last two: the ways to the last one
// are as many as the Fibonacci number of the piles.
TEST_CASE("each batch is asked once for each load that leaves it, however many ways there are") {
  const auto asked = [](int piles) {
    Site site;
    for (int i = 0; i < piles; ++i) {
      const std::string code = "heap-" + std::to_string(i);
      site.kind_of[code] = "pile";
      for (int before = std::max(0, i - 2); before < i; ++before) {
        site.carry(("heap-" + std::to_string(before)).c_str(), code.c_str(), "compost", 28 * i);
      }
      site.carry("", code.c_str(), "horse manure", 28 * i, 200);
    }
    site.kind_of["bed-1"] = "bed";
    site.carry(("heap-" + std::to_string(piles - 1)).c_str(), "bed-1", "compost", 28 * piles);
    const auto trails = site.last();
    CHECK(trails.size() == 1);
    CHECK(trails[0].way == Way{"heap-" + std::to_string(piles - 1)});
    return site.all_asked();
  };
  CHECK(asked(20) == 38);  // two loads of each pile, less one of the last two, and one to the bed
  CHECK(asked(40) == 78);
}

TEST_CASE("only what stands behind the loads asked for is worked out, and once") {
  Site site;
  site.kind_of = {{"heap-1", "pile"}, {"heap-2", "pile"}, {"bed-1", "bed"}, {"bed-2", "bed"}};
  site.carry("", "heap-1", "dairy manure", 0);
  site.carry("", "heap-2", "dairy manure", 0);
  site.carry("heap-1", "bed-1", "compost", 60);
  site.carry("heap-2", "bed-2", "compost", 61);
  auto provenances = site.provenances();
  std::vector<model::Movement> loads{site.movements[0], site.movements[1]};
  provenances.bring(loads);
  CHECK(site.asked.empty());
  loads = {site.movements[2]};
  provenances.bring(loads);
  provenances.bring(loads);
  CHECK(site.asked == std::map<std::string, int>{{"heap-1", 1}});
}

TEST_CASE("a flock makes raw manure itself; its eggs and larvae feed carry none") {
  Site site;
  site.kind_of = {{"hens", "flock"}, {"heap-1", "pile"}, {"bed-1", "bed"}};
  site.carry("", "hens", "layer feed", 0);
  site.carry("hens", "", "eggs", 1);
  CHECK(site.last().empty());
  site.carry("hens", "heap-1", "hen manure", 2);
  CHECK(site.last().front().way == Way{"hens"});
  site.carry("heap-1", "bed-1", "compost", 90);
  CHECK(site.last().front().way == Way{"hens", "heap-1"});
}

// 21 CFR 112.3: a biological soil amendment of animal origin includes animal by-products and
// mortalities, table waste too.
TEST_CASE("animal matter leaves the same trail as manure") {
  for (const char* raw : {"fish waste", "slaughter waste", "bones", "meat scraps"}) {
    Site site;
    site.kind_of = {{"heap-1", "pile"}, {"bed-1", "bed"}};
    site.carry("", "heap-1", raw, 0);
    site.carry("heap-1", "bed-1", "compost", 90);
    REQUIRE(site.last().size() == 1);
    CHECK(site.last().front().material == raw);
  }
  CHECK(season::raw_at_origin(build::material("meat scraps")));
  CHECK_FALSE(season::raw_at_origin(build::material("blood meal")));
  CHECK_FALSE(season::raw_at_origin(build::material("vegetable scraps")));
}

// 7 CFR 205.203(c)(2)(ii): an aerated static or in-vessel pile at 131 to 170 °F for three days, of
// an initial C:N of 25:1 to 40:1, is treated; horse manure with straw and leaves are within it by
// NRAES-54's figures (27 and 54).
TEST_CASE("compost shown to be treated lifts the interval") {
  Site site;
  site.kind_of = {{"heap-1", "pile"}, {"bed-1", "bed"}};
  site.carry("", "heap-1", "horse manure with straw", 0, 300);
  site.carry("heap-1", "bed-1", "compost", 60, 100);
  double celsius = 60;
  site.readings = [&](model::History& history) {
    build::setting(history, "method", "vessel");
    for (int day = 2; day < 9; ++day) {
      build::reading(history, "temperature", "core", build::at(kStart + date::days{day}), celsius);
    }
  };
  CHECK(site.last().empty());
  celsius = 54;
  REQUIRE(site.last().size() == 1);
  CHECK(site.last().front().because.find("not shown to be treated") != std::string::npos);
}

TEST_CASE("fire ends raw manure; what char was charged with stays") {
  Site site;
  site.kind_of = {{"burn-1", "burn"}, {"bed-1", "bed"}};
  site.carry("", "burn-1", "coop bedding", 0);
  site.carry("burn-1", "bed-1", "char", 30);
  CHECK(site.last().empty());
}

TEST_CASE("compost from outside counts as raw unless its maker's record is had") {
  CHECK(season::raw_at_origin(build::material("compost")));
  CHECK(season::raw_at_origin(build::material("dairy manure")));
  CHECK_FALSE(season::raw_at_origin(build::material("chicken manure pellets")));
  CHECK_FALSE(season::raw_at_origin(build::material("leaf mold")));
  CHECK_FALSE(season::raw_at_origin(build::material("leaves")));
  auto proven = build::material("compost");
  proven.flags.emplace_back("treated");
  CHECK_FALSE(season::raw_at_origin(proven));
}

}  // namespace season_provenance_test
