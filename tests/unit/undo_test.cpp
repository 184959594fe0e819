#include "book/undo.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <functional>
#include <map>
#include <random>

#include "site_book.h"

using book::Pen;
using measure::Dimension;
using measure::Instant;
using measure::Value;

namespace {

const Instant kMorning = build::at(build::day("2026-04-06"), 15);

// What a text may hold past what JSON and SQL write as it is.
const std::string kAwkward = R"(say "hot" \ back\\slash 'quoted' ½ 堆肥 🌱 {"a":1} -- ; %s)";

std::optional<book::EntrySummary> undo(SiteBook& site) {
  Pen pen(site.logbook, {"ada", "undo", "undo", kMorning});
  auto taken_back = book::undo_last(site.logbook, pen);
  if (taken_back) pen.commit();
  return taken_back;
}

book::NewMovement movement(std::optional<std::int64_t> from, std::optional<std::int64_t> to,
                           Value amount, Instant at = kMorning) {
  book::NewMovement made;
  made.at = at;
  made.material = "leaves";
  made.from = from;
  made.to = to;
  made.amount = amount;
  made.typed = "2 bucket \"heaped\"";
  made.purpose = kAwkward;
  made.paid_cents = 1250;
  return made;
}

// A site with one of everything, so that there is something to change.
struct FullSite : SiteBook {
  std::int64_t heap{}, bed{};

  FullSite() {
    entry("place", [](Pen& pen) { pen.set_place("yard \"north\" \\ ½", std::nullopt); });
    entry("place", [](Pen& pen) { pen.set_place("shed", std::nullopt); });
    entry("start", [&](Pen& pen) {
      heap = pen.start_batch({"heap-1",
                              "pile",
                              "shed",
                              kMorning,
                              {{"method", kAwkward, std::nullopt},
                               {"volume", "1 yd3", Value{Dimension::kVolume, 764.554857984}}}});
    });
    bed = start("bed-1", kMorning, "bed");
    entry("log", [&](Pen& pen) {
      pen.add_reading({heap, "temperature", "core", kMorning, 60.25});
      pen.add_word(heap, kMorning, "moisture", "damp");
      pen.add_note(heap, kMorning, kAwkward);
    });
    entry("add", [&](Pen& pen) {
      pen.add_movement(movement(std::nullopt, heap, {Dimension::kVolume, 37.85411784}));
    });
    entry("container",
          [](Pen& pen) { pen.set_container("bucket", measure::Litres{18.92705892}, kAwkward); });
    entry("rule", [&](Pen& pen) { pen.set_rule("pile.hot.above", 0, 68.125, kAwkward); });
    entry("rule", [&](Pen& pen) { pen.set_rule("pile.hot.above", heap, 66, "66C"); });
    entry("material", [](Pen& pen) {
      model::Material own;
      own.name = "hop bine";
      own.group = "green";
      own.aliases = {"bines", kAwkward};
      own.flags = {"plant"};
      pen.set_material(own);
      pen.set_figure("hop bine", {model::Property::kMoisture, 0.65, kAwkward});
    });
  }
};

struct Deed {
  std::string name;
  std::function<void(FullSite&, Pen&)> work;
};

// One of each thing that a command writes.
const std::vector<Deed> kDeeds{
    {"start",
     [](FullSite&, Pen& pen) {
       pen.start_batch({"heap-2", "pile", "shed", kMorning, {{"method", "cold", std::nullopt}}});
     }},
    {"end", [](FullSite& site, Pen& pen) { pen.end_batch(site.heap, kMorning, kAwkward); }},
    {"log, a reading on a new day",
     [](FullSite& site, Pen& pen) {
       pen.add_reading({site.heap, "temperature", "core", kMorning + std::chrono::hours{24}, 62});
     }},
    {"log, a second reading of the day",
     [](FullSite& site, Pen& pen) {
       pen.add_reading({site.heap, "temperature", "core", kMorning + std::chrono::hours{2}, 70});
       pen.add_reading({site.heap, "temperature", "core", kMorning - std::chrono::hours{2}, 50});
     }},
    {"log, a new series",
     [](FullSite& site, Pen& pen) {
       pen.add_reading({site.heap, "moisture", "edge", kMorning, 0.5, true});
     }},
    {"log, words and a note",
     [](FullSite& site, Pen& pen) {
       pen.add_word(site.heap, kMorning, "", "turned");
       pen.add_word(site.heap, kMorning, "smell", "earthy");
       pen.add_note(site.heap, kMorning, kAwkward);
     }},
    {"log, the same reading again",
     [](FullSite& site, Pen& pen) {
       pen.add_reading({site.heap, "temperature", "core", kMorning, 60.25});
       pen.add_note(site.heap, kMorning, "the same");
     }},
    {"add",
     [](FullSite& site, Pen& pen) {
       pen.add_movement(movement(std::nullopt, site.heap, {Dimension::kMass, 40}));
     }},
    {"take",
     [](FullSite& site, Pen& pen) {
       pen.add_movement(movement(site.heap, site.bed, {Dimension::kMass, 1.0 / 3}));
     }},
    {"material, a new one",
     [](FullSite&, Pen& pen) {
       model::Material own;
       own.name = "reed";
       own.group = "brown";
       pen.set_material(own);
       pen.set_figure("reed", {model::Property::kCarbonNitrogen, 80, "from memory"});
     }},
    {"material, changed",
     [](FullSite&, Pen& pen) {
       model::Material own;
       own.name = "hop bine";
       own.group = "brown";
       pen.set_material(own);
       pen.set_figure("hop bine", {model::Property::kMoisture, 0.1, "laboratory"});
       pen.set_figure("leaves", {model::Property::kNitrogen, 0.012, "laboratory"});
     }},
    {"container, a new one",
     [](FullSite&, Pen& pen) { pen.set_container("barrow", measure::Litres{85}, "85 L"); }},
    {"container, changed",
     [](FullSite&, Pen& pen) { pen.set_container("bucket", measure::Litres{20}, "20 L"); }},
    {"place, a new one in front", [](FullSite&, Pen& pen) { pen.set_place("gate", 1); }},
    {"place, moved", [](FullSite&, Pen& pen) { pen.set_place("shed", 1); }},
    {"rule, a new one", [](FullSite&, Pen& pen) { pen.set_rule("pile.hot.fire", 0, 82, "82C"); }},
    {"rule, changed",
     [](FullSite& site, Pen& pen) { pen.set_rule("pile.hot.above", site.heap, 65, "65C"); }},
    {"rule, cleared", [](FullSite&, Pen& pen) { pen.clear_rule("pile.hot.above", 0); }},
    {"several at once",
     [](FullSite& site, Pen& pen) {
       pen.add_movement(movement(site.heap, site.bed, {Dimension::kMass, 100}));
       pen.end_batch(site.heap, kMorning, std::nullopt);
       pen.set_place("gate", 2);
       pen.clear_rule("pile.hot.above", site.heap);
       pen.set_container("bucket", measure::Litres{10}, "10 L");
       pen.set_container("bucket", measure::Litres{11}, "11 L");
     }},
};

int count(SiteBook& site, const std::string& sql) {
  return site.logbook.connection().database.execAndGet(sql).getInt();
}

}  // namespace

