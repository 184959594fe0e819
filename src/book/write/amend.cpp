#include "book/write/amend.h"

#include "book/read/query.h"
#include "book/read/rolls.h"

namespace book {
namespace {

// The entry itself and the amendments of it that hold: what it recorded stands under one of these.
std::vector<std::int64_t> line_of(const Logbook& logbook, std::int64_t entry) {
  std::vector<std::int64_t> line;
  Query row(logbook,
            "WITH RECURSIVE line (entry) AS (VALUES (?1) UNION"
            " SELECT j.entry FROM line JOIN journal AS j ON j.before ->> 'entry' = line.entry"
            " JOIN entry AS e ON e.id = j.entry"
            " WHERE j.after IS NOT NULL AND e.command = 'amend' AND e.undone_by IS NULL)"
            " SELECT entry FROM line ORDER BY entry",
            entry);
  while (row.next()) line.push_back(row.integer(0));
  return line;
}

void add_rows(const Logbook& logbook, std::int64_t entry, Written& into) {
  Query reading(logbook,
                "SELECT r.series, s.batch, s.quantity, s.position, r.at, r.value, r.sure"
                " FROM reading_typed AS t JOIN reading AS r ON r.series = t.series AND r.at = t.at"
                " JOIN series AS s ON s.id = r.series WHERE t.entry = ? ORDER BY r.series, r.at",
                entry);
  while (reading.next()) {
    into.readings.push_back({entry, reading.integer(0), reading.integer(1), reading.text(2),
                             reading.text(3), reading.instant(4), reading.real(5),
                             reading.integer(6) != 0});
  }
  Query word(logbook, "SELECT id, batch, at, sense, word FROM deed WHERE entry = ? ORDER BY id",
             entry);
  while (word.next()) {
    into.words.push_back(
        {word.integer(0), word.integer(1), word.instant(2), word.text(3), word.text(4)});
  }
  Query note(logbook, "SELECT id, batch, at, text FROM note WHERE entry = ? ORDER BY id", entry);
  while (note.next()) {
    into.notes.push_back({note.integer(0), note.integer(1), note.instant(2), note.text(3)});
  }
  Query row(logbook,
            "SELECT id, at, material, from_batch, to_batch, dimension, amount, typed, purpose,"
            " paid_cents, sold_cents, sure, supplier, lot, buyer FROM movement WHERE entry = ? "
            "ORDER BY id",
            entry);
  while (row.next()) {
    NewMovement what;
    what.at = row.instant(1);
    what.material = row.text(2);
    what.from = row.maybe_integer(3);
    what.to = row.maybe_integer(4);
    what.amount = {measure::find_dimension(row.text(5)).value_or(measure::Dimension::kNumber),
                   row.real(6)};
    what.typed = row.text(7);
    if (!row.null(8)) what.purpose = row.text(8);
    what.paid_cents = row.maybe_integer(9);
    what.sold_cents = row.maybe_integer(10);
    what.sure = row.integer(11) != 0;
    const auto maybe_text = [&](int column) {
      return row.null(column) ? std::nullopt : std::optional(row.text(column));
    };
    what.supplier = maybe_text(12);
    what.lot = maybe_text(13);
    what.buyer = maybe_text(14);
    into.movements.push_back({row.integer(0), what});
  }
}

// The batch whose row the entry wrote, though a later entry may have written it since.
std::optional<std::int64_t> batch_written_by(const Logbook& logbook, std::int64_t entry) {
  Query row(logbook,
            "SELECT id FROM batch WHERE entry = ?1 UNION"
            " SELECT b.id FROM journal AS j JOIN batch AS b ON b.id = j.before ->> 'id'"
            " WHERE table_name = 'batch' AND before ->> 'entry' = ?1",
            entry);
  return row.next() ? std::optional(row.integer(0)) : std::nullopt;
}

// The command of the entry at the beginning of a chain of corrections.
std::string first_command(const Logbook& logbook, std::int64_t entry) {
  Query row(logbook,
            "WITH RECURSIVE chain (entry) AS (VALUES (?1) UNION"
            " SELECT j.before ->> 'entry' FROM chain JOIN entry AS e ON e.id = chain.entry"
            " JOIN journal AS j ON j.entry = chain.entry"
            " WHERE e.command = 'amend' AND j.after IS NOT NULL)"
            " SELECT command FROM chain JOIN entry ON id = entry"
            " ORDER BY command = 'amend', id LIMIT 1",
            entry);
  return row.next() ? row.text(0) : "";
}

// The batch of which a correction moved that moment: its column, started_at or ended_at.
std::optional<std::int64_t> batch_moved_by(const Logbook& logbook, std::int64_t entry,
                                           std::string_view moment) {
  Query row(logbook,
            "SELECT b.id FROM journal AS j JOIN batch AS b ON b.id = j.after ->> 'id'"
            " WHERE j.entry = ?1 AND table_name = 'batch' AND before ->> ?2 <> after ->> ?2",
            entry, moment);
  return row.next() ? std::optional(row.integer(0)) : std::nullopt;
}

}  // namespace

std::optional<Written> written_by(const Logbook& logbook, std::int64_t entry) {
  Written written;
  {
    Query row(logbook,
              "SELECT id, recorded_at, who, command, line, undone_by FROM entry WHERE id = ?",
              entry);
    if (!row.next()) return std::nullopt;
    written.entry = {row.integer(0), row.instant(1), row.text(2), row.text(3), row.text(4)};
    written.undone_by = row.maybe_integer(5);
  }
  const bool corrects = written.entry.command == "amend";
  written.command = corrects ? first_command(logbook, entry) : written.entry.command;
  for (const std::int64_t one : line_of(logbook, entry)) add_rows(logbook, one, written);
  if (written.entry.command == "start") written.started = batch_written_by(logbook, entry);
  if (written.entry.command == "end") written.ended = batch_written_by(logbook, entry);
  if (corrects) {
    written.started = batch_moved_by(logbook, entry, "started_at");
    written.ended = batch_moved_by(logbook, entry, "ended_at");
  }
  return written;
}

std::optional<model::Batch> batch_of_id(const Logbook& logbook, std::int64_t id) {
  for (model::Batch& batch : all_batches(logbook)) {
    if (batch.id == id) return std::move(batch);
  }
  return std::nullopt;
}

std::optional<Pen::Standing> amend(Logbook& logbook, Pen& pen, const Written::Reading& was,
                                   const NewReading& is) {
  const std::int64_t series = pen.series(is.batch, is.quantity, is.position);
  if (series != was.series || is.at != was.at) {
    Query standing(logbook, "SELECT value FROM reading WHERE series = ? AND at = ?", series, is.at);
    if (standing.next()) {
      return Pen::Standing{standing.real(0), standing.real(0) == is.value};
    }
  }
  Query(logbook,
        // What a person corrected is no longer marked as a probe's slip.
        "UPDATE reading SET series = ?1, at = ?2, mark = iif(value = ?3, mark, NULL), value = ?3,"
        " sure = ?4, entry = ?5 WHERE series = ?6 AND at = ?7",
        series, is.at, is.value, is.sure ? 1 : 0, pen.entry(), was.series, was.at)
      .run();
  forget_typed(logbook, was.entry, was.series, was.at);
  note_typed(logbook, pen.entry(), series, is.at);
  const measure::Zone& zone = logbook.site().zone;
  roll_again(logbook, was.series, zone.day_of(was.at));
  roll_again(logbook, series, zone.day_of(is.at));
  return std::nullopt;
}

void amend(Logbook& logbook, Pen& pen, const Written::Word& is) {
  Query(logbook,
        "UPDATE deed SET batch = ?, at = ?, day = ?, sense = ?, word = ?, entry = ? WHERE id = ?",
        is.batch, is.at, logbook.site().zone.day_of(is.at), is.sense, is.word, pen.entry(), is.id)
      .run();
}

void amend(Logbook& logbook, Pen& pen, const Written::Note& is) {
  Query(logbook, "UPDATE note SET batch = ?, at = ?, day = ?, text = ?, entry = ? WHERE id = ?",
        is.batch, is.at, logbook.site().zone.day_of(is.at), is.text, pen.entry(), is.id)
      .run();
}

void amend(Logbook& logbook, Pen& pen, const Written::Movement& is) {
  const NewMovement& what = is.what;
  Query(logbook,
        "UPDATE movement SET at = ?, day = ?, material = ?, from_batch = ?, to_batch = ?,"
        " dimension = ?, amount = ?, typed = ?, purpose = ?, paid_cents = ?, sold_cents = ?,"
        " supplier = ?, lot = ?, buyer = ?, sure = ?, entry = ? WHERE id = ?",
        what.at, logbook.site().zone.day_of(what.at), what.material, what.from, what.to,
        measure::key(what.amount.dimension), what.amount.si, what.typed, what.purpose,
        what.paid_cents, what.sold_cents, what.supplier, what.lot, what.buyer, what.sure ? 1 : 0,
        pen.entry(), is.id)
      .run();
}

void amend_setting(Logbook& logbook, Pen& pen, std::int64_t batch, const model::Setting& setting) {
  std::optional<double> value;
  std::optional<std::string> dimension;
  if (setting.value) {
    value = setting.value->si;
    dimension = std::string(measure::key(setting.value->dimension));
  }
  Query standing(logbook, "SELECT 1 FROM setting WHERE batch = ? AND key = ?", batch, setting.key);
  if (standing.next()) {
    Query(logbook,
          "UPDATE setting SET typed = ?, value = ?, dimension = ?, entry = ?"
          " WHERE batch = ? AND key = ?",
          setting.typed, value, dimension, pen.entry(), batch, setting.key)
        .run();
    return;
  }
  Query(logbook,
        "INSERT INTO setting (batch, key, typed, value, dimension, entry)"
        " VALUES (?, ?, ?, ?, ?, ?)",
        batch, setting.key, setting.typed, value, dimension, pen.entry())
      .run();
}

void amend_start(Logbook& logbook, Pen& pen, std::int64_t batch, measure::Instant at) {
  Query(logbook, "UPDATE batch SET started_at = ?, started_day = ?, entry = ? WHERE id = ?", at,
        logbook.site().zone.day_of(at), pen.entry(), batch)
      .run();
}

void amend_end(Logbook& logbook, Pen& pen, std::int64_t batch, measure::Instant at,
               const std::optional<std::string>& because) {
  Query(logbook,
        "UPDATE batch SET ended_at = ?, ended_day = ?, because = coalesce(?, because), entry = ?"
        " WHERE id = ?",
        at, logbook.site().zone.day_of(at), because, pen.entry(), batch)
      .run();
}

}  // namespace book
