#include "book/keep/backup.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <signal.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cstring>
#include <fstream>
#include <vector>

#include "book/file/error.h"
#include "book/file/schema.h"
#include "book/file/takeover.h"
#include "book/read/query.h"

namespace book {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kDailyKept = 14;
constexpr std::string_view kUnfinished = ".part-";

bool is_there(const fs::path& path) {
  std::error_code none;
  return fs::exists(fs::symlink_status(path, none));  // a link counts, wherever it leads
}

// Whether the file can be a draft of a logbook that was cut off: nothing written yet, or a database
// of ours (SQLite file format, 1.3: the application id is at 68).
bool may_be_ours(const fs::path& path) {
  std::array<char, 72> begin{};
  std::ifstream(path, std::ios::binary).read(begin.data(), begin.size());
  const std::string_view id(begin.data() + 68, 4);
  const bool blank = std::all_of(begin.begin(), begin.end(), [](char c) { return c == '\0'; });
  return blank || id == std::string_view("\x52\x64\x42\x73");
}

// What killed backups left in the folder, of whatever name: drafts whose process is gone.
void sweep(const fs::path& folder) {
  constexpr std::string_view kJournal = "-journal";
  std::error_code error;
  for (const auto& file : fs::directory_iterator(folder, error)) {
    std::string one = file.path().filename().string();
    const bool journal = one.ends_with(kJournal);
    if (journal) one.erase(one.size() - kJournal.size());
    const std::size_t at = one.rfind(kUnfinished);
    if (!one.starts_with('.') || at == std::string::npos) continue;
    int process{};
    const char* const begin = one.data() + at + kUnfinished.size();
    const auto read = std::from_chars(begin, one.data() + one.size(), process);
    if (read.ptr != one.data() + one.size() || process <= 0) continue;
    if (!fs::is_regular_file(file.symlink_status(error))) continue;
    if (::kill(process, 0) == 0 || errno != ESRCH) continue;
    if (journal || may_be_ours(file.path())) fs::remove(file.path(), error);
  }
}

// Opens a copy by itself and looks at all of it: what it says in messages is `shown`.
int check_copy(const fs::path& path, const fs::path& shown) {
  const Logbook copy(path, Access::kRead);
  SQLite::Database& database = copy.connection().database;
  const auto wrong = integrity(database);
  if (!wrong.empty()) refuse(shown, "this copy is damaged (" + wrong.front() + ")");
  const auto gaps = schema_gaps(database);
  if (!gaps.empty()) refuse(shown, "this is no whole logbook (" + gaps.front() + ")");
  Query row(copy, "SELECT count(*) FROM entry");
  row.next();
  return static_cast<int>(row.integer(0));
}

void rename_into_place(const fs::path& from, const fs::path& to) {
  if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) return;
  // A file system that cannot promise it: look, then rename.
  if (errno == EINVAL && !is_there(to) && ::rename(from.c_str(), to.c_str()) == 0) return;
  refuse(to, fmt::format("the copy could not be given its name: {}", std::strerror(errno)));
}

// Makes `target` a whole copy of the database, or leaves nothing.
void write_copy(SQLite::Database& from, const fs::path& target) {
  std::error_code error;
  const fs::path folder = fs::absolute(target).parent_path();
  fs::create_directories(folder, error);
  if (error) refuse(folder, "the folder cannot be made: " + error.message());
  sweep(folder);
  const fs::path draft =
      folder / fmt::format(".{}{}{}", target.filename().string(), kUnfinished, ::getpid());
  make_private(draft, target);
  try {
    {
      SQLite::Database copy(draft.string(), SQLite::OPEN_READWRITE, kWaitMilliseconds);
      copy_database(copy, from);
      // One file, without a log beside it.
      SQLite::Statement(copy, "PRAGMA journal_mode = DELETE").executeStep();
    }
    check_copy(draft, target);
    force_to_disk(draft);
    rename_into_place(draft, target);
    force_to_disk(folder);
  } catch (const SQLite::Exception& exception) {
    fs::remove(draft, error);
    fs::remove(draft.string() + "-journal", error);
    fail(target, exception);
  } catch (...) {
    fs::remove(draft, error);
    throw;
  }
}

// "NAME-2027-05-03", and where backups by hand count "NAME-2027-05-03-071500" too.
bool is_dated(const fs::path& file, const std::string& stem, Which which) {
  const std::string name = file.stem().string();
  if (file.extension() != ".db" || !name.starts_with(stem + "-")) return false;
  const std::string date = name.substr(stem.size() + 1);
  const bool by_hand = which == Which::kAll && date.size() == 17 && date[10] == '-';
  return (date.size() == 10 || by_hand) && measure::parse_iso_date(date.substr(0, 10)).has_value();
}

// "NAME", "NAME-2", ... : the first that is free.
fs::path free_name(const fs::path& folder, const std::string& stem) {
  fs::path path = folder / (stem + ".db");
  for (int n = 2; is_there(path); ++n) path = folder / fmt::format("{}-{}.db", stem, n);
  return path;
}

