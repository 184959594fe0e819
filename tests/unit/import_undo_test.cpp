#include <doctest/doctest.h>
#include <sqlite3.h>

#include "book/import/book.h"
#include "book/read/past.h"
#include "book/read/rolls.h"
#include "full_site.h"
#include "import_hours.h"

namespace import_undo_test {

namespace {

// What an import leaves on purpose when it is taken back.
std::string without_memory(const SiteBook& site) {
  std::string dump = site.dump();
  for (const std::string table : {"import_span", "taken_back_reading"}) {
    const std::size_t begin = dump.find("== " + table + "\n");
    dump.erase(begin, dump.find("== ", begin + 3) - begin);
  }
  return dump;
}

// What SQLite did meanwhile, in steps of its own machine: a scan is as many as there are rows.
template <class Work>
std::int64_t steps(SiteBook& site, Work work) {
  std::int64_t all = 0;
  sqlite3* const handle = site.logbook.connection().database.getHandle();
  sqlite3_trace_v2(
      handle, SQLITE_TRACE_PROFILE,
      [](unsigned, void* sum, void* statement, void*) {
        *static_cast<std::int64_t*>(sum) += sqlite3_stmt_status(
            static_cast<sqlite3_stmt*>(statement), SQLITE_STMTSTATUS_VM_STEP, 1);
        return 0;
      },
      &all);
  work();
  sqlite3_trace_v2(handle, 0, nullptr, nullptr);
  return all;
}

}  // namespace

TEST_CASE("import: what a batch's past is, and undo of a short one, cost no scan of all readings") {
  FullSite site;
  import_hours(site.logbook, site.heap, kMorning + std::chrono::hours{1}, 20000);
  {
    const std::vector<book::Target> targets{core_of(site.bed)};
    book::ImportSink sink(site.logbook, {"ada", "import", "import y.csv", kMorning}, targets,
                          [](const auto&) {});
    sink.add({0, 0, 50}, kMorning.time_since_epoch().count(), 2);
    sink.flush();
    book::keep_import(site.logbook, sink.pen(), "y.csv", "", {1, 1, 0, 0});
    sink.commit();
  }
  const auto heap = book::find_batch(site.logbook, "heap-1");
  std::size_t entries = 0;
  CHECK(steps(site, [&] { entries = book::past(site.logbook, {.batch = heap}, 100).size(); }) <
        20000);
  CHECK(entries == 6);  // start, log, add, rule, later, import
  CHECK(steps(site, [&] { undo(site); }) < 20000);
  CHECK(count(site, "SELECT count(*) FROM reading") == 20001);
}

TEST_CASE("import: what is marked is counted up to the moment that is asked for") {
  SiteBook site;
  const auto heap = site.start("heap-1", kMorning);
  {
    const std::vector<book::Target> targets{core_of(heap)};
    book::ImportSink sink(site.logbook, {"ada", "import", "import x.csv", kMorning}, targets,
                          [](const auto&) {});
    for (int hour = 0; hour < 48; ++hour) {
      sink.add({0, 0, 120.0 + hour},
               (kMorning + std::chrono::hours{hour}).time_since_epoch().count(),
               static_cast<std::uint64_t>(hour) + 2);
    }
    sink.commit();
  }
  const auto batch = *book::find_batch(site.logbook, "heap-1");
  for (const int hour : {0, 3, 20, 30, 47}) {
    const auto marked =
        book::marked_readings(site.logbook, batch, kMorning + std::chrono::hours{hour});
    REQUIRE(marked.size() == 1);
    CHECK(marked[0].count == hour + 1);
    CHECK(marked[0].greatest == 120 + hour);
    CHECK(marked[0].last_at == kMorning + std::chrono::hours{hour});
  }
  CHECK(book::marked_readings(site.logbook, batch, kMorning - std::chrono::seconds{1}).empty());
}

TEST_CASE("import: undo takes it back whole, and the journal has no row for its readings") {
  FullSite site;
  const std::string before = without_memory(site);
  const int journal = count(site, "SELECT count(*) FROM journal WHERE table_name = 'reading'");
  import_hours(site.logbook, site.heap, kMorning + std::chrono::hours{1}, 1000);
  CHECK(count(site, "SELECT count(*) FROM reading WHERE mark IS NOT NULL") == 33);
  CHECK(count(site, "SELECT sum(n) FROM day_mark") == 33);
  CHECK(undo(site)->command == "import");
  CHECK(difference(before, without_memory(site)) == "");
  CHECK(count(site, "SELECT count(*) FROM taken_back_reading") == 1000);
  CHECK(count(site, "SELECT count(*) FROM journal WHERE table_name = 'reading'") == journal);
  // What is taken back by a line of its own is in the journal as ever.
  site.entry("log", [&](book::Pen& pen) {
    pen.add_reading({site.heap, "temperature", "core", kMorning + std::chrono::hours{9}, 60});
  });
  undo(site);
  CHECK(count(site, "SELECT count(*) FROM journal WHERE table_name = 'reading'") == journal + 1);
}

TEST_CASE("import: rolls are what the readings give, in any order and in two parts") {
  SiteBook site;
  const auto heap = site.start("heap-1", kMorning);
  import_hours(site.logbook, heap, kMorning + std::chrono::hours{500}, 500);
  import_hours(site.logbook, heap, kMorning, 700);  // the last 200 stand already, with other values
  const auto rolls = site.history("heap-1", kMorning + std::chrono::hours{2000}).series.at(0).days;
  std::int64_t total = 0;
  for (const model::DayRoll& roll : rolls) {
    const auto again = book::rolled(site.logbook, 1, roll.day, measure::Instant::max());
    REQUIRE(again);
    CHECK(again->count == roll.count);
    CHECK(again->least == roll.least);
    CHECK(again->greatest == roll.greatest);
    CHECK(again->total == doctest::Approx(roll.total));
    CHECK(again->last == roll.last);
    CHECK(again->last_at == roll.last_at);
    total += roll.count;
  }
  CHECK(total == count(site, "SELECT count(*) FROM reading WHERE mark IS NULL"));
  CHECK(count(site, "SELECT count(*) FROM reading") == 1000);
}

TEST_CASE(
    "import: twice is once, another value is a conflict, and nothing is kept without a commit") {
  SiteBook site;
  const auto heap = site.start("heap-1", kMorning);
  import_hours(site.logbook, heap, kMorning, 300, false);
  CHECK(count(site, "SELECT count(*) FROM reading") == 0);
  CHECK(count(site, "PRAGMA foreign_keys") == 1);
  CHECK(import_hours(site.logbook, heap, kMorning, 300) == 0);
  CHECK(import_hours(site.logbook, heap, kMorning, 300) == 0);
  CHECK(import_hours(site.logbook, heap, kMorning + std::chrono::hours{1}, 6) == 6);
  CHECK(count(site, "SELECT count(*) FROM reading") == 300);
}

TEST_CASE("import: a long stuck probe does not hide the last good reading") {
  SiteBook site;
  const auto heap = site.start("heap-1", kMorning);
  const std::vector<book::Target> targets{core_of(heap)};
  {
    book::ImportSink sink(site.logbook, {"ada", "import", "import x.csv", kMorning}, targets,
                          [](const auto&) {});
    for (int hour = 0; hour < 400; ++hour) {
      sink.add({0, 0, hour == 0 ? 50.0 : 51.0},
               (kMorning + std::chrono::hours{hour}).time_since_epoch().count(), 1);
    }
    sink.commit();
  }
  const auto now = kMorning + std::chrono::hours{400};
  const auto history = site.history("heap-1", now);
  REQUIRE(history.series.at(0).last);
  CHECK(history.series[0].last->at == kMorning + std::chrono::hours{24});
  CHECK(history.series[0].before_last->at == kMorning + std::chrono::hours{23});
  const auto marked =
      book::marked_readings(site.logbook, *book::find_batch(site.logbook, "heap-1"), now);
  REQUIRE(marked.size() == 1);
  CHECK(marked[0].mark == "stuck");
  CHECK(marked[0].count == 375);
}

}  // namespace import_undo_test
