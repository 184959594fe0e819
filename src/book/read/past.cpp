#include "book/read/past.h"

#include <charconv>

#include "book/read/query.h"
#include "book/write/amend.h"

namespace book {
namespace {

bool says_nothing(std::string_view field) {
  return field == "entry" || field == "id" || field == "uid" || field == "day" ||
         field == "started_day" || field == "ended_day" || field == "dimension" ||
         field == "series";
}

std::string label_of_id(const Logbook& logbook, const std::string& id) {
  std::int64_t number{};
  std::from_chars(id.data(), id.data() + id.size(), number);
  const auto batch = batch_of_id(logbook, number);
  return batch ? label_of(logbook, *batch) : id;
}

bool is_batch(std::string_view field) {
  return field == "batch" || field == "from_batch" || field == "to_batch";
}

void read_series_of(const Logbook& logbook, const std::string& json, Change& into) {
  Query row(logbook,
            "SELECT b.code, b.run, quantity, position FROM series AS s"
            " JOIN batch AS b ON b.id = s.batch WHERE s.id = ? ->> 'series'",
            json);
  if (!row.next()) return;
  model::Batch batch;
  batch.code = row.text(0);
  batch.run = static_cast<int>(row.integer(1));
  into.batch = label_of(logbook, batch);
  into.quantity = row.text(2);
  into.position = row.text(3);
}

Change change_of(const Logbook& logbook, const std::string& table, const std::string& before,
                 const std::optional<std::string>& after) {
  Change change;
  change.table = table;
  change.taken_away = !after;
  if (table == "reading") read_series_of(logbook, after.value_or(before), change);
  Query row(logbook,
            "SELECT key, atom, (SELECT atom FROM json_each(?2) AS a WHERE a.key = b.key)"
            " FROM json_each(?1) AS b",
            before, after);
  while (row.next()) {
    Change::Field field{row.text(0), row.null(1) ? "" : row.text(1),
                        row.null(2) ? "" : row.text(2)};
    if (field.name == "batch" && table != "rule" && change.batch.empty()) {
      change.batch = label_of_id(logbook, after ? field.after : field.before);
    }
    if (table == "batch" && field.name == "code") change.batch = after ? field.after : field.before;
    if (says_nothing(field.name) || (after && field.before == field.after)) continue;
    if (is_batch(field.name)) {
      field.before = label_of_id(logbook, field.before);
      field.after = label_of_id(logbook, field.after);
    }
    change.fields.push_back(std::move(field));
  }
  if (table == "movement") {
    Query moved(logbook,
                "SELECT ?1 ->> 'material', coalesce(?1 ->> 'to_batch', ?1 ->> 'from_batch')",
                after.value_or(before));
    if (moved.next()) {
      change.material = moved.text(0);
      change.batch = label_of_id(logbook, moved.text(1));
    }
  }
  // A reading that went to another batch or position says so by its series.
  if (table == "reading" && after) {
    Change was;
    read_series_of(logbook, before, was);
    if (was.batch != change.batch) change.fields.push_back({"batch", was.batch, change.batch});
    if (was.position != change.position) {
      change.fields.push_back({"position", was.position, change.position});
    }
  }
  return change;
}

}  // namespace

std::vector<PastEntry> past(const Logbook& logbook, const PastAsked& asked, std::size_t most) {
  const auto id = asked.batch ? std::optional(asked.batch->id) : std::nullopt;
  const measure::Zone& zone = logbook.site().zone;
  const auto begin = asked.from ? std::optional(zone.start_of(*asked.from)) : std::nullopt;
  const auto end =
      asked.to ? std::optional(zone.start_of(*asked.to + date::days{1})) : std::nullopt;
  std::vector<PastEntry> entries;
  {
    Query row(logbook,
              "WITH dated (entry, day) AS (SELECT entry, day FROM deed"
              " UNION ALL SELECT entry, day FROM note UNION ALL SELECT entry, day FROM movement"
              // A reading has an instant: whether it is one of these days is all that is asked.
              " UNION ALL SELECT entry, iif(at >= ?6 AND at < ?7, ?4, ?4 - 1) FROM reading_typed"
              " UNION ALL SELECT entry, coalesce(ended_day, started_day) FROM batch"
              " UNION ALL SELECT before ->> 'entry', before ->> 'started_day' FROM journal"
              " WHERE table_name = 'batch' AND before ->> 'ended_day' IS NULL)"
              " SELECT id, recorded_at, who, command, line, uid, undone_by FROM entry"
              " WHERE (?3 IS NULL OR who = ?3) AND (?1 IS NULL OR id IN ("
              " SELECT entry FROM batch WHERE id = ?1"
              " UNION SELECT entry FROM setting WHERE batch = ?1"
              // Not by the readings themselves: a logger's are millions.
              " UNION SELECT t.entry FROM reading_typed AS t JOIN series AS s ON s.id = t.series"
              " WHERE s.batch = ?1"
              " UNION SELECT i.entry FROM import_span AS i JOIN series AS s ON s.id = i.series"
              " WHERE s.batch = ?1"
              " UNION SELECT entry FROM deed WHERE batch = ?1"
              " UNION SELECT entry FROM note WHERE batch = ?1"
              " UNION SELECT entry FROM movement WHERE from_batch = ?1 OR to_batch = ?1"
              " UNION SELECT entry FROM rule WHERE batch = ?1"
              " UNION SELECT entry FROM put_off WHERE batch = ?1"
              " UNION SELECT e.value FROM journal AS j,"
              " json_each(json_array(j.entry, before ->> 'entry', after ->> 'entry')) AS e"
              " WHERE (table_name = 'batch' AND ?1 IN (before ->> 'id', after ->> 'id'))"
              " OR ?1 IN (before ->> 'batch', after ->> 'batch', before ->> 'from_batch',"
              " before ->> 'to_batch', after ->> 'from_batch', after ->> 'to_batch')"
              " OR (table_name = 'reading' AND EXISTS (SELECT 1 FROM series WHERE batch = ?1"
              " AND id IN (before ->> 'series', after ->> 'series')))))"
              // What happened then, or else was recorded then.
              " AND (?4 IS NULL OR id IN (SELECT entry FROM dated WHERE day BETWEEN ?4 AND ?5)"
              " OR (recorded_at >= ?6 AND recorded_at < ?7"
              " AND id NOT IN (SELECT entry FROM dated)))"
              " ORDER BY id DESC LIMIT ?2",
              id, static_cast<std::int64_t>(most), asked.who, asked.from, asked.to, begin, end);
    while (row.next()) {
      entries.push_back({{row.integer(0), row.instant(1), row.text(2), row.text(3), row.text(4)},
                         row.text(5),
                         row.maybe_integer(6)});
    }
  }
  for (PastEntry& entry : entries) {
    {
      Query photo(logbook, "SELECT name FROM photo WHERE entry = ? ORDER BY id", entry.entry.id);
      while (photo.next()) entry.photos.push_back(photo.text(0));
    }
    if (entry.entry.command == "undo") continue;
    struct Version {
      std::string table, before;
      std::optional<std::string> after;
    };
    std::vector<Version> rows;
    {
      Query row(logbook,
                "SELECT table_name, before, after FROM journal WHERE entry = ? ORDER BY id",
                entry.entry.id);
      while (row.next()) {
        rows.push_back(
            {row.text(0), row.text(1), row.null(2) ? std::nullopt : std::optional(row.text(2))});
      }
    }
    for (const Version& row : rows) {
      Change change = change_of(logbook, row.table, row.before, row.after);
      if (!change.fields.empty()) entry.changes.push_back(std::move(change));
    }
  }
  return entries;
}

}  // namespace book
