#include "book/undo.h"

#include <algorithm>
#include <array>
#include <set>
#include <utility>

#include "book/import_book.h"
#include "book/query.h"
#include "book/real_text.h"
#include "book/rolls.h"

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

constexpr std::array<Table, 12> kTables{{
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
     "amount, typed, purpose, paid_cents, sold_cents, sure, entry)"
     " SELECT ?1 ->> 'id', ?1 ->> 'uid', ?1 ->> 'at', ?1 ->> 'day', ?1 ->> 'material', "
     "?1 ->> 'from_batch', ?1 ->> 'to_batch', ?1 ->> 'dimension', "
     "?2, ?1 ->> 'typed', ?1 ->> 'purpose', "
     "?1 ->> 'paid_cents', ?1 ->> 'sold_cents', ?1 ->> 'sure', ?1 ->> 'entry' WHERE true"
     " ON CONFLICT (id) DO UPDATE SET uid = excluded.uid, at = excluded.at, "
     "day = excluded.day, material = excluded.material, from_batch = excluded.from_batch, "
     "to_batch = excluded.to_batch, dimension = excluded.dimension, "
     "amount = excluded.amount, typed = excluded.typed, purpose = excluded.purpose, "
     "paid_cents = excluded.paid_cents, sold_cents = excluded.sold_cents, "
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
    {"rule",
     {"key", "batch"},
     "value",
     "INSERT INTO rule (key, batch, value, typed, entry)"
     " SELECT ?1 ->> 'key', ?1 ->> 'batch', ?2, ?1 ->> 'typed', "
     "?1 ->> 'entry' WHERE true"
     " ON CONFLICT (key, batch) DO UPDATE SET value = excluded.value, "
     "typed = excluded.typed, entry = excluded.entry",
     "DELETE FROM rule WHERE entry = ?"},
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

// After a merge a reading of an import may stand where none of its spans is.
void remove_strays_of_import(Logbook& logbook, std::int64_t entry, ReadingDays& days) {
  {
    Query is_import(logbook, "SELECT 1 FROM import WHERE entry = ?", entry);
    if (!is_import.next()) return;
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

}  // namespace

std::optional<EntrySummary> undo_last(Logbook& logbook, Pen& pen) {
  const std::optional<EntrySummary> last = last_entry(logbook);
  if (!last) return std::nullopt;
  take_back_import(logbook, last->id);
  ReadingDays days = touched_days(logbook, last->id);
  remove_strays_of_import(logbook, last->id, days);
  restore_changed(logbook, last->id);
  for (const Sql derived : {Sql("DELETE FROM day_roll WHERE series IN (SELECT s.id FROM series AS s"
                                " JOIN batch AS b ON b.id = s.batch WHERE b.entry = ?)"),
                            Sql("DELETE FROM day_mark WHERE series IN (SELECT s.id FROM series AS s"
                                " JOIN batch AS b ON b.id = s.batch WHERE b.entry = ?)")}) {
    Query(logbook, derived, last->id).run();
  }
  for (const Table& table : kTables) {
    if (table.name == "batch") {
      // A series holds nothing of its own: it goes with its batch, and stays while the batch does,
      // since the journal speaks of readings by it.
      Query(logbook, "DELETE FROM series WHERE batch IN (SELECT id FROM batch WHERE entry = ?)",
            last->id)
          .run();
    }
    Query(logbook, table.remove, last->id).run();
    if (table.name == "reading") {
      Query(logbook, "DELETE FROM reading_typed WHERE entry = ?", last->id).run();
    }
  }
  for (const auto& [series, day] : days) roll_again(logbook, series, day);
  Query(logbook, "UPDATE entry SET undone_by = ? WHERE id = ?", pen.entry(), last->id).run();
  return last;
}

}  // namespace book
