#include "book/keep/seal.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <functional>
#include <map>
#include <optional>
#include <set>

#include "book/file/error.h"
#include "book/file/tables.h"
#include "book/keep/sha256.h"
#include "book/merge/copy.h"

namespace book {
namespace {

using SealLines = std::set<std::string>;

// A number by its bits; whole ones by their digits, since SQLite keeps a whole real as an integer.
std::string text_of_number(double number) {
  constexpr double kWhole = 9007199254740992.0;  // 2^53
  if (number == std::floor(number) && std::abs(number) < kWhole) {
    return fmt::format("{}", static_cast<std::int64_t>(number));
  }
  return fmt::format("x{:016x}", std::bit_cast<std::uint64_t>(number));
}

std::string text_of_cell_in_seal(const Cell& cell) {
  if (const auto* whole = std::get_if<std::int64_t>(&cell)) return fmt::format("{}", *whole);
  if (const auto* real = std::get_if<double>(&cell)) return text_of_number(*real);
  if (const auto* text = std::get_if<std::string>(&cell)) return *text;
  return {};
}

void add_cell(std::string& line, std::string_view column, const std::string& text) {
  const bool left_out = column == "day" || column.ends_with("_day") || column == "entry";
  if (!left_out && !text.empty()) line += fmt::format("\x1f{}={}", column, text);
}

std::string line_of_row(const TableInfo& table, const Row& row) {
  std::string line = table.name;
  for (std::size_t i = 0; i < row.size(); ++i) {
    add_cell(line, table.columns[i].name, text_of_cell_in_seal(row[i]));
  }
  return line;
}

std::optional<std::int64_t> entry_in(const TableInfo& table, const Row& row) {
  const auto* entry = std::get_if<std::int64_t>(&row[table.at("entry")]);
  return entry == nullptr ? std::nullopt : std::optional(*entry);
}

std::string digest_of(const std::string& before, const std::string& entry, const SealLines& lines) {
  std::string all = before + '\n' + entry;
  for (const std::string& line : lines) all += '\n' + line;
  return sha256(all);
}

constexpr const char* kEntry =
    "SELECT uid || char(31) || recorded_at || char(31) || who || char(31) || command || char(31)"
    " || line FROM entry WHERE id = ?";
constexpr const char* kInsert = "INSERT INTO seal (entry, digest, covers) VALUES (?, ?, ?)";

void write_seal(SQLite::Database& database, std::int64_t entry, const std::string& digest,
                bool rows) {
  SQLite::Statement insert(database, kInsert);
  insert.bind(1, entry);
  insert.bind(2, digest);
  insert.bind(3, rows ? "rows" : "entry");
  insert.exec();
}

// The readings that were typed; those of loggers may be millions.
void for_each_typed(SQLite::Database& database, const TableInfo& table,
                    const std::function<void(const Row&)>& use) {
  SQLite::Statement row(database,
                        "SELECT r.* FROM reading_typed AS t"
                        " JOIN reading AS r ON r.series = t.series AND r.at = t.at");
  while (row.executeStep()) {
    Row one(table.columns.size());
    for (int i = 0; i < row.getColumnCount(); ++i) {
      one[table.at(row.getColumnName(i))] = cell_at(row, i);
    }
    use(one);
  }
}

// What the file holds of each entry: the rows that stand as it wrote them, and those that the
// journal has of it. Of readings only those that were typed.
std::map<std::int64_t, SealLines> held(SQLite::Database& database,
                                       const std::set<std::int64_t>& bare) {
  std::map<std::int64_t, SealLines> lines;
  std::map<std::string, TableInfo> sealed;
  const auto take = [&](const TableInfo& table, const Row& row) {
    const auto entry = entry_in(table, row);
    if (entry && !bare.contains(*entry)) lines[*entry].insert(line_of_row(table, row));
  };
  for (const TableInfo& table : recorded_tables(database)) {
    if (!has_story(table)) continue;
    sealed.emplace(table.name, table);
    const auto use = [&](const Row& row) { take(table, row); };
    if (table.name == "reading") {
      for_each_typed(database, table, use);
    } else {
      for_each_row(database, table, use);
    }
  }
  SQLite::Statement row(database, "SELECT table_name, before FROM journal");
  while (row.executeStep()) {
    const auto table = sealed.find(row.getColumn(0).getString());
    if (table == sealed.end()) continue;
    take(table->second, row_of_json(database, table->second, row.getColumn(1).getString()));
  }
  return lines;
}

struct Sealed {
  std::int64_t entry;
  std::string text;  // of the entry's own row
  bool bare;         // an import
  std::string digest;
};

std::vector<Sealed> sealed_entries(SQLite::Database& database) {
  std::vector<Sealed> all;
  SQLite::Statement row(
      database,
      "SELECT e.id, uid || char(31) || recorded_at || char(31) || who || char(31) || command ||"
      " char(31) || line, coalesce(covers = 'entry', command = 'import'), coalesce(digest, '')"
      " FROM entry AS e LEFT JOIN seal AS s ON s.entry = e.id ORDER BY e.id");
  while (row.executeStep()) {
    all.push_back({row.getColumn(0).getInt64(), row.getColumn(1).getString(),
                   row.getColumn(2).getInt() != 0, row.getColumn(3).getString()});
  }
  return all;
}

std::set<std::int64_t> bare_of(const std::vector<Sealed>& all) {
  std::set<std::int64_t> bare;
  for (const Sealed& one : all) {
    if (one.bare) bare.insert(one.entry);
  }
  return bare;
}

Cell cell_of_value(sqlite3_value* value) {
  switch (sqlite3_value_type(value)) {
    case SQLITE_INTEGER:
      return std::int64_t{sqlite3_value_int64(value)};
    case SQLITE_FLOAT:
      return sqlite3_value_double(value);
    case SQLITE_NULL:
      return {};
    default:
      return std::string(reinterpret_cast<const char*>(sqlite3_value_text(value)),
                         static_cast<std::size_t>(sqlite3_value_bytes(value)));
  }
}

}  // namespace

struct Witness::Seen {
  std::int64_t entry;
  bool rows;
  std::map<std::string, std::vector<Row>, std::less<>> written;  // by table
  std::set<std::string> changed;                                 // tables with rows that were there
  std::set<std::string> kept;  // tables that the journal was told of
};

namespace {

constexpr std::string_view kJournal = "journal";

// SQLite calls it before each row that changes, with the new values at hand.
void note_row(void* seen, sqlite3* database, int how, const char*, const char* table, sqlite3_int64,
              sqlite3_int64) {
  Witness::Seen& witness = *static_cast<Witness::Seen*>(seen);
  const bool is_journal = std::string_view(table) == kJournal;
  if (!is_journalled(table) && !is_journal) return;
  // Readings go without a row of the journal where an import is taken back.
  const bool may_go = how == SQLITE_DELETE && std::string_view(table) == "reading";
  if (how != SQLITE_INSERT && !may_go) witness.changed.insert(table);
  if (how == SQLITE_DELETE) return;
  Row row;
  for (int i = 0; i < sqlite3_preupdate_count(database); ++i) {
    sqlite3_value* value = nullptr;
    if (sqlite3_preupdate_new(database, i, &value) != SQLITE_OK) return;
    row.push_back(cell_of_value(value));
  }
  if (is_journal) {
    constexpr std::size_t kTableName = 2;
    witness.kept.insert(std::get<std::string>(row[kTableName]));
  } else {
    witness.written[table].push_back(std::move(row));
  }
}

// The names of a table's columns, without reading the schema a second time.
std::vector<std::string> columns_of(SQLite::Database& database, const std::string& table) {
  SQLite::Statement none(database, "SELECT * FROM \"" + table + "\" LIMIT 0");
  std::vector<std::string> names;
  for (int i = 0; i < none.getColumnCount(); ++i) names.emplace_back(none.getColumnName(i));
  return names;
}

}  // namespace

Witness::Witness(SQLite::Database& database, std::int64_t entry, bool rows)
    : database_(database), seen_(new Seen{entry, rows, {}, {}, {}}) {
  if (rows) sqlite3_preupdate_hook(database_.getHandle(), note_row, seen_.get());
}

Witness::~Witness() {
  sqlite3_preupdate_hook(database_.getHandle(), nullptr, nullptr);
}

void Witness::seal() {
  sqlite3_preupdate_hook(database_.getHandle(), nullptr, nullptr);
  // No change goes past the journal, or undo could not take it back.
  if (!std::includes(seen_->kept.begin(), seen_->kept.end(), seen_->changed.begin(),
                     seen_->changed.end())) {
    throw BookError("a change was not put into the journal");
  }
  SealLines lines;
  for (const auto& [table, rows] : seen_->written) {
    const std::vector<std::string> columns = columns_of(database_, table);
    const auto at = std::find(columns.begin(), columns.end(), "entry");
    if (at == columns.end()) continue;
    for (const Row& row : rows) {
      const Cell& entry = row[static_cast<std::size_t>(at - columns.begin())];
      if (entry != Cell{seen_->entry}) continue;
      std::string line = table;
      for (std::size_t i = 0; i < row.size(); ++i) {
        add_cell(line, columns[i], text_of_cell_in_seal(row[i]));
      }
      lines.insert(std::move(line));
    }
  }
  SQLite::Statement own(database_, kEntry);
  own.bind(1, seen_->entry);
  own.executeStep();
  SQLite::Statement last(database_, "SELECT digest FROM seal ORDER BY entry DESC LIMIT 1");
  const std::string before = last.executeStep() ? last.getColumn(0).getString() : "";
  last.reset();
  write_seal(database_, seen_->entry, digest_of(before, own.getColumn(0).getString(), lines),
             seen_->rows);
}

void seal_all(SQLite::Database& database) {
  database.exec("DELETE FROM seal");
  const std::vector<Sealed> all = sealed_entries(database);
  const auto lines = held(database, bare_of(all));
  std::string before;
  for (const Sealed& one : all) {
    const auto found = lines.find(one.entry);
    before = digest_of(before, one.text, found == lines.end() ? SealLines{} : found->second);
    write_seal(database, one.entry, before, !one.bare);
  }
}

std::vector<std::int64_t> broken_seals(SQLite::Database& database) {
  std::vector<std::int64_t> broken;
  if (database.execAndGet("SELECT count(*) FROM seal").getInt() == 0) return broken;
  const std::vector<Sealed> all = sealed_entries(database);
  const auto lines = held(database, bare_of(all));
  std::string before;
  for (const Sealed& one : all) {
    const auto found = lines.find(one.entry);
    const SealLines none;
    const SealLines& wrote = found == lines.end() ? none : found->second;
    if (digest_of(before, one.text, wrote) != one.digest) broken.push_back(one.entry);
    before = one.digest;
  }
  return broken;
}

}  // namespace book
