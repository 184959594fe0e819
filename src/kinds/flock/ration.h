#pragma once

#include <optional>
#include <set>
#include <string>

#include "model/assessment.h"
#include "model/history.h"
#include "model/rules.h"

// What the hens were given, and what is in it.
namespace kinds::flock {

struct Ration {
  measure::Kilograms fed{};     // all of it as fed, larvae too, without shell and grit
  measure::Kilograms bought{};  // of that, feed from outside
  measure::Kilograms larvae{};  // live or dried, as fed
  measure::Kilograms larvae_dry{};
  measure::Kilograms other_dry{};
  measure::Kilograms protein{}, calcium{}, larvae_protein{};
  int entries = 0;                                                    // of other feed
  std::set<std::string> no_weight, no_water, no_protein, no_calcium;  // what is not known of which
};

// Of what went in from one day to another, both counted.
Ration ration_between(const model::History& history, const model::Rules& rules, model::Day from,
                      model::Day to);

// `flock.share`: larvae above their cautious share of the ration; says how large the share is.
void judge_share(const model::History& history, const model::Rules& rules, model::Assessment& into);

// `flock.feed`, `flock.protein`, `flock.calcium`: what is recorded falls short of a hen's need.
// Judged only where feed was recorded often and long enough; gives what is short, in words, or
// nothing.
std::string judge_needs(const model::History& history, const model::Rules& rules,
                        model::Assessment& into);

}  // namespace kinds::flock
