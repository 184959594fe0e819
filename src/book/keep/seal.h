#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

// Inside this layer: the digest of each entry, kept beside it (schema/006-seal.sql). It covers the
// entry's own row but for what took it back, and every row that it wrote in the journalled tables,
// as it wrote it; days are left out, since they are derived from moments. What is empty is not in
// it, so that a column that is added later, empty in the rows that are there, changes no digest.
namespace book {

// Watches what is written by a connection while it lives, for the seal of one entry.
class Witness {
 public:
  // `rows` false: of the entry alone.
  Witness(SQLite::Database& database, std::int64_t entry, bool rows);
  ~Witness();
  Witness(const Witness&) = delete;
  Witness& operator=(const Witness&) = delete;

  // Writes the seal of what was written so far; to be called last, within the transaction.
  void seal();

  struct Seen;

 private:
  SQLite::Database& database_;
  std::unique_ptr<Seen> seen_;
};

// Seals every entry anew, by what the file holds of it now: after a merge, and where an older file
// was brought up to this schema.
void seal_all(SQLite::Database& database);

// The entries whose seal is missing or is not that of what the file holds of them. None is where
// the file has no seals at all: an older one that is seen in memory.
std::vector<std::int64_t> broken_seals(SQLite::Database& database);

}  // namespace book
