#include "book/keep/package.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <map>

#include "book/file/error.h"
#include "book/file/schema.h"
#include "book/file/takeover.h"
#include "book/keep/package_text.h"
#include "book/keep/seal.h"
#include "book/keep/sha256.h"
#include "book/read/query.h"
#include "measure/text.h"

namespace book {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kDescription = "datapackage.json";
constexpr std::string_view kLines = "logbook.jsonl";

// Unit, type and key of a column as the Table Schema of Frictionless Data has them.
std::string field_json(const ColumnInfo& column) {
  const std::string type = column.is_instant()        ? "datetime"
                           : column.is_day()          ? "date"
                           : column.type == "INTEGER" ? "integer"
                           : column.type == "REAL"    ? "number"
                                                      : "string";
  std::string text = fmt::format(R"({{"name":{},"type":"{}")", json_text(column.name), type);
  if (!column.meaning.empty()) text += ",\"description\":" + json_text(column.meaning);
  // An empty cell of a text is the empty text, which Table Schema takes for a missing value.
  if (column.required && type != "string") text += R"(,"constraints":{"required":true})";
  return text + "}";
}

std::string schema_json(const TableInfo& table) {
  std::string fields, keys, foreign;
  for (const ColumnInfo& column : table.columns) {
    fields += (fields.empty() ? "\n      " : ",\n      ") + field_json(column);
    if (column.key > 0) keys += (keys.empty() ? "" : ",") + json_text(column.name);
    if (!column.refers.empty()) {
      foreign += fmt::format(R"({}{{"fields":{},"reference":{{"resource":{},"fields":"id"}}}})",
                             foreign.empty() ? "" : ",", json_text(column.name),
                             json_text(column.refers == table.name ? "" : column.refers));
    }
  }
  std::string text = fmt::format("{{\"fields\":[{}],\n      \"primaryKey\":[{}],", fields, keys);
  // An empty list of them is not valid.
  if (!foreign.empty()) text += fmt::format("\"foreignKeys\":[{}],", foreign);
  return text + "\"missingValues\":[\"\"]}";
}

std::string read_file(const fs::path& path) {
  if (!fs::is_regular_file(path)) refuse(path, "the package has no such file");
  std::ifstream file(path, std::ios::binary);
  std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  if (file.bad()) refuse(path, "could not be read");
  return text;
}

// How Data Resource of Frictionless Data writes the digest of a file.
const std::string kHash = "sha256:";

// What tells this site from another and this package from an earlier or a later one of it: the
// site's uid, and how far its entries go. Their uids are in the order of time.
std::string origin_json(SQLite::Database& database) {
  SQLite::Statement origin(database,
                           "SELECT (SELECT uid FROM site), (SELECT count(*) FROM entry),"
                           " (SELECT max(uid) FROM entry)");
  origin.executeStep();
  return fmt::format("\"id\":{},\n  \"entries\":{},\n  \"lastEntry\":{}",
                     json_text(origin.getColumn(0).getString()), origin.getColumn(1).getInt64(),
                     origin.isColumnNull(2) ? "null" : json_text(origin.getColumn(2).getString()));
}

std::string description(const Logbook& logbook, const std::vector<TableInfo>& tables,
                        const fs::path& folder) {
  std::string text = fmt::format(
      "{{\n  \"profile\":\"tabular-data-package\",\n  \"name\":\"logbook\",\n  \"title\":{},\n"
      "  \"description\":\"Everything that the logbook holds. In a text cell an apostrophe in "
      "front "
      "of = + - @ or of an apostrophe is not part of the text.\",\n  {},\n  \"schema\":{},\n"
      "  \"resources\":[",
      json_text(logbook.site().name), origin_json(logbook.connection().database), kSchema);
  bool first = true;
  for (const TableInfo& table : tables) {
    std::ifstream file(folder / (table.name + ".csv"), std::ios::binary);
    const StreamDigest digest = sha256(file);
    if (!file.is_open() || file.bad()) refuse(folder / (table.name + ".csv"), "could not be read");
    text += fmt::format(
        "{}\n    "
        "{{\"profile\":\"tabular-data-resource\",\"name\":{},\"path\":{},\"description\":{},"
        "\n     \"format\":\"csv\",\"mediatype\":\"text/csv\",\"encoding\":\"utf-8\","
        "\"bytes\":{},\"hash\":\"{}\",\n     "
        "\"dialect\":{{\"lineTerminator\":\"\\r\\n\",\"doubleQuote\":true}},\n     \"schema\":{}}}",
        first ? "" : ",", json_text(table.name), json_text(table.name + ".csv"),
        json_text(table.meaning.empty() ? table.name : table.meaning), digest.bytes,
        kHash + digest.hex, schema_json(table));
    first = false;
  }
  return text + "\n  ]\n}\n";
}

// The files of a package: all of them, or none.
class Writer {
 public:
  explicit Writer(fs::path folder) : folder_(std::move(folder)) {}
  ~Writer() {
    std::error_code none;
    if (keep_) return;
    for (const std::string& name : begun_) fs::remove(folder_ / name, none);
  }
  std::ofstream begin(const std::string& name) {
    const fs::path path = folder_ / name;
    make_private(path, path);
    begun_.push_back(name);
    return std::ofstream(path, std::ios::binary);
  }
  void finish(const std::string& name, std::ofstream& file) {
    const fs::path path = folder_ / name;
    file.close();
    if (!file) refuse(path, "could not be written; what was written before is taken away again");
    force_to_disk(path);
    written_.push_back(name);
  }
  std::vector<std::string> keep() {
    force_to_disk(folder_);
    keep_ = true;
    return written_;
  }

