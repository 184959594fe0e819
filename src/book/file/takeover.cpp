#include "book/file/takeover.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <unistd.h>

#include <cstring>

#include "book/file/error.h"
#include "book/file/schema.h"
#include "book/read/query.h"

namespace book {
namespace {

// A backup does not wait for locks by itself.
int step_patiently(sqlite3_backup* backup, int pages) {
  constexpr int kPauseMilliseconds = 20;
  for (int waited = 0;; waited += kPauseMilliseconds) {
    const int code = sqlite3_backup_step(backup, pages);
    const bool busy = code == SQLITE_BUSY || code == SQLITE_LOCKED;
    if (!busy || waited >= kWaitMilliseconds) return code;
    sqlite3_sleep(kPauseMilliseconds);
  }
}

}  // namespace

Takeover::Takeover(Logbook& logbook, SQLite::Database& successor)
    : logbook_(logbook),
      backup_(sqlite3_backup_init(logbook.connection().database.getHandle(), "main",
                                  successor.getHandle(), "main")) {
  SQLite::Database& database = logbook_.connection().database;
  if (backup_ == nullptr) fail(logbook.path(), SQLite::Exception(database.getHandle()));
  const int code = step_patiently(backup_, 0);  // takes the lock, copies nothing
  if (code == SQLITE_OK) return;
  sqlite3_backup_finish(backup_);
  fail(logbook.path(), SQLite::Exception(sqlite3_errstr(code), code));
}

Takeover::~Takeover() {
  if (backup_ != nullptr) sqlite3_backup_finish(backup_);
}

void Takeover::finish() {
  const int code = step_patiently(backup_, -1);
  const int closed = sqlite3_backup_finish(backup_);
  backup_ = nullptr;
  if (code != SQLITE_DONE) fail(logbook_.path(), SQLite::Exception(sqlite3_errstr(code), code));
  if (closed != SQLITE_OK) fail(logbook_.path(), SQLite::Exception(sqlite3_errstr(closed), closed));
  logbook_.connection().recorded = true;
}

void copy_database(SQLite::Database& to, SQLite::Database& from) {
  sqlite3_backup* backup = sqlite3_backup_init(to.getHandle(), "main", from.getHandle(), "main");
  if (backup == nullptr) throw SQLite::Exception(to.getHandle());
  const int code = step_patiently(backup, -1);
  sqlite3_backup_finish(backup);
  if (code != SQLITE_DONE) throw SQLite::Exception(sqlite3_errstr(code), code);
}

void make_private(const std::filesystem::path& path, const std::filesystem::path& target) {
  const int handle = ::open(path.c_str(), O_CREAT | O_EXCL | O_RDWR | O_NOFOLLOW | O_CLOEXEC, 0600);
  if (handle < 0) {
    throw BookError(
        fmt::format("{}: cannot be written: {}", target.string(), std::strerror(errno)));
  }
  ::close(handle);
}

void force_to_disk(const std::filesystem::path& path) {
  const int handle = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
  const bool done = handle >= 0 && (::fsync(handle) == 0 || errno == EINVAL);
  const int error = errno;
  if (handle >= 0) ::close(handle);
  if (!done) {
    throw BookError(fmt::format("{}: could not be forced to the disk: {}", path.string(),
                                std::strerror(error)));
  }
}

}  // namespace book
