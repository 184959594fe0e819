#pragma once

#include "model/history.h"

namespace kinds {

// A batch as it was known at the end of an earlier day: what came later is left out, and it had not
// ended; of the site's finished batches those that had ended by then stay. What is not dated
// (settings) stays.
model::History as_seen_on(const model::History& history, model::Day day);

}  // namespace kinds
