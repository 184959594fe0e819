#include "book/merge/copy.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "book/file/real_text.h"
#include "measure/text.h"

namespace book {
namespace {

using Names = std::map<std::string, std::map<std::int64_t, std::string>>;

std::string text_of_cell(const Cell& cell) {
  if (const auto* whole = std::get_if<std::int64_t>(&cell)) return fmt::format("{}", *whole);
  if (const auto* real = std::get_if<double>(&cell)) return fmt::format("{}", *real);
  if (const auto* text = std::get_if<std::string>(&cell)) return *text;
  return "\x1e";
}

// Puts names in place of numbers.
Row named(const TableInfo& table, Row row, const Names& names) {
  for (std::size_t i = 0; i < row.size(); ++i) {
    const ColumnInfo& column = table.columns[i];
    const auto* number = std::get_if<std::int64_t>(&row[i]);
    if (column.refers.empty() || number == nullptr) continue;
    if (table.name == "rule" && *number == 0) continue;
    const auto known = names.find(column.refers);
    // A row that is gone, and whose name went with it: below zero, so that no row gets that number.
    std::string name = fmt::format("{}{}", kGone, -std::abs(*number));
    if (known != names.end()) {
      const auto one = known->second.find(*number);
      if (one != known->second.end()) name = one->second;
    }
    row[i] = name;
  }
  if (table.has("id")) row[table.at("id")] = name_of_row(table, row);
  return row;
}

std::int64_t number_of(const TableInfo& table, const Row& row) {
  if (!table.has("id")) return 0;
  const auto* number = std::get_if<std::int64_t>(&row[table.at("id")]);
  return number == nullptr ? 0 : *number;
}

}  // namespace

Row row_of_json(SQLite::Database& database, const TableInfo& table, const std::string& json) {
  Row row(table.columns.size());
  SQLite::Statement field(
      database, "SELECT key, type, atom, ?1 -> ('$.\"' || key || '\"') FROM json_each(?1)");
  field.bind(1, json);
  while (field.executeStep()) {
    const std::string name = field.getColumn(0).getString();
    if (!table.has(name)) continue;
    Cell& cell = row[table.at(name)];
    cell = cell_at(field, 2);
    if (auto* real = std::get_if<double>(&cell)) {
      *real = exact_real(field.getColumn(3).getString(), *real);
    } else if (table.columns[table.at(name)].type == "REAL") {
      if (const auto* whole = std::get_if<std::int64_t>(&cell)) cell = static_cast<double>(*whole);
    }
  }
  return row;
}

namespace {

const TableInfo* find(const std::vector<TableInfo>& tables, const std::string& name) {
  for (const TableInfo& table : tables) {
    if (table.name == name) return &table;
  }
  return nullptr;
}

struct RawJournal {
  std::int64_t entry;
  const TableInfo* table;
  Row before;
  std::optional<Row> after;
};

std::vector<RawJournal> read_journal(SQLite::Database& database,
                                     const std::vector<TableInfo>& tables) {
  std::vector<RawJournal> journal;
  SQLite::Statement row(database,
                        "SELECT entry, table_name, before, after FROM journal ORDER BY id");
  while (row.executeStep()) {
    const TableInfo* table = find(tables, row.getColumn(1).getString());
    if (table == nullptr) continue;
    RawJournal one{row.getColumn(0).getInt64(), table,
                   row_of_json(database, *table, row.getColumn(2).getString()), std::nullopt};
    if (!row.isColumnNull(3)) {
      one.after = row_of_json(database, *table, row.getColumn(3).getString());
    }
    journal.push_back(std::move(one));
  }
  return journal;
}

// A series is named after its batch, an import's span after its entry.
bool names_need_names(const TableInfo& table) {
  return table.name == "series" || table.name == "import_span";
}

// The names of all rows by their numbers: of those that stand, and of those only the journal knows.
Names read_names(const std::vector<TableInfo>& tables,
                 const std::map<std::string, std::vector<Row>>& rows,
                 const std::vector<RawJournal>& journal) {
  Names names;
  for (const RawJournal& one : journal) {
    if (const auto number = number_of(*one.table, one.before)) {
      names[one.table->name][number] = name_of_row(*one.table, one.before);
    }
  }
  for (const TableInfo& table : tables) {
    if (names_need_names(table) || table.name == "journal" || !table.has("id")) continue;
    for (const Row& row : rows.at(table.name)) {
      names[table.name][number_of(table, row)] = name_of_row(table, row);
    }
  }
  for (const TableInfo& table : tables) {
    if (!names_need_names(table)) continue;
    for (const Row& row : rows.at(table.name)) {
      names[table.name][number_of(table, row)] = name_of_row(table, named(table, row, names));
    }
  }
  return names;
}

}  // namespace

std::string name_of_row(const TableInfo& table, const Row& row) {
  if (table.name == "place") return text_of_cell(row[table.at("name")]);
  if (table.name == "series") {
    return text_of_cell(row[table.at("batch")]) + kBetween +
           text_of_cell(row[table.at("quantity")]) + kBetween +
           text_of_cell(row[table.at("position")]);
  }
  if (table.name == "import_span") {
    std::string name;
    for (const char* column : {"entry", "batch_uid", "quantity", "position"}) {
      name += text_of_cell(row[table.at(column)]) + kBetween;
    }
    return name;
  }
  if (table.has("uid")) return text_of_cell(row[table.at("uid")]);
  std::string name;
  for (std::size_t i = 0; i < row.size(); ++i) {
    if (table.columns[i].key > 0)
      name += (name.empty() ? "" : std::string(1, kBetween)) + text_of_cell(row[i]);
  }
  return name;
}

std::string text_at(const TableInfo& table, const Row& row, std::string_view column) {
  const auto* text = std::get_if<std::string>(&row[table.at(column)]);
  return text == nullptr ? std::string() : *text;
}

const TableInfo& table_named(const std::vector<TableInfo>& tables, std::string_view name) {
  return *std::find_if(tables.begin(), tables.end(),
                       [&](const TableInfo& table) { return table.name == name; });
}

std::string text_of(const Row& row) {
  std::string text;
  for (const Cell& cell : row) text += text_of_cell(cell) + kBetween;
  return text;
}

std::string entry_of(const TableInfo& table, const Row& row) {
  return text_of_cell(row[table.at("entry")]);
}

bool has_story(const TableInfo& table) {
  return table.has("entry") && table.journalled;
}

std::vector<TableInfo> merged_tables(SQLite::Database& database) {
  std::vector<TableInfo> tables = recorded_tables(database);
  std::erase_if(tables, [](const TableInfo& table) { return table.name == "seal"; });
  for (TableInfo& table : tables) {
    if (table.name == "rule") table.columns[table.at("batch")].refers = "batch";
    if (table.name == "import_span") table.columns[table.at("series")].refers = "series";
  }
  return tables;
}

Copy read_copy(SQLite::Database& database, const std::vector<TableInfo>& tables) {
  std::map<std::string, std::vector<Row>> rows;
  for (const TableInfo& table : tables) {
    if (table.name != "journal") rows[table.name] = rows_of(database, table);
  }
  const std::vector<RawJournal> journal = read_journal(database, tables);
  const Names names = read_names(tables, rows, journal);
  Copy copy;
  copy.site = rows.at("site").at(0);
  const TableInfo& entry = *find(tables, "entry");
  for (const Row& raw : rows.at("entry")) {
    const Row row = named(entry, raw, names);
    EntryRow one{row, text_of_cell(row[entry.at("command")]), std::nullopt};
    if (const auto* by = std::get_if<std::string>(&row[entry.at("undone_by")])) one.undone_by = *by;
    copy.entries[name_of_row(entry, row)] = one;
  }
  for (const RawJournal& raw : journal) {
    const TableInfo& table = *raw.table;
    const std::string by = names.at("entry").at(raw.entry);
    JournalRow one{table.name, named(table, raw.before, names), std::nullopt};
    if (raw.after) one.after = named(table, *raw.after, names);
    auto& stories = copy.stories[table.name];
    const std::string before = name_of_row(table, one.before);
    stories[before].made[entry_of(table, one.before)] = one.before;
    stories[before].befores.insert(text_of(one.before));
    const std::string after = one.after ? name_of_row(table, *one.after) : "";
    if (one.after) stories[after].made[entry_of(table, *one.after)] = *one.after;
    // An undo takes nothing away: what it takes back does not hold any more.
    const std::string& command = copy.entries.at(by).command;
    const bool gone = !one.after || after != before;
    if (gone && command != "undo" && command != "check") stories[before].removed.insert(by);
    copy.journal[by].push_back(std::move(one));
  }
  for (const TableInfo& table : tables) {
    if (table.name == "journal" || table.name == "entry" || table.name == "site") continue;
    for (const Row& raw : rows.at(table.name)) {
      const Row row = named(table, raw, names);
      Story& story = copy.stories[table.name][name_of_row(table, row)];
      story.current = row;
      story.number = number_of(table, raw);
      if (has_story(table)) story.made[entry_of(table, row)] = row;
    }
  }
  return copy;
}

}  // namespace book
