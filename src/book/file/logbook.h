#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>

#include "model/history.h"

namespace book {

inline constexpr int kApplicationId = 0x52644273;  // "RdBs", in the file's header

enum class Access { kRead, kWrite };

struct NewSite {
  std::string name;
  std::string zone;  // IANA; must exist
  measure::UnitSystem units;
  std::optional<double> latitude;
};

// An open logbook file: the connection and the site it belongs to. All SQL of the program is
// written against it in this layer.
class Logbook {
 public:
  // Makes a new logbook, readable by its owner alone. Throws BookError where a file is there
  // already or none can be made.
  static void create(const std::filesystem::path& path, const NewSite& site, measure::Instant now);

  // Opens a logbook. An older one is brought up to this version's schema: the file itself where
  // writing is asked (after a dated copy among its backups), else a copy in memory. Throws
  // BookError where the file is missing, foreign, newer, damaged or locked, or holds triggers or
  // views that roundbook did not make.
  Logbook(const std::filesystem::path& path, Access access);
  ~Logbook();
  Logbook(Logbook&&) noexcept;
  Logbook& operator=(Logbook&&) = delete;

  const model::Site& site() const;
  const std::filesystem::path& path() const;

  // Whether something was recorded in the file since it was opened here: what fails after that must
  // not deny it.
  bool recorded() const;

  // For this layer only: the connection and its prepared statements.
  struct Connection;
  Connection& connection() const { return *connection_; }

 private:
  void look_in(Access access);
  void bring_up_to_date(Access access);

  std::unique_ptr<Connection> connection_;
};

// While it lives, all that is read comes from one state of the file, whatever others write
// meanwhile; and SQLite locks the file once instead of once a statement.
class View {
 public:
  explicit View(const Logbook& logbook);
  ~View();
  View(const View&) = delete;
  View& operator=(const View&) = delete;

 private:
  Logbook::Connection& connection_;
};

}  // namespace book
