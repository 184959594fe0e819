#include "book/read/find.h"

#include <algorithm>

#include "book/read/query.h"
#include "measure/text.h"

namespace book {
namespace {

// A batch's code, its run, and whether that is the latest of the code. A macro, since the text of a
// query is a literal.
#define BATCH_LABEL "b.code, b.run, b.run = (SELECT max(run) FROM batch WHERE code = b.code)"
#define NO_BATCH "'', 0, 1"

// The columns of each query: the moment, a batch's three, the text, who, the entry.
struct Source {
  std::string_view of;
  Sql sql;
};

const Source kSources[] = {
    {"note", "SELECT n.at, " BATCH_LABEL ","
             " text, who, e.id FROM note AS n"
             " JOIN batch AS b ON b.id = n.batch JOIN entry AS e ON e.id = n.entry"},
    {"load", "SELECT m.at, " BATCH_LABEL ","
             " m.typed || ' ' || m.material || iif(m.to_batch IS NULL, ' out', ' in') ||"
             " coalesce(' for ' || m.purpose, '') || coalesce(', from ' || m.supplier, '') ||"
             " coalesce(', to ' || m.buyer, '') || coalesce(', lot ' || m.lot, ''), who, e.id"
             " FROM movement AS m"
             " JOIN batch AS b ON b.id = coalesce(m.to_batch, m.from_batch)"
             " JOIN entry AS e ON e.id = m.entry"},
    {"batch", "SELECT started_at, " BATCH_LABEL ","
              " code || ', ' || kind ||"
              " coalesce((SELECT ', ' || group_concat(key || ' ' || typed, ', ') FROM setting AS s"
              " WHERE s.batch = b.id), '') || coalesce(', ended: ' || because, ''), who, e.id"
              " FROM batch AS b JOIN entry AS e ON e.id = b.entry"},
    {"material", "SELECT recorded_at, " NO_BATCH
                 ", name || iif(aliases = '', '', ', ' || replace(aliases, ';', ', '))"
                 " || iif(statement = '', '', ': ' || statement), who, e.id"
                 " FROM material AS m JOIN entry AS e ON e.id = m.entry"},
    {"place",
     "SELECT recorded_at, " NO_BATCH ", name, who, e.id FROM place AS p JOIN entry AS e ON e.id = "
     "p.entry"},
    {"photo",
     "SELECT recorded_at, " NO_BATCH ", name, who, e.id FROM photo AS p JOIN entry AS e ON e.id = "
     "p.entry"},
    {"tool", "SELECT recorded_at, " NO_BATCH ", name || ', ' || against, who, e.id FROM tool AS t"
             " JOIN entry AS e ON e.id = t.entry"},
    {"who",
     "SELECT max(recorded_at), " NO_BATCH ", who || ', ' || count(*) || iif(count(*) = 1, ' entry',"
     " ' entries'), who, max(id) FROM entry GROUP BY who"},
};

bool holds(const std::string& text, const std::vector<std::string>& words) {
  const std::string plain = measure::folded(text);
  return std::all_of(words.begin(), words.end(), [&](const std::string& word) {
    return plain.find(word) != std::string::npos;
  });
}

}  // namespace

std::vector<Found> find_words(const Logbook& logbook, const std::vector<std::string>& words) {
  std::vector<std::string> wanted;
  for (const std::string& word : words) wanted.push_back(measure::folded(word));
  std::vector<Found> found;
  for (const Source& source : kSources) {
    Query row(logbook, source.sql);
    while (row.next()) {
      std::string text = row.text(4);
      if (!holds(text, wanted)) continue;
      model::Batch batch;
      batch.code = row.text(1);
      batch.run = static_cast<int>(row.integer(2));
      found.push_back({row.instant(0), model::label(batch, row.integer(3) != 0), source.of,
                       std::move(text), row.text(5), row.integer(6)});
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Found& a, const Found& b) { return a.at > b.at; });
  return found;
}

}  // namespace book
