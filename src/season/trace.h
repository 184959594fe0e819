#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "model/history.h"

// Where a batch's contents came from, and where they went, through every batch between.
namespace season {

enum class Direction { kUp, kDown };

// Loads of one material between the same two ends.
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
};

// A batch on the way, once, with what went into it (up) or out of it (down) of the stuff.
struct TraceBatch {
  std::string label, kind;
  bool same_ground = false;  // an earlier or a later crop of the ground that was asked for
  std::optional<measure::Kilograms> part;  // of the batch asked for, so much came through this one
  std::vector<TraceStep> steps;            // the largest part first, what is not known last
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
  // The one that was asked for first, earlier (later) crops of the same ground next, then the
  // others, the largest part first.
  std::vector<TraceBatch> batches;
  std::vector<TraceEnd> ends;  // the largest first
};

// The labels of one bed's batches, from its first crop to its last.
using Ground = std::vector<std::string>;

// `movements` are all of the site up to the moment, oldest first. Every load is looked at once:
// loads are a graph in time without circles, whatever goes round on the site. What comes back to
// the batch that was asked for ends there.
Trace trace(const std::string& batch, Direction direction,
            const std::vector<model::Movement>& movements, const std::vector<Ground>& grounds = {});

}  // namespace season
