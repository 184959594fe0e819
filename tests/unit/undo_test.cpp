#include "book/write/undo.h"

#include <doctest/doctest.h>

#include <functional>

#include "full_site.h"

namespace undo_test {

using book::Pen;
using measure::Dimension;
using measure::Value;

namespace {

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
  CHECK(of_the_start == 12);
  CHECK_FALSE(book::last_entry(site.logbook));
  for (const std::string_view table :
       {"batch", "setting", "series", "reading", "day_roll", "reading_typed", "movement", "deed",
        "note", "material", "figure", "container", "rule", "place"}) {
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

}  // namespace undo_test
