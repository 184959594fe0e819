#pragma once

#include <string_view>

#include "cli/desk/desk.h"
#include "cli/shell/command.h"

// What `add` and `take` share: an amount of a material is carried into a batch or out of it.
namespace cli {

struct Carrying {
  std::string_view command;    // "add"
  std::string_view other_end;  // the option that names the other batch: "from", "to"
  std::string_view money;      // the option that names money: "paid", "sold"
  bool into_the_batch;
};

// Records the movement that the words say ("40 kg coffee grounds", "2 bucket grounds", "11 eggs";
// the kind's own product where `take` names none), unless the receiving kind objects or more would
// be taken than is there; --sure overrules both, and the answer says so.
Outcome carry(Context& context, const Arguments& arguments, const Carrying& carrying);

}  // namespace cli
