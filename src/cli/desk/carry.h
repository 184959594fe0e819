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

// What is to be said of a load at the moment when a bed gets it.
std::vector<std::string> use_lines(const model::Movement& load,
                                   const std::optional<model::Batch>& from,
                                   const std::optional<model::Batch>& to, const Desk& desk);

// Records the movements that the words say ("40 kg coffee grounds", "6 barrow leaves, 3 barrow
// horse manure", "11 eggs", "5lb larvae to hens"; the kind's own product where `take` names none),
// unless the receiving kind objects or more would be taken than is there; --sure overrules both,
// and the answer says so.
Outcome carry(Context& context, const Arguments& arguments, const Carrying& carrying);

}  // namespace cli
