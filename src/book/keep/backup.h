#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "book/file/logbook.h"

// Copies of a logbook that are whole, and one put in its place. Everything here throws BookError
// where it cannot be done; then nothing was changed.
namespace book {

// Where a logbook's backups go when nothing else is said: NAME-backups beside it.
std::filesystem::path backup_folder(const std::filesystem::path& logbook);

// "2027-05-03-071500" by the site's clock: names a copy.
std::string stamp(measure::Instant now, const measure::Zone& zone);

// Copies the logbook while it is in use. The copy is made under another name, opened and checked,
// forced to the disk, and only then given its name; a file or link that has the name is left alone.
void back_up(const Logbook& logbook, const std::filesystem::path& target);

// The dated copy of the day, made where there is none yet and something is recorded; the newest
// fourteen of these are kept. Returns its path where one was made.
std::optional<std::filesystem::path> back_up_daily(const Logbook& logbook, measure::Day day);

// Removes all but the newest `count` backups of the logbook from its folder: of the daily ones, or
// of those made by hand too. What a restore or a merge kept is never removed. How many were.
enum class Which { kDaily, kAll };
int keep_newest(const std::filesystem::path& logbook, std::size_t count, Which which);

struct Restored {
  std::filesystem::path kept;  // what was there before; empty: nothing was
  int entries;
};
// Checks `from`, keeps a copy of the logbook as it is (or, where it is damaged, the files
// themselves), and puts what `from` holds in its place.
Restored restore(const std::filesystem::path& logbook, const std::filesystem::path& from,
                 measure::Instant now);

// Why the logbook's place is no safe one: a network drive or a synced folder. None: nothing speaks
// against it.
std::optional<std::string> unsafe_place(const std::filesystem::path& logbook);

}  // namespace book
