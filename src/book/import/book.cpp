#include "book/import/book.h"

#include "book/read/query.h"
#include "book/read/rolls.h"

namespace book {

std::optional<Mapping> find_mapping(const Logbook& logbook, const std::string& name) {
  Query row(logbook, "SELECT columns FROM mapping WHERE name = ?", name);
  if (!row.next()) return std::nullopt;
  return read_mapping(row.lines(0));
}

std::vector<std::string> mapping_names(const Logbook& logbook) {
  std::vector<std::string> names;
  Query row(logbook, "SELECT name FROM mapping ORDER BY name");
  while (row.next()) names.push_back(row.text(0));
  return names;
}

void keep_mapping(Logbook& logbook, const Pen& pen, const std::string& name,
                  const Mapping& mapping) {
  const std::string text = written(mapping);
  Query(logbook,
        "INSERT INTO mapping (name, columns, entry) VALUES (?, ?, ?)"
        " ON CONFLICT (name) DO UPDATE SET columns = excluded.columns, entry = excluded.entry",
        name, Lines{text}, pen.entry())
      .run();
}

std::optional<FileProgress> progress_of(const Logbook& logbook, const std::string& path) {
  Query row(logbook, "SELECT path, mapping, read_to, lines, print FROM import_file WHERE path = ?",
            path);
  if (!row.next()) return std::nullopt;
  return FileProgress{row.text(0), row.text(1), static_cast<std::uint64_t>(row.integer(2)),
                      static_cast<std::uint64_t>(row.integer(3)), row.text(4)};
}

void keep_progress(Logbook& logbook, const Pen& pen, const FileProgress& progress) {
  Query(logbook,
        "INSERT OR REPLACE INTO import_file (path, mapping, read_to, lines, print, entry)"
        " VALUES (?, ?, ?, ?, ?, ?)",
        progress.path, progress.mapping, static_cast<std::int64_t>(progress.read_to),
        static_cast<std::int64_t>(progress.lines), progress.print, pen.entry())
      .run();
}

void keep_import(Logbook& logbook, const Pen& pen, const std::string& file,
                 const std::string& mapping, const ImportCounts& counts) {
  Query(logbook,
        "INSERT INTO import (entry, file, mapping, rows, recorded, already, refused)"
        " VALUES (?, ?, ?, ?, ?, ?, ?)",
        pen.entry(), file, mapping, static_cast<std::int64_t>(counts.rows),
        static_cast<std::int64_t>(counts.recorded), static_cast<std::int64_t>(counts.already),
        static_cast<std::int64_t>(counts.refused))
      .run();
}

namespace {

struct Span {
  std::int64_t id, series;
  measure::Instant first_at, last_at;
};

// How many it moved.
std::int64_t move_readings(Logbook& logbook, std::int64_t entry, const Span& span) {
  Query(logbook,
        "INSERT INTO taken_back_reading (span, at, value, sure, mark)"
        " SELECT ?1, at, value, sure, mark FROM reading"
        " WHERE series = ?2 AND at BETWEEN ?3 AND ?4 AND entry = ?5",
        span.id, span.series, span.first_at, span.last_at, entry)
      .run();
  const std::int64_t moved = logbook.connection().database.getChanges();
  Query(logbook, "DELETE FROM reading WHERE series = ? AND at BETWEEN ? AND ? AND entry = ?",
        span.series, span.first_at, span.last_at, entry)
      .run();
  Query(logbook, "UPDATE import_span SET series = NULL WHERE id = ?", span.id).run();
  return moved;
}

void roll_days_again(Logbook& logbook, const Span& span) {
  std::vector<measure::Day> days;
  {
    const measure::Zone& zone = logbook.site().zone;
    Query row(logbook,
              "SELECT day FROM day_roll WHERE series = ?1 AND day BETWEEN ?2 AND ?3"
              " UNION SELECT day FROM day_mark WHERE series = ?1 AND day BETWEEN ?2 AND ?3",
              span.series, zone.day_of(span.first_at), zone.day_of(span.last_at));
    while (row.next()) days.push_back(row.day(0));
  }
  for (const measure::Day day : days) roll_again(logbook, span.series, day);
}

}  // namespace

std::int64_t take_back_import(Logbook& logbook, std::int64_t entry) {
  std::int64_t moved = 0;
  std::vector<Span> spans;
  {
    Query row(logbook,
              "SELECT id, series, first_at, last_at FROM import_span"
              " WHERE entry = ? AND series IS NOT NULL",
              entry);
    while (row.next()) {
      spans.push_back({row.integer(0), row.integer(1), row.instant(2), row.instant(3)});
    }
  }
  Query(logbook, "UPDATE pen SET moving = 1").run();
  for (const Span& span : spans) {
    moved += move_readings(logbook, entry, span);
    roll_days_again(logbook, span);
  }
  Query(logbook, "UPDATE pen SET moving = 0").run();
  // The file is read from its start next time, though a later import may have gone on in it; what
  // stands already is not recorded twice.
  Query(logbook,
        "DELETE FROM import_file WHERE entry = ?1 OR (entry > ?1 AND mapping ="
        " (SELECT mapping FROM import WHERE entry = ?1))",
        entry)
      .run();
  return moved;
}

}  // namespace book
