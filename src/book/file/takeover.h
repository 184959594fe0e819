#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

#include "book/file/logbook.h"

struct sqlite3_backup;

namespace book {

// Holds a logbook against other writers (readers go on) while the database that is to take its
// place is made ready. finish() puts it there in one transaction; without it nothing has changed.
class Takeover {
 public:
  // `successor` must hold a schema already, of the same page size.
  Takeover(Logbook& logbook, SQLite::Database& successor);
  ~Takeover();
  Takeover(const Takeover&) = delete;
  Takeover& operator=(const Takeover&) = delete;

  void finish();

 private:
  Logbook& logbook_;
  sqlite3_backup* backup_;
};

// Copies one database over another, pages as they are.
void copy_database(SQLite::Database& to, SQLite::Database& from);

// Writes a database as a new logbook file, whole or not at all; checked before it gets its name.
void save_as(SQLite::Database& database, const std::filesystem::path& target);

// Copies the database of `logbook` into the folder of its backups, under the first name of STEM.db,
// STEM-2.db, ... that is free. Returns the path.
std::filesystem::path keep_copy(SQLite::Database& database, const std::filesystem::path& logbook,
                                const std::string& stem);

// Makes an empty file that only its owner may read. Throws BookError, which speaks of `target`,
// where it cannot, or where there is anything already, be it a link.
void make_private(const std::filesystem::path& path, const std::filesystem::path& target);

// Waits until the file, or the names in the folder, are on the disk.
void force_to_disk(const std::filesystem::path& path);

}  // namespace book
