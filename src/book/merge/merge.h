#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "book/file/logbook.h"

namespace book {

// What both copies say differently.
struct Conflict {
  std::string
      what;  // "rule pile.hot.above", "batch drum-9"; of a reading "heap-1 temperature core"
  std::string kept, other;             // what stands and what was outdone, in words
  std::string by;                      // who wrote what stands; empty: the merge itself settled it
  std::string kind, quantity;          // of a reading whose values differ: then these are the
  double kept_value{}, other_value{};  // values, in the quantity's base unit
};

struct Merged {
  int entries = 0;     // in the merged logbook, with those that the merge itself made
  int from_other = 0;  // of the other copy, and new to the first
  std::vector<Conflict> conflicts;
  bool changed = false;        // whether the first copy is another now
  std::filesystem::path kept;  // the copy of it as it was; empty where nothing changed
};

// Brings another copy of the same logbook into this one. Entries are joined by their uid, an entry
// taken back in either copy is taken back, and of two corrections of one thing the newest stands;
// the other is in the journal before it. So the same logbook comes of it in either order, and doing
// it again changes nothing. Throws BookError where the other is not a copy of this logbook; then
// nothing was changed.
Merged merge(Logbook& logbook, const std::filesystem::path& other, measure::Instant now);

}  // namespace book
