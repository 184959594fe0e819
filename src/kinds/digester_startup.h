#pragma once

#include <optional>
#include <string>

#include "model/history.h"
#include "model/rules.h"

// How a digester comes into use: filled, one part of water to one of manure, waiting for gas that
// burns.
namespace kinds::digester {

struct Startup {
  measure::Litres in;  // all that was carried in up to and on the day it was filled
  std::optional<model::Day> filled_on;
  measure::Litres manure, water,
      inoculum;                      // of the filling; liquid manure is in neither of the first two
  bool taken_over = false;           // it burned before a filling was recorded
  bool hoofed = false;               // manure of hoofed animals is in it: its own starter
  std::string other_feed;            // what else went in before gas burned; empty: nothing
  std::optional<model::Day> gas_on;  // the first gas seen, measured or lit
  std::optional<model::Day> burns_on;  // the first gas that burned or was used

  // Days since the filling as its temperatures count them; none of them read: plain days.
  measure::Days waited, needed;
  bool waited_is_read = false;

  bool running() const { return burns_on.has_value(); }
  // Carried in by that day: not the daily feed.
  bool is_filling(model::Day day) const { return filled_on && day <= *filled_on; }
};

Startup startup_of(const model::History& history, const model::Rules& rules);

// "empty", "filling", "starting", "running", "resting".
std::string stage_of(const model::History& history, const Startup& startup);

// Shut down for the winter and not fed since.
bool is_resting(const model::History& history);

}  // namespace kinds::digester
