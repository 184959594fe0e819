#include "cli/desk/carry.h"
#include "cli/shell/commands.h"

namespace cli {

Outcome run_add(Context& context, const Arguments& arguments) {
  return carry(context, arguments,
               {.command = "add", .other_end = "from", .money = "paid", .into_the_batch = true});
}

}  // namespace cli
