#include "book/read/find.h"

#include <algorithm>

#include "book/read/query.h"
#include "measure/text.h"

namespace book {
namespace {

// The columns of each query: the moment, the batch's code, its run where a later one has the code
// (else 0), the text, who, the entry.
struct Source {
  std::string_view of;
  Sql sql;
};

const Source kSources[] = {
    {"note",
     "SELECT n.at, code, iif(EXISTS (SELECT 1 FROM batch AS l WHERE l.code = b.code"
     " AND l.run > b.run), run, 0), text, who, e.id FROM note AS n"
     " JOIN batch AS b ON b.id = n.batch JOIN entry AS e ON e.id = n.entry"},
    {"load",
     "SELECT m.at, code, iif(EXISTS (SELECT 1 FROM batch AS l WHERE l.code = b.code"
     " AND l.run > b.run), run, 0),"
     " m.typed || ' ' || m.material || iif(m.to_batch IS NULL, ' out', ' in') ||"
     " coalesce(' for ' || m.purpose, '') || coalesce(', from ' || m.supplier, '') ||"
     " coalesce(', to ' || m.buyer, '') || coalesce(', lot ' || m.lot, ''), who, e.id"
     " FROM movement AS m"
     " JOIN batch AS b ON b.id = coalesce(m.to_batch, m.from_batch)"
     " JOIN entry AS e ON e.id = m.entry"},
    {"batch",
     "SELECT started_at, code, iif(EXISTS (SELECT 1 FROM batch AS l WHERE l.code = b.code"
     " AND l.run > b.run), run, 0), code || ', ' || kind ||"
     " coalesce((SELECT ', ' || group_concat(key || ' ' || typed, ', ') FROM setting AS s"
     " WHERE s.batch = b.id), '') || coalesce(', ended: ' || because, ''), who, e.id"
     " FROM batch AS b JOIN entry AS e ON e.id = b.entry"},
    {"material",
     "SELECT recorded_at, '', 0, name || iif(aliases = '', '', ', ' || replace(aliases, ';', ', '))"
     " || iif(statement = '', '', ': ' || statement), who, e.id"
     " FROM material AS m JOIN entry AS e ON e.id = m.entry"},
    {"place",
     "SELECT recorded_at, '', 0, name, who, e.id FROM place AS p JOIN entry AS e ON e.id = "
     "p.entry"},
    {"photo",
     "SELECT recorded_at, '', 0, name, who, e.id FROM photo AS p JOIN entry AS e ON e.id = "
     "p.entry"},
    {"tool",
     "SELECT recorded_at, '', 0, name || ', ' || against, who, e.id FROM tool AS t"
     " JOIN entry AS e ON e.id = t.entry"},
    {"who",
     "SELECT max(recorded_at), '', 0, who || ', ' || count(*) || iif(count(*) = 1, ' entry',"
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
      std::string text = row.text(3);
      if (!holds(text, wanted)) continue;
      const std::int64_t run = row.integer(2);
      found.push_back({row.instant(0), row.text(1) + (run > 0 ? "/" + std::to_string(run) : ""),
                       source.of, std::move(text), row.text(4), row.integer(5)});
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Found& a, const Found& b) { return a.at > b.at; });
  return found;
}

}  // namespace book
