#include "book/file/logbook.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <unistd.h>

#include <array>
#include <cstring>
#include <fstream>

#include "book/file/error.h"
#include "book/file/holders.h"
#include "book/file/schema.h"
#include "book/file/takeover.h"
#include "book/keep/backup.h"
#include "book/keep/seal.h"
#include "book/read/query.h"

namespace book {
namespace {

int pragma(SQLite::Database& database, const char* text) {
  return database.execAndGet(text).getInt();
}

[[noreturn]] void refuse_damaged(const std::filesystem::path& path, std::string_view why) {
  throw DamageError(fmt::format("{}: {}", path.string(), why));
}

// Before SQLite looks at it: is there a file, does it begin as an SQLite file does, is it as long
// as its header says? (SQLite would find a short file only when it reads the missing part.)
void check_file(const std::filesystem::path& path) {
  std::error_code error;
  if (!std::filesystem::exists(path, error)) {
    refuse(path, "there is no logbook here; 'roundbook new' makes one");
  }
  if (!std::filesystem::is_regular_file(path, error)) refuse(path, "this is not a file");
  std::ifstream file(path, std::ios::binary);
  if (!file) refuse(path, "the file may not be read; check its permissions");
  std::array<char, 100> header{};
  file.read(header.data(), header.size());
  if (file.gcount() == 0)
    refuse_damaged(path, "the file is empty; 'roundbook new' makes a logbook");
  if (file.gcount() < 100 || std::memcmp(header.data(), "SQLite format 3", 16) != 0) {
    refuse_damaged(path, "this is not a roundbook logbook (it is not an SQLite file)");
  }
  const auto big_endian = [&](std::size_t at, std::size_t bytes) {
    std::uint64_t number = 0;
    for (std::size_t i = at; i < at + bytes; ++i) {
      number = number * 256 + static_cast<unsigned char>(header[i]);
    }
    return number;
  };
  const std::uint64_t page = big_endian(16, 2) == 1 ? 65536 : big_endian(16, 2);
  const std::uint64_t pages = big_endian(28, 4);
  const bool pages_are_valid = big_endian(24, 4) == big_endian(92, 4);  // SQLite file format, 1.3.7
  const auto wal = path.string() + "-wal";
  if (pages_are_valid && !std::filesystem::exists(wal) &&
      std::filesystem::file_size(path) < page * pages) {
    refuse_damaged(path, fmt::format("the file is cut short: {} bytes of {}; restore a backup",
                                     std::filesystem::file_size(path), page * pages));
  }
}

void check_identity(SQLite::Database& database, const std::filesystem::path& path) {
  const int id = pragma(database, "PRAGMA application_id");
  const int version = schema_number(database);
  if (id != kApplicationId) {
    refuse(path, fmt::format("this SQLite file belongs to another program (application id {:#x}, "
                             "roundbook's is {:#x})",
                             id, kApplicationId));
  }
  if (version < 1) {
    refuse_damaged(path, fmt::format("its schema is numbered {}, which no roundbook ever wrote: it "
                                     "is damaged; keep it as it is and restore a backup",
                                     version));
  }
  if (version > kSchema) {
    refuse(path,
           fmt::format("this logbook has schema {}, made by a newer roundbook; this one knows "
                       "schema {} and leaves the file as it is. Install the newer roundbook",
                       version, kSchema));
  }
}

// Triggers and views made by others would run with what is recorded, or stand for our tables.
void check_strangers(SQLite::Database& database, const std::filesystem::path& path) {
  const auto found = strangers(database);
  if (found.empty()) return;
  refuse_damaged(path,
                 fmt::format("the file holds a {} that roundbook did not make; it is not opened. "
                             "Restore a backup, or have it removed by someone who knows SQLite",
                             found.front()));
}

// The day of the last entry: names the copy that is made before a migration.
std::string last_day(SQLite::Database& database) {
  return database
      .execAndGet("SELECT coalesce(date(max(recorded_at), 'unixepoch'), 'empty') FROM entry")
      .getString();
}

std::string uri_of(const std::filesystem::path& path) {
  std::string uri = "file:";
  for (const char c : std::filesystem::absolute(path).string()) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                       c == '/' || c == '-' || c == '_' || c == '.';
    uri += plain ? std::string(1, c) : fmt::format("%{:02X}", static_cast<unsigned char>(c));
  }
  return uri;
}

// One thread uses SQLite here: without its locks between threads a statement runs a tenth faster.
// What SQLite was used for before keeps its locks, and works all the same.
void use_alone() {
  static const int kOnce = sqlite3_config(SQLITE_CONFIG_SINGLETHREAD);
  (void)kOnce;
}

// Reading, too, opens for writing where it may, since the last to close a WAL file tidies it away.
bool may_write(const std::filesystem::path& path) {
  return ::access(path.c_str(), W_OK) == 0 &&
         ::access(std::filesystem::absolute(path).parent_path().c_str(), W_OK) == 0;
}

bool has_log(const std::filesystem::path& path) {
  std::error_code none;
  const auto size = std::filesystem::file_size(path.string() + "-wal", none);
  return !none && size > 0;
}

// Where the file cannot change under us, which is what "immutable" tells SQLite: it then needs
// neither locks nor files beside it, and would pass over entries that are still in the log.
SQLite::Database connect_as_it_is(const std::filesystem::path& path) {
  return {uri_of(path) + (has_log(path) ? "" : "?immutable=1"),
          SQLite::OPEN_READONLY | SQLite::OPEN_URI, kWaitMilliseconds};
}

SQLite::Database connect(const std::filesystem::path& path, Access access) {
  use_alone();
  if (may_write(path)) return {path.string(), SQLite::OPEN_READWRITE, kWaitMilliseconds};
  if (access == Access::kWrite) {
    refuse(path, "the file or its folder may not be written; check their permissions");
  }
  return connect_as_it_is(path);
}

// For reading on a disk with no room for the files that SQLite keeps beside a logbook. With the
// whole file locked, the index of the log is held in memory; where no log can be made either, and
// there is none, the file is read as it is.
SQLite::Database connect_without_room(const std::filesystem::path& path) {
  if (!has_log(path)) return connect_as_it_is(path);
  SQLite::Database database(path.string(), SQLite::OPEN_READWRITE, kWaitMilliseconds);
  database.exec("PRAGMA locking_mode = EXCLUSIVE");
  database.exec("PRAGMA temp_store = MEMORY");
  sqlite3_db_config(database.getHandle(), SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, nullptr);
  return database;
}

bool has_no_room(const SQLite::Exception& error) {
  const int code = error.getErrorCode();
  return code == SQLITE_FULL || code == SQLITE_IOERR || code == SQLITE_CANTOPEN;
}

model::Site read_site(Logbook::Connection& connection) {
  Query query(connection, "SELECT name, zone, units, latitude FROM site");
  if (!query.next()) refuse_damaged(connection.path, "the logbook has no site: it is damaged");
  const auto zone = measure::Zone::named(query.text(1));
  if (!zone) {
    refuse(connection.path,
           fmt::format("this computer knows no time zone '{}'; install its zone data (tzdata)",
                       query.text(1)));
  }
  const auto units =
      query.text(2) == "us" ? measure::UnitSystem::kUs : measure::UnitSystem::kMetric;
  return {query.text(0), *zone, units, query.maybe_real(3)};
}

}  // namespace

