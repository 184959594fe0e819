#pragma once

#include "model/history.h"

namespace kinds {

// A batch as it was known at the end of an earlier day: what came later is left out, and it had not
// ended. What is not dated (settings, the site's finished batches) stays.
model::History as_seen_on(const model::History& history, model::Day day);

}  // namespace kinds
