#pragma once

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <string>

#include "book/read/query.h"
#include "book/read/read.h"
#include "book/write/pen.h"
#include "build_history.h"
#include "temporary_folder.h"

// A logbook of a test's own, in a folder that goes with it.
struct SiteBook {
  TemporaryFolder folder;
  std::filesystem::path path = folder / "logbook.db";
  book::Logbook logbook;

  explicit SiteBook(const std::string& zone = "America/Los_Angeles")
      : logbook(made(path, zone), book::Access::kWrite) {
    // Hundreds of entries in one test: what a power cut would lose is no matter here.
    logbook.connection().database.exec("PRAGMA synchronous = OFF");
  }

  static std::filesystem::path made(const std::filesystem::path& at, const std::string& zone) {
    book::Logbook::create(at, {"Tern Hollow", zone, measure::UnitSystem::kUs, 44.56},
                          build::at(build::day("2026-01-01")));
    return at;
  }

  // Everything that `work` writes with the pen is one entry.
  template <class Work>
  void entry(const std::string& command, Work work) {
    book::Pen pen(logbook,
                  {"ada", command, command + " as typed", build::at(build::day("2026-06-01"))});
    work(pen);
    pen.commit();
  }

  std::int64_t start(const std::string& code, measure::Instant at,
                     const std::string& kind = "pile") {
    std::int64_t id{};
    entry("start", [&](book::Pen& pen) {
      id = pen.start_batch({code, kind, std::nullopt, at, {}});
    });
    return id;
  }

  model::History history(const std::string& label, measure::Instant now) const {
    return book::history(logbook, book::Materials(logbook), *book::find_batch(logbook, label), now);
  }

  // Every row of every table as text, by a connection of its own. `entry` and `journal` only grow;
  // they are left out unless asked for. A series without readings says nothing.
  std::string dump(bool whole = false) const { return dump_of(path, whole); }

  static std::string dump_of(const std::filesystem::path& at, bool whole = false) {
    SQLite::Database database(at.string(), SQLite::OPEN_READWRITE);
    SQLite::Statement tables(database,
                             "SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name");
    std::string text;
    while (tables.executeStep()) {
      const std::string table = tables.getColumn(0).getString();
      if (!whole && (table == "entry" || table == "journal" || table == "seal")) continue;
      text += "== " + table + '\n';
      const std::string which =
          table == "series" ? " WHERE id IN (SELECT series FROM reading)" : "";
      SQLite::Statement rows(database, "SELECT * FROM " + table + which + " ORDER BY 1, 2");
      while (rows.executeStep()) {
        for (int i = 0; i < rows.getColumnCount(); ++i) {
          const SQLite::Column cell = rows.getColumn(i);
          text += cell.isNull()    ? "NULL"
                  : cell.isFloat() ? fmt::format("{}", cell.getDouble())  // to the last bit
                                   : cell.getString();
          text += '|';
        }
        text += '\n';
      }
    }
    return text;
  }
};

// Where two dumps part, or nothing where they are the same: a failed check must fit on a screen.
inline std::string difference(const std::string& was, const std::string& is) {
  if (was == is) return {};
  const auto [a, b] = std::mismatch(was.begin(), was.end(), is.begin(), is.end());
  const auto line = [](const std::string& text, std::size_t at) {
    const std::size_t start = text.rfind('\n', at == 0 ? 0 : at - 1) + 1;
    return text.substr(start, text.find('\n', at) - start);
  };
  return "was " + line(was, static_cast<std::size_t>(a - was.begin())) + ", is " +
         line(is, static_cast<std::size_t>(b - is.begin()));
}
