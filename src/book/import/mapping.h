#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "book/import/layout.h"

namespace book {

// What a column of a file is. kReading: a value for one series. kProbe names the series of the row,
// and kValue is its value.
enum class Role { kLeftOut, kMoment, kDate, kClock, kProbe, kValue, kUnit, kReading };

struct MappedColumn {
  std::string name;
  Role role = Role::kLeftOut;
  std::string target;  // of a reading: as typed, "heap-3.core"
  std::string unit;    // of a reading or a value: a symbol; empty: none was said
};

struct MappedProbe {
  std::string name;  // as the file has it
  std::string target;
  std::string unit;
};

// What the columns of a file mean. Columns go by their names, so that their order may change.
struct Mapping {
  bool json = false;
  char delimiter = ',';
  char decimal = '.';
  TimeOrder order = TimeOrder::kYearFirst;
  std::string zone = "site";  // of times that say no offset: site, utc, +02:00, or an IANA zone
  std::vector<MappedColumn> columns;
  std::vector<MappedProbe> probes;

  const MappedColumn* of(Role role) const;  // the first of that role, or null
};

// The mapping as the logbook keeps it: one line a fact ("delimiter ;", "order day-first", "column",
// role, target, unit and name separated by tabs), and read back. None: it is not one.
std::string written(const Mapping& mapping);
std::optional<Mapping> read_mapping(std::string_view text);

// What the layout alone says: where the time stands, whether there is one value a row with the name
// of its probe, or one a column. Readings and probes are still without a target.
Mapping first_guess(const Layout& layout);

// "site", "utc", "+02:00" or an IANA zone the system knows.
bool is_zone_name(const std::string& zone);

std::string_view word(TimeOrder order);  // "day-first"
std::optional<TimeOrder> find_order(std::string_view word);

}  // namespace book
