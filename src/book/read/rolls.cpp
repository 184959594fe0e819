#include "book/read/rolls.h"

#include <algorithm>

#include "book/read/query.h"

namespace book {

std::optional<model::DayRoll> rolled(const Logbook& logbook, std::int64_t series, measure::Day day,
                                     measure::Instant until) {
  const measure::Zone& zone = logbook.site().zone;
  const measure::Instant end =
      std::min(until, zone.start_of(day + date::days{1}) - std::chrono::seconds{1});
  Query row(logbook,
            "SELECT at, value FROM reading WHERE series = ? AND at >= ? AND at <= ?"
            " AND mark IS NULL ORDER BY at",
            series, zone.start_of(day), end);
  std::optional<model::DayRoll> roll;
  while (row.next()) {
    if (!roll) roll = model::DayRoll{day};
    roll->add(row.instant(0), row.real(1));
  }
  return roll;
}

void roll_in(Logbook& logbook, std::int64_t series, measure::Instant at, double value) {
  const measure::Day day = logbook.site().zone.day_of(at);
  bool comes_last = false;
  {
    Query insert(logbook,
                 "INSERT INTO day_roll (series, day, n, least, greatest, total, last_at, last)"
                 " VALUES (?1, ?2, 1, ?4, ?4, ?4, ?3, ?4)"
                 " ON CONFLICT (series, day) DO UPDATE SET n = n + 1,"
                 " least = min(least, excluded.least),"
                 " greatest = max(greatest, excluded.greatest), total = total + excluded.total,"
                 " last = excluded.last, last_at = excluded.last_at"
                 " WHERE excluded.last_at > last_at RETURNING n",
                 series, day, at, value);
    comes_last = insert.next();
    insert.run();
  }
  if (!comes_last) roll_again(logbook, series, day);
}

void roll_in(Logbook& logbook, std::int64_t series, const model::DayRoll& roll) {
  bool is_first = false;
  {
    Query insert(logbook,
                 "INSERT INTO day_roll (series, day, n, least, greatest, total, last_at, last)"
                 " VALUES (?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT DO NOTHING RETURNING n",
                 series, roll.day, roll.count, roll.least, roll.greatest, roll.total, roll.last_at,
                 roll.last);
    is_first = insert.next();
    insert.run();
  }
  if (!is_first) roll_again(logbook, series, roll.day);
}

void mark_in(Logbook& logbook, std::int64_t series, const DayMark& marked) {
  Query(logbook,
        "INSERT INTO day_mark (series, day, mark, n, least, greatest, first_at, last_at)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?)"
        " ON CONFLICT (series, day, mark) DO UPDATE SET n = n + excluded.n,"
        " least = min(least, excluded.least), greatest = max(greatest, excluded.greatest),"
        " first_at = min(first_at, excluded.first_at), last_at = max(last_at, excluded.last_at)",
        series, marked.day, marked.mark, marked.count, marked.least, marked.greatest,
        marked.first_at, marked.last_at)
      .run();
}

namespace {

void mark_again(Logbook& logbook, std::int64_t series, measure::Day day) {
  Query(logbook, "DELETE FROM day_mark WHERE series = ? AND day = ?", series, day).run();
  const measure::Zone& zone = logbook.site().zone;
  Query(logbook,
        "INSERT INTO day_mark (series, day, mark, n, least, greatest, first_at, last_at)"
        " SELECT ?1, ?2, mark, count(*), min(value), max(value), min(at), max(at) FROM reading"
        " WHERE series = ?1 AND at >= ?3 AND at < ?4 AND mark IS NOT NULL GROUP BY mark",
        series, day, zone.start_of(day), zone.start_of(day + date::days{1}))
      .run();
}

// The latest unmarked readings of the days up to that of `until`, from the latest such day.
std::vector<model::DayRoll> last_two_days(const Logbook& logbook, std::int64_t series,
                                          measure::Instant until) {
  std::vector<model::DayRoll> days;
  Query row(logbook,
            "SELECT day, n, last, last_at FROM day_roll WHERE series = ? AND day <= ?"
            " ORDER BY day DESC LIMIT 3",
            series, logbook.site().zone.day_of(until));
  while (row.next() && days.size() < 2) {
    model::DayRoll roll{row.day(0),    static_cast<int>(row.integer(1)), 0, 0, 0, row.real(2),
                        row.instant(3)};
    if (const auto part = part_until(logbook, series, roll, until)) days.push_back(*part);
  }
  return days;
}

}  // namespace

std::optional<model::DayRoll> part_until(const Logbook& logbook, std::int64_t series,
                                         const model::DayRoll& day, measure::Instant until) {
  return day.last_at <= until ? day : rolled(logbook, series, day.day, until);
}

std::vector<model::Reading> latest_two(const Logbook& logbook, std::int64_t series,
                                       measure::Instant until) {
  const std::vector<model::DayRoll> days = last_two_days(logbook, series, until);
  if (days.empty()) return {};
  return latest_two(logbook, series, days[0], days.size() > 1 ? &days[1] : nullptr);
}

std::vector<model::Reading> latest_two(const Logbook& logbook, std::int64_t series,
                                       const model::DayRoll& last, const model::DayRoll* before) {
  std::vector<model::Reading> latest{{last.last_at, last.last}};
  if (last.count > 1) {
    Query row(logbook,
              "SELECT at, value FROM reading WHERE series = ? AND at >= ? AND at < ?"
              " AND mark IS NULL ORDER BY at DESC LIMIT 1",
              series, logbook.site().zone.start_of(last.day), last.last_at);
    if (row.next()) latest.push_back({row.instant(0), row.real(1)});
  } else if (before != nullptr) {
    latest.push_back({before->last_at, before->last});
  }
  return latest;
}

void roll_again(Logbook& logbook, std::int64_t series, measure::Day day) {
  mark_again(logbook, series, day);
  const auto roll = rolled(logbook, series, day, measure::Instant::max());
  if (!roll) {
    Query(logbook, "DELETE FROM day_roll WHERE series = ? AND day = ?", series, day).run();
    return;
  }
  Query(logbook,
        "INSERT OR REPLACE INTO day_roll (series, day, n, least, greatest, total, last_at, last)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        series, day, roll->count, roll->least, roll->greatest, roll->total, roll->last_at,
        roll->last)
      .run();
}

void note_typed(Logbook& logbook, std::int64_t entry, std::int64_t series, measure::Instant at) {
  Query(logbook, "INSERT OR IGNORE INTO reading_typed (entry, series, at) VALUES (?, ?, ?)", entry,
        series, at)
      .run();
}

void forget_typed(Logbook& logbook, std::int64_t entry, std::int64_t series, measure::Instant at) {
  Query(logbook, "DELETE FROM reading_typed WHERE entry = ? AND series = ? AND at = ?", entry,
        series, at)
      .run();
}

}  // namespace book
