#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "model/assessment.h"
#include "model/history.h"
#include "model/rules.h"
#include "model/stuff.h"

// What became of everything: mass, carbon, nitrogen, phosphorus and potassium, for each batch and
// for the site.
namespace season {

using model::kAllStuff;
using model::Stuff;

// in = out + kept + lost + unaccounted, exactly. Amounts in kg.
struct BalanceLine {
  Stuff stuff{};
  measure::Kilograms in, out;
  measure::Kilograms kept;         // still in the batch; nothing once it has ended
  measure::Kilograms lost;         // the loss that is expected of such a batch; never below zero
  std::string lost_as;             // "to the air as carbon dioxide, 55 % while it composts ..."
  measure::Kilograms unaccounted;  // of an ended batch: neither taken out nor expected to be lost;
                                   // below zero: more came out than can have
  std::vector<std::string> left_out;  // materials that this could not be worked out of
  // Something came in (left), and of none of it a figure is known: not nothing, but not known.
  bool in_unknown = false, out_unknown = false;
  bool impossible = false;  // more out than in, in a batch that makes none
};

struct Balance {
  std::string batch, kind;  // empty: the whole site
  bool open = false;
  std::vector<BalanceLine> lines;  // in the order of kAllStuff; of ground nutrients alone
};

// One batch, over its whole life up to the history's moment. `measures` are its kind's own: a
// digester's metered gas takes the place of the expected loss.
Balance balance_of(const model::History& history, std::string_view label,
                   const std::vector<model::Measure>& measures, const model::Rules& rules);

// The site over a span: what crossed its edge. `lost` are the losses of its batches that the same
// span's inputs make; `kept` is what stayed. Below zero: the site gave more than it was brought
// (crops take their carbon from the air, and nutrients from the soil), which is told, not a fault.
// `unbegun` are the labels of batches that lose nothing yet (Kind::loses_yet): an unlit burn.
Balance site_balance(const std::vector<model::Movement>& movements, model::Day until,
                     const model::Rules& rules, const std::set<std::string>& unbegun = {});

// Whether the expected loss of a batch has begun.
bool loses(const model::History& history, const model::Rules& rules);

// `KIND.balance` for each line that cannot be.
std::vector<model::Told> impossible_findings(const Balance& balance, measure::UnitSystem units);

}  // namespace season
