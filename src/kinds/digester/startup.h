#pragma once

#include <optional>
#include <string>

#include "model/history.h"
#include "model/rules.h"

// How a digester comes into use: filled, one part of water to one of manure, waiting for gas that
// burns.
namespace kinds::digester {

struct Startup {
  // What went in until gas burned is the filling, also what mends its mix after it was filled: the
  // most that stood in it. A feed that is no manure is in it too, but see `other_feed`.
  measure::Litres in;
  std::optional<model::Day> filled_on;
  // Of the filling as it is in there now, less what was drawn off or ran over (as if well mixed);
  // liquid manure is in neither of the first two.
  measure::Litres manure, water, inoculum;
  measure::Litres held;                // of all of it
  bool taken_over = false;             // it burned before a filling was recorded
  bool hoofed = false;                 // manure of hoofed animals is in it: its own starter
  std::string other_feed;              // what else went in before gas burned; empty: nothing
  std::optional<model::Day> gas_on;    // the first gas seen, measured or lit
  std::optional<model::Day> burns_on;  // the first gas that burned or was used

  // Days since the filling as its temperatures count them; none of them read: plain days.
  measure::Days waited, needed;
  bool waited_is_read = false;

  bool running() const { return burns_on.has_value(); }
  // The last day whose loads belong to the filling; none: no gas burned yet, all of them do.
  std::optional<model::Day> filling_ended() const;
  // Carried in by that day: not the daily feed.
  bool is_filling(model::Day day) const;
};

Startup startup_of(const model::History& history, const model::Rules& rules);

// "empty", "filling", "starting", "running", "resting".
std::string stage_of(const model::History& history, const Startup& startup);

// Shut down for the winter and not fed since.
bool is_resting(const model::History& history);

}  // namespace kinds::digester