TEST_CASE("undoing anything puts every table back as it was") {
  FullSite site;
  for (const Deed& deed : kDeeds) {
    CAPTURE(deed.name);
    const std::string before = site.dump();
    site.entry(deed.name, [&](Pen& pen) { deed.work(site, pen); });
    CHECK(site.dump() != before);
    const auto taken_back = undo(site);
    REQUIRE(taken_back);
    CHECK(taken_back->command == deed.name);
    CHECK(difference(before, site.dump()) == "");
  }
}

TEST_CASE("undo goes back and back, to the empty logbook") {
  SiteBook untouched;
  FullSite site;
  std::vector<std::string> before;
  for (const Deed& deed : kDeeds) {
    before.push_back(site.dump());
    // After the heap has ended, the deeds on it still write: that the batch is open is for the
    // command line to see to.
    site.entry(deed.name, [&](Pen& pen) { deed.work(site, pen); });
  }
  while (!before.empty()) {
    CAPTURE(before.size());
    REQUIRE(undo(site));
    CHECK(difference(before.back(), site.dump()) == "");
    before.pop_back();
  }
  int of_the_start = 0;
  while (undo(site)) ++of_the_start;
  CHECK(of_the_start == 10);
  CHECK_FALSE(book::last_entry(site.logbook));
  for (const std::string_view table :
       {"batch", "setting", "series", "reading", "day_roll", "movement", "deed", "note", "material",
        "figure", "container", "rule", "place"}) {
    CAPTURE(table);
    CHECK(count(site, "SELECT count(*) FROM " + std::string(table)) == 0);
  }
}

