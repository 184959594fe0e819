#include <doctest/doctest.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <fstream>
#include <functional>
#include <thread>

#include "book/file/error.h"
#include "book/file/schema.h"
#include "book/keep/backup.h"
#include "book/keep/check.h"
#include "book/keep/package.h"
#include "book/merge/merge.h"
#include "chance_site.h"
#include "import_hours.h"
#include "rounds.h"

namespace copies_test {

using book::Pen;

namespace fs = std::filesystem;

namespace {

// All rows of a file as text, by a connection of its own.
std::string content(const fs::path& path) {
  return SiteBook::dump_of(path, true);
}

fs::path field_copy(const SiteBook& site, const char* name) {
  const fs::path path = site.folder / name;
  book::back_up(site.logbook, path);
  return path;
}

void write(const fs::path& path, const std::string& who, measure::Instant now,
           const std::function<void(book::Logbook&, Pen&)>& work) {
  book::Logbook logbook(path, book::Access::kWrite);
  Pen pen(logbook, {who, "log", "log by " + who, now});
  work(logbook, pen);
  pen.commit();
}

const measure::Instant kLater = build::at(build::day("2026-07-01"));

// A merged into B and B into A, each in files of their own; the reports of the first.
struct BothWays {
  book::Merged report;
  std::string ab, ba, ab_again;
};

BothWays both_ways(const SiteBook& site, const fs::path& a, const fs::path& b) {
  BothWays ways;
  const fs::path a2 = site.folder / "a2.db";
  fs::remove(a2);
  book::back_up(book::Logbook(a, book::Access::kRead), a2);
  {
    book::Logbook into(a2, book::Access::kWrite);
    ways.report = book::merge(into, b, kLater);
  }
  ways.ab = content(a2);
  {
    book::Logbook into(a2, book::Access::kWrite);
    CHECK_FALSE(book::merge(into, b, kLater).changed);
    CHECK_FALSE(book::merge(into, a, kLater).changed);
  }
  ways.ab_again = content(a2);
  const fs::path b2 = site.folder / "b2.db";
  fs::remove(b2);
  book::back_up(book::Logbook(b, book::Access::kRead), b2);
  {
    book::Logbook into(b2, book::Access::kWrite);
    book::merge(into, a, kLater);
  }
  ways.ba = content(b2);
  return ways;
}

}  // namespace

TEST_CASE("a backup is whole, for its owner alone, and never over anything") {
  FullSite site;
  const fs::path copy = site.folder / "copy.db";
  book::back_up(site.logbook, copy);
  CHECK(difference(content(site.path), content(copy)) == "");
  struct stat status {};
  REQUIRE(::stat(copy.c_str(), &status) == 0);
  CHECK((status.st_mode & 0777) == 0600);
  CHECK_THROWS_AS(book::back_up(site.logbook, copy), book::BookError);
  CHECK_THROWS_AS(book::back_up(site.logbook, site.path), book::BookError);
  // A link at the target leads nowhere and nothing is written through it.
  const fs::path victim = site.folder / "victim";
  fs::create_symlink(victim, site.folder / "link.db");
  CHECK_THROWS_AS(book::back_up(site.logbook, site.folder / "link.db"), book::BookError);
  CHECK_FALSE(fs::exists(victim));
  CHECK_THROWS_AS(book::back_up(site.logbook, "/proc/none/x.db"), book::BookError);
}

TEST_CASE("the day's copy is made once, and the newest fourteen stay") {
  FullSite site;
  const auto folder = book::backup_folder(site.path);
  CHECK(book::back_up_daily(site.logbook, build::day("2026-04-06")));
  CHECK_FALSE(book::back_up_daily(site.logbook, build::day("2026-04-06")));
  fs::create_directories(folder);
  std::ofstream(folder / "logbook-notes.db") << "not ours to remove";
  book::back_up(site.logbook, folder / "logbook-2026-04-06-120000.db");  // by hand
  for (int day = 7; day < 30; ++day) {
    CHECK(book::back_up_daily(site.logbook, build::day(fmt::format("2026-04-{:02}", day).c_str())));
  }
  int files = 0;
  for (const auto& file : fs::directory_iterator(folder)) {
    ++files;
    CHECK(file.path().filename() != "logbook-2026-04-15.db");
  }
  CHECK(files == 16);
  book::back_up(site.logbook, folder / "logbook-2026-04-29-120000.db");
  CHECK(book::keep_newest(site.path, 2, book::Which::kAll) == 14);
  CHECK(fs::exists(folder / "logbook-2026-04-29-120000.db"));
  CHECK(fs::exists(folder / "logbook-2026-04-29.db"));
  CHECK(fs::exists(folder / "logbook-notes.db"));
  SiteBook empty;
  CHECK_FALSE(book::back_up_daily(empty.logbook, build::day("2026-04-06")));
}

TEST_CASE("what killed backups left is swept, of any day, and nothing else") {
  FullSite site;
  const auto folder = book::backup_folder(site.path);
  std::filesystem::create_directories(folder);
  // No process has so great a number (the kernel's limit is 2^22).
  for (const char* gone :
       {".logbook-2026-07-01.db.part-99999999", "..logbook.db.restored.part-99999999",
        ".logbook-2026-07-01.db.part-99999999-journal",
        ".logbook-before-merge-2026-07-01-071500.db.part-99999999"}) {
    std::ofstream(folder / gone) << std::string(512, '\0');
  }
  const std::set<std::string> others{".logbooks-2026-07-01.db.part-99999999",
                                     ".logbook-2026-07-01.db.part-1", "logbook.part-99999999"};
  for (const std::string& other : others) std::ofstream(folder / other) << "another's";
  book::back_up_daily(site.logbook, build::day("2026-07-02"));
  std::set<std::string> there;
  for (const auto& file : std::filesystem::directory_iterator(folder)) {
    there.insert(file.path().filename().string());
  }
  std::set<std::string> wanted = others;
  wanted.insert("logbook-2026-07-02.db");
  CHECK(there == wanted);
}

TEST_CASE("restore puts back what was, and keeps what is") {
  FullSite site;
  const std::string then = content(site.path);
  const fs::path copy = field_copy(site, "copy.db");
  site.entry("log", [&](Pen& pen) { pen.add_note(site.heap, kMorning, "after"); });
  const std::string now = content(site.path);
  const auto restored = book::restore(site.path, copy, kLater);
  CHECK(difference(then, content(site.path)) == "");
  CHECK(difference(now, content(restored.kept)) == "");
  // The connection that was open sees it, and goes on.
  CHECK(book::count_entries(site.logbook) == restored.entries);
  site.entry("log", [&](Pen& pen) { pen.add_note(site.heap, kMorning, "again"); });
  CHECK_THROWS_AS(book::restore(site.path, site.path, kLater), book::BookError);
}

TEST_CASE("restore sets a ruined logbook aside, and refuses a ruined backup") {
  FullSite site;
  const fs::path copy = field_copy(site, "copy.db");
  const fs::path ruin = site.folder / "ruin.db";
  std::ofstream(ruin) << std::string(5000, 'x');
  CHECK_THROWS_AS(book::restore(site.path, ruin, kLater), book::BookError);
  const auto restored = book::restore(ruin, copy, kLater);
  CHECK(fs::file_size(restored.kept) == 5000);
  CHECK(difference(content(copy), content(ruin)) == "");
  // Where nothing is but a log that was left over, that is kept and not taken in.
  const fs::path bare = site.folder / "bare.db";
  std::ofstream(bare.string() + "-wal") << "left over";
  const auto again = book::restore(bare, copy, kLater);
  CHECK(fs::exists(again.kept.string() + "-wal"));
  CHECK(difference(content(copy), content(bare)) == "");
  // Another program's file is no damage.
  const fs::path foreign = site.folder / "foreign.db";
  {
    SQLite::Database other(foreign.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    other.exec("CREATE TABLE t (x)");
  }
  CHECK_THROWS_AS(book::restore(foreign, copy, kLater), book::BookError);
  CHECK(fs::exists(foreign));
}

TEST_CASE("what is exported comes back equal") {
  for (const unsigned seed : {11U, 12U}) {
    FullSite site;
    ChanceSite chance(site.logbook, seed);
    for (int step = 0; step < 300; ++step) chance.step();
    const auto heap = site.start("heap-2", kMorning);
    site.entry("log", [&](Pen& pen) {
      for (const char* text : {"=1+1", "'quoted", "@x", "-5", "+1", "a,b", "say \"x\"", "'", ""}) {
        pen.add_note(heap, kMorning, text);
      }
      auto sold = movement(heap, std::nullopt, {measure::Dimension::kMass, 1.0 / 3});
      sold.purpose = "";
      pen.add_movement(sold);
    });
    const auto files = book::write_package(site.logbook, site.folder / "package");
    CHECK(std::find(files.begin(), files.end(), "reading.csv") != files.end());
    const fs::path again = site.folder / "again.db";
    CHECK(book::read_package(site.folder / "package", again) == book::count_entries(site.logbook));
    CHECK(difference(content(site.path), content(again)) == "");
    std::ifstream csv(site.folder / "package" / "note.csv");
    const std::string text{std::istreambuf_iterator<char>(csv), {}};
    CHECK(text.find(",=1+1") == std::string::npos);
    CHECK(text.find(",'=1+1") != std::string::npos);
    CHECK_THROWS_AS(book::write_package(site.logbook, site.folder / "package"), book::BookError);
    CHECK_THROWS_AS(book::read_package(site.folder / "package", again), book::BookError);
  }
}

TEST_CASE(
    "a package says whose it is and how far it goes; the same logbook writes the same bytes") {
  SiteBook site;
  const fs::path file = field_copy(site, "field.db");
  const auto exported = [&](const char* name) {
    book::write_package(book::Logbook(file, book::Access::kRead), site.folder / name);
    std::ifstream in(site.folder / name / "datapackage.json", std::ios::binary);
    return std::string{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  };
  // Read by SQLite's own JSON, and compared with what the tables hold.
  const auto value = [&](const std::string& text, const char* key) {
    SQLite::Database database(":memory:", SQLite::OPEN_READWRITE);
    SQLite::Statement row(database, "SELECT ?1 ->> ?2");
    row.bind(1, text);
    row.bind(2, key);
    row.executeStep();
    return row.getColumn(0).getString();
  };
  const auto held = [&](const char* sql) {
    SQLite::Database database(file.string(), SQLite::OPEN_READWRITE);
    return database.execAndGet(sql).getString();
  };
  write(file, "ana", kLater,
        [](book::Logbook&, Pen& pen) { pen.set_place("orchard", std::nullopt); });
  const std::string first = exported("first");
  CHECK(value(first, "id") == held("SELECT uid FROM site"));
  CHECK(value(first, "lastEntry") == held("SELECT uid FROM entry ORDER BY id DESC LIMIT 1"));
  CHECK(value(first, "entries") == held("SELECT count(*) FROM entry"));
  CHECK(exported("again") == first);

  write(file, "ana", kLater, [](book::Logbook&, Pen& pen) { pen.set_place("yard", std::nullopt); });
  const std::string later = exported("later");
  CHECK(value(later, "id") == value(first, "id"));
  CHECK(value(later, "lastEntry") > value(first, "lastEntry"));
  CHECK(std::stoi(value(later, "entries")) == std::stoi(value(first, "entries")) + 1);
}

TEST_CASE("a package that was tampered with makes no logbook") {
  FullSite site;
  book::write_package(site.logbook, site.folder / "package");
  const fs::path note = site.folder / "package" / "note.csv";
  std::ifstream in(note);
  const std::string good{std::istreambuf_iterator<char>(in), {}};
  const fs::path made = site.folder / "made.db";
  for (const std::string& bad :
       {good + "1,2\r\n", good + "x,u,1,2026-01-01T00:00:00Z,2026-01-01,t,1\r\n",
        good + "99,u9,77,2026-01-01T00:00:00Z,2026-01-01,t,1\r\n",
        good + "99,u9,1,2026-01-01T00:00:00Z,2026-01-01,\x1b[31m,1\r\n",
        good + "99,u9,1,2026-01-01T-1:00:00Z,2026-01-01,t,1\r\n",
        good + "99,u9,1,2026-01-01T24:00:00Z,2026-01-01,t,1\r\n", good + "\"open",
        std::string("id,uid\r\n"), std::string()}) {
    std::ofstream(note, std::ios::trunc) << bad;
    CHECK_THROWS_AS(book::read_package(site.folder / "package", made), book::BookError);
    CHECK_FALSE(fs::exists(made));
  }
  std::ofstream(note, std::ios::trunc) << good;
  const fs::path reading = site.folder / "package" / "reading.csv";
  for (const char* value : {"nan", "inf", "-inf", "1e999", "0x1p3", "1,5"}) {
    std::ofstream(reading, std::ios::trunc)
        << "series,at,value,entry,sure,mark\r\n1,2026-01-01T00:00:00Z," << value << ",1,0,\r\n";
    CAPTURE(value);
    CHECK_THROWS_AS(book::read_package(site.folder / "package", made), book::BookError);
  }
  fs::remove(note);
  CHECK_THROWS_AS(book::read_package(site.folder / "package", made), book::BookError);
}

TEST_CASE("an export is for its owner alone, and writes over nothing, be it a link") {
  FullSite site;
  const mode_t before = umask(0);
  const auto files = book::write_package(site.logbook, site.folder / "package");
  umask(before);
  for (const std::string& name : files) {
    struct stat status {};
    REQUIRE(stat((site.folder / "package" / name).c_str(), &status) == 0);
    CHECK((status.st_mode & 0777U) == 0600U);
  }
  fs::create_directory(site.folder / "linked");
  std::ofstream(site.folder / "friend") << "a letter";
  fs::create_symlink(site.folder / "friend", site.folder / "linked" / "batch.csv");
  CHECK_THROWS_AS(book::write_package(site.logbook, site.folder / "linked"), book::BookError);
  CHECK(fs::file_size(site.folder / "friend") == 8);
}

TEST_CASE("two copies that went apart come together, in either order") {
  FullSite site;
  const fs::path a = field_copy(site, "a.db");
  const fs::path b = field_copy(site, "b.db");
  const auto hour = std::chrono::hours{1};
  write(a, "ada", kLater, [&](book::Logbook&, Pen& pen) {
    pen.add_reading({site.heap, "temperature", "core", kLater, 60});
    pen.add_reading({site.heap, "temperature", "edge", kLater, 40});
    pen.set_rule("pile.hot.above", 0, 70, "70C");
    pen.start_batch({"drum-9", "brew", std::nullopt, kLater, {}});
  });
  write(b, "bob", kLater + hour, [&](book::Logbook&, Pen& pen) {
    pen.add_reading({site.heap, "temperature", "core", kLater, 61});  // the same moment
    pen.add_reading({site.heap, "moisture", "core", kLater, 0.5});
    pen.set_rule("pile.hot.above", 0, 71, "71C");
    pen.start_batch({"drum-9", "larvae", std::nullopt, kLater + hour, {}});
    pen.set_place("gate", 1);
  });
  const BothWays ways = both_ways(site, a, b);
  CHECK(difference(ways.ab, ways.ba) == "");
  CHECK(difference(ways.ab, ways.ab_again) == "");
  CHECK(ways.report.from_other == 1);  // not the renaming, which nobody typed
  std::string all;
  for (const auto& one : ways.report.conflicts) all += one.what + ": " + one.kept + '\n';
  CHECK(all.find("heap-1 temperature core") != std::string::npos);
  CHECK(all.find("rule pile.hot.above") != std::string::npos);
  CHECK(all.find("batch drum-9") != std::string::npos);
  CHECK(ways.report.conflicts.size() == 3);
  book::Logbook merged(site.folder / "a2.db", book::Access::kWrite);
  const book::Materials materials(merged);
  const auto heap = book::history(merged, materials, *book::find_batch(merged, "heap-1"), kLater);
  CHECK(heap.find("temperature", "core")->last->value == 61);  // the newest
  CHECK(heap.find("temperature", "edge")->last->value == 40);
  CHECK(heap.find("moisture", "core")->last->value == 0.5);
  CHECK(book::find_batch(merged, "drum-9")->kind == "brew");
  CHECK(book::find_batch(merged, "drum-9-b")->kind == "larvae");
  // The entry that lost is in the journal: taking back the winner brings it out.
  Pen pen(merged, {"ada", "undo", "undo", kLater + hour * 2});
  CHECK(book::undo_last(merged, pen)->who == "bob");
  pen.commit();
  const auto after = book::history(merged, materials, *book::find_batch(merged, "heap-1"), kLater);
  CHECK(after.find("temperature", "core")->last->value == 60);
}

TEST_CASE("thirty copies that each began a drum-9 make thirty drums of their own") {
  FullSite site;
  const fs::path all = site.folder / "all.db";
  book::back_up(site.logbook, all);
  for (int n = 0; n < 30; ++n) {
    const fs::path copy = site.folder / fmt::format("copy-{}.db", n);
    book::back_up(site.logbook, copy);
    write(copy, "ada", kLater + std::chrono::minutes{n}, [&](book::Logbook&, Pen& pen) {
      pen.start_batch({"drum-9", "brew", std::nullopt, kLater + std::chrono::minutes{n}, {}});
    });
    book::Logbook into(all, book::Access::kWrite);
    book::merge(into, copy, kLater);
  }
  const book::Logbook merged(all, book::Access::kRead);
  for (const char* code : {"drum-9", "drum-9-b", "drum-9-z", "drum-9-aa", "drum-9-ad"}) {
    CAPTURE(code);
    CHECK(book::find_batch(merged, code).has_value());
  }
}

TEST_CASE("taken back in one copy and used in the other: it stays, and is said") {
  FullSite site;
  const auto drum = site.start("drum-1", kMorning, "brew");
  const fs::path a = field_copy(site, "a.db");
  const fs::path b = field_copy(site, "b.db");
  {
    book::Logbook logbook(a, book::Access::kWrite);
    Pen pen(logbook, {"ada", "undo", "undo", kLater});
    book::undo_last(logbook, pen);
    pen.commit();
  }
  const BothWays gone = both_ways(site, a, b);
  CHECK(difference(gone.ab, gone.ba) == "");
  CHECK_FALSE(
      book::find_batch(book::Logbook(site.folder / "a2.db", book::Access::kRead), "drum-1"));
  write(b, "bob", kLater, [&](book::Logbook&, Pen& pen) { pen.add_note(drum, kLater, "bubbles"); });
  const BothWays used = both_ways(site, a, b);
  CHECK(difference(used.ab, used.ba) == "");
  CHECK(used.report.conflicts.size() == 1);
  CHECK(book::find_batch(book::Logbook(site.folder / "a2.db", book::Access::kRead), "drum-1"));
}

TEST_CASE("imports of both copies come together, one of them taken back") {
  FullSite site;
  site.entry("mapping", [&](Pen& pen) {
    book::Query(site.logbook, "INSERT INTO mapping (name, columns, entry) VALUES ('m', ?, ?)",
                book::Lines{"column\ttime\nx"}, pen.entry())
        .run();
  });
  import_hours(site.logbook, site.heap, kMorning + std::chrono::hours{1}, 100);
  const fs::path a = field_copy(site, "a.db");
  const fs::path b = field_copy(site, "b.db");
  {  // in one copy it is taken back
    book::Logbook logbook(a, book::Access::kWrite);
    Pen pen(logbook, {"ada", "undo", "undo", kLater});
    CHECK(book::undo_last(logbook, pen)->command == "import");
    pen.commit();
  }
  {  // in the other a value of it is corrected, the mapping is changed, and more is imported
    book::Logbook logbook(b, book::Access::kWrite);
    {
      Pen pen(logbook, {"bob", "amend", "amend", kLater});
      const book::Written::Reading was{
          1, 1, site.heap, "temperature", "core", kMorning + std::chrono::hours{5}, 54, false};
      CHECK_FALSE(book::amend(logbook, pen, was, {site.heap, "temperature", "core", was.at, 77}));
      book::Query(logbook, "UPDATE mapping SET columns = ?, entry = ?", book::Lines{"new\t\nline"},
                  pen.entry())
          .run();
      pen.commit();
    }
    import_hours(logbook, site.heap, kMorning + std::chrono::hours{500}, 50);
  }
  const BothWays ways = both_ways(site, a, b);
  CHECK(difference(ways.ab, ways.ba) == "");
  CHECK(difference(ways.ab, ways.ab_again) == "");
  book::Logbook merged(site.folder / "a2.db", book::Access::kWrite);
  const auto number = [&](book::Sql sql) {
    book::Query row(merged, sql);
    row.next();
    return row.integer(0);
  };
  CHECK(number("SELECT count(*) FROM taken_back_reading") == 100);
  CHECK(number("SELECT count(*) FROM import_span") == 2);
  CHECK(number("SELECT count(*) FROM import_span WHERE series IS NULL") == 1);
  CHECK(number("SELECT count(*) FROM reading") == 1 + 1 + 50);
  CHECK(number("SELECT value FROM reading WHERE at = 1775505600") == 77);
  CHECK(
      number(
          "SELECT count(*) FROM mapping WHERE columns = 'new' || char(9) || char(10) || 'line'") ==
      1);
  CHECK(book::check(merged, kLater).empty());
  // Taking back the second import and the correction leaves what neither import brought.
  for (const char* command : {"import", "amend"}) {
    Pen pen(merged, {"ada", "undo", "undo", kLater});
    CHECK(book::undo_last(merged, pen)->command == command);
    pen.commit();
  }
  CHECK(number("SELECT count(*) FROM reading") == 1);
  CHECK(number("SELECT count(*) FROM mapping WHERE columns LIKE 'column%'") == 1);
  // And what was imported comes through a package.
  book::write_package(merged, site.folder / "package");
  book::read_package(site.folder / "package", site.folder / "again.db");
  CHECK(difference(content(site.folder / "a2.db"), content(site.folder / "again.db")) == "");
}

TEST_CASE("a copy whose journal speaks of what is nowhere is refused, and nothing is changed") {
  FullSite site;
  for (int i = 0; i < 6; ++i) undo(site);
  const fs::path copy = field_copy(site, "copy.db");
  for (const char* sql :
       {"UPDATE journal SET before = json_set(before, '$.entry', 7777)",
        "UPDATE journal SET before = json_set(before, '$.run', 'x') WHERE table_name = 'batch'",
        "UPDATE journal SET before = '{}', after = '{}'", "UPDATE journal SET before = 'x'",
        "UPDATE journal SET table_name = 'nothing'",
        "UPDATE journal SET after = json_set(after, '$.batch', -5)"}) {
    CAPTURE(sql);
    const fs::path broken = site.folder / "broken.db";
    fs::copy_file(copy, broken, fs::copy_options::overwrite_existing);
    SQLite::Database(broken.string(), SQLite::OPEN_READWRITE).exec(sql);
    const std::string was = content(site.path);
    try {
      book::merge(site.logbook, broken, kLater);
    } catch (const book::BookError&) {
      CHECK(difference(was, content(site.path)) == "");
    }
    CHECK(book::check(site.logbook, kLater).empty());
  }
}

TEST_CASE("another site's logbook is not merged") {
  FullSite site, other;
  const std::string before = content(site.path);
  CHECK_THROWS_AS(book::merge(site.logbook, other.path, kLater), book::BookError);
  CHECK_THROWS_AS(book::merge(site.logbook, site.path, kLater), book::BookError);
  CHECK(difference(before, content(site.path)) == "");
}

TEST_CASE("copies that chance wrote in merge to the same logbook in either order") {
  for (unsigned seed = 1; seed <= rounds(12, 3); ++seed) {
    CAPTURE(seed);
    FullSite site;
    ChanceSite before(site.logbook, seed);
    for (int step = 0; step < 40; ++step) before.step();
    const std::string alone = content(site.path);
    const fs::path a = field_copy(site, "a.db");
    const fs::path b = field_copy(site, "b.db");
    {
      // A copy brings nothing to the logbook it was made of.
      CHECK_FALSE(book::merge(site.logbook, a, kLater).changed);
      CHECK(difference(alone, content(site.path)) == "");
    }
    for (const auto& [path, own] : {std::pair(a, 100U), std::pair(b, 200U)}) {
      book::Logbook logbook(path, book::Access::kWrite);
      logbook.connection().database.exec("PRAGMA synchronous = OFF");
      ChanceSite chance(logbook, seed + own);
      chance.set_clock(kLater + std::chrono::hours{24 * 200});
      for (int step = 0; step < 60; ++step) chance.step();
    }
    const BothWays ways = both_ways(site, a, b);
    CHECK(difference(ways.ab, ways.ba) == "");
    CHECK(difference(ways.ab, ways.ab_again) == "");
    // Nothing is lost: every entry of both is there.
    const book::Logbook merged(site.folder / "a2.db", book::Access::kRead);
    for (const auto& path : {a, b}) {
      SQLite::Database file(path.string());
      SQLite::Statement uid(file, "SELECT uid FROM entry");
      while (uid.executeStep()) {
        book::Query row(merged, "SELECT 1 FROM entry WHERE uid = ?", uid.getColumn(0).getString());
        CHECK(row.next());
      }
    }
    for (const auto& trouble : book::check(merged, build::at(build::day("2028-01-01")))) {
      CAPTURE(trouble.what);
      CHECK(trouble.sort == book::Trouble::Sort::kDoubt);
    }
  }
}

TEST_CASE("an older logbook is read as it would be, and changed only to write, after a copy") {
  for (int version = 1; version < book::kSchema; ++version) {
    TemporaryFolder folder;
    const fs::path path = folder / "old.db";
    {
      SQLite::Database old = book::fresh_schema(version);
      old.exec("PRAGMA application_id = " + std::to_string(book::kApplicationId));
      old.exec(
          "INSERT INTO site VALUES (1, 'u', 'Tern Hollow', 'America/Los_Angeles', 'us', 44, 1)");
      old.exec("INSERT INTO entry VALUES (1, '0', 1777777777, 'ada', 'start', 'start', NULL)");
      old.exec(
          "INSERT INTO material (name, material_group, aliases, flags, entry)"
          " VALUES ('mystery', 'brown', '', '', 1)");
      old.exec("VACUUM INTO '" + path.string() + "'");
    }
    const std::string before = content(path);
    CHECK(book::count_entries(book::Logbook(path, book::Access::kRead)) == 1);
    CHECK(difference(before, content(path)) == "");
    CHECK(book::check(book::Logbook(path, book::Access::kWrite), kLater).empty());
    CHECK(difference(before, content(path)) != "");
    const auto copy =
        book::backup_folder(path) / fmt::format("old-schema-{}-2026-05-03.db", version);
    CHECK(difference(before, content(copy)) == "");
  }
}

TEST_CASE("two writers that find an older logbook at once both go on") {
  TemporaryFolder folder;
  const fs::path path = folder / "old.db";
  {
    SQLite::Database old = book::fresh_schema(1);
    old.exec("PRAGMA application_id = " + std::to_string(book::kApplicationId));
    old.exec("INSERT INTO site VALUES (1, 'u', 'Tern Hollow', 'America/Los_Angeles', 'us', 44, 1)");
    old.exec("VACUUM INTO '" + path.string() + "'");
    SQLite::Database(path.string(), SQLite::OPEN_READWRITE).exec("PRAGMA journal_mode = WAL");
  }
  // Forked before SQLite opens the file here: its locks are a process's own.
  std::array<int, 2> start{};
  REQUIRE(::pipe(start.data()) == 0);
  std::vector<pid_t> writers;
  for (int n = 0; n < 2; ++n) {
    writers.push_back(::fork());
    REQUIRE(writers.back() >= 0);
    if (writers.back() != 0) continue;
    try {
      char go{};
      if (::read(start[0], &go, 1) != 1) ::_exit(2);
      const book::Logbook opened(path, book::Access::kWrite);
      ::_exit(0);
    } catch (const std::exception&) {
      ::_exit(1);
    }
  }
  {
    // Both see the old schema before either may write.
    SQLite::Database third(path.string(), SQLite::OPEN_READWRITE);
    third.exec("BEGIN IMMEDIATE");
    CHECK(::write(start[1], "go", 2) == 2);
    std::this_thread::sleep_for(std::chrono::milliseconds{500});
    third.exec("ROLLBACK");
  }
  for (const pid_t writer : writers) {
    int status = -1;
    CHECK(::waitpid(writer, &status, 0) == writer);
    CHECK(status == 0);
  }
  CHECK(book::check(book::Logbook(path, book::Access::kRead), kLater).empty());
  // One copy of what it was.
  const auto copies = fs::directory_iterator(book::backup_folder(path));
  CHECK(std::distance(begin(copies), end(copies)) == 1);
}

TEST_CASE("check finds wrong sums and repairs them; what is recorded stays") {
  FullSite site;
  CHECK(book::check(site.logbook, kLater).empty());
  const std::string good = content(site.path);
  {
    SQLite::Database raw(site.path.string(), SQLite::OPEN_READWRITE);
    raw.exec("UPDATE day_roll SET total = total + 1");
  }
  const auto found = book::check(site.logbook, kLater);
  REQUIRE(found.size() == 1);
  CHECK(found[0].sort == book::Trouble::Sort::kDerived);
  {
    Pen pen(site.logbook, {"ada", "check", "check --repair", kLater});
    book::repair(site.logbook, pen);
    pen.commit();
  }
  CHECK(book::check(site.logbook, kLater).empty());
  CHECK(book::last_entry(site.logbook)->command == "material");
  {
    SQLite::Database raw(site.path.string(), SQLite::OPEN_READWRITE);
    raw.exec("DELETE FROM day_roll");
    raw.exec("CREATE INDEX extra ON note (text)");
  }
  const auto foreign = book::check(site.logbook, kLater);
  REQUIRE(foreign.size() == 1);
  CHECK(foreign[0].sort == book::Trouble::Sort::kDamage);
}

TEST_CASE("a trigger or a view of a stranger's is not opened") {
  for (const char* sql : {"CREATE TRIGGER x AFTER INSERT ON note BEGIN DELETE FROM reading; END",
                          "CREATE VIEW x AS SELECT 1"}) {
    FullSite site;
    {
      SQLite::Database raw(site.path.string(), SQLite::OPEN_READWRITE);
      raw.exec(sql);
    }
    for (const auto access : {book::Access::kRead, book::Access::kWrite}) {
      CHECK_THROWS_AS(book::Logbook(site.path, access), book::BookError);
    }
  }
}

TEST_CASE("a clock that jumps back leaves the order of entries as it was") {
  FullSite site;
  site.entry("log", [&](Pen& pen) { pen.add_note(site.heap, kMorning, "a"); });
  {
    Pen pen(site.logbook, {"ada", "log", "log", kMorning - std::chrono::hours{9999}});
    pen.add_note(site.heap, kMorning, "b");
    pen.commit();
  }
  book::Query row(site.logbook,
                  "SELECT count(*) FROM entry AS a JOIN entry AS b ON a.id < b.id"
                  " AND a.uid >= b.uid");
  row.next();
  CHECK(row.integer(0) == 0);
}

}  // namespace copies_test
