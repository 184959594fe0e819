#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "model/finding.h"
#include "model/history.h"
#include "model/rules.h"

// What the hens were given, and what is in it.
namespace kinds::flock {

class Study;

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

// The days over which feed is judged, and what is known of them.
struct FeedSpan {
  model::Day from, to;
  int days;
  Ration ration;
  bool reliable;  // feed was recorded often and long enough to say what the hens eat
};
FeedSpan feed_span(const model::History& history, const model::Rules& rules);

enum class Part { kFeed, kProtein, kCalcium };
std::string_view name_of(Part part);  // "protein"

// What is recorded falls short of a hen's need. Judged only where feed was recorded often and long
// enough.
struct Want {
  Part part;
  measure::Number grams, need;               // a hen a day
  std::optional<measure::Number> fed;        // feed a hen a day
  std::optional<measure::Fraction> content;  // that the ration would have to hold
};
struct Wants {
  std::vector<Want> all;
  std::set<std::string> unknown;  // feeds whose protein or calcium is not known

  std::vector<std::string> names() const;
};
Wants wants_of(const Study& study);
// `flock.feed`, `flock.protein`, `flock.calcium`.
void judge_wants(const Study& study, std::vector<model::Finding>& into);

// The larvae in the ration of the last days.
struct LarvaeShare {
  int days;
  std::optional<measure::Fraction> share{};  // of its dry matter; none: it cannot be known
  bool above = false;
  std::optional<int> feed_days{};    // the feed recorded over so many days stands beside them
  measure::Number ration{};          // else the usual ration, g a hen a day
  measure::Kilograms most_as_fed{};  // a day
};
// None where no larvae were fed.
std::optional<LarvaeShare> larvae_share(const Study& study);
// `flock.share`: larvae above their cautious share of the ration.
std::optional<model::Finding> judge_share(const Study& study);

}  // namespace kinds::flock
