#pragma once

#include <string_view>
#include <vector>

#include "kinds/digester/study.h"
#include "kinds/kind.h"

// What can hurt someone at a digester: a leak, and what hands are put to.
namespace kinds::digester {

// When it was logged that gas escapes, or a remark told of the smell of it, where no mending has
// been logged since; none: it does not.
struct Leak {
  model::Instant at;
  model::Day day;
  bool remarked = false;  // a remark alone tells of it
};
std::optional<Leak> leak_of(const model::History& history);

// `digester.leak`: until the mending is logged, whatever the digester's stage.
Found judge_leak(const Study& study);

// `digester.sulfide`: the air beside it is no air to breathe.
Found judge_sulfide(const Study& study);

// Gas is in it, or may be: it was not let off since it was last filled or fed, or not lately.
bool may_hold_gas(const Study& study);

// What is done every few days is minded when it was not done for digester.caution.again; feeding
// and readings never.
std::vector<std::string_view> circumstances_of(const Handled& handled, const Study& study);

}  // namespace kinds::digester
