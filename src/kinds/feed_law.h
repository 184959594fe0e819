#pragma once

#include <string_view>

#include "model/history.h"
#include "model/material.h"

// What the kinds that feed animals, or are fed to them, share of the law on feed. A reminder, not
// legal advice.
namespace kinds {

// Whose rules hold, by a batch's setting. Told as none is another thing than not told: where nobody
// said, either may hold.
enum class Law { kNotTold, kNone, kUs, kEu };
Law law_of(const model::Batch& batch, std::string_view setting);

// The choices of that setting.
inline constexpr std::string_view kLawChoices = "none us eu";

// Kitchen waste by its nature, of a household or a restaurant ("catering waste" in EU law).
bool is_kitchen_waste(const model::Material& material);

}  // namespace kinds
