#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "book/file/tables.h"

// Inside this layer: one copy of a logbook as `merge` sees it, with names in place of the numbers
// that each copy gives its rows by itself.
namespace book {

// Begins the name of a row that only the journal of what was taken back still speaks of; no text of
// a logbook holds a control character.
inline constexpr char kGone = '\x1d';
// Between the parts of a row's name (of a series: batch, quantity, position).
inline constexpr char kBetween = '\x1f';

// The columns of a table that hold a number of another row (or its own id) hold that row's name
// here. A row's name: its uid; a place's name; the primary key of what has no uid.
std::string name_of_row(const TableInfo& table, const Row& row);
// A column's text; empty where it has none.
std::string text_at(const TableInfo& table, const Row& row, std::string_view column);
const TableInfo& table_named(const std::vector<TableInfo>& tables, std::string_view name);
// The row as one text, for comparing.
std::string text_of(const Row& row);
// The uid of the entry that wrote the row as it is.
std::string entry_of(const TableInfo& table, const Row& row);

// A row as the journal has it.
Row row_of_json(SQLite::Database& database, const TableInfo& table, const std::string& json);

struct EntryRow {
  Row row;
  std::string command;
  std::optional<std::string> undone_by;  // uid
  bool holds() const { return !undone_by; }
};

struct JournalRow {
  std::string table;
  Row before;
  std::optional<Row> after;
};

// All that is known of one row: what each entry made of it, and which took it away.
struct Story {
  std::map<std::string, Row> made;  // by the entry's uid
  std::set<std::string> removed;
  std::set<std::string> befores;  // the versions that the journal has, as text
  std::optional<Row> current;
  std::int64_t number = 0;  // this copy's own id of it; 0: it has none
};

struct Copy {
  std::map<std::string, EntryRow> entries;
  std::map<std::string, std::vector<JournalRow>> journal;       // by the entry's uid
  std::map<std::string, std::map<std::string, Story>> stories;  // by table and name
  Row site;
};

// The tables whose rows have a story: those whose rows say which entry wrote them, and that the
// journal keeps. Of the others a row is there or not.
bool has_story(const TableInfo& table);

Copy read_copy(SQLite::Database& database, const std::vector<TableInfo>& tables);

// The tables with what the schema cannot say: a rule's batch is 0 for the whole kind, and the
// series of an import's span may be gone. Without the seals, which are made anew.
std::vector<TableInfo> merged_tables(SQLite::Database& database);

}  // namespace book
