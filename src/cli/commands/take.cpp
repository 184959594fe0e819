#include "cli/desk/carry.h"
#include "cli/shell/commands.h"

namespace cli {

Outcome run_take(Context& context, const Arguments& arguments) {
  return carry(context, arguments,
               {.command = "take", .other_end = "to", .money = "sold", .into_the_batch = false});
}

}  // namespace cli
