#include "book/merge/write.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <tuple>

#include "book/keep/package_text.h"

namespace book {
namespace {

class Scribe {
 public:
  Scribe(const std::vector<TableInfo>& tables, const Union& whole, SQLite::Database& into)
      : tables_(tables), whole_(whole), into_(into) {}

  void write(const Row& site) {
    insert_row(into_, whole_.table("site"), site);
    for (const auto& [uid, entry] : whole_.entries) number("entry", uid);
    for (const TableInfo& table : tables_) give_numbers(table);
    write_entries();
    for (const TableInfo& table : tables_) write_rows(table);
    write_journal();
  }

 private:
  std::int64_t number(const std::string& table, const std::string& name) {
    if (name.starts_with(kGone)) {  // only the journal of what was taken back speaks of it
      std::int64_t gone{};
      std::from_chars(name.data() + 1, name.data() + name.size(), gone);
      return gone;
    }
    auto& numbers = numbers_[table];
    return numbers.emplace(name, static_cast<std::int64_t>(numbers.size()) + 1).first->second;
  }

  bool is_kept(const TableInfo& table, const std::string& name) const {
    const Row* row = whole_.standing(table.name, name);
    if (row == nullptr) return false;
    // What is taken back is read from its start the next time.
    if (table.name == "import_file") return whole_.entries.at(entry_of(table, *row)).holds();
    return table.name != "series" || is_kept_batch(text_at(table, *row, "batch"));
  }

  bool is_kept_batch(const std::string& name) const {
    const auto& batches = whole_.stories.at("batch");
    return batches.contains(name) && whole_.standing("batch", name) != nullptr;
  }

  // A span names its series while the readings stand there.
  Row settled(const TableInfo& table, Row row) const {
    if (table.name != "import_span") return row;
    const bool stands = whole_.entries.at(entry_of(table, row)).holds() &&
                        is_kept_batch(text_at(table, row, "batch_uid"));
    if (!stands) row[table.at("series")] = Cell{};
    return row;
  }

  std::vector<std::string> in_order(const TableInfo& table) const {
    std::vector<std::tuple<std::string, std::int64_t, std::string>> order;
    for (const auto& [name, story] : whole_.stories.at(table.name)) {
      if (is_kept(table, name)) {
        order.emplace_back(whole_.born(table.name, name), whole_.number(table.name, name), name);
      }
    }
    std::sort(order.begin(), order.end());
    std::vector<std::string> names;
    for (auto& [when, number, name] : order) names.push_back(name);
    return names;
  }

  void give_numbers(const TableInfo& table) {
    if (!table.has("id") || !whole_.stories.contains(table.name) || table.name == "entry") return;
    for (const std::string& name : in_order(table)) number(table.name, name);
  }

  Row numbered(const TableInfo& table, Row row) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      const ColumnInfo& column = table.columns[i];
      const auto* name = std::get_if<std::string>(&row[i]);
      if (name == nullptr) continue;
      if (column.name == "id") {
        row[i] = number(table.name, *name);
      } else if (!column.refers.empty()) {
        row[i] = number(column.refers, *name);
      }
    }
    return row;
  }

  void write_entries() {
    const TableInfo& table = whole_.table("entry");
    for (const auto& [uid, entry] : whole_.entries) {
      Row row = entry.row;
      row[table.at("undone_by")] = entry.undone_by ? Cell{*entry.undone_by} : Cell{};
      insert_row(into_, table, numbered(table, row));
    }
  }

  void write_rows(const TableInfo& table) {
    if (table.name == "entry" || table.name == "journal" || table.name == "site") return;
    for (const std::string& name : in_order(table)) {
      insert_row(into_, table, numbered(table, settled(table, *whole_.standing(table.name, name))));
    }
  }

  std::string real_text(double number) {
    SQLite::Statement quote(into_, "SELECT quote(?)");
    quote.bind(1, number);
    quote.executeStep();
    return quote.getColumn(0).getString();
  }

  // As the triggers write it.
  std::string json_of(const TableInfo& table, const Row& named) {
    const Row row = numbered(table, named);
    std::string json = "{";
    for (std::size_t i = 0; i < row.size(); ++i) {
      json += (i == 0 ? "" : ",") + json_text(table.columns[i].name) + ":";
      if (const auto* whole = std::get_if<std::int64_t>(&row[i])) {
        json += fmt::format("{}", *whole);
      } else if (const auto* real = std::get_if<double>(&row[i])) {
        json += real_text(*real);
      } else if (const auto* text = std::get_if<std::string>(&row[i])) {
        json += json_text(*text);
      } else {
        json += "null";
      }
    }
    return json + "}";
  }

  void write_journal() {
    SQLite::Statement insert(into_,
                             "INSERT INTO journal (entry, table_name, before, after)"
                             " VALUES (?, ?, ?, ?)");
    for (const auto& [uid, rows] : whole_.journal) {
      for (const JournalRow& row : rows) {
        const TableInfo& table = whole_.table(row.table);
        insert.reset();
        insert.bind(1, number("entry", uid));
        insert.bind(2, row.table);
        insert.bind(3, json_of(table, row.before));
        if (row.after) {
          insert.bind(4, json_of(table, *row.after));
        } else {
          insert.bind(4);
        }
        insert.exec();
      }
    }
  }

  const std::vector<TableInfo>& tables_;
  const Union& whole_;
  SQLite::Database& into_;
  std::map<std::string, std::map<std::string, std::int64_t>> numbers_;
};

}  // namespace

void write_union(const Union& whole, const std::vector<TableInfo>& tables, const Row& site,
                 SQLite::Database& into) {
  SQLite::Transaction transaction(into);
  into.exec("PRAGMA defer_foreign_keys = ON");
  Scribe(tables, whole, into).write(site);
  transaction.commit();
}

}  // namespace book
