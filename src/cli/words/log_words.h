#pragma once

#include <functional>
#include <span>
#include <string>
#include <vector>

#include "cli/desk/studied.h"
#include "kinds/kind.h"
#include "measure/amount.h"
#include "measure/result.h"

namespace cli {

struct LoggedReading {
  const kinds::Quantity* quantity;
  std::string position;
  measure::Value value;
  bool unit_was_said = true;
  bool was_guessed = false;  // what it is of was not said
};

// What stands around the words in the line that was typed, to show it as it should have been.
struct LineAround {
  std::string before = {};  // "roundbook log north"
  std::string after = {};
  // Whether words that are no readings are kept as a remark; else they are a mistake.
  bool keeps_rest = false;
};

// What the words of one `log` line mean.
struct Logged {
  std::vector<LoggedReading> readings;
  std::vector<const kinds::Word*> words;
  std::string note;
};

// How a refusal ends that a remark would have avoided.
inline constexpr std::string_view kRemarkHint = "; a remark goes in quotes or after --note";

// Gives the study of the batch as of the moment in question: asked for only where it is needed.
using LookInto = std::function<Studied()>;

// Reads the words of a `log` line for a batch of that kind:
//   148F 64.4C · 55% · name=value[unit] · core=148F · core.moisture=55% · a deed · a feel word ·
//   148 (the kind's daily reading) · 3.5ft (the one reading that it can be) ·
//   anything with a space in it: the note, unless all of it reads as an entry.
// A number and a unit that stand apart ("148 F") are taken together. A value that is implausible
// for its quantity, impossible for that batch, or doubtful beside its history as of that moment
// (where `study` gives it) is a mistake unless `sure`.
measure::Result<Logged> read_log_words(const std::vector<std::string>& words,
                                       const kinds::Kind& kind, const measure::Printer& print,
                                       bool sure, const LookInto& study = {},
                                       std::span<const measure::Container> containers = {},
                                       const LineAround& around = {});

// "core.moisture", "core", "moisture": the quantity and the position (or none) that a name means.
struct NamedQuantity {
  const kinds::Quantity* quantity;
  std::string position;
};
measure::Result<NamedQuantity> read_quantity_name(std::string_view name, const kinds::Kind& kind);

// The unit in which a bare number of that quantity is read.
const measure::Unit& bare_unit(const kinds::Quantity& quantity, const measure::Printer& print);

// "no unit given; taken as 40 ft2": of a number typed bare whose dimension has units; else
// empty.
std::string unit_remark(bool unit_was_said, measure::Value value, measure::ShownIn shown_in,
                        const measure::Printer& print);
// What was guessed of a reading, or else of its unit; empty: nothing.
std::string taken_remark(const LoggedReading& reading, const measure::Printer& print);
// Whether what was typed for a number has more than the number in it.
bool has_unit(std::string_view typed);

// What is said of a value (base units) that is further from `before` than its quantity moves in
// that time; empty where it can be.
std::string leap_remark(const kinds::Quantity& quantity, const kinds::Kind& kind, double value,
                        const model::Reading& before, measure::Instant at);

// What speaks against time (a Quantity::since_before, base units: days) that is longer than what
// has passed since the reading before, or since the batch began.
std::optional<measure::Mistake> more_than_passed(const LoggedReading& reading,
                                                 const std::optional<model::Reading>& before,
                                                 const model::Batch& batch, measure::Instant at,
                                                 const measure::Printer& print);

}  // namespace cli