// Says what is wrong and what to do; whether anything was recorded, the command line knows.
void fail(const std::filesystem::path& path, const SQLite::Exception& error) {
  const auto held = [&](std::string_view what) {
    const std::string holders = holders_of(path);
    return fmt::format("another program {}{}", what,
                       holders.empty() ? "" : " (it is open in " + holders + ")");
  };
  switch (error.getErrorCode()) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      refuse(path, fmt::format("{}; waited {} seconds. Try again when it is done",
                               held("is writing to the logbook"), kWaitMilliseconds / 1000));
    case SQLITE_PROTOCOL:
      refuse(path, held("began to open the logbook and does not go on") +
                       "; let it go on or end it, then try again");
    case SQLITE_FULL:
      refuse(path, "the disk is full; what was recorded before is whole. Make room and try again");
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      refuse_damaged(path,
                     fmt::format("the file is damaged ({}); keep it as it is and restore a backup",
                                 error.what()));
    case SQLITE_IOERR:
    case SQLITE_CANTOPEN:
    case SQLITE_READONLY:
      refuse(path, fmt::format("the disk refuses ({}, SQLite {}); is it full, read-only or being "
                               "taken out? If it stays so, copy the logbook to another disk",
                               error.what(), error.getExtendedErrorCode()));
    default:
      refuse(path, fmt::format("{} (SQLite {}); 'roundbook check' looks the file over",
                               error.what(), error.getExtendedErrorCode()));
  }
}

