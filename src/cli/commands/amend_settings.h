#pragma once

#include <optional>

#include "cli/desk/desk.h"
#include "cli/shell/command.h"

// What `amend` corrects of what a batch was told when it was started.
namespace cli {

// "amend heap-3 standard=none": the batch, where the first word is its code and a setting follows.
std::optional<model::Batch> batch_told_otherwise(const Arguments& arguments, const Desk& desk);

// Writes the settings over those told before; they hold from the batch's start on.
Outcome amend_settings(Context& context, const Arguments& arguments, const model::Batch& batch,
                       const Desk& desk);

}  // namespace cli