 private:
  fs::path folder_;
  std::vector<std::string> begun_, written_;
  bool keep_ = false;
};

// A table as CSV and, a line a row, as JSON.
void write_table(SQLite::Database& database, const TableInfo& table, std::ostream& csv,
                 std::ostream& lines) {
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    csv << (i == 0 ? "" : ",") << table.columns[i].name;
  }
  csv << "\r\n";
  for_each_row(database, table, [&](const Row& row) {
    lines << "{\"table\":" << json_text(table.name);
    for (std::size_t i = 0; i < row.size(); ++i) {
      const ColumnInfo& column = table.columns[i];
      csv << (i == 0 ? "" : ",") << csv_cell(column, row[i]);
      lines << ',' << json_text(column.name) << ':' << json_cell(column, row[i]);
    }
    csv << "\r\n";
    lines << "}\n";
  });
}

// The digests that the description gives, by the file's name.
std::map<std::string, std::string> hashes_of(const fs::path& folder) {
  SQLite::Database reader(":memory:", SQLite::OPEN_READWRITE);
  SQLite::Statement row(reader,
                        "SELECT value ->> '$.path', value ->> '$.hash'"
                        " FROM json_each(?1, '$.resources')");
  row.bind(1, read_file(folder / kDescription));
  std::map<std::string, std::string> hashes;
  while (row.executeStep()) {
    if (!row.isColumnNull(1))
      hashes.emplace(row.getColumn(0).getString(), row.getColumn(1).getString());
  }
  return hashes;
}

int schema_of(const fs::path& folder) {
  const fs::path path = folder / kDescription;
  const std::string text = read_file(path);
  SQLite::Database reader(":memory:", SQLite::OPEN_READWRITE);
  SQLite::Statement version(reader, "SELECT iif(json_valid(?1), ?1 ->> '$.schema', NULL)");
  version.bind(1, text);
  version.executeStep();
  const int schema = version.getColumn(0).isInteger() ? version.getColumn(0).getInt() : 0;
  if (schema < 1) refuse(path, "this is not the description of an exported logbook");
  if (schema > kSchema) {
    refuse(path, fmt::format("this package is of schema {}, made by a newer roundbook; this one "
                             "knows schema {}",
                             schema, kSchema));
  }
  return schema;
}

void read_table(SQLite::Database& database, const TableInfo& table, const fs::path& folder,
                const std::optional<std::string>& hash) {
  const fs::path path = folder / (table.name + ".csv");
  const std::string content = read_file(path);
  if (hash && *hash != kHash + sha256(content)) {
    refuse(path, "it is not as it was exported: something was changed or is missing; export anew");
  }
  const auto records = csv_records(content);
  if (!records || records->empty()) refuse(path, "this is not a whole CSV file");
  const std::vector<std::string>& header = records->front();
  std::vector<std::size_t> columns;
  for (const std::string& name : header) {
    if (!table.has(name))
      refuse(path, "it has a column that is not ours: " + measure::quoted(name));
    columns.push_back(table.at(name));
  }
  if (header.size() != table.columns.size()) {
    refuse(path, fmt::format("it has {} columns, not {}", header.size(), table.columns.size()));
  }
  for (std::size_t line = 1; line < records->size(); ++line) {
    const auto& record = (*records)[line];
    if (record.size() != header.size()) {
      refuse(path,
             fmt::format("record {} has {} cells, not {}", line + 1, record.size(), header.size()));
    }
    Row row(table.columns.size());
    for (std::size_t i = 0; i < record.size(); ++i) {
      const auto cell = cell_of(table.columns[columns[i]], record[i]);
      if (!cell) {
        refuse(path, fmt::format("record {}: {} cannot be {}", line + 1, header[i],
                                 measure::quoted(record[i])));
      }
      row[columns[i]] = *cell;
    }
    try {
      insert_row(database, table, row);
    } catch (const SQLite::Exception& error) {
      refuse(path, fmt::format("record {}: {}", line + 1, error.what()));
    }
  }
}

