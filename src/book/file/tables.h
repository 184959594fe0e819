#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

#include <functional>
#include <map>
#include <string>
#include <variant>
#include <vector>

// Inside this layer: the tables of the schema as data, for what must know all of them (export,
// merge), so that a new table or column needs no line there.
namespace book {

struct ColumnInfo {
  std::string name;
  std::string type;     // INTEGER, REAL, TEXT
  bool required;        // NOT NULL
  int key = 0;          // its place in the primary key, 1 the first; 0: not of it
  std::string refers;   // the table whose id it holds; empty: none
  std::string meaning;  // the schema's own remark beside it

  bool is_instant() const;  // seconds, by the schema's rule: "at" or "..._at"
  bool is_day() const;      // days: "day" or "..._day"
  bool is_lines() const;    // text of several lines: a mapping's "columns"
};

struct TableInfo {
  std::string name;
  std::string meaning;
  std::vector<ColumnInfo> columns;
  // Whether the journal keeps its rows as they were, before they are changed or taken back: those
  // that an entry wrote, but for imports and what is derived.
  bool journalled = false;

  // The index of a column; the number of columns where there is none.
  std::size_t at(std::string_view column) const;
  bool has(std::string_view column) const { return at(column) < columns.size(); }
};

// All tables that hold what was recorded, without what is derived (day_roll, day_mark,
// reading_typed) or passing (pen).
std::vector<TableInfo> recorded_tables(SQLite::Database& database);
// One of them, with its names and types alone.
TableInfo bare_table(SQLite::Database& database, const std::string& name);
bool is_journalled(std::string_view table);

using Cell = std::variant<std::monostate, std::int64_t, double, std::string>;
using Row = std::vector<Cell>;

// Every row, in the order of the primary key: one at a time, or all.
void for_each_row(SQLite::Database& database, const TableInfo& table,
                  const std::function<void(const Row&)>& use);
std::vector<Row> rows_of(SQLite::Database& database, const TableInfo& table);
void insert_row(SQLite::Database& database, const TableInfo& table, const Row& row);

Cell cell_at(SQLite::Statement& row, int column);

}  // namespace book
