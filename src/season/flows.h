#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/history.h"

// Sums over movements: what came in, what went out, by batch and by material.
namespace season {

// An amount of one material over a span. What was weighed or could be weighed by its bulk density
// is in `mass`; the rest stays as it was measured, and every sum says so.
struct Sum {
  measure::Kilograms mass;
  measure::Litres unweighed_volume;  // of materials whose bulk density is not known
  double count = 0;                  // things that were counted
  measure::KilowattHours energy;
  int movements = 0;
  measure::Kilograms by_density;  // of the mass, what no scale weighed
  bool estimated = false;         // some of the mass follows from a bulk density, not from a scale
  std::int64_t paid_cents = 0, sold_cents = 0;

  void add(const model::Movement& movement);
};

// Where something came from or went to, as the season report groups it.
enum class Side { kIn, kOut };

struct Flow {
  std::string batch;  // label
  std::string kind;
  Side side;
  std::string material;
  std::string other;    // the other batch; empty: outside, or away
  std::string purpose;  // of what went away
  Sum sum;
};

// One row for each batch, side, material, other end and purpose, in that order. A movement between
// two batches of the site makes a row for each of the two.
std::vector<Flow> flows(const std::vector<model::Movement>& movements);

// What crossed the site's edge, a row a material: bought or brought in, and taken away.
struct Crossing {
  Side side;
  std::string material;
  std::string group;
  Sum sum;
};
std::vector<Crossing> crossings(const std::vector<model::Movement>& movements);

}  // namespace season
