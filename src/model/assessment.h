#pragma once

#include <optional>
#include <string>
#include <vector>

#include "measure/dimension.h"
#include "measure/moment.h"
#include "measure/printer.h"
#include "model/finding.h"

// What the analysis says of a batch.
namespace model {

// How far a batch is towards one goal: "3 of 15 days at 131 °F or more".
struct Progress {
  std::string goal;
  std::string says;
  std::optional<double> share;  // 0 to 1, where it is a share
  bool at_leisure = false;      // said where the batch is looked at, not after every entry
  // What is said of it after an entry that moved it: "10 of 15 days". Empty: all of it.
  std::string briefly = {};
};

// A day that is foreseen, with the interval it leans on; or what the next days bring.
struct Forecast {
  // A value on a day ahead, in the base unit; low to high should hold four of five.
  struct Step {
    measure::Day day;
    double likely{}, low{}, high{};
  };
  std::string what;  // "harvest"
  std::optional<measure::Day> earliest, likely, latest;
  std::string says;
  std::vector<Step> steps = {};
  // What comes about on that day, in a few words for the days to come: "harvest the larvae". Empty:
  // nothing that hands wait for.
  std::string line = {};
  // The name of the score by which such forecasts are judged (kinds::ForesightScore::what). Empty:
  // it is counted by a rule.
  std::string_view scored = {};
};

// A figure for the season report.
struct Measure {
  // What is known of the value is that it lies from low to high, in its base unit.
  struct Range {
    double low{}, high{};
  };
  std::string key;   // "pile.peak": stable
  std::string name;  // "hottest reading"
  Measured value;
  std::string basis;  // what it rests on, and what it leaves out; empty: all is recorded
  std::optional<Range> range = {};  // none: the value is known as well as it is printed
};
// "8.8 oz"; of a range its ends, two figures each: "2.9 to 15 oz".
std::string shown(const Measure& measure, const measure::Printer& print);

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
  std::vector<Told> findings;
  std::vector<Progress> progress;
  std::vector<Forecast> forecasts;
  std::vector<Measure> measures;
  std::string
      well;  // one clause for the list of what was found well: "hot at 148 °F, 5 of 15 days"
};

}  // namespace model
