#include "book/keep/seal.h"

#include <doctest/doctest.h>

#include <sstream>

#include "book/file/schema.h"
#include "book/file/tables.h"
#include "book/keep/sha256.h"
#include "book/merge/copy.h"
#include "chance_site.h"
#include "rounds.h"

namespace seal_test {

TEST_CASE("SHA-256 is that of NIST's examples") {
  // NIST, Cryptographic Standards and Guidelines, Examples with Intermediate Values: SHA256.pdf
  // (one block, two blocks); the empty message and the million a's: NIST CAVP and FIPS 180-2, B.3.
  // From memory.
  CHECK(book::sha256("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(book::sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  CHECK(book::sha256("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  CHECK(book::sha256(std::string(1000000, 'a')) ==
        "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
  std::istringstream stream(std::string(1000000, 'a'));
  const book::StreamDigest digest = book::sha256(stream);
  CHECK(digest.hex == book::sha256(std::string(1000000, 'a')));
  CHECK(digest.bytes == 1000000);
}

TEST_CASE("one changed number, text or missing row breaks the seal of its entry, and of no other") {
  FullSite site;
  SQLite::Database& database = site.logbook.connection().database;
  REQUIRE(book::broken_seals(database).empty());
  REQUIRE(database.execAndGet("SELECT count(*) FROM seal").getInt() ==
          database.execAndGet("SELECT count(*) FROM entry").getInt());
  database.exec("PRAGMA foreign_keys = OFF");
  const auto broken_by = [&](const std::string& change) {
    const int last = database.execAndGet("SELECT coalesce(max(id), 0) FROM journal").getInt();
    database.exec("SAVEPOINT change");
    database.exec("UPDATE pen SET entry = 1");
    database.exec(change);
    database.exec("UPDATE pen SET entry = NULL");
    // The journal saw it; damage is seen by nobody.
    database.exec("DELETE FROM journal WHERE id > " + std::to_string(last));
    const auto broken = book::broken_seals(database);
    database.exec("ROLLBACK TO change");
    database.exec("RELEASE change");
    return broken.size();
  };
  int tables = 0;
  for (const book::TableInfo& table : book::recorded_tables(database)) {
    if (!book::has_story(table)) continue;
    const std::string first = "entry = (SELECT min(entry) FROM " + table.name + ")";
    if (database.execAndGet("SELECT count(*) FROM " + table.name).getInt() == 0) continue;
    ++tables;
    for (const book::ColumnInfo& column : table.columns) {
      if (column.type != "REAL" || table.name == "setting") continue;
      CHECK_MESSAGE(broken_by("UPDATE " + table.name + " SET " + column.name + " = " + column.name +
                              " * 1.0000001 WHERE " + first) == 1,
                    table.name << "." << column.name);
    }
  }
  CHECK(tables >= 8);
  CHECK(broken_by("UPDATE entry SET line = line || ' ' WHERE id = 2") == 1);
  CHECK(broken_by("UPDATE entry SET recorded_at = recorded_at + 1 WHERE id = 2") == 1);
  CHECK(broken_by("DELETE FROM seal WHERE entry = 2") >= 1);
}

TEST_CASE("seals hold through whatever is recorded, corrected and taken back") {
  for (unsigned seed = 1; seed <= 5; ++seed) {
    FullSite site;
    ChanceSite chance(site.logbook, seed);
    for (int i = 0; i < 60; ++i) chance.step();
    CHECK(book::broken_seals(site.logbook.connection().database).empty());
  }
}

}  // namespace seal_test
