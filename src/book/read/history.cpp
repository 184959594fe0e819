#include "book/read/query.h"
#include "book/read/read.h"
#include "book/read/rolls.h"

namespace book {
namespace {

std::vector<model::DayRoll> days_until(const Logbook& logbook, std::int64_t series,
                                       measure::Instant now) {
  std::vector<model::DayRoll> days;
  Query row(logbook,
            "SELECT day, n, least, greatest, total, last_at, last FROM day_roll"
            " WHERE series = ? AND day <= ? ORDER BY day",
            series, logbook.site().zone.day_of(now));
  while (row.next()) {
    model::DayRoll roll{row.day(0),    static_cast<int>(row.integer(1)),
                        row.real(2),   row.real(3),
                        row.real(4),   row.real(6),
                        row.instant(5)};
    if (const auto part = part_until(logbook, series, roll, now)) days.push_back(*part);
  }
  return days;
}

void read_series(const Logbook& logbook, model::History& history) {
  Query row(logbook,
            "SELECT id, quantity, position FROM series WHERE batch = ? ORDER BY quantity, position",
            history.batch.id);
  while (row.next()) {
    model::Series series{row.text(1), row.text(2), {}, std::nullopt, std::nullopt};
    series.days = days_until(logbook, row.integer(0), history.now);
    if (series.days.empty()) continue;
    const std::size_t count = series.days.size();
    const auto latest = latest_two(logbook, row.integer(0), series.days.back(),
                                   count > 1 ? &series.days[count - 2] : nullptr);
    series.last = latest[0];
    if (latest.size() > 1) series.before_last = latest[1];
    history.series.push_back(std::move(series));
  }
}

void read_deeds(const Logbook& logbook, model::History& history) {
  Query row(logbook,
            "SELECT at, day, sense, word FROM deed WHERE batch = ? AND at <= ? ORDER BY at, id",
            history.batch.id, history.now);
  while (row.next()) {
    const std::string sense = row.text(2);
    if (sense.empty()) {
      history.deeds.push_back({row.instant(0), row.day(1), row.text(3)});
    } else {
      history.sensed.push_back({row.instant(0), row.day(1), sense, row.text(3)});
    }
  }
  Query note(logbook, "SELECT at, day, text FROM note WHERE batch = ? AND at <= ? ORDER BY at, id",
             history.batch.id, history.now);
  while (note.next()) history.notes.push_back({note.instant(0), note.day(1), note.text(2)});
}

// A movement's columns with the labels of its ends. A macro, since the text of a query is a
// literal.
#define MOVEMENT_ROWS                                                           \
  "SELECT m.id, at, m.day, material, f.code, f.run, f.kind,"                    \
  " f.run = (SELECT max(run) FROM batch WHERE code = f.code), t.code, t.run,"   \
  " t.kind, t.run = (SELECT max(run) FROM batch WHERE code = t.code),"          \
  " dimension, amount, typed, purpose, paid_cents, sold_cents, sure, to_batch," \
  " supplier, lot, buyer"                                                       \
  " FROM movement AS m LEFT JOIN batch AS f ON f.id = from_batch"               \
  " LEFT JOIN batch AS t ON t.id = to_batch"

// The columns are those above.
model::Movement movement_row(const Materials& materials, const Query& row) {
  model::Movement movement;
  movement.id = row.integer(0);
  movement.at = row.instant(1);
  movement.day = row.day(2);
  movement.material = materials.named(row.text(3));
  const auto end = [&](int column, std::string& label, std::string& kind) {
    if (row.null(column)) return;
    model::Batch batch;
    batch.code = row.text(column);
    batch.run = static_cast<int>(row.integer(column + 1));
    kind = row.text(column + 2);
    label = model::label(batch, row.integer(column + 3) != 0);
  };
  end(4, movement.from, movement.from_kind);
  end(8, movement.to, movement.to_kind);
  movement.amount = {*measure::find_dimension(row.text(12)), row.real(13)};
  movement.typed = row.text(14);
  movement.purpose = row.null(15) ? "" : row.text(15);
  movement.paid_cents = row.maybe_integer(16);
  movement.sold_cents = row.maybe_integer(17);
  movement.sure = row.integer(18) != 0;
  const auto maybe_text = [&](int column) { return row.null(column) ? "" : row.text(column); };
  movement.supplier = maybe_text(20);
  movement.lot = maybe_text(21);
  movement.buyer = maybe_text(22);
  return movement;
}

measure::Instant entered_at(const Logbook& logbook, std::int64_t batch) {
  Query row(logbook,
            "SELECT recorded_at FROM entry WHERE id = (SELECT entry FROM batch WHERE id = ?)",
            batch);
  return row.next() ? row.instant(0) : measure::Instant{};
}

void note_latest(std::optional<measure::Instant>& latest, measure::Instant at) {
  if (!latest || at > *latest) latest = at;
}

}  // namespace

model::History history(const Logbook& logbook, const Materials& materials,
                       const model::Batch& batch, measure::Instant now) {
  const model::Site& site = logbook.site();
  model::History history{.batch = batch,
                         .units = site.units,
                         .latitude = site.latitude,
                         .now = now,
                         .today = site.zone.day_of(now),
                         .told_at = entered_at(logbook, batch.id),
                         .series = {},
                         .deeds = {},
                         .sensed = {},
                         .notes = {},
                         .in = {},
                         .out = {},
                         .earlier_in = {},
                         .earlier_deeds = {},
                         .earlier_sensed = {},
                         .last_entry = {},
                         .finished = {}};
  if (batch.ended && *batch.ended > now) {
    history.batch.ended.reset();
    history.batch.ended_day.reset();
    history.batch.because.clear();
  }
  read_series(logbook, history);
  read_deeds(logbook, history);
  Query row(logbook,
            MOVEMENT_ROWS
            " WHERE (from_batch = ?1 OR to_batch = ?1) AND at <= ?2 ORDER BY at, m.id",
            batch.id, now);
  while (row.next()) {
    const bool comes_in = row.maybe_integer(19) == batch.id;
    (comes_in ? history.in : history.out).push_back(movement_row(materials, row));
  }
  for (const model::Series& series : history.series)
    note_latest(history.last_entry, series.last->at);
  for (const model::Deed& deed : history.deeds) note_latest(history.last_entry, deed.at);
  for (const model::Sensed& sensed : history.sensed) note_latest(history.last_entry, sensed.at);
  for (const model::Note& note : history.notes) note_latest(history.last_entry, note.at);
  for (const model::Movement& movement : history.in) note_latest(history.last_entry, movement.at);
  for (const model::Movement& movement : history.out) note_latest(history.last_entry, movement.at);
  return history;
}

std::vector<model::Reading> readings(const Logbook& logbook, const model::Batch& batch,
                                     std::string_view quantity, std::string_view position,
                                     measure::Instant since, measure::Instant until) {
  std::vector<model::Reading> found;
  Query row(logbook,
            "SELECT at, value FROM reading WHERE series = (SELECT id FROM series"
            " WHERE batch = ? AND quantity = ? AND position = ?) AND at BETWEEN ? AND ?"
            " AND mark IS NULL ORDER BY at",
            batch.id, quantity, position, since, until);
  while (row.next()) found.push_back({row.instant(0), row.real(1)});
  return found;
}

std::vector<model::Movement> movements(const Logbook& logbook, const Materials& materials,
                                       measure::Instant since, measure::Instant until) {
  std::vector<model::Movement> found;
  Query row(logbook, MOVEMENT_ROWS " WHERE at >= ? AND at <= ? ORDER BY at, m.id", since, until);
  while (row.next()) found.push_back(movement_row(materials, row));
  return found;
}

std::vector<model::Movement> loads_into(const Logbook& logbook, const Materials& materials,
                                        const model::Batch& batch, measure::Instant until) {
  std::vector<model::Movement> found;
  Query row(logbook, MOVEMENT_ROWS " WHERE to_batch = ? AND at <= ? ORDER BY at, m.id", batch.id,
            until);
  while (row.next()) found.push_back(movement_row(materials, row));
  return found;
}

#undef MOVEMENT_ROWS

std::set<std::string> materials_used(const Logbook& logbook, measure::Instant until) {
  std::set<std::string> found;
  Query row(logbook,
            "SELECT DISTINCT material FROM movement WHERE to_batch IS NOT NULL AND at <= ?", until);
  while (row.next()) found.insert(row.text(0));
  return found;
}

std::optional<model::Reading> reading_before(const Logbook& logbook, const model::Batch& batch,
                                             std::string_view quantity, std::string_view position,
                                             measure::Instant at) {
  Query row(logbook, "SELECT id FROM series WHERE batch = ? AND quantity = ? AND position = ?",
            batch.id, quantity, position);
  if (!row.next()) return std::nullopt;
  const auto latest = latest_two(logbook, row.integer(0), at);
  return latest.empty() ? std::nullopt : std::optional(latest[0]);
}

std::vector<Marked> marked_readings(const Logbook& logbook, const model::Batch& batch,
                                    measure::Instant now) {
  std::vector<Marked> found;
  Query row(logbook,
            "SELECT quantity, position, mark, sum(n), min(least), max(greatest), min(first_at),"
            " max(last_at) FROM ("
            " SELECT s.id, quantity, position, mark, n, least, greatest, first_at, last_at"
            " FROM series AS s JOIN day_mark AS m ON m.series = s.id"
            " WHERE batch = ?1 AND last_at <= ?2"
            // Of a day that goes on after `now`, the readings up to then.
            " UNION ALL SELECT s.id, quantity, position, m.mark, 1, value, value, r.at, r.at"
            " FROM series AS s JOIN day_mark AS m ON m.series = s.id JOIN reading AS r"
            " ON r.series = s.id AND r.at BETWEEN first_at AND ?2 AND r.mark = m.mark"
            " WHERE batch = ?1 AND first_at <= ?2 AND last_at > ?2)"
            " GROUP BY id, mark ORDER BY 1, 2, 3",
            batch.id, now);
  while (row.next()) {
    found.push_back({row.text(0), row.text(1), row.text(2), row.integer(3), row.real(4),
                     row.real(5), row.instant(6), row.instant(7)});
  }
  return found;
}

double held(const Logbook& logbook, const model::Batch& batch, const std::string& material,
            measure::Dimension dimension) {
  double amount = 0;
  Query row(logbook,
            "SELECT dimension, amount, to_batch FROM movement"
            " WHERE (from_batch = ?1 OR to_batch = ?1) AND material = ?2",
            batch.id, material);
  while (row.next()) {
    if (row.text(0) != measure::key(dimension)) continue;
    amount += row.maybe_integer(2) == batch.id ? row.real(1) : -row.real(1);
  }
  return amount;
}

std::optional<measure::Instant> first_of(const Logbook& logbook, const model::Batch& batch) {
  Query row(logbook,
            "SELECT min(at) FROM ("
            " SELECT min(at) AS at FROM deed WHERE batch = ?1"
            " UNION ALL SELECT min(at) FROM note WHERE batch = ?1"
            " UNION ALL SELECT min(at) FROM movement WHERE from_batch = ?1 OR to_batch = ?1"
            " UNION ALL SELECT (SELECT min(at) FROM reading WHERE series = s.id)"
            " FROM series AS s WHERE s.batch = ?1)",
            batch.id);
  if (!row.next() || row.null(0)) return std::nullopt;
  return row.instant(0);
}

std::optional<measure::Instant> latest_of(const Logbook& logbook, const model::Batch& batch) {
  Query row(logbook,
            "SELECT max(at) FROM ("
            " SELECT max(at) AS at FROM deed WHERE batch = ?1"
            " UNION ALL SELECT max(at) FROM note WHERE batch = ?1"
            " UNION ALL SELECT max(at) FROM movement WHERE from_batch = ?1 OR to_batch = ?1"
            " UNION ALL SELECT (SELECT max(at) FROM reading WHERE series = s.id)"
            " FROM series AS s WHERE s.batch = ?1)",
            batch.id);
  if (!row.next() || row.null(0)) return std::nullopt;
  return row.instant(0);
}

}  // namespace book
