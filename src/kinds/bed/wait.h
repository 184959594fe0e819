#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/study.h"
#include "model/finding.h"
#include "model/history.h"
#include "model/rules.h"

// The days between raw manure and a harvest that people eat: 7 CFR 205.203(c)(1).
namespace kinds::bed {

class Study;

// Whether the part that is eaten touches soil. Where nobody said, it is taken to: the longer wait.
struct Contact {
  bool touches;
  bool said;
};
Contact contact_of(const model::Batch& batch);

// A crop that people do not eat waits for nothing: (c)(1)(i).
bool is_eaten(const model::Batch& batch);

// A load that a harvest waits for.
struct Wait {
  model::Day safe;  // the first day on which a harvest is allowed: "not less than" that many days
  int days;         // 120 or 90, or the site's own number
  std::string source;    // of that number
  model::Movement load;  // droppings left in place stand as a load of them
  model::ManureTrail trail;
};
// Of all that went on, in earlier batches of this bed too.
std::vector<Wait> waits_of(const model::History& history, const model::Rules& rules);
// That which a harvest at that moment waits longest for; null: no raw manure was on by then.
const Wait* longest(const std::vector<Wait>& waits, model::Instant at);
// The longest as of the history's moment.
std::optional<Wait> wait_of(const model::History& history, const model::Rules& rules);
// The same for one load; none where it holds no raw manure or nobody eats the crop.
std::optional<Wait> wait_after(const model::Movement& load, const model::Batch& bed,
                               const model::Rules& rules);

// "dairy manure → dig-1 → drum-2 → bed-3".
std::string chain_words(const model::ManureTrail& trail, const std::string& bed);

// What was harvested before its day, whoever was sure of it.
std::vector<const model::Movement*> early_among(const model::History& history,
                                                const std::vector<Wait>& waits);

// Raw manure on its ground: all of this crop's time, and of earlier ones' what was on for less than
// the wait when this one began.
std::vector<RawOnGround> raw_on(const Study& study);

// The day on which the crop would be ripe, where the records can tell.
std::optional<model::Day> ripe_on(const model::History& history);

// `bed.early`, and `bed.wait` or `bed.safe`.
void judge_wait(const Study& study, std::vector<model::Finding>& into);

}  // namespace kinds::bed
