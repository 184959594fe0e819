#pragma once

#include <limits>
#include <string_view>

#include "measure/dimension.h"
#include "measure/printer.h"

// The rows that a kind's vocabulary is made of. Each is a constant of its kind, and a reading, a
// word or a setting is spoken of by that constant: it stands for its name.
namespace kinds {

// A number that is read. A reading below `least` or above `greatest` (base units) is implausible:
// it is refused with the likely meaning unless the person is sure.
struct Quantity {
  std::string_view name;
  std::string_view aliases;  // separated by spaces
  measure::Dimension dimension;
  double least, greatest;
  std::string_view meaning;
  measure::ShownIn shown_in = {};
  // How far it can move in an hour (base units): a larger jump is a probe or a unit slip. 0: any.
  double hourly_change = 0;
  // Whether it is an amount since the reading before: the two are not compared, and time is no more
  // than what has passed.
  bool since_before = false;
  bool counter = false;  // what a meter's counter shows: it goes up, or the meter was changed
  // Whether the readings of one day add up (eggs collected), where else the latest stands.
  bool adds_up = false;
  // Whether one number for a day is nothing odd (slurry under ground), though its pace is known.
  bool stands_still = false;
  // What one mg/m3 of it is in the base unit, for a share of a gas in air; 0: it is none.
  double milligrams_a_cubic_metre = 0;

  constexpr operator std::string_view() const { return name; }  // NOLINT: it stands for its name
};

// The quantity as one that may stand still.
constexpr Quantity standing_still(Quantity quantity) {
  quantity.stands_still = true;
  return quantity;
}

// A word that is recorded by itself: a deed ("turned"), or a judgement by hand, whose `sense` says
// of what ("moisture" for "soggy"). A deed has an empty sense.
struct Word {
  std::string_view word;
  std::string_view aliases;
  std::string_view sense;
  std::string_view meaning;

  constexpr operator std::string_view() const { return word; }  // NOLINT: it stands for its name
};

// A word that says something was seen, but not what ("stinks"): it is asked back with the words
// that it can mean (separated by spaces; the one that matters most first).
struct Vague {
  std::string_view word;
  std::string_view aliases;
  std::string_view means;
};

// From `least` to `greatest`, both included.
struct Span {
  double least = 0;
  double greatest = std::numeric_limits<double>::infinity();

  constexpr bool holds(double value) const { return value >= least && value <= greatest; }
};

// A fact told when a batch is started. Choices (separated by spaces) make it a word out of those;
// else the dimension makes it a number; kNumber with choices "text" takes any text, with "date" a
// day.
struct SettingSpec {
  std::string_view key;
  measure::Dimension dimension;
  std::string_view choices;
  std::string_view meaning;
  // What holds where it is not told; empty: nothing, or it depends.
  std::string_view otherwise = {};
  // What a number can be (base units); outside it is asked back unless the person is sure.
  Span plausible = {};
  // Whether it is true of one run alone (how many were put in, what grows), so that the next run of
  // the code does not take it over.
  bool told_anew = false;

  constexpr operator std::string_view() const { return key; }  // NOLINT: it stands for its name
};

// The setting as one that is told anew with each run.
constexpr SettingSpec told_anew(SettingSpec setting) {
  setting.told_anew = true;
  return setting;
}

}  // namespace kinds
