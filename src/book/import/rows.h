#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "book/import/mapping.h"
#include "measure/unit.h"

namespace book {

// One batch that a target stands for: a code is used again, and a row belongs to the batch that was
// open at its moment.
struct TargetRun {
  std::int64_t batch;
  std::int64_t started;  // instant
  std::int64_t ended;    // instant; the greatest there is: open
};

// The series that a column or a probe is read into, with what the kind says of its quantity.
struct Target {
  std::string label;  // "heap-3 core", for sentences
  std::string quantity, position;
  measure::Dimension dimension;
  const measure::Unit* unit;    // of a number without one
  double least, greatest;       // base unit: beyond, a value is implausible
  double hourly_change;         // base unit; 0: any
  std::vector<TargetRun> runs;  // in the order of their starts
  bool stands_still = false;    // one number for a day is no stuck probe
};

// The readings of one row: all of one moment.
struct RowReading {
  std::uint32_t target;
  std::uint32_t run;  // of the target
  double value;       // base unit
};

// Turns the fields of rows into readings, by a mapping. Nothing of it touches the logbook.
class RowReader {
 public:
  // `columns`: where each column of the mapping stands in a row; -1: it is not there. `of_column`:
  // the target of each column of the mapping (of kReading ones), `of_probe` of each probe: indices
  // into `targets`. `now`: a moment later than that (by more than ten minutes) is refused.
  struct Plan {
    Mapping mapping;
    std::vector<int> columns;
    std::vector<int> of_column, of_probe;
    std::vector<Target> targets;
    std::size_t fields = 0;  // that a row must have; 0: any
  };
  // `resolve`: the target of a probe that the mapping does not name; it may be none.
  using Resolve = std::function<std::optional<Target>(std::string_view probe)>;
  RowReader(Plan plan, const measure::Zone& site, bool backward, measure::Instant now,
            Resolve resolve);

  // False: the row is refused, and why() says it. A row may hold no reading at all (all missing).
  bool read(std::span<const std::string_view> fields);
  const std::string& why() const { return why_; }
  std::int64_t at() const { return at_; }
  std::span<const RowReading> readings() const { return readings_; }
  const Plan& plan() const { return plan_; }

 private:
  struct Hash {
    using is_transparent = void;
    std::size_t operator()(std::string_view text) const {
      return std::hash<std::string_view>{}(text);
    }
  };
  bool refuse(std::string why);
  bool read_time(std::span<const std::string_view> fields);
  bool settle_time(std::int64_t local);
  bool add(std::string_view field, int target, const measure::Unit* unit);
  std::optional<int> target_of_probe(std::string_view name);
  const measure::Unit* unit_named(std::string_view name);

  Plan plan_;
  Resolve resolve_;
  LocalTimes local_times_;
  std::optional<std::int64_t> fixed_offset_;  // of times that say none; none: by the zone's clock
  std::int64_t latest_;
  int moment_ = -1, date_ = -1, clock_ = -1, probe_ = -1, value_ = -1, unit_ = -1;
  struct ReadingColumn {
    int column, target;
  };
  std::vector<ReadingColumn> reading_columns_;
  std::unordered_map<std::string, int, Hash, std::equal_to<>> probes_;
  std::unordered_map<std::string, const measure::Unit*, Hash, std::equal_to<>> units_;

  std::string why_;
  std::int64_t at_ = 0;
  std::optional<std::int64_t> before_;                // the instant of the row before
  std::vector<std::optional<std::int64_t>> last_of_;  // by target
  int row_target_ = -1;
  std::vector<RowReading> readings_;
};

}  // namespace book
