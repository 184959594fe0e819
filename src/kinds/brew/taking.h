#pragma once

#include <optional>

#include "kinds/kind.h"

namespace kinds::brew {

class Study;

// What speaks against a material that goes in.
enum class BadIn {
  kForbidden,
  kRawForLeaves,
  kRaw,
  kRawAnimal,
  kFeedsGerms,
  kRancid,
  kSalty,
  kDiseased
};
// What speaks against a brew that goes to a crop.
enum class NotFit { kNoAir, kEarly, kSugarInIt, kFoul, kStillBubbling };

std::optional<Objection> objects_to(const model::Material& material, const model::Batch& batch,
                                    const model::Rules& rules);
// What speaks against pouring a brew on a bed, or giving it away, as it is now: not ready, left
// without air, or foul. It warns only. A pile or char takes any brew.
// A brew that goes to a bed, or where it was not said.
bool is_to_crops(const model::Movement& load);
std::optional<Objection> objects_to_taking(const model::Movement& load, const Study& study);

}  // namespace kinds::brew
