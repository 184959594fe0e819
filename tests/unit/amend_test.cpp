#include "book/write/amend.h"

#include <doctest/doctest.h>

#include "book/file/journal.h"
#include "book/file/schema.h"
#include "book/keep/check.h"
#include "book/read/past.h"
#include "book/read/query.h"
#include "chance_site.h"
#include "rounds.h"

namespace amend_test {

using book::Pen;

namespace {

std::string derived(SQLite::Database& database) {
  std::string text;
  for (const char* sql :
       {"SELECT series, day, n, least, greatest, total, last_at, last FROM day_roll"
        " ORDER BY series, day",
        "SELECT entry, series, at FROM reading_typed ORDER BY entry, series, at"}) {
    SQLite::Statement row(database, sql);
    while (row.executeStep()) {
      for (int i = 0; i < row.getColumnCount(); ++i) {
        text += fmt::format("{:a} ", row.getColumn(i).getDouble());
      }
      text += '\n';
    }
  }
  return text;
}

// What is derived as a rebuild from scratch makes them, in a copy.
std::string rebuilt(const SiteBook& site) {
  SQLite::Database copy(":memory:", SQLite::OPEN_READWRITE);
  copy.exec("ATTACH '" + site.path.string() + "' AS book");
  for (const char* table : {"reading", "day_roll", "day_mark", "reading_typed", "import"}) {
    copy.exec(fmt::format("CREATE TABLE {0} AS SELECT * FROM book.{0}", table));
  }
  copy.exec("CREATE UNIQUE INDEX day_mark_key ON day_mark (series, day, mark)");
  book::rebuild_rolls(copy, site.logbook.site().zone);
  return derived(copy);
}

}  // namespace

TEST_CASE("a corrected reading takes the place of the wrong one, in the sums too") {
  FullSite site;
  site.entry("log", [&](Pen& pen) {
    pen.add_reading({site.heap, "temperature", "core", kMorning + std::chrono::hours{1}, 90});
  });
  const std::string before = site.dump();
  const auto number = book::last_entry(site.logbook)->id;
  const auto written = book::written_by(site.logbook, number);
  REQUIRE(written->readings.size() == 1);
  site.entry("amend", [&](Pen& pen) {
    CHECK_FALSE(
        book::amend(site.logbook, pen, written->readings[0],
                    {site.heap, "temperature", "core", kMorning + std::chrono::hours{2}, 65}));
  });
  const auto history = site.history("heap-1", kMorning + std::chrono::hours{48});
  const auto* series = history.find("temperature", "core");
  REQUIRE(series != nullptr);
  REQUIRE(series->days.size() == 1);
  CHECK(series->days[0].count == 2);
  CHECK(series->days[0].greatest == 65);
  CHECK(series->days[0].total == 60.25 + 65);
  // The entry is still the one to name, and shows what it holds now.
  CHECK(book::written_by(site.logbook, number)->readings[0].value == 65);
  const auto past = book::past(site.logbook, {}, 1);
  REQUIRE(past[0].changes.size() == 1);
  CHECK(past[0].changes[0].batch == "heap-1");
  CHECK(past[0].changes[0].position == "core");
  undo(site);
  CHECK(difference(before, site.dump()) == "");
}

TEST_CASE("a reading moved to another batch makes its series, and comes back with an undo") {
  FullSite site;
  const auto log =
      book::past(site.logbook, {.batch = book::find_batch(site.logbook, "heap-1")}, 100);
  std::int64_t number{};
  for (const auto& one : log) {
    if (one.entry.command == "log") number = one.entry.id;
  }
  const std::string before = site.dump();
  const auto written = book::written_by(site.logbook, number);
  site.entry("amend", [&](Pen& pen) {
    auto is = book::NewReading{site.bed, "temperature", "core", kMorning, 60.25, false};
    CHECK_FALSE(book::amend(site.logbook, pen, written->readings[0], is));
  });
  CHECK(site.history("heap-1", kMorning).find("temperature", "core") == nullptr);
  CHECK(site.history("bed-1", kMorning).find("temperature", "core")->last->value == 60.25);
  undo(site);
  CHECK(difference(before, site.dump()) == "");
  // The series that had no reading for a while is there for what the journal says of it.
  CHECK(site.history("heap-1", kMorning).find("temperature", "core")->last->value == 60.25);
}

TEST_CASE("where a reading stands already, an amendment is refused and changes nothing") {
  FullSite site;
  site.entry("log", [&](Pen& pen) {
    pen.add_reading({site.heap, "temperature", "core", kMorning + std::chrono::hours{1}, 90});
  });
  const auto written = book::written_by(site.logbook, book::last_entry(site.logbook)->id);
  Pen pen(site.logbook, {"ada", "amend", "amend", kMorning});
  const auto standing = book::amend(site.logbook, pen, written->readings[0],
                                    {site.heap, "temperature", "core", kMorning, 90, false});
  REQUIRE(standing);
  CHECK(standing->value == 60.25);
  CHECK_FALSE(standing->same);
}

TEST_CASE("thousands of random deeds: the rolls are those of a rebuild, to the last bit") {
  for (unsigned seed = 1; seed <= rounds(3, 1); ++seed) {
    CAPTURE(seed);
    SiteBook site;
    ChanceSite chance(site.logbook, seed);
    for (int step = 1; step <= 1000; ++step) {
      CAPTURE(step);
      chance.step();
      if (step % 250 == 0) {
        CHECK(difference(rebuilt(site), derived(site.logbook.connection().database)) == "");
      }
    }
    CHECK(count(site, "SELECT count(*) FROM day_roll") > 20);
    CHECK(count(site, "SELECT count(*) FROM entry WHERE command = 'amend'") > 50);
    for (const auto& trouble : book::check(site.logbook, build::at(build::day("2027-06-01")))) {
      CAPTURE(trouble.what);
      CHECK(trouble.sort == book::Trouble::Sort::kDoubt);
    }
    // Taken back one by one, nothing of it is left.
    while (undo(site)) {
    }
    for (const char* table : {"batch", "reading", "day_roll", "movement", "deed", "note", "rule"}) {
      CAPTURE(table);
      CHECK(count(site, std::string("SELECT count(*) FROM ") + table) == 0);
    }
  }
}

TEST_CASE("any double comes back from the journal to the last bit") {
  SiteBook site;
  const auto heap = site.start("heap-1", kMorning);
  std::mt19937_64 random(7);
  constexpr int kNumbers = 20000;
  std::vector<double> numbers;
  site.entry("log", [&](Pen& pen) {
    for (int i = 0; i < kNumbers; ++i) {
      const double value = static_cast<double>(random() >> 11) * 0x1p-53 * 100;
      numbers.push_back(value);
      pen.add_reading({heap, "temperature", "", kMorning + std::chrono::seconds{i}, value});
    }
  });
  const std::string before = site.dump();
  site.entry("amend", [&](Pen& pen) {
    book::Query(site.logbook, "UPDATE reading SET value = 0, entry = ?", pen.entry()).run();
  });
  undo(site);
  int off = 0;
  book::Query row(site.logbook, "SELECT value FROM reading ORDER BY at");
  for (std::size_t i = 0; row.next(); ++i) off += row.real(0) == numbers[i] ? 0 : 1;
  CHECK(off == 0);
}

TEST_CASE("only a statement that changes or takes away needs the journal") {
  CHECK(book::changed_table("UPDATE note SET text = ?").compare("note") == 0);
  CHECK(book::changed_table("DELETE FROM rule WHERE key = ?") == "rule");
  CHECK(book::changed_table(
            "INSERT INTO deed (id) VALUES (?) ON CONFLICT (id) DO UPDATE SET id = 1") == "deed");
  CHECK(book::changed_table("INSERT OR REPLACE INTO mapping VALUES (?)") == "mapping");
  CHECK(book::changed_table("INSERT INTO note (text) VALUES (?)").empty());
  CHECK(book::changed_table("SELECT text FROM note").empty());
}

TEST_CASE(
    "the journal has every column of every row that changes, whatever was rolled back before") {
  FullSite site;
  {
    Pen dropped(site.logbook, {"ada", "amend", "amend", kMorning});
    book::Query(site.logbook, "UPDATE note SET text = 'lost', entry = ?", dropped.entry()).run();
  }
  site.entry("amend", [&](Pen& pen) {
    book::Query(site.logbook, "UPDATE note SET text = 'a \\ and a \"', entry = ?", pen.entry())
        .run();
  });
  book::Query row(
      site.logbook,
      "SELECT before ->> 'text', after ->> 'text', (SELECT count(*) FROM json_each(after))"
      " FROM journal WHERE table_name = 'note' ORDER BY id DESC LIMIT 1");
  REQUIRE(row.next());
  CHECK(row.text(0) != "lost");
  CHECK(row.text(1) == "a \\ and a \"");
  book::Query columns(site.logbook, "SELECT count(*) FROM pragma_table_info('note')");
  REQUIRE(columns.next());
  CHECK(row.integer(2) == columns.integer(0));
}

TEST_CASE("an entry with a change that the journal was not told of is refused") {
  FullSite site;
  Pen pen(site.logbook, {"ada", "amend", "amend", kMorning});
  site.logbook.connection().database.exec("UPDATE note SET text = 'behind its back'");
  CHECK_THROWS(pen.commit());
}

TEST_CASE("text with a control character is refused, and shown inert where a file has it") {
  FullSite site;
  {
    Pen pen(site.logbook, {"ada", "log", "log", kMorning});
    CHECK_THROWS(pen.add_note(site.heap, kMorning, "red \x1b[31m alert"));
  }
  SQLite::Database raw(site.path.string(), SQLite::OPEN_READWRITE);
  raw.exec("UPDATE note SET text = 'red ' || char(27) || '[31m alert'");
  CHECK(site.history("heap-1", kMorning).notes[0].text == "red ?[31m alert");
}

}  // namespace amend_test