// The journal's rows are texts within a text: what they hold would come out only when it is read.
void look_at_journal(SQLite::Database& database, const fs::path& folder) {
  const fs::path path = folder / "journal.csv";
  if (database
          .execAndGet("SELECT count(*) FROM journal WHERE NOT json_valid(before)"
                      " OR (after IS NOT NULL AND NOT json_valid(after))")
          .getInt() > 0) {
    refuse(path, "a row as it was before cannot be read");
  }
  SQLite::Statement text(database,
                         "SELECT j.id, v.key, v.value FROM journal AS j, json_each(j.before) AS v"
                         " WHERE v.type = 'text' UNION ALL SELECT j.id, v.key, v.value"
                         " FROM journal AS j, json_each(coalesce(j.after, '{}')) AS v"
                         " WHERE v.type = 'text'");
  while (text.executeStep()) {
    const std::string value = text.getColumn(2).getString();
    const bool lines = text.getColumn(1).getString() == "columns";
    if (lines ? measure::is_clean_lines(value) : measure::is_clean_text(value)) continue;
    refuse(path, fmt::format("row {} holds a control character or is not UTF-8 text",
                             text.getColumn(0).getInt()));
  }
}

}  // namespace

std::vector<std::string> write_package(const Logbook& logbook, const fs::path& folder) {
  std::error_code error;
  fs::create_directories(folder, error);
  if (error) refuse(folder, "the folder cannot be made: " + error.message());
  if (!fs::is_empty(folder)) {
    refuse(folder, "the folder is not empty; nothing was written. Name a new one");
  }
  SQLite::Database& database = logbook.connection().database;
  Writer writer(folder);
  try {
    // One view of the logbook while others write.
    SQLite::Transaction view(database, SQLite::TransactionBehavior::DEFERRED);
    const std::vector<TableInfo> tables = recorded_tables(database);
    std::ofstream lines = writer.begin(std::string(kLines));
    for (const TableInfo& table : tables) {
      std::ofstream csv = writer.begin(table.name + ".csv");
      write_table(database, table, csv, lines);
      writer.finish(table.name + ".csv", csv);
    }
    writer.finish(std::string(kLines), lines);
    std::ofstream about = writer.begin(std::string(kDescription));
    about << description(logbook, tables, folder);
    writer.finish(std::string(kDescription), about);
  } catch (const SQLite::Exception& exception) {
    fail(logbook.path(), exception);
  }
  return writer.keep();
}

int read_package(const fs::path& folder, const fs::path& logbook) {
  if (!fs::is_directory(folder)) refuse(folder, "there is no folder here");
  if (fs::exists(fs::symlink_status(logbook))) {
    refuse(logbook,
           "there is a file here already; a package makes a new logbook, and 'roundbook "
           "merge' brings two together");
  }
  const int schema = schema_of(folder);
  try {
    SQLite::Database database = fresh_schema(schema);
    database.exec(fmt::format("PRAGMA application_id = {}", kApplicationId));
    const auto hashes = hashes_of(folder);
    const std::vector<TableInfo> tables = recorded_tables(database);
    const bool sealed = std::any_of(tables.begin(), tables.end(),
                                    [](const TableInfo& table) { return table.name == "seal"; });
    {
      SQLite::Transaction transaction(database);
      database.exec("PRAGMA defer_foreign_keys = ON");
      for (const TableInfo& table : tables) {
        const auto hash = hashes.find(table.name + ".csv");
        read_table(database, table, folder,
                   hash == hashes.end() ? std::nullopt : std::optional(hash->second));
      }
      try {
        transaction.commit();
      } catch (const SQLite::Exception&) {
        refuse(folder, "the package is not whole: a row refers to one that is not there");
      }
    }
    look_at_journal(database, folder);
    {
      SQLite::Transaction transaction(database);
      migrate(database);
      transaction.commit();
    }
    SQLite::Statement zone_name(database, "SELECT zone FROM site");
    const auto zone = zone_name.executeStep()
                          ? measure::Zone::named(zone_name.getColumn(0).getString())
                          : std::nullopt;
    if (!zone) refuse(folder, "the package names no time zone that this computer knows");
    zone_name.reset();
    rebuild_rolls(database, *zone);
    if (!sealed) seal_all(database);
    if (const auto broken = broken_seals(database); !broken.empty()) {
      refuse(folder, fmt::format("the package is not whole: entry #{} does not hold what it held "
                                 "when it was recorded",
                                 broken.front()));
    }
    const auto wrong = integrity(database);
    if (!wrong.empty()) refuse(folder, "the package is not whole: " + wrong.front());
    const int entries = database.execAndGet("SELECT count(*) FROM entry").getInt();
    save_as(database, logbook);
    return entries;
  } catch (const SQLite::Exception& exception) {
    fail(logbook, exception);
  }
}

}  // namespace book
