#pragma once

#include <optional>
#include <string>
#include <vector>

#include "measure/dimension.h"
#include "measure/moment.h"
#include "measure/printer.h"

// What the analysis says of a batch.
namespace model {

enum class Urgency {
  kNow,    // harm if it waits
  kToday,  // wants hands today
  kSoon,   // at its due day
  kReady,  // something to gain
};

std::string_view word(Urgency urgency);  // "now", "today", "soon", "ready"

// A number with the name of what it measures.
struct Measured {
  std::string quantity;
  measure::Value value;
  std::string label;  // the unit of a kNumber: "mg/larva/d"
  measure::ShownIn shown_in = {};
  // How it is shown, where words say it better than the number: "not yet". Empty: the number.
  std::string words{};
};

// As it is shown: in its own words, in the system's units, or with its own label.
std::string shown(const Measured& measured, const measure::Printer& print);
// The unit of its value: its own label, else the dimension's base unit.
std::string unit_of(const Measured& measured);

struct Finding {
  std::string batch;  // label
  std::string kind;
  std::string rule;  // "pile.hot"
  Urgency urgency{};
  std::string says;  // what is the case, with its number and its limit
  std::string why;   // the reason, where it is not the number itself
  // What the daily list says in place of a long reason; empty: the reason itself.
  std::string why_briefly{};
  std::string action;   // what to do
  std::string caution;  // the usual caution, where the work can hurt someone
  std::optional<measure::Day> due;
  std::optional<Measured> value, limit;
  std::string threshold;  // the key of the rule's number: "pile.hot.above"
  std::string source;     // of that number
};

// How far a batch is towards one goal: "3 of 15 days at 131 °F or more".
struct Progress {
  std::string goal;
  std::string says;
  std::optional<double> share;  // 0 to 1, where it is a share
  bool at_leisure = false;      // said where the batch is looked at, not after every entry
};

// A day that is foreseen, with the interval it leans on.
struct Forecast {
  std::string what;  // "harvest"
  std::optional<measure::Day> earliest, likely, latest;
  std::string says;
};

// A figure for the season report.
struct Measure {
  std::string key;   // "pile.peak": stable
  std::string name;  // "hottest reading"
  Measured value;
  std::string basis;  // what it rests on, and what it leaves out; empty: all is recorded
};

// The value of the measure of that key, in its base unit.
std::optional<double> value_of(const std::vector<Measure>& measures, std::string_view key);

// A record that someone outside asks for: text that stands by itself, with its tables.
struct Record {
  struct Fact {
    std::string name, value;
  };
  struct Table {
    std::string name;   // "temperatures": a file's name
    std::string title;  // as printed above it
    std::vector<std::string> header;
    std::vector<std::vector<std::string>> rows;
  };
  // A bar a row, 0 to 1, with what it says.
  struct Bar {
    std::string label;
    double share;
    std::string says;
  };
  struct Picture {
    std::string title;
    std::vector<Bar> bars;
  };
  std::string title;
  std::vector<std::string> outcome;  // a line each, most important first
  std::vector<Fact> facts;
  std::vector<Table> tables;
  std::vector<Picture> pictures = {};
};

struct Assessment {
  std::string stage;  // "hot", "curing": one or two words
  std::vector<Finding> findings;
  std::vector<Progress> progress;
  std::vector<Forecast> forecasts;
  std::vector<Measure> measures;
  std::string
      well;  // one clause for the list of what was found well: "hot at 148 °F, 5 of 15 days"
};

}  // namespace model
