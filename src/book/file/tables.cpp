#include "book/file/tables.h"

#include <algorithm>
#include <array>

#include "measure/text.h"

namespace book {
namespace {

// The remark that follows a column or a table in the schema: "-- ...".
std::string remark_after(const std::string& sql, const std::string& start) {
  const std::size_t line = sql.find("\n  " + start + " ");
  const std::size_t from = start.empty() ? 0 : line;
  if (from == std::string::npos) return {};
  const std::size_t end = sql.find('\n', from + 1);
  const std::string text = sql.substr(from, end - from);
  const std::size_t dashes = text.find("-- ");
  return dashes == std::string::npos ? "" : text.substr(dashes + 3);
}

// The names are those of our own schema; SQLite quotes them all the same.
std::string quoted_name(const std::string& name) {
  return '"' + name + '"';
}

std::string column_list(const TableInfo& table) {
  std::string list;
  for (const ColumnInfo& column : table.columns) {
    list += (list.empty() ? "" : ", ") + quoted_name(column.name);
  }
  return list;
}

// `sql`: what made the table, with its remarks.
std::vector<ColumnInfo> columns_of(SQLite::Database& database, const std::string& table,
                                   const std::string& sql) {
  std::vector<ColumnInfo> columns;
  SQLite::Statement column(database,
                           "SELECT name, type, \"notnull\", pk FROM pragma_table_info(?)");
  column.bind(1, table);
  while (column.executeStep()) {
    const std::string one = column.getColumn(0).getString();
    columns.push_back({one, column.getColumn(1).getString(),
                       column.getColumn(2).getInt() != 0 || column.getColumn(3).getInt() != 0,
                       column.getColumn(3).getInt(), "", remark_after(sql, one)});
  }
  return columns;
}

// Derived, passing, or kept in a way of their own.
constexpr std::array<std::string_view, 13> kNotJournalled{
    "journal", "pen",    "day_roll", "day_mark", "reading_typed", "taken_back_reading",
    "site",    "import", "series",   "entry",    "import_file",   "import_span",
    "seal"};

}  // namespace

bool is_journalled(std::string_view table) {
  return std::find(kNotJournalled.begin(), kNotJournalled.end(), table) == kNotJournalled.end();
}

TableInfo bare_table(SQLite::Database& database, const std::string& name) {
  return {name, "", columns_of(database, name, ""), is_journalled(name)};
}

bool ColumnInfo::is_instant() const {
  return name == "at" || name.ends_with("_at");
}
bool ColumnInfo::is_day() const {
  return name == "day" || name.ends_with("_day");
}

bool ColumnInfo::is_lines() const {
  return name == "columns";
}

std::size_t TableInfo::at(std::string_view column) const {
  std::size_t i = 0;
  while (i < columns.size() && columns[i].name != column) ++i;
  return i;
}

std::vector<TableInfo> recorded_tables(SQLite::Database& database) {
  std::vector<TableInfo> tables;
  SQLite::Statement name(database,
                         "SELECT name, sql FROM sqlite_schema WHERE type = 'table'"
                         " AND name NOT LIKE 'sqlite_%'"
                         " AND name NOT IN ('day_roll', 'day_mark', 'reading_typed', 'pen')"
                         " ORDER BY name");
  while (name.executeStep()) {
    TableInfo table{name.getColumn(0).getString(), "", {}, false};
    const std::string sql = name.getColumn(1).getString();
    table.meaning = remark_after(sql, "");
    table.columns = columns_of(database, table.name, sql);
    SQLite::Statement key(database, "SELECT \"from\", \"table\" FROM pragma_foreign_key_list(?)");
    key.bind(1, table.name);
    while (key.executeStep()) {
      table.columns[table.at(key.getColumn(0).getString())].refers = key.getColumn(1).getString();
    }
    table.journalled = is_journalled(table.name);
    tables.push_back(std::move(table));
  }
  return tables;
}

Cell cell_at(SQLite::Statement& row, int column) {
  const SQLite::Column cell = row.getColumn(column);
  if (cell.isNull()) return {};
  if (cell.isInteger()) return cell.getInt64();
  if (cell.isFloat()) return cell.getDouble();
  return measure::inert_lines(cell.getString());
}

void for_each_row(SQLite::Database& database, const TableInfo& table,
                  const std::function<void(const Row&)>& use) {
  std::string order;
  for (const ColumnInfo& column : table.columns) {
    if (column.key > 0) order += (order.empty() ? " ORDER BY " : ", ") + quoted_name(column.name);
  }
  SQLite::Statement row(
      database, "SELECT " + column_list(table) + " FROM " + quoted_name(table.name) + order);
  while (row.executeStep()) {
    Row one;
    for (int i = 0; i < row.getColumnCount(); ++i) one.push_back(cell_at(row, i));
    use(one);
  }
}

std::vector<Row> rows_of(SQLite::Database& database, const TableInfo& table) {
  std::vector<Row> rows;
  for_each_row(database, table, [&](const Row& row) { rows.push_back(row); });
  return rows;
}

void insert_row(SQLite::Database& database, const TableInfo& table, const Row& row) {
  std::string marks;
  for (std::size_t i = 0; i < row.size(); ++i) marks += i == 0 ? "?" : ", ?";
  SQLite::Statement insert(database, "INSERT INTO " + quoted_name(table.name) + " (" +
                                         column_list(table) + ") VALUES (" + marks + ")");
  int at = 0;
  for (const Cell& cell : row) {
    ++at;
    if (const auto* whole = std::get_if<std::int64_t>(&cell)) {
      insert.bind(at, *whole);
    } else if (const auto* real = std::get_if<double>(&cell)) {
      insert.bind(at, *real);
    } else if (const auto* text = std::get_if<std::string>(&cell)) {
      insert.bind(at, *text);
    } else {
      insert.bind(at);
    }
  }
  insert.exec();
}

}  // namespace book
