#include "book/merge/merge.h"

#include <fmt/format.h>

#include <set>
#include <stdexcept>

#include "book/file/error.h"
#include "book/file/schema.h"
#include "book/file/takeover.h"
#include "book/keep/backup.h"
#include "book/keep/seal.h"
#include "book/merge/write.h"
#include "book/read/query.h"
#include "measure/text.h"

namespace book {
namespace {

// Whether two copies say the same, whatever numbers they give their rows.
bool say_the_same(const Copy& a, const Copy& b) {
  const auto entries = [](const Copy& copy) {
    std::string text;
    for (const auto& [uid, entry] : copy.entries) text += uid + text_of(entry.row);
    return text;
  };
  const auto journal = [](const Copy& copy) {
    std::multiset<std::string> rows;
    for (const auto& [uid, list] : copy.journal) {
      for (const JournalRow& row : list) {
        rows.insert(uid + row.table + text_of(row.before) + (row.after ? text_of(*row.after) : ""));
      }
    }
    return rows;
  };
  const auto rows = [](const Copy& copy) {
    std::map<std::string, std::string> standing;
    for (const auto& [table, stories] : copy.stories) {
      for (const auto& [name, story] : stories) {
        if (story.current) standing[table + name] = text_of(*story.current);
      }
    }
    return standing;
  };
  return entries(a) == entries(b) && journal(a) == journal(b) && rows(a) == rows(b);
}

[[noreturn]] void refuse_journals(const std::filesystem::path& other,
                                  const std::filesystem::path& logbook) {
  throw DamageError(
      fmt::format("{}: its journal, or that of {}, is damaged", other.string(), logbook.string()));
}

// What was changed by damage must not come out of a merge as if it had been recorded so.
void require_seals(SQLite::Database& database, const std::filesystem::path& path) {
  const auto broken = broken_seals(database);
  if (broken.empty()) return;
  throw DamageError(
      fmt::format("{}: entry #{} does not hold what it held when it was recorded; "
                  "'roundbook check' says more",
                  path.string(), broken.front()));
}

}  // namespace

Merged merge(Logbook& logbook, const std::filesystem::path& other, measure::Instant now) {
  std::error_code none;
  if (std::filesystem::equivalent(logbook.path(), other, none)) {
    refuse(other, "that is the logbook itself");
  }
  const Logbook theirs(other, Access::kRead);
  SQLite::Database& their_file = theirs.connection().database;
  Merged merged;
  try {
    const auto wrong = integrity(their_file);
    if (!wrong.empty()) refuse(other, "the file is damaged (" + wrong.front() + ")");
    const auto gaps = schema_gaps(their_file);
    if (!gaps.empty()) refuse(other, "this is no whole logbook (" + gaps.front() + ")");
    SQLite::Database successor = fresh_schema();
    successor.exec(fmt::format("PRAGMA application_id = {}", kApplicationId));
    Takeover takeover(logbook, successor);
    const Logbook ours(logbook.path(), Access::kRead);
    SQLite::Database& our_file = ours.connection().database;
    const std::vector<TableInfo> tables = merged_tables(successor);
    const Copy a = read_copy(our_file, tables);
    const Copy b = read_copy(their_file, tables);
    if (a.site != b.site) {
      refuse(other, fmt::format("this is no copy of the same logbook, but one of {}",
                                measure::quoted(theirs.site().name)));
    }
    require_seals(our_file, logbook.path());
    require_seals(their_file, other);
    const Union whole(tables, a, b);
    write_union(whole, tables, a.site, successor);
    rebuild_rolls(successor, logbook.site().zone);
    seal_all(successor);
    const auto impossible = integrity(successor);
    if (!impossible.empty()) {
      refuse(other, "the two could not be joined (" + impossible.front() + ")");
    }
    merged.entries = static_cast<int>(whole.entries.size());
    for (const auto& [uid, entry] : b.entries) merged.from_other += a.entries.contains(uid) ? 0 : 1;
    merged.conflicts = whole.conflicts;
    merged.changed = !say_the_same(a, read_copy(successor, tables));
    if (!merged.changed) return merged;
    const std::string stem =
        logbook.path().stem().string() + "-before-merge-" + stamp(now, logbook.site().zone);
    merged.kept = keep_copy(our_file, logbook.path(), stem);
    takeover.finish();
  } catch (const SQLite::Exception& error) {
    fail(other, error);
  } catch (const std::out_of_range&) {  // what a journal speaks of is nowhere
    refuse_journals(other, logbook.path());
  } catch (const std::bad_variant_access&) {  // a number in it is none
    refuse_journals(other, logbook.path());
  }
  return merged;
}

}  // namespace book
