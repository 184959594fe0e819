#include "book/read/read.h"

#include <doctest/doctest.h>

#include <random>

#include "site_book.h"

namespace read_test {

using book::Pen;
using measure::Dimension;
using measure::Instant;
using std::chrono::hours;
using std::chrono::minutes;

namespace {

const Instant kStart = build::at(build::day("2026-10-30"), 15);  // 08:00 on the site's clock

struct Stored {
  Instant at;
  double value;
};

// The rolls that readings up to a moment would make, from the readings alone.
std::vector<model::DayRoll> rolled(const std::vector<Stored>& readings, Instant now,
                                   const measure::Zone& zone) {
  std::vector<model::DayRoll> rolls;
  for (const Stored& one : readings) {
    if (one.at > now) continue;
    const measure::Day day = zone.day_of(one.at);
    if (rolls.empty() || rolls.back().day != day) {
      rolls.push_back({day, 0, one.value, one.value, 0, one.value, one.at});
    }
    model::DayRoll& roll = rolls.back();
    ++roll.count;
    roll.least = std::min(roll.least, one.value);
    roll.greatest = std::max(roll.greatest, one.value);
    roll.total += one.value;
    roll.last = one.value;
    roll.last_at = one.at;
  }
  return rolls;
}

void check_same(const std::vector<model::DayRoll>& a, const std::vector<model::DayRoll>& b) {
  REQUIRE(a.size() == b.size());
  for (std::size_t i = 0; i < a.size(); ++i) {
    CHECK(a[i].day == b[i].day);
    CHECK(a[i].count == b[i].count);
    CHECK(a[i].least == b[i].least);
    CHECK(a[i].greatest == b[i].greatest);
    CHECK(a[i].total == b[i].total);
    CHECK(a[i].last == b[i].last);
    CHECK(a[i].last_at == b[i].last_at);
  }
}

}  // namespace

TEST_CASE("as of a moment, nothing later is seen: readings, at any moment of a week") {
  SiteBook site;
  const auto heap = site.start("heap-1", kStart);
  // A week over the end of daylight saving, a reading about every hour and a half.
  std::mt19937 random(20261101);
  std::vector<Stored> readings;
  Instant at = kStart;
  site.entry("log", [&](Pen& pen) {
    for (int i = 0; i < 120; ++i) {
      at += minutes{1 + random() % 180};
      readings.push_back({at, static_cast<double>(random() % 400) / 4 - 20});
      pen.add_reading({heap, "temperature", "core", at, readings.back().value});
    }
  });
  std::vector<Instant> moments{kStart - hours{1}, kStart, at, at + hours{1000}};
  for (const Stored& one : readings) {
    moments.push_back(one.at);
    moments.push_back(one.at - std::chrono::seconds{1});
  }
  for (const Instant now : moments) {
    const auto history = site.history("heap-1", now);
    CHECK(history.now == now);
    CHECK(history.today == site.logbook.site().zone.day_of(now));
    const auto expected = rolled(readings, now, site.logbook.site().zone);
    const model::Series* series = history.find("temperature", "core");
    if (expected.empty()) {
      CHECK(series == nullptr);
      CHECK_FALSE(history.last_entry);
      continue;
    }
    REQUIRE(series != nullptr);
    check_same(series->days, expected);
    CHECK(series->last->at == expected.back().last_at);
    CHECK(series->last->value == expected.back().last);
    CHECK(history.last_entry == series->last->at);
    const auto seen = static_cast<std::size_t>(std::count_if(
        readings.begin(), readings.end(), [&](const Stored& one) { return one.at <= now; }));
    if (seen > 1) {
      CHECK(series->before_last->at == readings[seen - 2].at);
      CHECK(series->before_last->value == readings[seen - 2].value);
    } else {
      CHECK_FALSE(series->before_last);
    }
  }
}

TEST_CASE("as of a moment, nothing later is seen: deeds, notes, movements, the end") {
  SiteBook site;
  const auto heap = site.start("heap-1", kStart);
  const auto bed = site.start("bed-1", kStart, "bed");
  const auto move = [&](Pen& pen, Instant at, std::optional<std::int64_t> from,
                        std::optional<std::int64_t> to) {
    book::NewMovement made;
    made.at = at;
    made.material = "leaves";
    made.from = from;
    made.to = to;
    made.amount = {Dimension::kMass, 10};
    made.typed = "10 kg";
    pen.add_movement(made);
  };
  site.entry("log", [&](Pen& pen) {
    for (int i = 0; i < 5; ++i) {
      const Instant at = kStart + hours{24 * i};
      pen.add_word(heap, at, "", "turned");
      pen.add_word(heap, at, "moisture", "damp");
      pen.add_note(heap, at, "noted");
      move(pen, at, std::nullopt, heap);
      move(pen, at, heap, bed);
    }
    pen.end_batch(heap, kStart + hours{24 * 4}, "done");
  });
  for (int i = 0; i < 5; ++i) {
    const auto n = static_cast<std::size_t>(i);
    const Instant at = kStart + hours{24 * i};
    const auto before = site.history("heap-1", at - std::chrono::seconds{1});
    CHECK(before.deeds.size() == n);
    CHECK_FALSE(before.batch.ended);
    CHECK_FALSE(before.batch.ended_day);
    CHECK(before.batch.because.empty());
    const auto then = site.history("heap-1", at);
    CHECK(then.deeds.size() == n + 1);
    CHECK(then.sensed.size() == n + 1);
    CHECK(then.notes.size() == n + 1);
    CHECK(then.in.size() == n + 1);
    CHECK(then.out.size() == n + 1);
    CHECK(then.last_entry == at);
    CHECK(then.batch.ended.has_value() == (i == 4));
    const auto all = book::movements(site.logbook, book::Materials(site.logbook), kStart, at);
    CHECK(all.size() == 2 * (n + 1));
    CHECK(book::movements(site.logbook, book::Materials(site.logbook), at, at).size() == 2);
  }
  CHECK(site.history("heap-1", kStart + hours{24 * 4}).batch.because == "done");
  CHECK(book::latest_of(site.logbook, *book::find_batch(site.logbook, "heap-1")) ==
        kStart + hours{24 * 4});
  CHECK(book::held(site.logbook, *book::find_batch(site.logbook, "bed-1"), "leaves",
                   Dimension::kMass) == 50);
  CHECK(book::held(site.logbook, *book::find_batch(site.logbook, "heap-1"), "leaves",
                   Dimension::kMass) == 0);
  CHECK(book::held(site.logbook, *book::find_batch(site.logbook, "bed-1"), "leaves",
                   Dimension::kVolume) == 0);
}

TEST_CASE("a movement knows both of its ends by their labels") {
  SiteBook site;
  const auto first = site.start("bin-a", kStart, "larvae");
  const auto flock = site.start("hens", kStart, "flock");
  site.entry("take", [&](Pen& pen) {
    book::NewMovement made;
    made.at = kStart;
    made.material = "larvae";
    made.from = first;
    made.to = flock;
    made.amount = {Dimension::kMass, 2.5};
    made.typed = "2.5 kg";
    made.purpose = "feed";
    made.sold_cents = 500;
    pen.add_movement(made);
    pen.end_batch(first, kStart, std::nullopt);
  });
  site.start("bin-a", kStart, "larvae");
  const auto all = book::movements(site.logbook, book::Materials(site.logbook), kStart, kStart);
  REQUIRE(all.size() == 1);
  CHECK(all[0].from == "bin-a/1");
  CHECK(all[0].from_kind == "larvae");
  CHECK(all[0].to == "hens");
  CHECK(all[0].to_kind == "flock");
  CHECK(all[0].material.name == "larvae");
  CHECK_FALSE(all[0].material.group.empty());  // the catalogue's
  CHECK(all[0].amount == measure::Value{Dimension::kMass, 2.5});
  CHECK(all[0].purpose == "feed");
  CHECK(all[0].sold_cents == 500);
  CHECK_FALSE(all[0].paid_cents);
  CHECK(site.history("hens", kStart).in.size() == 1);
  CHECK(site.history("bin-a/1", kStart).out.size() == 1);
  CHECK(site.history("bin-a", kStart).out.empty());
}

TEST_CASE("the reading before a moment") {
  SiteBook site;
  const auto heap = site.start("heap-1", kStart);
  site.entry("log", [&](Pen& pen) {
    pen.add_reading({heap, "temperature", "core", kStart, 50});
    pen.add_reading({heap, "temperature", "core", kStart + hours{1}, 60});
    pen.add_reading({heap, "temperature", "edge", kStart + hours{2}, 40});
  });
  const auto batch = *book::find_batch(site.logbook, "heap-1");
  const auto before = [&](const char* position, Instant at) {
    return book::reading_before(site.logbook, batch, "temperature", position, at);
  };
  CHECK_FALSE(before("core", kStart - std::chrono::seconds{1}));
  CHECK(before("core", kStart)->value == 50);
  CHECK(before("core", kStart + hours{5})->value == 60);
  CHECK(before("core", kStart + hours{5})->at == kStart + hours{1});
  CHECK_FALSE(before("", kStart + hours{5}));
  CHECK_FALSE(book::reading_before(site.logbook, batch, "moisture", "core", kStart + hours{5}));
}

TEST_CASE("batches in walking order") {
  SiteBook site;
  site.entry("place", [](Pen& pen) {
    pen.set_place("yard", std::nullopt);
    pen.set_place("gate", 1);
  });
  const auto start = [&](const char* code, std::optional<std::string> place, int hour) {
    site.entry("start", [&](Pen& pen) {
      pen.start_batch({code, "pile", place, kStart + hours{hour}, {}});
    });
  };
  start("nowhere", std::nullopt, 0);
  start("yard-late", "yard", 5);
  start("yard-early", "yard", 1);
  start("gate", "gate", 9);
  std::vector<std::string> codes;
  for (const model::Batch& one : book::all_batches(site.logbook)) codes.push_back(one.code);
  CHECK(codes == std::vector<std::string>{"gate", "yard-early", "yard-late", "nowhere"});
}

TEST_CASE("the site's materials and figures go over the catalogue's") {
  SiteBook site;
  const book::Materials plain(site.logbook);
  REQUIRE(plain.find("leaves") != nullptr);
  const auto nitrogen = plain.find("leaves")->nitrogen();
  REQUIRE(nitrogen);
  site.entry("material", [](Pen& pen) {
    pen.set_figure("leaves", {model::Property::kNitrogen, 0.015, "laboratory 2026-03-01"});
    pen.set_figure("leaves", {model::Property::kMoisture, 0.25, "laboratory 2026-03-01"});
    model::Material own;
    own.name = "tule reed";
    own.group = "green";
    own.aliases = {"bulrush stem", "tule"};
    own.flags = {"plant"};
    pen.set_material(own);
    pen.set_figure("tule reed", {model::Property::kCarbon, 0.45, "from memory"});
    pen.set_figure("tule reed", {model::Property::kCarbonNitrogen, 18, "from memory"});
  });
  const book::Materials materials(site.logbook);
  // A hyphen may stand for a space, and one that belongs to the name is kept.
  CHECK(materials.find("horse-manure") == materials.find("horse manure"));
  for (const char* name : {"half-finished compost", "crawl-off", "herbicide-treated hay"}) {
    CAPTURE(name);
    CHECK(materials.find(name) != nullptr);
  }
  const model::Material& leaves = *materials.find("leaves");
  CHECK(leaves.nitrogen()->value == 0.015);
  CHECK(leaves.moisture()->value == 0.25);
  CHECK(leaves.figure(model::Property::kNitrogen)->source == "laboratory 2026-03-01");
  CHECK(leaves.group == plain.find("leaves")->group);
  CHECK(std::count_if(leaves.figures.begin(), leaves.figures.end(), [](const model::Figure& one) {
          return one.property == model::Property::kNitrogen;
        }) == 1);
  const model::Material& reed = *materials.find("tule reed");
  CHECK(reed.nitrogen()->value == doctest::Approx(0.025));
  CHECK(reed.is("plant"));
  CHECK(materials.all().size() == plain.all().size() + 1);
  // They are this logbook's alone.
  const SiteBook other;
  const book::Materials others(other.logbook);
  CHECK(others.find("tule reed") == nullptr);
  CHECK(others.find("leaves")->nitrogen()->value == nitrogen->value);
}

TEST_CASE("materials by name, alias, number and case") {
  const SiteBook site;
  model::Material own;
  own.name = "tule reed";
  own.aliases = {"tule stems"};
  const book::Materials materials(std::vector{own});
  for (const std::string_view name :
       {"tule reed", "Tule Reed", " tule  reeds", "tule stem", "TULE STEMS"}) {
    CAPTURE(name);
    CHECK(materials.find(name) != nullptr);
  }
  for (const std::string_view name : {"", "tule", "reed", "tule ree", "s"}) {
    CAPTURE(name);
    CHECK(materials.find(name) == nullptr);
  }
  CHECK(materials.nearest("tule reef") == "tule reed");
  CHECK_FALSE(materials.nearest("cardboard"));
  // A material that only the logbook knows is itself, and nothing is made up about it.
  CHECK(materials.named("reed").name == "reed");
  CHECK(materials.named("reed").figures.empty());
}

TEST_CASE("the rules in force for a batch") {
  SiteBook site;
  const auto heap = site.start("heap-1", kStart);
  const auto other = site.start("heap-2", kStart);
  site.entry("rule", [&](Pen& pen) {
    pen.set_rule("pile.hot.above", heap, 66, "66C");
    pen.set_rule("pile.hot.above", 0, 68, "68C");
    pen.set_rule("pile.cold.after", other, 9, "9 days");
  });
  const model::ThresholdInfo hot{
      "pile.hot.above", "pile", Dimension::kTemperature, 71, "", "", "", "d"};
  const model::ThresholdInfo after{
      "pile.cold.after", "pile", Dimension::kDuration, 5, "", "", "", "d"};
  const auto of = [&](const char* code) {
    return book::rules(site.logbook, *book::find_batch(site.logbook, code));
  };
  CHECK(of("heap-1").in_force(hot).si == 66);
  CHECK(of("heap-1").in_force(hot).source == "heap-1's own rule");
  CHECK(of("heap-2").in_force(hot).si == 68);
  CHECK(of("heap-2").in_force(hot).source == "this site's own rule");
  CHECK(of("heap-1").in_force(after).si == 5);
  CHECK(of("heap-1").in_force(after).source == "d");
  CHECK(of("heap-2").in_force(after).si == 9);
  const auto all = book::site_rules(site.logbook);
  REQUIRE(all.size() == 3);
  CHECK(all[0].key == "pile.cold.after");
  CHECK(all[0].batch == "heap-2");
  CHECK(all[1].batch.empty());
  CHECK(all[1].typed == "68C");
  CHECK(all[2].batch == "heap-1");
}

TEST_CASE("containers") {
  SiteBook site;
  site.entry("container", [](Pen& pen) {
    pen.set_container("bucket", measure::Litres{18.92705892}, "5 gal");
    pen.set_container("barrow", measure::Litres{85}, "85 L");
    pen.set_container("bucket", measure::Litres{20}, "20 L");
  });
  const auto all = book::containers(site.logbook);
  REQUIRE(all.size() == 2);
  for (const measure::Container& one : all) {
    CHECK(one.content.value == (one.name == "bucket" ? 20 : 85));
  }
}

TEST_CASE("a view sees one state of the file, whatever is written meanwhile") {
  SiteBook site;
  site.start("heap-1", kStart);
  const book::Logbook reader(site.path, book::Access::kRead);
  {
    const book::View view(reader);
    CHECK(book::all_batches(reader).size() == 1);
    site.start("heap-2", kStart);
    CHECK(book::all_batches(reader).size() == 1);
  }
  CHECK(book::all_batches(reader).size() == 2);
}

TEST_CASE("the batches of a kind that had ended, the latest first") {
  SiteBook site;
  for (int i = 0; i < 4; ++i) {
    const auto id = site.start("heap-" + std::to_string(i), kStart);
    if (i == 3) continue;  // still open
    site.entry("end", [&](Pen& pen) {
      pen.end_batch(id, kStart + hours{100 - 10 * (i % 2) + i}, std::nullopt);
    });
  }
  site.entry("end", [id = site.start("bed-1", kStart, "bed")](Pen& pen) {
    pen.end_batch(id, kStart + hours{1}, std::nullopt);
  });
  const auto codes = [&](Instant until, std::size_t most) {
    std::string text;
    for (const auto& one : book::ended_batches(site.logbook, "pile", until, most)) {
      text += one.code + " ";
    }
    return text;
  };
  CHECK(codes(kStart + hours{200}, 12) == "heap-2 heap-0 heap-1 ");
  CHECK(codes(kStart + hours{200}, 2) == "heap-2 heap-0 ");
  CHECK(codes(kStart + hours{101}, 12) == "heap-0 heap-1 ");
  CHECK(codes(kStart, 12).empty());
}

}  // namespace read_test
