#include "cli/desk/left.h"

#include <fmt/format.h>

#include <algorithm>

#include "cli/desk/carry.h"
#include "cli/desk/objections.h"
#include "cli/words/carried.h"
#include "model/material_groups.h"

namespace cli {
namespace {

using measure::Dimension;
using measure::Mistake;

// What the loads come to in one dimension; none: one of them is not known in it.
std::optional<double> sum_of(const std::vector<model::Movement>& loads, Dimension dimension) {
  double sum = 0;
  for (const model::Movement& one : loads) {
    if (one.material.group == model::group::kGas) continue;  // it weighs next to nothing
    if (dimension == Dimension::kMass) {
      const auto mass = one.mass();
      if (!mass) return std::nullopt;
      sum += mass->value;
    } else {
      if (one.amount.dimension != dimension) return std::nullopt;
      sum += one.amount.si;
    }
  }
  return sum;
}

struct Sums {
  Dimension dimension;
  double in, out;
};

std::optional<Sums> sums_of(const model::Batch& batch, measure::Instant at, const Desk& desk) {
  const model::History history = desk.history(batch, at);
  if (!desk.kind(batch).roles.holds_mass || history.in.empty()) return std::nullopt;
  for (const Dimension dimension : {Dimension::kMass, Dimension::kVolume}) {
    const auto in = sum_of(history.in, dimension), out = sum_of(history.out, dimension);
    if (in && out) return Sums{dimension, *in, *out};
  }
  return std::nullopt;
}

}  // namespace

measure::Result<measure::Value> left_in(const model::Batch& batch, measure::Instant at,
                                        const Desk& desk) {
  const auto sums = sums_of(batch, at, desk);
  if (!sums) {
    return Mistake{
        batch.code,
        fmt::format("the records of {} cannot say how much is left; give an amount", batch.code)};
  }
  if (sums->in <= sums->out) {
    return Mistake{batch.code,
                   fmt::format("nothing is left in {} by its records; give an amount", batch.code)};
  }
  return measure::Value{sums->dimension, sums->in - sums->out};
}

std::optional<measure::Value> mostly_left(const model::Batch& batch, measure::Instant at,
                                          const Desk& desk) {
  // A pile gives its carbon and its water to the air: a half of it, or nearly two thirds, may be
  // gone without a record (common practice).
  constexpr double kMostly = 0.65;
  const auto sums = sums_of(batch, at, desk);
  if (!sums || sums->in - sums->out <= sums->in * kMostly) return std::nullopt;
  return measure::Value{sums->dimension, sums->in - sums->out};
}

std::optional<Mistake> move_left(book::Pen& pen, const model::Batch& from,
                                 const std::optional<model::Batch>& to, measure::Instant at,
                                 bool sure, const Desk& desk, Answer& answer) {
  const std::string product(desk.study(from, at)->product());
  const auto carried =
      read_carried("all", {.usual = product, .batch = from, .at = at, .sure = sure}, desk);
  if (!carried) return carried.mistake();
  const model::Movement load = load_of(*carried, at, from, to, desk);
  const auto remarks = objections(*carried, load, from, to, sure, desk);
  if (!remarks) return remarks.mistake();
  answer.recorded += fmt::format("{}{} {} out{} (all that is left by its records)",
                                 answer.recorded.empty() ? "" : "; ", carried->typed,
                                 carried->material.name, to ? " to " + to->code : "");
  answer.remarks.insert(answer.remarks.end(), remarks->begin(), remarks->end());
  for (auto& line : use_lines(load, from, to, desk)) answer.remarks.push_back(std::move(line));
  add_cautions({.out = &load}, from, at, desk, answer);
  if (to) add_cautions({.in = &load}, *to, at, desk, answer);
  pen.add_movement({.at = at,
                    .material = carried->material.name,
                    .from = from.id,
                    .to = to ? std::optional(to->id) : std::nullopt,
                    .amount = carried->amount,
                    .typed = carried->typed,
                    .purpose = {},
                    .paid_cents = {},
                    .sold_cents = {},
                    .sure = sure});
  return std::nullopt;
}

}  // namespace cli
