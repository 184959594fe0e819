#include "book/write/pen.h"

#include <doctest/doctest.h>
#include <sqlite3.h>

#include <atomic>
#include <stdexcept>
#include <thread>

#include "book/file/error.h"
#include "site_book.h"

namespace pen_test {

using book::Access;
using book::BookError;
using book::Logbook;
using book::Pen;
using measure::Dimension;

namespace {

const model::Day kDay = build::day("2026-04-06");
const measure::Instant kMorning = build::at(kDay, 15);  // 08:00 on the site's clock

book::NewMovement movement(std::int64_t to, double kilograms) {
  book::NewMovement made;
  made.at = kMorning;
  made.material = "leaves";
  made.to = to;
  made.amount = {Dimension::kMass, kilograms};
  made.typed = "40 kg";
  return made;
}

}  // namespace

TEST_CASE("an entry says who typed what, and when") {
  SiteBook site;
  const auto before = book::last_entry(site.logbook);
  CHECK_FALSE(before);
  {
    Pen pen(site.logbook, {"ada", "place", "place \"the yard\" ½", kMorning});
    pen.set_place("the yard", std::nullopt);
    pen.commit();
  }
  const auto entry = book::last_entry(site.logbook);
  REQUIRE(entry);
  CHECK(entry->who == "ada");
  CHECK(entry->command == "place");
  CHECK(entry->line == "place \"the yard\" ½");
  CHECK(entry->recorded_at == kMorning);
}

TEST_CASE("an entry that is not committed leaves nothing") {
  SiteBook site;
  const auto heap = site.start("heap-1", kMorning);
  const std::string before = site.dump(true);
  {
    Pen pen(site.logbook, {"ada", "log", "log", kMorning});
    pen.add_reading({heap, "temperature", "core", kMorning, 64.5});
    pen.add_word(heap, kMorning, "", "turned");
    pen.add_note(heap, kMorning, "noted");
    pen.add_movement(movement(heap, 40));
    pen.set_place("yard", 1);
    pen.set_rule("pile.hot.above", heap, 68, "68C");
    pen.start_batch(
        {"heap-2", "pile", std::nullopt, kMorning, {{"method", "turned", std::nullopt}}});
  }
  CHECK(difference(before, site.dump(true)) == "");
}

TEST_CASE("an exception in the middle leaves nothing, and the logbook goes on") {
  SiteBook site;
  const auto heap = site.start("heap-1", kMorning);
  const std::string before = site.dump(true);
  const auto failing = [&](auto work) {
    CHECK_THROWS(site.entry("log", [&](Pen& pen) {
      pen.add_reading({heap, "temperature", "core", kMorning, 64.5});
      pen.add_note(heap, kMorning, "noted");
      work(pen);
    }));
    CHECK(difference(before, site.dump(true)) == "");
  };
  failing([](Pen&) { throw std::runtime_error("the power went"); });
  failing([&](Pen& pen) { pen.add_movement(movement(heap, 0)); });   // CHECK (amount > 0)
  failing([&](Pen& pen) { pen.add_movement(movement(4711, 40)); });  // no such batch
  failing([&](Pen& pen) { pen.add_word(4711, kMorning, "", "turned"); });
  failing([&](Pen& pen) { pen.start_batch({"heap-1", "pile", std::nullopt, kMorning, {}}); });
  failing([&](Pen& pen) {
    book::NewMovement nowhere = movement(heap, 40);
    nowhere.to.reset();
    pen.add_movement(nowhere);
  });
  failing([&](Pen& pen) {
    book::NewMovement warm = movement(heap, 40);
    warm.amount.dimension = Dimension::kTemperature;
    pen.add_movement(warm);
  });
  failing([&](Pen& pen) { pen.set_container("bucket", measure::Litres{0}, "0 gal"); });
  site.entry("log", [&](Pen& pen) { pen.add_note(heap, kMorning, "on with it"); });
  CHECK(site.history("heap-1", kMorning).notes.size() == 1);
}

TEST_CASE("there is one pen to a logbook") {
  SiteBook site;
  Pen first(site.logbook, {"ada", "place", "place yard", kMorning});
  first.set_place("yard", std::nullopt);
  CHECK_THROWS_AS(Pen(site.logbook, {"ada", "place", "place shed", kMorning}), BookError);
  first.commit();
  CHECK(book::places(site.logbook) == std::vector<std::string>{"yard"});
}

TEST_CASE("a reading stands where it stands") {
  SiteBook site;
  const auto heap = site.start("heap-1", kMorning);
  const auto add = [&](double value, measure::Instant at = kMorning,
                       const char* position = "core") {
    std::optional<Pen::Standing> standing;
    site.entry("log", [&](Pen& pen) {
      standing = pen.add_reading({heap, "temperature", position, at, value});
    });
    return standing;
  };
  CHECK_FALSE(add(64.5));
  const std::string once = site.dump();
  const auto same = add(64.5);
  REQUIRE(same);
  CHECK(same->same);
  CHECK(same->value == 64.5);
  const auto other = add(70);
  REQUIRE(other);
  CHECK_FALSE(other->same);
  CHECK(other->value == 64.5);
  CHECK(difference(once, site.dump()) == "");  // not counted twice, not written over
  CHECK_FALSE(add(70, kMorning + std::chrono::seconds{1}));
  CHECK_FALSE(add(70, kMorning, "edge"));
  const auto history = site.history("heap-1", kMorning + std::chrono::hours{1});
  CHECK(history.find("temperature", "core")->days[0].count == 2);
  CHECK(history.find("temperature", "edge")->days[0].count == 1);
}

TEST_CASE("a code is used again and again, and each batch has its run") {
  SiteBook site;
  const auto first = site.start("bin-a", kMorning, "larvae");
  CHECK_THROWS_AS(site.start("bin-a", kMorning, "larvae"), BookError);  // it still runs
  CHECK(book::find_batch(site.logbook, "bin-a")->run == 1);
  const auto end = kMorning + std::chrono::hours{24};
  site.entry("end", [&](Pen& pen) { pen.end_batch(first, end, "harvested"); });
  CHECK(book::find_batch(site.logbook, "bin-a")->ended == end);
  CHECK(book::find_batch(site.logbook, "bin-a")->because == "harvested");
  const auto second = site.start("bin-a", end, "larvae");
  site.start("bin-b", end, "larvae");
  CHECK(book::find_batch(site.logbook, "bin-a")->id == second);
  CHECK(book::find_batch(site.logbook, "BIN-A")->run == 2);
  CHECK(book::find_batch(site.logbook, "bin-a/1")->id == first);
  CHECK(book::find_batch(site.logbook, "bin-a/2")->id == second);
  CHECK(book::find_batch(site.logbook, "bin-b")->run == 1);
  for (const std::string_view none : {"bin-a/3", "bin-a/0", "bin-a/", "bin-a/x", "bin-a/1/1",
                                      "bin-a/-1", "bin", "", "/1", "bin-a/99999999999999999999"}) {
    CAPTURE(none);
    CHECK_FALSE(book::find_batch(site.logbook, none));
  }
  CHECK(book::label_of(site.logbook, *book::find_batch(site.logbook, "bin-a/1")) == "bin-a/1");
  CHECK(book::label_of(site.logbook, *book::find_batch(site.logbook, "bin-a/2")) == "bin-a");
}

TEST_CASE("places in walking order") {
  SiteBook site;
  const auto place = [&](const char* name, std::optional<int> position) {
    site.entry("place", [&](Pen& pen) { pen.set_place(name, position); });
    return book::places(site.logbook);
  };
  using Walk = std::vector<std::string>;
  CHECK(place("yard", std::nullopt) == Walk{"yard"});
  CHECK(place("shed", std::nullopt) == Walk{"yard", "shed"});
  CHECK(place("gate", 1) == Walk{"gate", "yard", "shed"});
  CHECK(place("shed", 2) == Walk{"gate", "shed", "yard"});
  CHECK(place("gate", std::nullopt) == Walk{"shed", "yard", "gate"});
  CHECK(place("barn", 99) == Walk{"shed", "yard", "gate", "barn"});
  CHECK(place("barn", -5) == Walk{"barn", "shed", "yard", "gate"});
}

TEST_CASE("a batch's settings and place come back as told") {
  SiteBook site;
  site.entry("place", [](Pen& pen) { pen.set_place("yard", std::nullopt); });
  site.entry("start", [](Pen& pen) {
    pen.start_batch({"heap-1",
                     "pile",
                     "yard",
                     kMorning,
                     {{"method", "turned", std::nullopt},
                      {"volume", "1 yd3", measure::Value{Dimension::kVolume, 764.554857984}}}});
  });
  const auto batch = *book::find_batch(site.logbook, "heap-1");
  CHECK(batch.place == "yard");
  CHECK(batch.started == kMorning);
  CHECK(batch.started_day == kDay);
  CHECK(batch.text("method", "") == "turned");
  CHECK(batch.number("volume") == measure::Value{Dimension::kVolume, 764.554857984});
  CHECK_FALSE(batch.ended);
}

TEST_CASE("a rule is set, changed, and cleared once") {
  SiteBook site;
  const auto heap = site.start("heap-1", kMorning);
  site.entry("rule", [](Pen& pen) { pen.set_rule("pile.hot.above", 0, 68, "68C"); });
  site.entry("rule", [&](Pen& pen) { pen.set_rule("pile.hot.above", heap, 66, "66C"); });
  site.entry("rule", [&](Pen& pen) { pen.set_rule("pile.hot.above", heap, 65, "65C"); });
  CHECK(book::site_rules(site.logbook).size() == 2);
  bool cleared = false;
  site.entry("rule", [&](Pen& pen) { cleared = pen.clear_rule("pile.hot.above", heap); });
  CHECK(cleared);
  site.entry("rule", [&](Pen& pen) { cleared = pen.clear_rule("pile.hot.above", heap); });
  CHECK_FALSE(cleared);
  CHECK(book::site_rules(site.logbook).size() == 1);
}

TEST_CASE("a second writer waits for the first, and both are recorded") {
  SiteBook site;
  const auto heap = site.start("heap-1", kMorning);
  std::atomic<bool> coming{false};
  std::string failed;
  std::thread second;
  {
    Pen first(site.logbook, {"ada", "log", "first", kMorning});
    first.add_note(heap, kMorning, "first");
    second = std::thread([&] {
      Logbook other(site.path, Access::kWrite);
      coming = true;
      try {
        Pen pen(other, {"ben", "log", "second", kMorning});  // waits here
        pen.add_note(heap, kMorning, "second");
        pen.commit();
      } catch (const BookError& error) {
        failed = error.what();
      }
    });
    while (!coming) std::this_thread::yield();
    for (int i = 0; i < 2000; ++i) first.add_note(heap, kMorning, "more");
    first.commit();
  }
  second.join();
  CHECK(failed == "");
  const auto history = site.history("heap-1", kMorning);
  CHECK(history.notes.size() == 2002);
  CHECK(history.notes.back().text == "second");
  CHECK(book::last_entry(site.logbook)->who == "ben");
}

TEST_CASE("a writer that waits in vain says so, and has recorded nothing") {
  SiteBook site;
  const auto heap = site.start("heap-1", kMorning);
  Logbook other(site.path, Access::kWrite);
  sqlite3_busy_timeout(other.connection().database.getHandle(), 1);  // not five seconds of a test
  Pen first(site.logbook, {"ada", "log", "first", kMorning});
  first.add_note(heap, kMorning, "first");
  try {
    const Pen second(other, {"ben", "log", "second", kMorning});
    FAIL("it did not wait");
  } catch (const BookError& error) {
    const std::string message = error.what();
    CHECK(message.find("another program is writing to the logbook") != std::string::npos);
    CHECK(message.find("Try again when it is done") != std::string::npos);
  }
  // Reading goes on beside it, and sees the last whole state.
  CHECK(book::history(other, book::Materials(other), *book::find_batch(other, "heap-1"), kMorning)
            .notes.empty());
  first.commit();
  CHECK(book::last_entry(other)->who == "ada");
  Pen again(other, {"ben", "log", "again", kMorning});
  again.add_note(heap, kMorning, "second");
  again.commit();
  CHECK(site.history("heap-1", kMorning).notes.size() == 2);
}

TEST_CASE("several entries are kept together or not at all, and one can be dropped") {
  SiteBook site;
  const auto heap = site.start("heap-1", kMorning);
  const auto notes = [&] { return site.history("heap-1", kMorning).notes.size(); };
  const int before = book::count_entries(site.logbook);
  {
    Pen pen(site.logbook);
    pen.begin({"ada", "log", "one", kMorning});
    pen.add_note(heap, kMorning, "one");
    pen.begin({"ben", "log", "two", kMorning});
    pen.add_note(heap, kMorning, "two");
  }
  CHECK(notes() == 0);
  CHECK(book::count_entries(site.logbook) == before);
  Pen pen(site.logbook);
  pen.begin({"ada", "log", "one", kMorning});
  pen.drop();
  pen.begin({"ada", "log", "two", kMorning});
  pen.add_note(heap, kMorning, "two");
  pen.begin({"ben", "log", "three", kMorning});
  pen.add_note(heap, kMorning, "three");
  pen.drop();
  pen.begin({"cho", "log", "four", kMorning});
  pen.add_note(heap, kMorning, "four");
  pen.begin({"ada", "log", "five", kMorning});
  pen.add_note(heap, kMorning, "five");
  pen.drop();  // the last one, too
  pen.commit();
  REQUIRE(notes() == 2);
  CHECK(site.history("heap-1", kMorning).notes[1].text == "four");
  CHECK(book::count_entries(site.logbook) == before + 2);
  CHECK(book::last_entry(site.logbook)->who == "cho");
}

}  // namespace pen_test