TEST_CASE("what was taken back is kept in the journal, and the entry says by what") {
  FullSite site;
  site.entry("log", [&](Pen& pen) { pen.add_note(site.heap, kMorning, kAwkward); });
  const auto entry = book::last_entry(site.logbook);
  const int rows = count(site, "SELECT count(*) FROM journal");
  CHECK(undo(site)->id == entry->id);
  CHECK(count(site, "SELECT count(*) FROM journal") == rows + 1);
  book::Query row(site.logbook,
                  "SELECT before ->> 'text', after, table_name, j.entry = e.undone_by, e.line"
                  " FROM journal AS j JOIN entry AS e ON e.id = before ->> 'entry'"
                  " ORDER BY j.id DESC LIMIT 1");
  REQUIRE(row.next());
  CHECK(row.text(0) == kAwkward);
  CHECK(row.null(1));
  CHECK(row.text(2) == "note");
  CHECK(row.integer(3) == 1);
  CHECK(row.text(4) == "log as typed");
  // The next to be taken back is the one before it, not the undo.
  CHECK(book::last_entry(site.logbook)->command == "material");
}

TEST_CASE("what was changed stands in the journal as it was and as it became") {
  FullSite site;
  site.entry("container",
             [](Pen& pen) { pen.set_container("bucket", measure::Litres{20}, "20 L"); });
  book::Query row(site.logbook,
                  "SELECT before ->> 'litres', after ->> 'litres', before ->> 'typed',"
                  " json_valid(before), json_valid(after) FROM journal ORDER BY id DESC LIMIT 1");
  REQUIRE(row.next());
  CHECK(row.real(0) == 18.92705892);
  CHECK(row.real(1) == 20);
  CHECK(row.text(2) == kAwkward);
  CHECK(row.integer(3) == 1);
  CHECK(row.integer(4) == 1);
}

TEST_CASE("an undo that is not committed has undone nothing") {
  FullSite site;
  const std::string before = site.dump(true);
  {
    Pen pen(site.logbook, {"ada", "undo", "undo", kMorning});
    CHECK(book::undo_last(site.logbook, pen));
  }
  CHECK(difference(before, site.dump(true)) == "");
}

TEST_CASE("a code that was ended and used again comes back in order") {
  FullSite site;
  site.entry("end", [&](Pen& pen) { pen.end_batch(site.heap, kMorning, "done"); });
  const std::string ended = site.dump();
  site.start("heap-1", kMorning);
  CHECK(book::find_batch(site.logbook, "heap-1")->run == 2);
  undo(site);
  CHECK(difference(ended, site.dump()) == "");
  CHECK(book::find_batch(site.logbook, "heap-1")->run == 1);
  undo(site);
  CHECK_FALSE(book::find_batch(site.logbook, "heap-1")->ended);
  site.entry("end", [&](Pen& pen) { pen.end_batch(site.heap, kMorning, "done"); });
  site.start("heap-1", kMorning);
  CHECK(book::find_batch(site.logbook, "heap-1")->run == 2);
}

namespace {

// A few hundred entries as chance has them, with undos between; the same in every run.
class Chance {
 public:
  explicit Chance(FullSite& site) : site_(site) {}

  void step() {
    const unsigned what = below(20);
    if (what < 5 && !before_.empty()) {
      REQUIRE(undo(site_));
      CHECK(difference(before_.back(), site_.dump()) == "");
      before_.pop_back();
      return;
    }
    std::string was = site_.dump();
    site_.entry("chance", [&](Pen& pen) { write(pen, what); });
    before_.push_back(std::move(was));
  }

  unsigned below(unsigned end) { return static_cast<unsigned>(random_() % end); }

 private:
  // Four weeks around the end of daylight saving, to the quarter of an hour.
  Instant moment() {
    return build::at(build::day("2026-10-18"), 7) + std::chrono::minutes{15} * below(4 * 24 * 28);
  }
  std::int64_t batch() {
    const auto all = book::all_batches(site_.logbook);
    return all[below(static_cast<unsigned>(all.size()))].id;
  }