void Logbook::create(const std::filesystem::path& path, const NewSite& site, measure::Instant now) {
  if (std::filesystem::exists(path))
    refuse(path, "there is a file here already; it was left as it is");
  for (const char* beside : {"-wal", "-journal"}) {
    if (!std::filesystem::exists(path.string() + beside)) continue;
    refuse(path, fmt::format("a deleted logbook left its {} here, which SQLite would take into the "
                             "new one; move that file away first",
                             path.filename().string() + beside));
  }
  try {
    SQLite::Database database = fresh_schema();
    database.exec(fmt::format("PRAGMA application_id = {}", kApplicationId));
    SQLite::Statement insert(database,
                             "INSERT INTO site (id, uid, name, zone, units, latitude, made_at)"
                             " VALUES (1, lower(hex(randomblob(16))), ?, ?, ?, ?, ?)");
    insert.bind(1, site.name);
    insert.bind(2, site.zone);
    insert.bind(3, site.units == measure::UnitSystem::kUs ? "us" : "metric");
    if (site.latitude) {
      insert.bind(4, *site.latitude);
    } else {
      insert.bind(4);
    }
    insert.bind(5, std::int64_t{now.time_since_epoch().count()});
    insert.exec();
    insert.reset();
    save_as(database, path);
  } catch (const SQLite::Exception& exception) {
    fail(path, exception);
  }
}

Logbook::Logbook(const std::filesystem::path& path, Access access) {
  check_file(path);
  try {
    const auto open = [&](SQLite::Database database) {
      connection_.reset(new Connection{path, std::move(database), std::nullopt, {}});
      look_in(access);
    };
    try {
      open(connect(path, access));
    } catch (const SQLite::Exception& error) {
      if (access != Access::kRead || !has_no_room(error) || !may_write(path)) throw;
      open(connect_without_room(path));
    }
  } catch (const SQLite::Exception& error) {
    fail(path, error);
  }
}

void Logbook::look_in(Access access) {
  SQLite::Database& database = connection_->database;
  harden(database);
  check_identity(database, path());
  check_strangers(database, path());
  if (schema_number(database) < kSchema) {
    bring_up_to_date(access);
    check_identity(connection_->database, path());  // another program may have brought it further
  }
  if (access == Access::kRead) {
    connection_->database.exec("PRAGMA query_only = ON");
  } else {
    // A copy that was put here by hand may be without its log.
    connection_->database.execAndGet("PRAGMA journal_mode = WAL");
  }
  connection_->site = read_site(*connection_);
}

// A report changes no file: it sees an older logbook as it would be, in memory. Before the file is
// changed, a whole copy of it is made; others wait meanwhile, and then find it done.
void Logbook::bring_up_to_date(Access access) {
  SQLite::Database& database = connection_->database;
  if (access == Access::kRead) {
    SQLite::Database memory(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    copy_database(memory, database);
    harden(memory);
    database = std::move(memory);
    migrate(database);
    return;
  }
  SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
  const int version = schema_number(database);
  if (version < kSchema) {
    // A transaction that writes is not copied from: by a connection that reads.
    SQLite::Database as_it_is = connect(path(), access);
    keep_copy(as_it_is, path(),
              fmt::format("{}-schema-{}-{}", path().stem().string(), version, last_day(database)));
    migrate(database);
    seal_all(database);
  }
  transaction.commit();
}

Logbook::~Logbook() = default;
Logbook::Logbook(Logbook&&) noexcept = default;

const model::Site& Logbook::site() const {
  return *connection_->site;
}
const std::filesystem::path& Logbook::path() const {
  return connection_->path;
}
bool Logbook::recorded() const {
  return connection_->recorded;
}

View::View(const Logbook& logbook) : connection_(logbook.connection()) {
  connection_.database.exec("BEGIN");
}

View::~View() {
  connection_.database.tryExec("ROLLBACK");
}

}  // namespace book
