#pragma once

#include <optional>
#include <string>

#include "kinds/kind.h"

// What a jurisdiction lets larvae be fed where they go to animals. A reminder, not legal advice.
namespace kinds::larvae {

// Kitchen waste by its nature, of a household or a restaurant ("catering waste" in EU law).
bool is_kitchen_waste(const model::Material& material);

// `larvae.banned`, or only `larvae.care`: against a feed, by the batch's setting `law` (none, us,
// eu; not told: warned of only).
std::optional<Objection> objects_to_feed(const model::Material& material, const model::Batch& batch,
                                         const model::Rules& rules);

// The caution to show where larvae are taken out of a bin that was given such feed; else empty.
std::string banned_caution(const model::History& history, const model::Rules& rules);

// `larvae.banned` where such larvae went to a flock.
void judge_banned(const model::History& history, const model::Rules& rules,
                  model::Assessment& into);

}  // namespace kinds::larvae