  void write(Pen& pen, unsigned what) {
    static constexpr const char* kPositions[] = {"", "core", "edge"};
    if (what < 11) {
      for (unsigned n = below(4) + 1; n > 0; --n) {
        // Quarters of a degree: their sums are exact in any order.
        pen.add_reading({batch(), "temperature", kPositions[below(3)], moment(),
                         static_cast<double>(below(400)) / 4 - 20});
      }
    } else if (what == 11) {
      pen.add_word(batch(), moment(), below(2) == 0 ? "" : "moisture", "damp");
    } else if (what == 12) {
      pen.add_note(batch(), moment(), kAwkward);
    } else if (what == 13) {
      pen.add_movement(
          movement(std::nullopt, batch(), {Dimension::kMass, below(40) + 0.5}, moment()));
    } else if (what == 14) {
      pen.add_movement(
          movement(batch(), std::nullopt, {Dimension::kCount, below(40) + 1.0}, moment()));
    } else if (what == 15) {
      start_or_end(pen);
    } else if (what == 16) {
      pen.set_place("place " + std::to_string(below(4)), static_cast<int>(below(5)));
    } else if (what == 17) {
      pen.set_container("bucket", measure::Litres{(below(30) + 0.1) * 3.785411784}, kAwkward);
    } else if (what == 18) {
      if (!pen.clear_rule("pile.hot.above", 0)) pen.set_rule("pile.hot.above", 0, below(80), "?");
    } else {
      pen.set_figure("leaves", {model::Property::kMoisture, below(100) / 100.0, kAwkward});
    }
  }

  void start_or_end(Pen& pen) {
    const std::string code = "bin-" + std::to_string(below(3));
    const auto known = book::find_batch(site_.logbook, code);
    if (known && !known->ended) {
      pen.end_batch(known->id, moment(), kAwkward);
    } else {
      pen.start_batch({code, "larvae", std::nullopt, moment(), {{"eggs", "5 g", std::nullopt}}});
    }
  }

  FullSite& site_;
  std::mt19937 random_{20261101};
  std::vector<std::string> before_;
};

// Every roll as it would be made from the readings alone.
std::string rolls_from_readings(SiteBook& site) {
  std::map<std::pair<std::int64_t, measure::Day>, model::DayRoll> rolls;
  book::Query row(site.logbook, "SELECT series, at, value FROM reading ORDER BY series, at");
  while (row.next()) {
    const measure::Day day = site.logbook.site().zone.day_of(row.instant(1));
    const double value = row.real(2);
    const auto [at, fresh] =
        rolls.emplace(std::pair(row.integer(0), day),
                      model::DayRoll{day, 0, value, value, 0, value, row.instant(1)});
    model::DayRoll& roll = at->second;
    ++roll.count;
    roll.least = std::min(roll.least, value);
    roll.greatest = std::max(roll.greatest, value);
    roll.total += value;
    roll.last = value;
    roll.last_at = row.instant(1);
  }
  std::string text;
  for (const auto& [key, roll] : rolls) {
    text += fmt::format("{} {} {} {} {} {} {} {}\n", key.first, measure::iso_date(roll.day),
                        roll.count, roll.least, roll.greatest, roll.total,
                        roll.last_at.time_since_epoch().count(), roll.last);
  }
  return text;
}

std::string rolls_as_kept(const book::Logbook& logbook) {
  std::string text;
  book::Query row(logbook,
                  "SELECT series, day, n, least, greatest, total, last_at, last FROM day_roll"
                  " ORDER BY series, day");
  while (row.next()) {
    text += fmt::format("{} {} {} {} {} {} {} {}\n", row.integer(0), measure::iso_date(row.day(1)),
                        row.integer(2), row.real(3), row.real(4), row.real(5), row.integer(6),
                        row.real(7));
  }
  return text;
}

}  // namespace

TEST_CASE("whatever is done and undone, the rolls are those of the readings") {
  FullSite site;
  Chance chance(site);
  for (int step = 0; step < 400; ++step) {
    CAPTURE(step);
    chance.step();
    if (step % 20 == 0)
      CHECK(difference(rolls_from_readings(site), rolls_as_kept(site.logbook)) == "");
  }
  const std::string rolls = rolls_as_kept(site.logbook);
  CHECK(difference(rolls_from_readings(site), rolls) == "");
  CHECK(std::count(rolls.begin(), rolls.end(), '\n') > 50);
  CHECK(count(site, "SELECT count(*) FROM journal WHERE NOT json_valid(before)") == 0);
  CHECK(count(site,
              "SELECT count(*) FROM journal WHERE after IS NOT NULL AND NOT json_valid(after)") ==
        0);
  // Another connection sees the same.
  const book::Logbook other(site.path, book::Access::kRead);
  CHECK(rolls_as_kept(other) == rolls);
  CHECK(book::last_entry(other)->id == book::last_entry(site.logbook)->id);
  CHECK(count(site, "SELECT count(*) FROM pragma_integrity_check WHERE integrity_check <> 'ok'") ==
        0);
  CHECK(count(site, "SELECT count(*) FROM pragma_foreign_key_check") == 0);
}
