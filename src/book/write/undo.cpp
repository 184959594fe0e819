#include "book/write/undo.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <utility>

#include "book/file/real_text.h"
#include "book/import/book.h"
#include "book/read/query.h"
#include "book/read/rolls.h"

namespace book {
namespace {

// How a table's rows are taken back: `restore` writes a row as the journal has it (JSON, ?1, and
// the one real number of it, ?2), `remove` deletes the rows that an entry added. In an order in
// which no row is removed before those that refer to it.
struct Table {
  std::string_view name;
  std::array<const char*, 2> key;  // the columns that tell its rows apart
  const char* real;                // its column with a real number; null: it has none
  Sql restore;
  Sql remove;
};

constexpr std::array<Table, 15> kTables{{
    {"reading",
     {"series", "at"},
     "value",
     "INSERT INTO reading (series, at, value, entry, sure, mark)"
     " SELECT ?1 ->> 'series', ?1 ->> 'at', ?2, ?1 ->> 'entry', "
     "?1 ->> 'sure', ?1 ->> 'mark' WHERE true"
     " ON CONFLICT (series, at) DO UPDATE SET value = excluded.value, "
     "entry = excluded.entry, sure = excluded.sure, mark = excluded.mark",
     "DELETE FROM reading WHERE entry = ?1"
     " AND (series, at) IN (SELECT series, at FROM reading_typed WHERE entry = ?1)"},
    {"deed",
     {"id", "id"},
     nullptr,
     "INSERT INTO deed (id, uid, batch, at, day, sense, word, entry)"
     " SELECT ?1 ->> 'id', ?1 ->> 'uid', ?1 ->> 'batch', ?1 ->> 'at', ?1 ->> 'day', "
     "?1 ->> 'sense', ?1 ->> 'word', ?1 ->> 'entry' WHERE true"
     " ON CONFLICT (id) DO UPDATE SET uid = excluded.uid, batch = excluded.batch, "
     "at = excluded.at, day = excluded.day, sense = excluded.sense, word = excluded.word, "
     "entry = excluded.entry",
     "DELETE FROM deed WHERE entry = ?"},
    {"note",
     {"id", "id"},
     nullptr,
     "INSERT INTO note (id, uid, batch, at, day, text, entry)"
     " SELECT ?1 ->> 'id', ?1 ->> 'uid', ?1 ->> 'batch', ?1 ->> 'at', ?1 ->> 'day', "
     "?1 ->> 'text', ?1 ->> 'entry' WHERE true"
     " ON CONFLICT (id) DO UPDATE SET uid = excluded.uid, batch = excluded.batch, "
     "at = excluded.at, day = excluded.day, text = excluded.text, entry = excluded.entry",
     "DELETE FROM note WHERE entry = ?"},
    {"movement",
     {"id", "id"},
     "amount",
     "INSERT INTO movement (id, uid, at, day, material, from_batch, to_batch, dimension, "
     "amount, typed, purpose, paid_cents, sold_cents, supplier, lot, buyer, sure, entry)"
     " SELECT ?1 ->> 'id', ?1 ->> 'uid', ?1 ->> 'at', ?1 ->> 'day', ?1 ->> 'material', "
     "?1 ->> 'from_batch', ?1 ->> 'to_batch', ?1 ->> 'dimension', "
     "?2, ?1 ->> 'typed', ?1 ->> 'purpose', "
     // What was journalled before schema 9 has no supplier, lot or buyer.
     "?1 ->> 'paid_cents', ?1 ->> 'sold_cents', ?1 ->> 'supplier', ?1 ->> 'lot', "
     "?1 ->> 'buyer', ?1 ->> 'sure', ?1 ->> 'entry' WHERE true"
     " ON CONFLICT (id) DO UPDATE SET uid = excluded.uid, at = excluded.at, "
     "day = excluded.day, material = excluded.material, from_batch = excluded.from_batch, "
     "to_batch = excluded.to_batch, dimension = excluded.dimension, "
     "amount = excluded.amount, typed = excluded.typed, purpose = excluded.purpose, "
     "paid_cents = excluded.paid_cents, sold_cents = excluded.sold_cents, "
     "supplier = excluded.supplier, lot = excluded.lot, buyer = excluded.buyer, "
     "sure = excluded.sure, entry = excluded.entry",
     "DELETE FROM movement WHERE entry = ?"},
    {"setting",
     {"batch", "key"},
     "value",
     "INSERT INTO setting (batch, key, typed, value, dimension, entry)"
     " SELECT ?1 ->> 'batch', ?1 ->> 'key', ?1 ->> 'typed', ?2, "
     "?1 ->> 'dimension', ?1 ->> 'entry' WHERE true"
     " ON CONFLICT (batch, key) DO UPDATE SET typed = excluded.typed, "
     "value = excluded.value, dimension = excluded.dimension, entry = excluded.entry",
     "DELETE FROM setting WHERE entry = ?"},
    {"figure",
     {"material", "property"},
     "value",
     "INSERT INTO figure (material, property, value, source, entry)"
     " SELECT ?1 ->> 'material', ?1 ->> 'property', ?2, "
     "?1 ->> 'source', ?1 ->> 'entry' WHERE true"
     " ON CONFLICT (material, property) DO UPDATE SET value = excluded.value, "
     "source = excluded.source, entry = excluded.entry",
     "DELETE FROM figure WHERE entry = ?"},
    {"material",
     {"name", "name"},
     nullptr,
     // What was journalled before schema 4 has no statement.
     "INSERT INTO material (name, material_group, aliases, flags, statement, entry)"
     " SELECT ?1 ->> 'name', ?1 ->> 'material_group', ?1 ->> 'aliases', ?1 ->> 'flags', "
     "coalesce(?1 ->> 'statement', ''), ?1 ->> 'entry' WHERE true"
     " ON CONFLICT (name) DO UPDATE SET material_group = excluded.material_group, "
     "aliases = excluded.aliases, flags = excluded.flags, statement = excluded.statement, "
     "entry = excluded.entry",
     "DELETE FROM material WHERE entry = ?"},
    {"container",
     {"name", "name"},
     "litres",
     "INSERT INTO container (name, litres, typed, entry)"
     " SELECT ?1 ->> 'name', ?2, ?1 ->> 'typed', ?1 ->> 'entry' WHERE true"
     " ON CONFLICT (name) DO UPDATE SET litres = excluded.litres, typed = excluded.typed, "
     "entry = excluded.entry",
     "DELETE FROM container WHERE entry = ?"},
    {"tool",
     {"name", "checked_day"},
     nullptr,
     "INSERT INTO tool (name, checked_day, against, entry)"
     " SELECT ?1 ->> 'name', ?1 ->> 'checked_day', ?1 ->> 'against', ?1 ->> 'entry' WHERE true"
     " ON CONFLICT (name, checked_day) DO UPDATE SET against = excluded.against, "
     "entry = excluded.entry",
     "DELETE FROM tool WHERE entry = ?"},
    {"rule",
     {"key", "batch"},
     "value",
     "INSERT INTO rule (key, batch, value, typed, entry)"
     " SELECT ?1 ->> 'key', ?1 ->> 'batch', ?2, ?1 ->> 'typed', "
     "?1 ->> 'entry' WHERE true"
     " ON CONFLICT (key, batch) DO UPDATE SET value = excluded.value, "
     "typed = excluded.typed, entry = excluded.entry",
     "DELETE FROM rule WHERE entry = ?"},
    {"put_off",
     {"batch", "rule"},
     nullptr,
     "INSERT INTO put_off (batch, rule, until, entry)"
     " SELECT ?1 ->> 'batch', ?1 ->> 'rule', ?1 ->> 'until', ?1 ->> 'entry' WHERE true"
     " ON CONFLICT (batch, rule) DO UPDATE SET until = excluded.until, entry = excluded.entry",
     "DELETE FROM put_off WHERE entry = ?"},
    {"photo",
     {"id", "id"},
     nullptr,
     "INSERT INTO photo (id, uid, name, sha256, kept, entry)"
     " SELECT ?1 ->> 'id', ?1 ->> 'uid', ?1 ->> 'name', ?1 ->> 'sha256', ?1 ->> 'kept', "
     "?1 ->> 'entry' WHERE true"
     " ON CONFLICT (id) DO UPDATE SET uid = excluded.uid, name = excluded.name, "
     "sha256 = excluded.sha256, kept = excluded.kept, entry = excluded.entry",
     "DELETE FROM photo WHERE entry = ?"},
    {"mapping",
     {"name", "name"},
     nullptr,
     "INSERT INTO mapping (name, columns, entry)"
     " SELECT ?1 ->> 'name', ?1 ->> 'columns', ?1 ->> 'entry' WHERE true"
     " ON CONFLICT (name) DO UPDATE SET columns = excluded.columns, entry = excluded.entry",
     "DELETE FROM mapping WHERE entry = ?"},
    {"batch",
     {"id", "id"},
     nullptr,
     "INSERT INTO batch (id, uid, code, run, kind, place, started_at, started_day, "
     "ended_at, ended_day, because, entry)"
     " SELECT ?1 ->> 'id', ?1 ->> 'uid', ?1 ->> 'code', ?1 ->> 'run', ?1 ->> 'kind', "
     "?1 ->> 'place', ?1 ->> 'started_at', ?1 ->> 'started_day', ?1 ->> 'ended_at', "
     "?1 ->> 'ended_day', ?1 ->> 'because', ?1 ->> 'entry' WHERE true"
     " ON CONFLICT (id) DO UPDATE SET uid = excluded.uid, code = excluded.code, "
     "run = excluded.run, kind = excluded.kind, place = excluded.place, "
     "started_at = excluded.started_at, started_day = excluded.started_day, "
     "ended_at = excluded.ended_at, ended_day = excluded.ended_day, "
     "because = excluded.because, entry = excluded.entry",
     "DELETE FROM batch WHERE entry = ?"},
    {"place",
     {"id", "id"},
     nullptr,
     "INSERT INTO place (id, uid, name, position, entry) SELECT ?1 ->> 'id', ?1 ->> 'uid', ?1 "
     "->> 'name', ?1 ->> 'position', ?1 ->> 'entry' WHERE true ON CONFLICT (id) DO UPDATE SET "
     "uid = excluded.uid, name = excluded.name, position = excluded.position, entry = "
     "excluded.entry",
     "DELETE FROM place WHERE entry = ?"},
}};

using ReadingDays = std::set<std::pair<std::int64_t, measure::Day>>;

// The days of readings that the entry added, changed or took back.
ReadingDays touched_days(const Logbook& logbook, std::int64_t entry) {
  ReadingDays days;
  Query row(logbook,
            "SELECT series, at FROM reading_typed WHERE entry = ?1 UNION"
            " SELECT before ->> 'series', before ->> 'at' FROM journal"
            " WHERE entry = ?1 AND table_name = 'reading'",
            entry);
  while (row.next()) days.emplace(row.integer(0), logbook.site().zone.day_of(row.instant(1)));
  return days;
}

// After a merge a reading of an import may stand where none of its spans is. All readings are
// looked through only where fewer were in its spans than it recorded.
void remove_strays_of_import(Logbook& logbook, std::int64_t entry, std::int64_t in_spans,
                             ReadingDays& days) {
  {
    Query short_of(logbook, "SELECT 1 FROM import WHERE entry = ? AND recorded > ?", entry,
                   in_spans);
    if (!short_of.next()) return;
  }
  Query gone(logbook, "DELETE FROM reading WHERE entry = ? RETURNING series, at", entry);
  while (gone.next()) days.emplace(gone.integer(0), logbook.site().zone.day_of(gone.instant(1)));
}

// The one real number of a journalled row, to the last bit.
std::optional<double> real_of(const Logbook& logbook, const std::string& json, const char* column) {
  Query row(logbook, "SELECT ?1 -> ?2, ?1 ->> ?2", json, column);
  row.next();
  const auto read = row.maybe_real(1);
  return read ? std::optional(exact_real(row.text(0), *read)) : std::nullopt;
}

// What the row was before an entry that was itself taken back: after a merge, the row that the
// journal has may be of an entry that the other copy took back. None: then the row was not.
std::optional<std::string> holding(const Logbook& logbook, const Table& table, std::string row) {
  for (;;) {
    Query entry(logbook, "SELECT id FROM entry WHERE id = ? ->> 'entry' AND undone_by IS NOT NULL",
                row);
    if (!entry.next()) return row;
    Query before(logbook,
                 "SELECT before FROM journal WHERE entry = ?1 AND table_name = ?2"
                 " AND after ->> ?3 = ?5 ->> ?3 AND after ->> ?4 = ?5 ->> ?4 ORDER BY id LIMIT 1",
                 entry.integer(0), table.name, table.key[0], table.key[1], row);
    if (!before.next()) return std::nullopt;
    row = before.text(0);
  }
}

void restore(Logbook& logbook, const Table& table, const std::string& json) {
  const auto row = holding(logbook, table, json);
  if (!row) return;
  if (table.real != nullptr) {
    Query(logbook, table.restore, *row, real_of(logbook, *row, table.real)).run();
  } else {
    Query(logbook, table.restore, *row).run();
  }
  if (table.name != "reading") return;
  Query(logbook,
        "INSERT OR IGNORE INTO reading_typed (entry, series, at)"
        " SELECT ?1 ->> 'entry', ?1 ->> 'series', ?1 ->> 'at'"
        " WHERE ?1 ->> 'entry' NOT IN (SELECT entry FROM import)",
        *row)
      .run();
}

void restore_changed(Logbook& logbook, std::int64_t entry) {
  std::vector<std::pair<std::string, std::string>> rows;
  {
    Query row(logbook, "SELECT table_name, before FROM journal WHERE entry = ? ORDER BY id DESC",
              entry);
    while (row.next()) rows.emplace_back(row.text(0), row.text(1));
  }
  for (const auto& [name, before] : rows) {
    const auto table = std::find_if(kTables.begin(), kTables.end(),
                                    [&](const Table& one) { return one.name == name; });
    if (table != kTables.end()) restore(logbook, *table, before);
  }
}

void take_back(Logbook& logbook, const Pen& pen, std::int64_t entry) {
  const std::int64_t in_spans = take_back_import(logbook, entry);
  ReadingDays days = touched_days(logbook, entry);
  remove_strays_of_import(logbook, entry, in_spans, days);
  restore_changed(logbook, entry);
  for (const Sql derived : {Sql("DELETE FROM day_roll WHERE series IN (SELECT s.id FROM series AS s"
                                " JOIN batch AS b ON b.id = s.batch WHERE b.entry = ?)"),
                            Sql("DELETE FROM day_mark WHERE series IN (SELECT s.id FROM series AS s"
                                " JOIN batch AS b ON b.id = s.batch WHERE b.entry = ?)")}) {
    Query(logbook, derived, entry).run();
  }
  for (const Table& table : kTables) {
    if (table.name == "batch") {
      // A series holds nothing of its own: it goes with its batch, and stays while the batch does,
      // since the journal speaks of readings by it.
      Query(logbook, "DELETE FROM series WHERE batch IN (SELECT id FROM batch WHERE entry = ?)",
            entry)
          .run();
    }
    Query(logbook, table.remove, entry).run();
    if (table.name == "reading") {
      Query(logbook, "DELETE FROM reading_typed WHERE entry = ?", entry).run();
    }
  }
  for (const auto& [series, day] : days) roll_again(logbook, series, day);
  Query(logbook, "UPDATE entry SET undone_by = ? WHERE id = ?", pen.entry(), entry).run();
}

// The later entries that hold and rest on what the entry wrote, the latest first.
std::vector<EntrySummary> resting_on(const Logbook& logbook, std::int64_t entry) {
  std::vector<EntrySummary> later;
  Query row(
      logbook,
      // What it brought in: rows of its own that were not before.
      "WITH begun (id) AS (SELECT id FROM batch WHERE entry = ?1 EXCEPT SELECT before ->> 'id'"
      " FROM journal WHERE entry = ?1 AND table_name = 'batch'),"
      " placed (id) AS (SELECT id FROM place WHERE entry = ?1 EXCEPT SELECT before ->> 'id'"
      " FROM journal WHERE entry = ?1 AND table_name = 'place'),"
      " named (name) AS (SELECT name FROM material WHERE entry = ?1 EXCEPT"
      " SELECT before ->> 'name' FROM journal WHERE entry = ?1 AND table_name = 'material')"
      " SELECT id, recorded_at, who, command, line FROM entry"
      " WHERE undone_by IS NULL AND id > ?1 AND command <> 'undo' AND id IN ("
      // What it wrote was changed or taken away.
      " SELECT entry FROM journal WHERE before ->> 'entry' = ?1"
      // Where it took something away, there is something else.
      " UNION SELECT r.entry FROM journal AS j JOIN reading AS r"
      " ON r.series = before ->> 'series' AND r.at = before ->> 'at'"
      " WHERE j.entry = ?1 AND table_name = 'reading'"
      " UNION SELECT r.entry FROM journal AS j JOIN rule AS r"
      " ON r.key = before ->> 'key' AND r.batch = before ->> 'batch'"
      " WHERE j.entry = ?1 AND table_name = 'rule'"
      " UNION SELECT p.entry FROM journal AS j JOIN put_off AS p"
      " ON p.batch = before ->> 'batch' AND p.rule = before ->> 'rule'"
      " WHERE j.entry = ?1 AND table_name = 'put_off'"
      // The batch that it ended was followed by another of that code.
      " UNION SELECT b.entry FROM journal AS j JOIN batch AS b"
      " ON b.code = before ->> 'code' AND b.run > before ->> 'run'"
      " WHERE j.entry = ?1 AND table_name = 'batch' AND before ->> 'ended_at' IS NULL"
      " AND after ->> 'ended_at' IS NOT NULL"
      // Others speak of what it brought in.
      " UNION SELECT t.entry FROM begun AS b JOIN series AS s ON s.batch = b.id"
      " JOIN reading_typed AS t ON t.series = s.id"
      " UNION SELECT i.entry FROM begun AS b JOIN series AS s ON s.batch = b.id"
      " JOIN import_span AS i ON i.series = s.id"
      " UNION SELECT d.entry FROM begun AS b JOIN deed AS d ON d.batch = b.id"
      " UNION SELECT n.entry FROM begun AS b JOIN note AS n ON n.batch = b.id"
      " UNION SELECT m.entry FROM begun AS b JOIN movement AS m ON m.from_batch = b.id"
      " UNION SELECT m.entry FROM begun AS b JOIN movement AS m ON m.to_batch = b.id"
      " UNION SELECT s.entry FROM begun AS b JOIN setting AS s ON s.batch = b.id"
      " UNION SELECT r.entry FROM begun AS b JOIN rule AS r ON r.batch = b.id"
      " UNION SELECT p.entry FROM begun AS b JOIN put_off AS p ON p.batch = b.id"
      " UNION SELECT b.entry FROM placed AS p JOIN batch AS b ON b.place = p.id"
      " UNION SELECT m.entry FROM named AS n JOIN movement AS m ON m.material = n.name"
      " UNION SELECT f.entry FROM named AS n JOIN figure AS f ON f.material = n.name"
      // It read rows of the same file that stood already.
      " UNION SELECT l.entry FROM import AS i JOIN import AS l ON l.already > 0"
      " AND (l.file = i.file OR (l.mapping = i.mapping AND i.mapping <> ''))"
      " WHERE i.entry = ?1) ORDER BY id DESC",
      entry);
  while (row.next()) {
    later.push_back({row.integer(0), row.instant(1), row.text(2), row.text(3), row.text(4)});
  }
  return later;
}

// What does not fit the lives of the batches, by batch and sort. A merge may have left some.
using Misfits = std::map<std::pair<std::int64_t, int>, std::string>;

Misfits misfits(const Logbook& logbook) {
  Misfits found;
  for (const model::Batch& batch : all_batches(logbook)) {
    const auto first = first_of(logbook, batch);
    const auto latest = latest_of(logbook, batch);
    const auto add = [&](int sort, std::string_view what) {
      found.emplace(std::pair(batch.id, sort), label_of(logbook, batch) + std::string(what));
    };
    if (first && *first < batch.started) add(0, " would have entries from before its start");
    if (latest && batch.ended && *latest > *batch.ended) {
      add(1, " would have entries from after its end");
    }
    if (overlapping(logbook, batch)) add(2, " would be open twice at one time");
  }
  return found;
}

// Why no entry of that number is to be taken back; none: it is.
std::optional<measure::Mistake> not_to_undo(const Logbook& logbook, std::int64_t entry) {
  Query row(logbook, "SELECT command, undone_by FROM entry WHERE id = ?", entry);
  const std::string word = std::to_string(entry);
  if (!row.next()) {
    return measure::Mistake{
        word, fmt::format("there is no entry {}; 'roundbook history' shows them", entry)};
  }
  if (!row.null(1)) {
    return measure::Mistake{
        word, fmt::format("entry {} was taken back already, by entry {}", entry, row.integer(1))};
  }
  const std::string command = row.text(0);
  if (command == "undo") {
    return measure::Mistake{
        word, fmt::format("entry {} took something back; record that anew instead", entry)};
  }
  if (command == "check" || command == "merge") {
    return measure::Mistake{word,
                            fmt::format("entry {} was made by {}, not typed", entry, command)};
  }
  return std::nullopt;
}

}  // namespace

std::optional<EntrySummary> undo_last(Logbook& logbook, Pen& pen) {
  const std::optional<EntrySummary> last = last_entry(logbook);
  if (last) take_back(logbook, pen, last->id);
  return last;
}

measure::Result<EntrySummary> undo_one(Logbook& logbook, Pen& pen, std::int64_t entry) {
  if (const auto why = not_to_undo(logbook, entry)) return *why;
  const std::string word = std::to_string(entry);
  if (const auto later = resting_on(logbook, entry); !later.empty()) {
    const std::string which = later.size() == 1
                                  ? fmt::format("entry {} ('{}') rests", later[0].id, later[0].line)
                                  : fmt::format("{} later entries rest", later.size());
    return measure::Mistake{
        word, fmt::format("{} on entry {}; 'roundbook undo {}' first", which, entry, later[0].id)};
  }
  const Misfits before = misfits(logbook);
  take_back(logbook, pen, entry);
  for (const auto& [key, what] : misfits(logbook)) {
    if (before.contains(key)) continue;
    return measure::Mistake{
        word, fmt::format("without entry {} {}; take back or correct what came later first", entry,
                          what)};
  }
  Query row(logbook, "SELECT id, recorded_at, who, command, line FROM entry WHERE id = ?", entry);
  row.next();
  return EntrySummary{row.integer(0), row.instant(1), row.text(2), row.text(3), row.text(4)};
}

}  // namespace book
