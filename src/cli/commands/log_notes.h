#pragma once

#include "cli/shell/command.h"

namespace cli {

// `log -` and `log --from FILE`: lines of CODE WORD..., as they were jotted down. "@ yesterday
// 7:15" and "@ rosa" set when and who for what follows; "#" begins a remark that nobody reads. Each
// line is an entry of its own; all are recorded, or none: then each wrong line is told with its
// number, unless --keep-good FILE takes the wrong ones.
Outcome log_notes(Context& context, const Arguments& arguments);

}  // namespace cli
