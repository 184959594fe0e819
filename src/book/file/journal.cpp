#include "book/file/journal.h"

#include <fmt/format.h>

#include "book/file/tables.h"

namespace book {
namespace {

using namespace std::string_view_literals;

// Numbers as they are, the real ones to the last bit, texts in quotes. By hand: json_object would
// round the numbers, and the schema is not trusted with functions beyond the plainest.
std::string value_of(const ColumnInfo& column, std::string_view row) {
  const std::string name = fmt::format("{}.{}", row, column.name);
  if (column.type == "REAL") return fmt::format("iif({0} IS NULL, 'null', quote({0}))", name);
  if (column.type != "TEXT") return fmt::format("coalesce({}, 'null')", name);
  std::string text = fmt::format(R"(replace(replace({}, '\', '\\'), '"', '\"'))", name);
  if (column.is_lines())
    text = fmt::format(R"(replace(replace({}, char(10), '\n'), char(9), '\t'))", text);
  return fmt::format(R"(coalesce('"' || {} || '"', 'null'))", text);
}

// The JSON of the OLD or the NEW row.
std::string json_of(const TableInfo& table, std::string_view row) {
  std::string json;
  for (const ColumnInfo& column : table.columns) {
    json += fmt::format(R"({}"{}":' || {} || )", json.empty() ? "'{" : "',", column.name,
                        value_of(column, row));
  }
  return json + "'}'";
}

// Where an import is taken back, its readings are moved aside, not journalled one by one.
std::string trigger(const TableInfo& table, std::string_view name, std::string_view when,
                    const std::string& after) {
  return fmt::format(
      "CREATE TEMP TRIGGER {0}_{1} AFTER {2} ON main.{0} WHEN (SELECT moving FROM pen) = 0 BEGIN"
      " INSERT INTO journal (entry, table_name, before, after)"
      " VALUES ((SELECT entry FROM pen), '{0}', {3}, {4}); END",
      table.name, name, when, json_of(table, "OLD"), after);
}

}  // namespace

std::string_view changed_table(std::string_view sql) {
  constexpr std::string_view kAdds = "INSERT INTO ";
  for (const std::string_view start :
       {"UPDATE "sv, "DELETE FROM "sv, "INSERT OR REPLACE INTO "sv, kAdds}) {
    if (!sql.starts_with(start)) continue;
    if (start == kAdds && sql.find(" DO UPDATE ") == std::string_view::npos) return {};
    sql.remove_prefix(start.size());
    return sql.substr(0, sql.find_first_of(" ("));
  }
  return {};
}

void keep_journal(SQLite::Database& database, std::string_view name) {
  if (name.empty() || !is_journalled(name)) return;
  SQLite::Statement made(
      database, "SELECT 1 FROM sqlite_temp_schema WHERE type = 'trigger' AND tbl_name = ?");
  made.bind(1, std::string(name));
  if (made.executeStep()) return;
  const TableInfo table = bare_table(database, std::string(name));
  database.exec(trigger(table, "changed", "UPDATE", json_of(table, "NEW")));
  database.exec(trigger(table, "taken_back", "DELETE", "NULL"));
}

}  // namespace book
