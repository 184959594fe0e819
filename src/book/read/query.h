#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>

#include "book/file/logbook.h"

// Inside this layer: statements over a connection.
namespace book {

struct Logbook::Connection {
  std::filesystem::path path;
  SQLite::Database database;
  std::optional<model::Site> site;
  // By the literal's address; a statement that is in use is not here.
  std::unordered_map<const char*, std::unique_ptr<SQLite::Statement>> idle;
  bool recorded = false;        // an entry was committed through it
  std::int64_t entry_rows = 0;  // rows written that say no more than that an entry was begun
};

// SQL is written in literals only; values go through the parameters of a Query.
struct Sql {
  const char* text;
  consteval Sql(const char* literal) : text(literal) {}
};

// Text of several lines, for the columns that may hold them.
struct Lines {
  std::string_view text;
};

// One run of a prepared statement. Every parameter is bound in the constructor, since SQLite keeps
// the bindings of the run before; text with a control character or broken UTF-8 is refused, since
// the journal's JSON could not hold it. Columns are read with the type they have in the schema;
// NULL is an empty optional, never a zero.
class Query {
 public:
  template <class... Args>
  Query(const Logbook& logbook, Sql sql, const Args&... args)
      : Query(logbook.connection(), sql, args...) {}

  template <class... Args>
  Query(Logbook::Connection& connection, Sql sql, const Args&... args)
      : connection_(connection), text_(sql.text) {
    prepare(sizeof...(args));
    int index = 0;
    (bind(++index, args), ...);
  }

  // For a statement of so many parameters that they are set one by one: all of them, every time.
  enum BindLater { kBindLater };
  Query(const Logbook& logbook, Sql sql, BindLater)
      : connection_(logbook.connection()), text_(sql.text) {
    prepare(std::nullopt);
  }
  void set(int index, std::int64_t value) { bind(index, value); }
  void set(int index, double value) { bind(index, value); }

  ~Query();
  Query(const Query&) = delete;
  Query& operator=(const Query&) = delete;

  bool next();  // true: on a row
  void run() {
    while (next()) {
    }
  }

  bool null(int column) const;
  std::int64_t integer(int column) const;
  double real(int column) const;
  // Text of several lines: a line break stays.
  std::string lines(int column) const;
  // Fit for a terminal: a file made elsewhere may hold what moves a cursor.
  std::string text(int column) const;
  std::optional<std::int64_t> maybe_integer(int column) const;
  std::optional<double> maybe_real(int column) const;
  measure::Instant instant(int column) const;
  measure::Day day(int column) const;

 private:
  void prepare(std::optional<std::size_t> parameters);
  void bind(int index, std::int64_t value);
  void bind(int index, int value) { bind(index, std::int64_t{value}); }
  void bind(int index, double value);
  void bind(int index, std::string_view value);
  void bind(int index, Lines value);
  void bind(int index, const std::string& value) { bind(index, std::string_view(value)); }
  void bind(int index, const char* value) { bind(index, std::string_view(value)); }
  void bind(int index, measure::Instant value) { bind(index, value.time_since_epoch().count()); }
  void bind(int index, measure::Day value) {
    bind(index, static_cast<std::int64_t>(value.time_since_epoch().count()));
  }
  template <class T>
  void bind(int index, const std::optional<T>& value) {
    if (value) {
      bind(index, *value);
    } else {
      bind_null(index);
    }
  }
  void bind_null(int index);

  Logbook::Connection& connection_;
  const char* text_;
  std::unique_ptr<SQLite::Statement> statement_;
};

// A BookError that says what SQLite's error means for this file.
[[noreturn]] void fail(const std::filesystem::path& path, const SQLite::Exception& error);

}  // namespace book
