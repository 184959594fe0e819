#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "model/history.h"

// What an inspector asks of a batch beside its history: each thing with who recorded it.
namespace model {

struct RecordedReading {
  std::string quantity, position;
  Instant at;
  double value{};     // base unit
  std::string mark;   // why it is not judged: "jump"; empty: it is
  bool sure = false;  // recorded against an objection
  std::string who;
};

// A deed, a judgement by hand (with its sense) or a note.
struct RecordedWord {
  Instant at;
  std::string sense, text;
  bool note = false;
  std::string who;
};

// One comparison of a measuring tool with something known.
struct ToolCheck {
  std::string name;
  Day day;
  std::string against;
  std::string who;
};

struct Recorded {
  std::vector<RecordedReading> readings;        // oldest first
  std::vector<RecordedWord> words;              // oldest first
  std::map<std::int64_t, std::string> carried;  // who recorded a movement, by its id
};

// A change to what was recorded, or that it was taken back.
struct RecordedChange {
  Instant at;
  std::string who;
  std::string what;  // in words, what it was and what it became
  std::string line;  // as typed
};

}  // namespace model
