#include "book/file/schema.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <algorithm>
#include <optional>
#include <set>
#include <tuple>

#include "measure/text.h"
#include "model/history.h"

namespace book {
namespace {

using Object = std::tuple<std::string, std::string, std::string>;  // type, name, SQL

std::set<Object> objects(SQLite::Database& database) {
  std::set<Object> all;
  SQLite::Statement row(database,
                        "SELECT type, name, coalesce(sql, '') FROM sqlite_schema"
                        " WHERE name NOT LIKE 'sqlite_stat%'");
  while (row.executeStep()) {
    all.emplace(row.getColumn(0).getString(), row.getColumn(1).getString(),
                row.getColumn(2).getString());
  }
  return all;
}

}  // namespace

void harden(SQLite::Database& database) {
  sqlite3* handle = database.getHandle();
  sqlite3_db_config(handle, SQLITE_DBCONFIG_DQS_DML, 0, nullptr);
  sqlite3_db_config(handle, SQLITE_DBCONFIG_DQS_DDL, 0, nullptr);
  sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  sqlite3_db_config(handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
  database.exec("PRAGMA foreign_keys = ON");
  database.exec("PRAGMA synchronous = FULL");
}

int schema_number(SQLite::Database& database) {
  return database.execAndGet("PRAGMA user_version").getInt();
}

void migrate(SQLite::Database& database, int to) {
  const int from = schema_number(database);
  if (from >= to) return;
  for (int version = from; version < to; ++version) {
    database.exec(std::string(kMigrations[static_cast<std::size_t>(version)]));
  }
  database.exec(fmt::format("PRAGMA user_version = {}", to));
}

SQLite::Database fresh_schema(int version) {
  SQLite::Database database(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  harden(database);
  SQLite::Transaction transaction(database);
  migrate(database, version);
  transaction.commit();
  return database;
}

std::vector<std::string> strangers(SQLite::Database& database) {
  std::vector<std::string> found;
  SQLite::Statement row(database,
                        "SELECT type, name, sql FROM sqlite_schema"
                        " WHERE type IN ('trigger', 'view')");
  while (row.executeStep()) {
    const std::string sql = row.getColumn(2).getString();
    // SQLite keeps the statement as it was written.
    const bool ours = std::any_of(kMigrations.begin(), kMigrations.end(), [&](auto migration) {
      return migration.find(sql) != std::string_view::npos;
    });
    if (!ours) {
      found.push_back(row.getColumn(0).getString() + " " +
                      measure::quoted(row.getColumn(1).getString()));
    }
  }
  return found;
}

std::vector<std::string> schema_differences(SQLite::Database& database) {
  SQLite::Database ours = fresh_schema();
  const std::set<Object> wanted = objects(ours);
  const std::set<Object> there = objects(database);
  std::vector<std::string> found;
  const auto name = [](const Object& object) {
    return std::get<0>(object) + " " + measure::quoted(std::get<1>(object));
  };
  const auto has = [](const std::set<Object>& set, const Object& object) {
    return std::any_of(set.begin(), set.end(), [&](const Object& one) {
      return std::get<0>(one) == std::get<0>(object) && std::get<1>(one) == std::get<1>(object);
    });
  };
  for (const Object& object : wanted) {
    if (!has(there, object)) {
      found.push_back("its " + name(object) + " is missing");
    } else if (!there.contains(object)) {
      found.push_back("its " + name(object) + " is not as this version makes it");
    }
  }
  for (const Object& object : there) {
    if (!has(wanted, object)) found.push_back("it has a " + name(object) + " that is not ours");
  }
  return found;
}

std::vector<std::string> schema_gaps(SQLite::Database& database) {
  SQLite::Database ours = fresh_schema();
  const std::set<Object> there = objects(database);
  std::vector<std::string> found;
  for (const Object& object : objects(ours)) {
    if (std::get<0>(object) == "index" || there.contains(object)) continue;
    found.push_back("its " + std::get<0>(object) + " " + measure::quoted(std::get<1>(object)) +
                    " is missing or is another's");
  }
  return found;
}

std::vector<std::string> integrity(SQLite::Database& database) {
  std::vector<std::string> found;
  SQLite::Statement check(database, "PRAGMA integrity_check(20)");
  while (check.executeStep()) {
    const std::string says = check.getColumn(0).getString();
    if (says != "ok") found.push_back(measure::inert(says));
  }
  if (!found.empty()) return found;
  SQLite::Statement keys(database, "PRAGMA foreign_key_check");
  while (keys.executeStep()) {
    found.push_back(fmt::format("a row of {} refers to a row of {} that is not there",
                                measure::inert(keys.getColumn(0).getString()),
                                measure::inert(keys.getColumn(2).getString())));
  }
  return found;
}

void rebuild_rolls(SQLite::Database& database, const measure::Zone& zone) {
  database.exec("DELETE FROM day_roll");
  database.exec("DELETE FROM day_mark");
  database.exec("DELETE FROM reading_typed");
  database.exec(
      "INSERT INTO reading_typed (entry, series, at)"
      " SELECT entry, series, at FROM reading WHERE entry NOT IN (SELECT entry FROM import)");
  SQLite::Statement insert(database,
                           "INSERT INTO day_roll (series, day, n, least, greatest, total, last_at,"
                           " last) VALUES (?, ?, ?, ?, ?, ?, ?, ?)");
  SQLite::Statement mark(database,
                         "INSERT INTO day_mark (series, day, mark, n, least, greatest, first_at,"
                         " last_at) VALUES (?1, ?2, ?3, 1, ?4, ?4, ?5, ?5)"
                         " ON CONFLICT (series, day, mark) DO UPDATE SET n = n + 1,"
                         " least = min(least, excluded.least),"
                         " greatest = max(greatest, excluded.greatest),"
                         " last_at = excluded.last_at");
  std::optional<std::pair<std::int64_t, model::DayRoll>> open;
  const auto close = [&] {
    if (!open) return;
    const model::DayRoll& roll = open->second;
    insert.reset();
    insert.bind(1, open->first);
    insert.bind(2, static_cast<std::int64_t>(roll.day.time_since_epoch().count()));
    insert.bind(3, roll.count);
    insert.bind(4, roll.least);
    insert.bind(5, roll.greatest);
    insert.bind(6, roll.total);
    insert.bind(7, static_cast<std::int64_t>(roll.last_at.time_since_epoch().count()));
    insert.bind(8, roll.last);
    insert.exec();
  };
  SQLite::Statement row(database,
                        "SELECT series, at, value, mark FROM reading ORDER BY series, at");
  while (row.executeStep()) {
    const std::int64_t series = row.getColumn(0).getInt64();
    const measure::Instant at{std::chrono::seconds{row.getColumn(1).getInt64()}};
    const double value = row.getColumn(2).getDouble();
    const measure::Day day = zone.day_of(at);
    if (!row.isColumnNull(3)) {  // marked: it is in no roll
      mark.reset();
      mark.bind(1, series);
      mark.bind(2, static_cast<std::int64_t>(day.time_since_epoch().count()));
      mark.bind(3, row.getColumn(3).getString());
      mark.bind(4, value);
      mark.bind(5, row.getColumn(1).getInt64());
      mark.exec();
      continue;
    }
    if (!open || open->first != series || open->second.day != day) {
      close();
      open.emplace(series, model::DayRoll{day});
    }
    open->second.add(at, value);
  }
  close();
}

}  // namespace book
