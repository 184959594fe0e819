#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

#include <string>
#include <vector>

#include "book/migrations.h"
#include "measure/moment.h"

// Inside this layer: what makes an SQLite file a logbook of this version.
namespace book {

inline constexpr int kSchema = static_cast<int>(kMigrations.size());
inline constexpr int kWaitMilliseconds = 5000;

// What SQLite's own settings do not do by default: see DEVELOPERS.md, "The file".
void harden(SQLite::Database& database);

// The schema that the database has now; 0: none yet.
int schema_number(SQLite::Database& database);

// Brings the schema that the database has up to `to`. The caller's transaction: after a crash the
// file has the old schema or the new one.
void migrate(SQLite::Database& database, int to = kSchema);

// A logbook in memory with that schema and nothing in it.
SQLite::Database fresh_schema(int version = kSchema);

// The triggers and views that no version of roundbook made: they would run with what is recorded.
std::vector<std::string> strangers(SQLite::Database& database);

// Each way in which the tables, indexes, triggers and views are not those of this version.
std::vector<std::string> schema_differences(SQLite::Database& database);

// Those of them without which commands fail: a table or trigger that is missing or another.
std::vector<std::string> schema_gaps(SQLite::Database& database);

// What SQLite itself finds wrong: its integrity check and references to rows that are not there.
std::vector<std::string> integrity(SQLite::Database& database);

// Makes all that is derived anew from the readings: the daily rolls, the days' marks, and which
// were typed.
void rebuild_rolls(SQLite::Database& database, const measure::Zone& zone);

}  // namespace book
