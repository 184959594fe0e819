#include "book/file/logbook.h"

#include <doctest/doctest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <fstream>

#include "book/file/error.h"
#include "site_book.h"

namespace logbook_test {

using book::Access;
using book::BookError;
using book::Logbook;

namespace {

const measure::Instant kNow = build::at(build::day("2026-04-06"));
const book::NewSite kSite{"Tern Hollow", "America/Los_Angeles", measure::UnitSystem::kUs, 44.56};

std::string contents(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

void write(const std::filesystem::path& path, std::string_view bytes) {
  std::ofstream(path, std::ios::binary) << bytes;
}

// The message with which a logbook is not opened; it begins with the path.
std::string refusal(const std::filesystem::path& path, Access access = Access::kRead) {
  try {
    const Logbook logbook(path, access);
  } catch (const BookError& error) {
    const std::string message = error.what();
    const std::string start = path.string() + ": ";
    REQUIRE(message.starts_with(start));
    return message.substr(start.size());
  }
  FAIL("it was opened");
  return {};
}

// Runs SQL on the file, past roundbook.
void change(const std::filesystem::path& path, const std::string& sql) {
  SQLite::Database database(path.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  database.exec(sql);
}

int permissions(const std::filesystem::path& path) {
  struct stat status {};
  REQUIRE(stat(path.c_str(), &status) == 0);
  return status.st_mode & 07777;
}

}  // namespace

TEST_CASE("a new logbook holds its site, for its owner's eyes only") {
  const TemporaryFolder folder;
  const auto path = folder / "deep/er/logbook.db";
  const mode_t before = umask(0);  // a careless one
  Logbook::create(path, kSite, kNow);
  umask(before);
  CHECK(permissions(path) == 0600);
  CHECK_FALSE(std::filesystem::exists(path.string() + ".new"));
  Logbook logbook(path, Access::kWrite);
  CHECK(logbook.site().name == "Tern Hollow");
  CHECK(logbook.site().zone.name() == "America/Los_Angeles");
  CHECK(logbook.site().units == measure::UnitSystem::kUs);
  CHECK(logbook.site().latitude == 44.56);
  CHECK(logbook.path() == path);
  {
    book::Pen pen(logbook, {"ada", "place", "place yard", kNow});
    pen.set_place("yard", std::nullopt);
    pen.commit();
  }
  // So are the files that SQLite lays beside it while it is open.
  for (const char* beside : {"-wal", "-shm"}) {
    if (std::filesystem::exists(path.string() + beside)) {
      CHECK(permissions(path.string() + beside) == 0600);
    }
  }
}

TEST_CASE("a site without a latitude, in metric units") {
  const TemporaryFolder folder;
  const auto path = folder / "a name with 'quotes', 100%, # and ? ½.db";
  Logbook::create(path, {"Garten", "Etc/UTC", measure::UnitSystem::kMetric, std::nullopt}, kNow);
  const Logbook logbook(path, Access::kRead);
  CHECK(logbook.site().units == measure::UnitSystem::kMetric);
  CHECK_FALSE(logbook.site().latitude);
}

TEST_CASE("the file says whose it is") {
  const TemporaryFolder folder;
  Logbook::create(folder / "logbook.db", kSite, kNow);
  // SQLite file format, section 1.3: the application id at offset 68, big-endian.
  CHECK(contents(folder / "logbook.db").substr(0, 16) == std::string("SQLite format 3\0", 16));
  CHECK(contents(folder / "logbook.db").substr(68, 4) == "RdBs");
}

TEST_CASE("what is there already is left as it is") {
  const TemporaryFolder folder;
  const auto path = folder / "logbook.db";
  for (const char* there : {"", "a letter to a friend"}) {
    write(path, there);
    CHECK_THROWS_WITH_AS(
        Logbook::create(path, kSite, kNow),
        (path.string() + ": there is a file here already; it was left as it is").c_str(),
        BookError);
    CHECK(contents(path) == there);
  }
  std::filesystem::create_directory(folder / "folder");
  CHECK_THROWS_AS(Logbook::create(folder / "folder", kSite, kNow), BookError);
  CHECK_THROWS_AS(Logbook::create(path / "below-a-file.db", kSite, kNow), BookError);
}

TEST_CASE("a half-made logbook of a crash is no hindrance") {
  const TemporaryFolder folder;
  write(folder / "logbook.db.new", "half of one");
  Logbook::create(folder / "logbook.db", kSite, kNow);
  CHECK(Logbook(folder / "logbook.db", Access::kRead).site().name == "Tern Hollow");
}

// SQLite would take a write-ahead log that lies beside a new file for that file's own (SQLite, "How
// To Corrupt An SQLite Database File", 1.4 and 4): an old site's records would come up in the new
// one.
TEST_CASE("the leavings of a deleted logbook are not taken into a new one") {
  const TemporaryFolder folder;
  const auto path = folder / "logbook.db", log = folder / "logbook.db-wal";
  Logbook::create(path, {"Old Site", "Etc/UTC", measure::UnitSystem::kMetric, std::nullopt}, kNow);
  std::string left;
  {
    Logbook logbook(path, Access::kWrite);
    book::Pen pen(logbook, {"ada", "place", "place yard", kNow});
    pen.set_place("an old place", std::nullopt);
    pen.commit();
    left = contents(log);
  }
  REQUIRE(left.size() > 4096);
  std::filesystem::remove(path);
  write(log, left);
  CHECK_THROWS_AS(Logbook::create(path, kSite, kNow), BookError);
  CHECK(contents(log) == left);  // it may be all that is left of someone's records
  std::filesystem::remove(log);
  Logbook::create(path, kSite, kNow);
  CHECK(book::places(Logbook(path, Access::kRead)).empty());
}

TEST_CASE("a file that is no logbook is refused, each for its reason") {
  const TemporaryFolder folder;
  const auto path = folder / "logbook.db";
  CHECK(refusal(path) == "there is no logbook here; 'roundbook new' makes one");
  write(path, "");
  CHECK(refusal(path) == "the file is empty; 'roundbook new' makes a logbook");
  write(path, "a letter");
  const std::string no_sqlite = "this is not a roundbook logbook (it is not an SQLite file)";
  CHECK(refusal(path) == no_sqlite);
  write(path, std::string(100'000, 'x'));
  CHECK(refusal(path) == no_sqlite);
  write(path, "SQLite format 2" + std::string(4096, '\0'));
  CHECK(refusal(path) == no_sqlite);
  std::filesystem::remove(path);
  std::filesystem::create_directory(path);
  CHECK(refusal(path) == "this is not a file");
}

TEST_CASE("another program's SQLite file is refused and not changed") {
  const TemporaryFolder folder;
  const auto path = folder / "other.db";
  change(path, "CREATE TABLE site (name); PRAGMA application_id = 4711");
  const std::string before = contents(path);
  CHECK(refusal(path, Access::kWrite) ==
        "this SQLite file belongs to another program (application id 0x1267, roundbook's is "
        "0x52644273)");
  CHECK(contents(path) == before);
}

TEST_CASE("a newer roundbook's logbook is refused and not changed") {
  const TemporaryFolder folder;
  const auto path = folder / "logbook.db";
  Logbook::create(path, kSite, kNow);
  change(path, "PRAGMA user_version = 99");
  const std::string before = contents(path);
  const std::string message = refusal(path, Access::kWrite);
  CHECK(message.starts_with(
      "this logbook has schema 99, made by a newer roundbook; this one knows schema "));
  CHECK(message.ends_with("leaves the file as it is. Install the newer roundbook"));
  CHECK(contents(path) == before);
}

TEST_CASE("a file that was cut short is found out before it is read") {
  const TemporaryFolder folder;
  const auto path = folder / "logbook.db";
  Logbook::create(path, kSite, kNow);
  const std::string whole = contents(path);
  for (const std::size_t size :
       {whole.size() - 1, whole.size() / 2, std::size_t{4096}, std::size_t{100}}) {
    write(path, whole.substr(0, size));
    CHECK(refusal(path) == "the file is cut short: " + std::to_string(size) + " bytes of " +
                               std::to_string(whole.size()) + "; restore a backup");
  }
  write(path, whole.substr(0, 99));
  CHECK(refusal(path) == "this is not a roundbook logbook (it is not an SQLite file)");
  write(path, whole);
  CHECK(Logbook(path, Access::kRead).site().name == "Tern Hollow");
}

TEST_CASE("a damaged file is said to be damaged") {
  const TemporaryFolder folder;
  const auto path = folder / "logbook.db";
  Logbook::create(path, kSite, kNow);
  std::string bytes = contents(path);
  std::fill(bytes.begin() + 4096, bytes.end(), '\xA5');
  write(path, bytes);
  const std::string message = refusal(path);
  CHECK(message.starts_with("the file is damaged ("));
  CHECK(message.ends_with("); keep it as it is and restore a backup"));
}

TEST_CASE("a logbook without its site, or of an unknown zone") {
  const TemporaryFolder folder;
  const auto path = folder / "logbook.db";
  Logbook::create(path, kSite, kNow);
  change(path, "UPDATE site SET zone = 'Mars/Olympus'");
  CHECK(refusal(path) ==
        "this computer knows no time zone 'Mars/Olympus'; install its zone data (tzdata)");
  change(path, "DELETE FROM site");
  CHECK(refusal(path) == "the logbook has no site: it is damaged");
}

TEST_CASE("opened for reading, nothing can be written") {
  SiteBook site;
  site.start("heap-1", kNow);
  const std::string before = site.dump(true);
  Logbook reader(site.path, Access::kRead);
  CHECK_THROWS_AS(book::Pen(reader, {"ada", "log", "log", kNow}), BookError);
  CHECK(difference(before, site.dump(true)) == "");
  CHECK(book::find_batch(reader, "heap-1"));
}

TEST_CASE("without leave to write, a logbook opens for reading only") {
  if (geteuid() == 0) {
    MESSAGE("skipped: root may write everywhere");
    return;
  }
  const TemporaryFolder folder;
  const auto path = folder / "shelf/logbook ½ #1?.db";
  Logbook::create(path, kSite, kNow);
  std::filesystem::permissions(path.parent_path(), std::filesystem::perms{0500});
  CHECK(Logbook(path, Access::kRead).site().name == "Tern Hollow");
  CHECK(refusal(path, Access::kWrite) ==
        "the file or its folder may not be written; check their permissions. Nothing was recorded");
  std::filesystem::permissions(path, std::filesystem::perms{0000});
  CHECK(refusal(path) == "the file may not be read; check its permissions");
  std::filesystem::permissions(path.parent_path(), std::filesystem::perms{0700});
}

TEST_CASE("a logbook on a shelf that cannot be written shows all that was recorded, or nothing") {
  if (geteuid() == 0) {
    MESSAGE("skipped: root may write everywhere");
    return;
  }
  // A copy taken while another program had the logbook open: its last entries are in the log beside
  // it.
  const TemporaryFolder folder;
  const auto path = folder / "logbook.db", shelf = folder / "shelf/logbook.db";
  Logbook::create(path, kSite, kNow);
  std::filesystem::create_directory(shelf.parent_path());
  {
    Logbook logbook(path, Access::kWrite);
    book::Pen pen(logbook, {"ada", "place", "place yard", kNow});
    pen.set_place("yard", std::nullopt);
    pen.commit();
    for (const char* part : {"", "-wal", "-shm"}) {
      std::filesystem::copy_file(path.string() + part, shelf.string() + part);
    }
  }
  std::filesystem::permissions(shelf.parent_path(), std::filesystem::perms{0500});
  CHECK(book::places(Logbook(shelf, Access::kRead)) == std::vector<std::string>{"yard"});
  // Without its index SQLite cannot read the log there: then nothing is shown.
  std::filesystem::permissions(shelf.parent_path(), std::filesystem::perms{0700});
  std::filesystem::remove(shelf.string() + "-shm");
  std::filesystem::permissions(shelf.parent_path(), std::filesystem::perms{0500});
  CHECK(refusal(shelf).starts_with("unable to open database file"));
  std::filesystem::permissions(shelf.parent_path(), std::filesystem::perms{0700});
}

}  // namespace logbook_test