// What lies in the logbook's place is kept as it is, with the logs beside it: a log that was left
// over would be taken into whatever comes there.
fs::path set_aside(const fs::path& logbook, const std::string& stem) {
  const fs::path folder = backup_folder(logbook);
  fs::create_directories(folder);
  const fs::path kept = free_name(folder, stem);
  bool any = false;
  for (const char* end : {"-wal", "-shm", "-journal", ""}) {
    if (!is_there(logbook.string() + end)) continue;
    fs::rename(logbook.string() + end, kept.string() + end);
    any = true;
  }
  return any ? kept : fs::path();
}

// Whether the logbook can be read whole. What is no damage (a lock, a failing disk, another
// program's file) is thrown.
bool is_whole(const fs::path& logbook) {
  if (!is_there(logbook)) return false;
  try {
    const Logbook live(logbook, Access::kRead);
    try {
      SQLite::Database& database = live.connection().database;
      return integrity(database).empty() && schema_gaps(database).empty();
    } catch (const SQLite::Exception& error) {
      fail(logbook, error);
    }
  } catch (const DamageError&) {
    return false;
  }
}

// Puts a copy where no whole logbook is: made first, so that what is there goes only when it can.
fs::path put_in_place(SQLite::Database& source, const fs::path& logbook, const std::string& stem) {
  const fs::path ready =
      fs::absolute(logbook).parent_path() / ("." + logbook.filename().string() + ".restored");
  std::error_code none;
  fs::remove(ready, none);
  write_copy(source, ready);
  const fs::path kept = set_aside(logbook, stem);
  rename_into_place(ready, logbook);
  force_to_disk(ready.parent_path());
  return kept;
}

}  // namespace

fs::path backup_folder(const fs::path& logbook) {
  return fs::absolute(logbook).parent_path() / (logbook.stem().string() + "-backups");
}

std::string stamp(measure::Instant now, const measure::Zone& zone) {
  const std::string iso = zone.iso(now);
  return fmt::format("{}-{}{}{}", iso.substr(0, 10), iso.substr(11, 2), iso.substr(14, 2),
                     iso.substr(17, 2));
}

void save_as(SQLite::Database& database, const fs::path& target) {
  if (is_there(target)) refuse(target, "there is a file here already; it was left as it is");
  write_copy(database, target);
}

fs::path keep_copy(SQLite::Database& database, const fs::path& logbook, const std::string& stem) {
  const fs::path kept = free_name(backup_folder(logbook), stem);
  write_copy(database, kept);
  return kept;
}

void back_up(const Logbook& logbook, const fs::path& target) {
  std::error_code none;
  if (fs::equivalent(logbook.path(), target, none)) {
    refuse(target, "that is the logbook itself");
  }
  if (is_there(target)) refuse(target, "there is a file here already; it was left as it is");
  write_copy(logbook.connection().database, target);
}

std::optional<fs::path> back_up_daily(const Logbook& logbook, measure::Day day) {
  const fs::path target =
      backup_folder(logbook.path()) /
      fmt::format("{}-{}.db", logbook.path().stem().string(), measure::iso_date(day));
  if (is_there(target)) return std::nullopt;
  {
    Query row(logbook, "SELECT 1 FROM entry LIMIT 1");
    if (!row.next()) return std::nullopt;
  }
  write_copy(logbook.connection().database, target);
  keep_newest(logbook.path(), kDailyKept, Which::kDaily);
  return target;
}

int keep_newest(const fs::path& logbook, std::size_t count, Which which) {
  std::error_code error;
  std::vector<fs::path> dated;
  for (const auto& file : fs::directory_iterator(backup_folder(logbook), error)) {
    if (is_dated(file.path(), logbook.stem().string(), which) &&
        fs::is_regular_file(file.symlink_status())) {
      dated.push_back(file.path());
    }
  }
  // Their names are their dates, without the ending, before which "-" would come.
  std::sort(dated.begin(), dated.end(),
            [](const fs::path& a, const fs::path& b) { return a.stem() > b.stem(); });
  int removed = 0;
  for (std::size_t i = count; i < dated.size(); ++i) {
    if (fs::remove(dated[i], error)) ++removed;
  }
  return removed;
}

Restored restore(const fs::path& logbook, const fs::path& from, measure::Instant now) {
  std::error_code none;
  if (fs::equivalent(logbook, from, none)) refuse(from, "that is the logbook itself");
  if (!is_there(from)) refuse(from, "there is no file here to put back");
  Restored restored{{}, check_copy(from, from)};
  const Logbook source(from, Access::kRead);
  const std::string stem =
      logbook.stem().string() + "-before-restore-" + stamp(now, source.site().zone);
  try {
    if (!is_whole(logbook)) {
      restored.kept = put_in_place(source.connection().database, logbook, stem);
      return restored;
    }
    Logbook live(logbook, Access::kWrite);
    Takeover takeover(live, source.connection().database);
    const Logbook before(logbook, Access::kRead);
    restored.kept = keep_copy(before.connection().database, logbook, stem);
    takeover.finish();
  } catch (const SQLite::Exception& exception) {
    fail(logbook, exception);
  }
  return restored;
}

}  // namespace book
