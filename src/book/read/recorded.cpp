#include "book/read/recorded.h"

#include "book/read/query.h"

namespace book {

model::Recorded recorded(const Logbook& logbook, const model::Batch& batch,
                         measure::Instant until) {
  model::Recorded found;
  {
    Query row(logbook,
              "SELECT s.quantity, s.position, r.at, r.value, r.mark, r.sure, e.who"
              " FROM series AS s JOIN reading AS r ON r.series = s.id"
              " JOIN entry AS e ON e.id = r.entry WHERE s.batch = ? AND r.at <= ?"
              " ORDER BY r.at, s.quantity, s.position",
              batch.id, until);
    while (row.next()) {
      found.readings.push_back({row.text(0), row.text(1), row.instant(2), row.real(3),
                                row.null(4) ? "" : row.text(4), row.integer(5) != 0, row.text(6)});
    }
  }
  {
    Query row(
        logbook,
        "SELECT at, sense, word, 0, who, d.id FROM deed AS d JOIN entry AS e ON e.id = d.entry"
        " WHERE batch = ?1 AND at <= ?2 UNION ALL"
        " SELECT at, '', text, 1, who, n.id FROM note AS n JOIN entry AS e ON e.id = n.entry"
        " WHERE batch = ?1 AND at <= ?2 ORDER BY 1, 4, 6",
        batch.id, until);
    while (row.next()) {
      found.words.push_back(
          {row.instant(0), row.text(1), row.text(2), row.integer(3) != 0, row.text(4)});
    }
  }
  Query row(logbook,
            "SELECT m.id, who FROM movement AS m JOIN entry AS e ON e.id = m.entry"
            " WHERE from_batch = ?1 OR to_batch = ?1",
            batch.id);
  while (row.next()) found.carried[row.integer(0)] = row.text(1);
  return found;
}

std::map<std::int64_t, std::string> carried_by(const Logbook& logbook, measure::Instant until) {
  std::map<std::int64_t, std::string> who;
  Query row(logbook,
            "SELECT m.id, who FROM movement AS m JOIN entry AS e ON e.id = m.entry WHERE at <= ?",
            until);
  while (row.next()) who[row.integer(0)] = row.text(1);
  return who;
}

std::vector<model::ToolCheck> tool_checks(const Logbook& logbook, measure::Day until) {
  std::vector<model::ToolCheck> checks;
  Query row(
      logbook,
      "SELECT name, checked_day, against, who FROM tool AS t JOIN entry AS e ON e.id = t.entry"
      " WHERE checked_day <= ? ORDER BY name, checked_day",
      until);
  while (row.next()) checks.push_back({row.text(0), row.day(1), row.text(2), row.text(3)});
  return checks;
}

}  // namespace book
