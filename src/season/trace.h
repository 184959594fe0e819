#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/history.h"

// Where a batch's contents came from, and where they went, through every batch between.
namespace season {

enum class Direction { kUp, kDown };

// Loads of one material between the same two ends, with what is behind (or went on from) each.
struct TraceStep {
  std::string from, to;  // labels; empty: outside, or away
  std::string from_kind, to_kind;
  std::string material;
  std::string purpose;
  std::string statement;                // its supplier's, of a treatment; empty: none
  std::vector<std::int64_t> movements;  // ids, oldest first
  model::Day first, last;
  std::optional<measure::Kilograms> carried;  // all of these loads; none: not all can be weighed
  // The part of it that reached the batch asked for, or came from it. A load holds what its batch
  // had been given by then, each in proportion to its mass; none where no mass is known, or where
  // what leaves a batch is not what went in (a bed's crop, a hen's egg).
  std::optional<measure::Kilograms> part;
  bool loop = false;             // its other batch is on the way already: not followed again
  std::vector<TraceStep> steps;  // what lies beyond
};

// Of everything at the far ends, by material: what came from outside, or went away.
struct TraceEnd {
  std::string material;
  std::string at;  // the batch it was grown or made in (a flock, a bed); empty: outside, or away
  measure::Kilograms part;
};

struct Trace {
  std::string batch;
  Direction direction{};
  std::vector<TraceStep> steps;
  std::vector<TraceEnd> ends;
};

// `movements` are all of the site up to the moment, oldest first.
Trace trace(const std::string& batch, Direction direction,
            const std::vector<model::Movement>& movements);

}  // namespace season
