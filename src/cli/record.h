#pragma once

#include "cli/command.h"
#include "cli/desk.h"

namespace cli {

// Prints the record that the kind keeps for someone outside, as text or JSON; with --csv DIR it
// writes its tables there instead and names the files.
Outcome show_record(Context& context, const Arguments& arguments, const Desk& desk,
                    const model::History& history);

}  // namespace cli
