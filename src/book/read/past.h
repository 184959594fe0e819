#pragma once

#include <optional>
#include <string>
#include <vector>

#include "book/read/read.h"

// What was recorded and what was changed since: who, when, before and after.
namespace book {

// One row that an entry changed or took away.
struct Change {
  std::string table;
  std::string batch;  // label; of a movement where it went, else whence; empty: of none
  std::string quantity, position;  // of a reading
  std::string material;            // of a movement
  bool taken_away = false;
  struct Field {
    std::string name;
    std::string before, after;  // empty: it was not there; instants as seconds, batches as labels
  };
  std::vector<Field> fields;  // of a changed row those that differ, else all
};

struct PastEntry {
  EntrySummary entry;
  std::string uid;
  std::optional<std::int64_t> undone_by;
  std::vector<std::string> photos = {};  // the names of the pictures that go with it
  std::vector<Change> changes = {};      // of an undo none: what it took back says so itself
};

// Which entries are asked for; what is not set is not asked.
struct PastAsked {
  std::optional<model::Batch> batch = {};  // those that recorded something of it
  std::optional<std::string> who = {};     // as the entries have the name
  // Those of what happened on these days, both included; what has no day of its own (a rule, a
  // place) by the day on which it was recorded.
  std::optional<measure::Day> from = {}, to = {};
};

// The latest first, `most` at the most.
std::vector<PastEntry> past(const Logbook& logbook, const PastAsked& asked, std::size_t most);

}  // namespace book
