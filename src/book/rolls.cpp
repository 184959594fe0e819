#include "book/rolls.h"

#include <algorithm>

#include "book/query.h"

namespace book {

std::optional<model::DayRoll> rolled(const Logbook& logbook, std::int64_t series, measure::Day day,
                                     measure::Instant until) {
  const measure::Zone& zone = logbook.site().zone;
  const measure::Instant end =
      std::min(until, zone.start_of(day + date::days{1}) - std::chrono::seconds{1});
  Query row(logbook,
            "SELECT at, value FROM reading WHERE series = ? AND at >= ? AND at <= ? ORDER BY at",
            series, zone.start_of(day), end);
  std::optional<model::DayRoll> roll;
  while (row.next()) {
    const double value = row.real(1);
    if (!roll) roll = model::DayRoll{day, 0, value, value, 0, value, row.instant(0)};
    ++roll->count;
    roll->least = std::min(roll->least, value);
    roll->greatest = std::max(roll->greatest, value);
    roll->total += value;
    roll->last = value;
    roll->last_at = row.instant(0);
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

void roll_again(Logbook& logbook, std::int64_t series, measure::Day day) {
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

}  // namespace book
