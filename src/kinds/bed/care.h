#pragma once

#include <optional>

#include "model/finding.h"
#include "model/history.h"

// What a load may do to the crop besides feeding it.
namespace kinds::bed {

class Study;

// Roof water or a brew, for a standing crop that people eat, which may be wetted from above: nobody
// said that it is not.
bool may_meet_leaves(const model::Movement& load, const Study& bed);

// Straw, hay, horse manure or bought compost: what grew on a field may hold a herbicide that harms
// broad leaves. What a batch of the site gives is told of by that batch.
bool may_carry_herbicide(const model::Movement& load);

// The bed is to get a crop that such a herbicide harms: its finding asks for a bioassay.
bool wants_bioassay(const Study& bed);

// `bed.carryover`: a crop that such a herbicide harms stands on a load that no bioassay tried, or
// one failed.
std::optional<model::Finding> judge_carryover(const Study& bed);

// The last load of what no bed of food may get, on this ground at any time, that nobody has said
// since to be made good; null: none.
const model::Movement* poison_on(const model::History& history);
// `bed.banned`: nothing is eaten of it.
std::optional<model::Finding> judge_poison(const Study& bed);

}  // namespace kinds::bed
