#include "book/keep/check.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/file/schema.h"
#include "book/keep/seal.h"
#include "book/read/query.h"
#include "book/read/rolls.h"

namespace book {
namespace {

using Troubles = std::vector<Trouble>;

const std::string kRepair = "'roundbook check --repair' makes it anew from the readings";

int number(const Logbook& logbook, Sql sql) {
  Query row(logbook, sql);
  row.next();
  return static_cast<int>(row.integer(0));
}

bool same(const model::DayRoll& a, const model::DayRoll& b) {
  return a.count == b.count && a.least == b.least && a.greatest == b.greatest &&
         a.total == b.total && a.last == b.last && a.last_at == b.last_at;
}

// Days whose roll is not that of their readings, rolls without readings among them.
int wrong_rolls(const Logbook& logbook) {
  struct Kept {
    std::int64_t series;
    model::DayRoll roll;
  };
  std::vector<Kept> kept;
  {
    Query row(logbook,
              "SELECT series, day, n, least, greatest, total, last_at, last FROM day_roll");
    while (row.next()) {
      kept.push_back({row.integer(0),
                      {row.day(1), static_cast<int>(row.integer(2)), row.real(3), row.real(4),
                       row.real(5), row.real(7), row.instant(6)}});
    }
  }
  int wrong = 0;
  int true_count = 0;
  for (const Kept& one : kept) {
    const auto made = rolled(logbook, one.series, one.roll.day, measure::Instant::max());
    if (made) true_count += made->count;
    if (!made || !same(*made, one.roll)) ++wrong;
  }
  // A reading whose day has no roll at all.
  const int readings = number(logbook, "SELECT count(*) FROM reading WHERE mark IS NULL");
  if (readings > true_count) wrong += readings - true_count;
  return wrong;
}

// Rows whose day is not that of their instant on the site's clock.
int wrong_days(const Logbook& logbook) {
  int wrong = 0;
  Query row(logbook,
            "SELECT at, day FROM deed UNION ALL SELECT at, day FROM note UNION ALL"
            " SELECT at, day FROM movement UNION ALL SELECT started_at, started_day FROM batch"
            " UNION ALL SELECT ended_at, ended_day FROM batch WHERE ended_at IS NOT NULL");
  while (row.next()) {
    if (logbook.site().zone.day_of(row.instant(0)) != row.day(1)) ++wrong;
  }
  return wrong;
}

void look_at_derived(const Logbook& logbook, Troubles& found) {
  if (const int wrong = wrong_rolls(logbook); wrong > 0) {
    found.push_back(
        {Trouble::Sort::kDerived,
         measure::counted(wrong, "daily sum is", "daily sums are") + " not that of the readings",
         "charts and findings may lean on wrong sums, or a reading was changed by "
         "damage",
         kRepair + "; compare the last days with what you remember"});
  }
  if (const int wrong = wrong_days(logbook); wrong > 0) {
    found.push_back({Trouble::Sort::kDerived,
                     measure::counted(wrong, "entry stands", "entries stand") +
                         " under another day than its moment falls on",
                     "the zone's rules on this computer differ from those it was recorded under, "
                     "or the file was changed by hand",
                     "'roundbook check --repair' sets the days by the moments"});
  }
}

void look_at_marks(const Logbook& logbook, Troubles& found) {
  const int marked = number(logbook, "SELECT count(*) FROM reading WHERE mark IS NOT NULL");
  const int counted_days = number(logbook, "SELECT coalesce(sum(n), 0) FROM day_mark");
  if (marked == counted_days) return;
  found.push_back({Trouble::Sort::kDerived,
                   measure::counted(marked, "reading is", "readings are") +
                       fmt::format(" marked, {} by the days", counted_days),
                   "what is said of a probe's slips may be wrong", kRepair});
}

void look_at_journal(const Logbook& logbook, Troubles& found) {
  const int broken = number(logbook,
                            "SELECT count(*) FROM journal WHERE NOT json_valid(before)"
                            " OR (after IS NOT NULL AND NOT json_valid(after))");
  if (broken > 0) {
    found.push_back({Trouble::Sort::kDamage,
                     measure::counted(broken, "row", "rows") + " of the journal cannot be read",
                     "what was corrected there cannot be taken back", "restore a backup"});
  }
  if (number(logbook, "SELECT count(*) FROM pen WHERE entry IS NOT NULL") > 0) {
    found.push_back({Trouble::Sort::kDamage, "an entry was left open",
                     "another program wrote to the file", "restore a backup"});
  }
}

void look_at_seals(const Logbook& logbook, Troubles& found) {
  constexpr std::size_t kNamed = 5;
  const auto broken = broken_seals(logbook.connection().database);
  if (broken.empty()) return;
  std::string names;
  for (std::size_t i = 0; i < std::min(kNamed, broken.size()); ++i) {
    names += fmt::format("{}#{}", i == 0 ? "" : ", ", broken[i]);
  }
  if (broken.size() > kNamed) names += fmt::format(" and {} more", broken.size() - kNamed);
  const bool one = broken.size() == 1;
  found.push_back({Trouble::Sort::kDamage,
                   fmt::format("{} {} not hold what {} when recorded", one ? "entry" : "entries",
                               names + (one ? " does" : " do"), one ? "it held" : "they held"),
                   "a row was changed or lost by damage, or by another program",
                   "compare 'roundbook history' with a backup; restore that where it is better"});
}

void look_at_sense(const Logbook& logbook, Troubles& found) {
  // SQLite keeps infinity. No site carries so much, and no probe reads so far.
  if (const int many = number(logbook,
                              "SELECT (SELECT count(*) FROM movement WHERE NOT amount < 1e12) +"
                              " (SELECT count(*) FROM reading WHERE NOT abs(value) < 1e15)");
      many > 0) {
    found.push_back({Trouble::Sort::kDamage,
                     measure::counted(many, "amount or reading is", "amounts or readings are") +
                         " beyond all sense",
                     "every sum it goes into is wrong",
                     "'roundbook history' shows the entry; amend it or take it back"});
  }
  // 1900 to 2200.
  if (const int many =
          number(logbook,
                 "SELECT count(*) FROM (SELECT recorded_at AS at FROM entry UNION ALL"
                 " SELECT started_at FROM batch UNION ALL SELECT ended_at FROM batch UNION ALL"
                 " SELECT at FROM movement UNION ALL SELECT at FROM deed UNION ALL"
                 " SELECT at FROM note UNION ALL SELECT at FROM reading)"
                 " WHERE at NOT BETWEEN -2208988800 AND 7258118400");
      many > 0) {
    found.push_back({Trouble::Sort::kDamage,
                     measure::counted(many, "moment lies", "moments lie") + " centuries from now",
                     "nothing is judged rightly by it, and export cannot hand it on",
                     "'roundbook history' shows the entry; amend it or restore a backup"});
  }
}

void look_at_times(const Logbook& logbook, measure::Instant now, Troubles& found) {
  const auto doubt = [&](int count, std::string_view one, std::string_view many,
                         std::string_view means, std::string_view advice) {
    if (count == 0) return;
    found.push_back({Trouble::Sort::kDoubt, measure::counted(count, one, many), std::string(means),
                     std::string(advice)});
  };
  doubt(number(logbook, "SELECT count(*) FROM batch WHERE ended_at < started_at"),
        "batch ends before it starts", "batches end before they start",
        "its days and sums are not to be trusted", "'roundbook amend' sets the moment right");
  doubt(number(logbook,
               "SELECT count(*) FROM batch AS a JOIN batch AS b ON a.code = b.code"
               " AND a.run < b.run WHERE a.ended_at > b.started_at"),
        "batch starts before the one of its code before it ended",
        "batches start before those of their code before them ended",
        "what was logged to the code then may be of either",
        "'roundbook amend' sets the moment right");
  doubt(number(logbook,
               "SELECT (SELECT count(*) FROM deed AS d JOIN batch AS b ON b.id = d.batch"
               " WHERE d.at < started_at OR d.at > ended_at) +"
               " (SELECT count(*) FROM movement AS m JOIN batch AS b"
               " ON b.id IN (m.from_batch, m.to_batch)"
               " WHERE m.at < started_at OR m.at > ended_at) +"
               " (SELECT count(*) FROM series AS s JOIN batch AS b ON b.id = s.batch"
               " JOIN reading AS r ON r.series = s.id"
               " WHERE r.at < started_at OR r.at > ended_at)"),
        "record lies outside its batch's life", "records lie outside their batch's life",
        "sums by batch hold it all the same", "'roundbook history CODE' shows its entry; amend it");
  int ahead = 0;
  {
    Query row(logbook, "SELECT count(*) FROM entry WHERE recorded_at > ?",
              now + std::chrono::hours{24});
    row.next();
    ahead = static_cast<int>(row.integer(0));
  }
  doubt(ahead, "entry was recorded in the future", "entries were recorded in the future",
        "the clock was or is wrong; in a merge they win over later corrections",
        "set the computer's clock");
  doubt(number(logbook, "SELECT count(*) FROM movement WHERE from_batch = to_batch"),
        "movement goes from a batch to itself", "movements go from a batch to itself",
        "it counts as both in and out", "take it back or amend it");
}

}  // namespace

std::vector<Trouble> check(const Logbook& logbook, measure::Instant now) {
  Troubles found;
  SQLite::Database& database = logbook.connection().database;
  try {
    for (const std::string& wrong : integrity(database)) {
      const bool index = wrong.find("index") != std::string::npos;
      found.push_back({index ? Trouble::Sort::kDerived : Trouble::Sort::kDamage, wrong,
                       index ? "lookups may miss what is recorded" : "the file is damaged",
                       index ? "'roundbook check --repair' makes it anew"
                             : "keep the file as it is and restore a backup"});
    }
    for (const std::string& wrong : schema_differences(database)) {
      found.push_back({Trouble::Sort::kDamage, wrong,
                       "the file was changed by another program or by damage",
                       "keep the file as it is and restore a backup"});
    }
    if (!found.empty()) return found;  // the rest would speak of ruins
    look_at_derived(logbook, found);
    look_at_marks(logbook, found);
    const std::size_t before = found.size();
    look_at_journal(logbook, found);
    if (found.size() == before) look_at_seals(logbook, found);
    look_at_sense(logbook, found);
    look_at_times(logbook, now, found);
  } catch (const SQLite::Exception& error) {
    fail(logbook.path(), error);
  }
  return found;
}

void repair(Logbook& logbook, Pen&) {
  SQLite::Database& database = logbook.connection().database;
  const measure::Zone& zone = logbook.site().zone;
  try {
    database.exec("REINDEX");
    rebuild_rolls(database, zone);
  } catch (const SQLite::Exception& error) {
    fail(logbook.path(), error);
  }
  struct Redated {
    std::int64_t id;
    measure::Day day;
  };
  const auto set_days = [&](Sql read, Sql write) {
    std::vector<Redated> rows;
    {
      Query row(logbook, read);
      while (row.next()) {
        const measure::Day day = zone.day_of(row.instant(1));
        if (day != row.day(2)) rows.push_back({row.integer(0), day});
      }
    }
    for (const Redated& row : rows) Query(logbook, write, row.day, row.id).run();
  };
  set_days("SELECT id, at, day FROM deed", "UPDATE deed SET day = ? WHERE id = ?");
  set_days("SELECT id, at, day FROM note", "UPDATE note SET day = ? WHERE id = ?");
  set_days("SELECT id, at, day FROM movement", "UPDATE movement SET day = ? WHERE id = ?");
  set_days("SELECT id, started_at, started_day FROM batch",
           "UPDATE batch SET started_day = ? WHERE id = ?");
  set_days("SELECT id, ended_at, ended_day FROM batch WHERE ended_at IS NOT NULL",
           "UPDATE batch SET ended_day = ? WHERE id = ?");
}

}  // namespace book
