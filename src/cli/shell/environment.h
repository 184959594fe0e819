#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "cli/shell/command.h"
#include "measure/result.h"

// What the command line takes from the system around it.
namespace cli {

// --book, else $ROUNDBOOK_BOOK, else $XDG_DATA_HOME/roundbook/logbook.db (~/.local/share/...).
// A mistake where nothing says where that is.
measure::Result<std::filesystem::path> logbook_path(const std::optional<std::string>& option);

// The system's clock; or $ROUNDBOOK_NOW (ISO 8601 with an offset, within a century of it), for
// tests and replays.
measure::Result<measure::Instant> clock_now();

// Whether the output is a pipe that nobody reads any more.
bool reader_is_gone();

// $ROUNDBOOK_WHO (for people who share one account), else the system's name for the user.
std::string user_name();

// Whether a dated copy is made once a day: unless $ROUNDBOOK_BACKUPS is "off" (for replays, and for
// those who copy the file in another way).
bool makes_backups();

// The columns of the terminal; 80 where the output is not a terminal or says nothing.
int terminal_width();

// Whether a refusal is broken into lines for a person; else, for a script, it is one line.
bool wraps_refusals();

// Whether somebody sits there to be asked: input and errors are at a terminal.
bool can_ask();

// Whether output goes to a terminal that may be coloured (NO_COLOR and TERM=dumb say no).
bool may_color();

// The zone the system is set to; none where it cannot be told.
std::optional<std::string> system_zone();

// Whether the system's locale is of a place that measures in US units.
bool system_is_us();

}  // namespace cli
