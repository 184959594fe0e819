#pragma once

#include "cli/import/plan.h"

namespace cli {

// Prints what was understood of the columns, and the first rows as they would be recorded.
void show_draft(Context& context, const Desk& desk, const ImportDraft& draft,
                const std::string& file);

// Asks for what the draft still wants: the order of its dates, and the series of each column and
// probe that has none (an empty answer leaves it out). `answers`: whether there is somebody to ask;
// else the order of dates is a mistake, and what has no series is left out.
std::optional<measure::Mistake> complete_draft(Context& context, const Desk& desk, bool answers,
                                               ImportDraft& draft);

// "record it like this? [y/n]". None: nobody answered.
std::optional<bool> agreed(Context& context);

}  // namespace cli
