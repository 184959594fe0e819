#pragma once

#include <filesystem>
#include <iosfwd>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "book/file/logbook.h"
#include "measure/result.h"
#include "measure/unit.h"

// What a command is, and what it is given. Commands are rows of one table (command_table.cpp);
// help, completion and did-you-mean come from the rows.
namespace cli {

inline constexpr int kDone = 0;
inline constexpr int kCouldNot = 1;      // disk, database, damage
inline constexpr int kWordsWereOff = 2;  // nothing was recorded
inline constexpr int kUnshown = 3;       // done or recorded; its answer could not be shown
inline constexpr int kHandsNeeded = 10;  // today --check: something must be done now

// An exit status, or the mistake in what was typed.
using Outcome = measure::Result<int>;

struct Arguments {
  std::vector<std::string> words;                           // without the command and the options
  std::map<std::string, std::string, std::less<>> options;  // "when" -> "yesterday"
  std::map<std::string, bool, std::less<>> flags;

  std::optional<std::string> option(std::string_view name) const;
  bool flag(std::string_view name) const;
};

// The world as a command sees it. The clock, the streams and the terminal arrive here, so that
// there is nothing else to reach for.
struct Context {
  std::ostream& out;
  std::ostream& err;
  std::istream& in;
  measure::Instant clock;  // now
  std::filesystem::path book_path;
  std::string who;
  std::string line;  // the command line as typed
  int width = 80;    // columns
  bool color = false;
  bool json = false;
  std::optional<measure::UnitSystem> units;
  std::optional<std::string> as_of;
  book::Logbook* book = nullptr;  // open where the row asks for it
};

// What a command needs of the logbook.
enum class Needs { kNothing, kReading, kWriting };

struct Option {
  std::string_view name;   // "when"
  std::string_view value;  // "WHEN"; empty: a flag
  std::string_view help;
};

struct Command {
  std::string_view name;
  std::string_view summary;
  std::string_view usage;  // what follows the name: "CODE WORD..."
  std::string_view more;   // a few lines of help
  std::string_view example;
  Needs needs;
  bool judges;  // takes --as-of
  std::span<const Option> options;
  Outcome (*run)(Context&, const Arguments&);
  // Where the words decide it: what this call needs. Null: always `needs`.
  Needs (*needs_for)(const Arguments&) = nullptr;
  // Prints what more its --help says of these words; an example of its own for them, or none. Null:
  // nothing.
  std::string (*help_for)(std::ostream&, const Arguments&) = nullptr;
};

std::span<const Command> all_commands();

}  // namespace cli
